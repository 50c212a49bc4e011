import { hostOn, type HostOffer, type HostSession } from './host.js';
import { panelOn, type PanelOptions, type PanelSession } from './panel.js';
import type { BridgeError } from './protocol.js';
import { own } from './read.js';

/**
 * How a page and a panel in its frame come together: the page says `call` once the frame has loaded, the panel says `knock` when it
 * begins and whenever it is called, and the page answers with `join`, which hands over one end of a new channel. A knock carries a
 * mark of the connection that is wanted (`as`), so that two knocks for one connection get one port. Each of these words goes to one origin
 * that was named, and counts only from one that was named. All else is said over the port.
 */
const MARK = 'tonewell';
type Word = 'call' | 'knock' | 'join';

function say(
  to: Window,
  word: Word,
  origin: string,
  more = {},
  transfer: Transferable[] = [],
): void {
  to.postMessage({ [MARK]: word, ...more }, origin, transfer);
}

/** @throws {TypeError} for what is no single origin, as `*`, `null` or an address with a path */
function expectOrigin(origin: unknown): string {
  let whole: URL | undefined;
  try {
    whole = new URL(origin as string);
  } catch {
    // told below
  }
  if (typeof origin !== 'string' || whole?.origin !== origin || origin === 'null')
    throw new TypeError(`origin: expected one origin like "https://example.com", got ${origin}`);
  return origin;
}

/** A host's offer to a panel in a frame. */
export interface FrameOffer extends HostOffer {
  /** The panel's origin, as `https://kit.example`. */
  origin: string;
  /** Hears of each connection with the panel; a panel that was loaded again gets a new one. */
  joined?(session: HostSession, panel: { name: string }): void;
  /** Hears that a connection has ended, or could not be made; the panel may knock again. */
  left?(why: BridgeError): void;
}

/** The host's hold on a panel in a frame. */
export interface FrameHost {
  /** The connection, while there is one. */
  readonly session: HostSession | undefined;
  /** Tells the panel that picture or selection are no longer what it was given. */
  changed(): void;
  /** Ends the connection and lets no other one be made. */
  close(): void;
}

/**
 * Offers a picture to the panel in a frame, now and whenever the panel is loaded again.
 * @throws {TypeError} where `offer.origin` is not one origin
 */
export function joinFrame(frame: HTMLIFrameElement, offer: FrameOffer): FrameHost {
  const origin = expectOrigin(offer.origin);
  let session: HostSession | undefined;
  let joinedAs: unknown;

  const onMessage = ({ source, origin: from, data }: MessageEvent): void => {
    if (source !== frame.contentWindow || from !== origin || own(data, MARK) !== 'knock') return;
    const as = own(data, 'as');
    if (session && as === joinedAs) return;
    joinedAs = as;
    const { port1, port2 } = new MessageChannel();
    session?.close();
    const mine = (session = hostOn(port1, offer));
    mine.ready.then((panel) => offer.joined?.(mine, panel)).catch(() => undefined);
    void mine.closed.then((why) => {
      if (session !== mine) return;
      session = undefined;
      offer.left?.(why);
    });
    say(source as Window, 'join', origin, {}, [port2]);
  };
  const call = (): void => {
    if (!session && frame.contentWindow && !isBlank(frame))
      say(frame.contentWindow, 'call', origin);
  };
  const onHide = (): void => session?.close();

  globalThis.addEventListener('message', onMessage);
  globalThis.addEventListener('pagehide', onHide);
  globalThis.addEventListener('pageshow', call);
  frame.addEventListener('load', call);
  call();
  return {
    get session() {
      return session;
    },
    changed: () => session?.changed(),
    close() {
      globalThis.removeEventListener('message', onMessage);
      globalThis.removeEventListener('pagehide', onHide);
      globalThis.removeEventListener('pageshow', call);
      frame.removeEventListener('load', call);
      session?.close();
    },
  };
}

/** Whether the frame still shows the empty page that it begins with, which has the origin of the page about it. */
function isBlank({ contentDocument }: HTMLIFrameElement): boolean {
  return contentDocument?.URL === 'about:blank';
}

/** What a panel in a frame looks for. */
export interface HostWanted extends PanelOptions {
  /** The origins of pages that may be its host; each one named, no `*`. */
  origins: readonly string[];
  /** Hears of each connection. */
  joined(session: PanelSession): void;
  /** Hears that a page calls which is not named. */
  stranger?(origin: string): void;
}

/** The panel's watch for a host. */
export interface HostWatch {
  /** Knocks again, as after a connection was lost. */
  knock(): void;
  /** Ends the connection and looks for no other one. */
  close(): void;
}

/**
 * Waits, in a frame, for the page about it to be a host.
 * @throws {TypeError} where `wanted.origins` names none, or something that is not one origin
 */
export function awaitHost(wanted: HostWanted): HostWatch {
  const origins = wanted.origins.map(expectOrigin);
  if (origins.length === 0) throw new TypeError('origins: expected at least one origin');
  const page = globalThis.parent as Window;
  let session: PanelSession | undefined;
  let as = freshMark();

  /** To whichever of the origins the page has: where the engine tells it, to that one alone. */
  const knock = (): void => {
    if (page === globalThis.window) return;
    const about = originAbout();
    for (const origin of origins)
      if (!about || about === origin) say(page, 'knock', origin, { as });
  };
  const onMessage = ({ source, origin, data, ports }: MessageEvent): void => {
    const word = own(data, MARK);
    if (source !== page || source === globalThis.window || (word !== 'call' && word !== 'join'))
      return;
    if (!origins.includes(origin)) return wanted.stranger?.(origin);
    if (word === 'call') return say(page, 'knock', origin, { as });
    if (ports.length !== 1) return;
    session?.close();
    const mine = (session = panelOn(ports[0], wanted));
    void mine.closed.then(() => {
      if (session === mine) as = freshMark();
    });
    wanted.joined(mine);
  };
  const onHide = (): void => session?.close();

  globalThis.addEventListener('message', onMessage);
  globalThis.addEventListener('pagehide', onHide);
  knock();
  return {
    knock,
    close() {
      globalThis.removeEventListener('message', onMessage);
      globalThis.removeEventListener('pagehide', onHide);
      session?.close();
    },
  };
}

/** The origin of the page about this one, where it can be known. */
function originAbout(): string | undefined {
  const [nearest] = globalThis.location.ancestorOrigins ?? [];
  if (nearest) return nearest;
  const { referrer } = globalThis.document;
  return referrer ? new URL(referrer).origin : undefined;
}

/** A mark that no other connection of these windows has; it is no secret. */
const freshMark = (): string => Math.random().toString(36).slice(2);
