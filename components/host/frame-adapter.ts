import { hostOn, type HostOffer, type HostSession } from './host.js';
import { panelOn, type PanelOptions, type PanelSession } from './panel.js';
import type { BridgeError } from './protocol.js';
import { own } from './read.js';

/**
 * How a page and a panel in its frame come together: the page says `call` once the frame has loaded; the panel says `knock` when it
 * begins and whenever it is called, and brings one end of a new channel; the page says `join` when it has taken that end. All else is said
 * over the channel. The latest knock counts, on both sides. It bears a mark of the document that knocks (`by`), which none but itself and
 * its host knows.
 *
 * What somebody else could try:
 *
 * - To be the host. The panel hands its end of the channel to origins that it names and to no other, and hears none but the page about it.
 * - To be the panel: frames beside it, frames in it, windows that opened the page. A knock counts from the very window of the frame, and
 *   from the origin that the page has named.
 * - To come into the frame between knock and answer. No port is ever sent into a frame: the one end stays in the document that knocked,
 *   and ends with it. `call` and `join` carry nothing.
 * - To come into the frame later. Where it has another origin than the one named, it gets nothing, as above.
 *
 * A frame that is sandboxed without `allow-same-origin` has no origin that could be named: its messages come from "null", as those of every
 * such document do, and words to it can be addressed to `*` alone. So the page has to ask for it (`origin: 'null'` and the attribute
 * `sandbox`), and then the first document that knocks is the only one: whatever the frame shows later has no mark that the page knows,
 * ends the connection and gets none. What is left is who may fill the frame before that: its `src`, what that redirects to, and a page that
 * shows the editor in a frame of its own, which the editor has to forbid (`frame-ancestors`).
 */
type Word = 'call' | 'knock' | 'join';

const greeting = (tonewell: Word, more = {}): object => ({ tonewell, ...more });
const wordOf = (data: unknown): unknown => own(data, 'tonewell');

/** @throws {TypeError} for what is no single origin, as `*`, `null` or an address with a path */
function expectOrigin(origin: string): string {
  if (!URL.canParse(origin) || new URL(origin).origin !== origin)
    throw new TypeError(
      `origin: expected one like "https://example.com", or "null" of a sandboxed frame, got ${origin}`,
    );
  return origin;
}

/** What engines call the origin of a document that has none. */
const OPAQUE = 'null';

/** Whether whatever the frame loads is without an origin, and may run. */
const isWalledOff = ({ sandbox }: HTMLIFrameElement): boolean =>
  sandbox?.contains('allow-scripts') && !sandbox.contains('allow-same-origin');

/** A host's offer to a panel in a frame. */
export interface FrameOffer extends HostOffer {
  /**
   * The panel's origin, as `https://kit.example`; or `'null'` where the frame has the attribute `sandbox` with `allow-scripts` and without
   * `allow-same-origin`. Of such a frame the first document that looks for a host is joined, and no later one: join it anew once you have
   * loaded it again.
   */
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
 * Offers a picture to the panel in a frame, now and whenever the panel is loaded again (but see {@link FrameOffer.origin}).
 * @throws {TypeError} where `offer.origin` is not one origin, or `'null'` of a frame that is not walled off
 */
export function joinFrame(frame: HTMLIFrameElement, offer: FrameOffer): FrameHost {
  const opaque = offer.origin === OPAQUE && isWalledOff(frame);
  const origin = opaque ? OPAQUE : expectOrigin(offer.origin);
  const to = opaque ? '*' : origin;
  let session: HostSession | undefined;
  let first: unknown;

  const onMessage = ({ source, origin: from, data, ports }: MessageEvent): void => {
    const by = own(data, 'by');
    // A frame that was taken out has no window, and neither has a message whose sender is gone.
    if (!source || source !== frame.contentWindow || from !== origin) return;
    if (wordOf(data) !== 'knock' || ports.length !== 1 || typeof by !== 'string') return;
    if (opaque && by !== (first ??= by)) return session?.close();
    session?.close();
    const mine = (session = hostOn(ports[0], offer));
    mine.ready.then((panel) => offer.joined?.(mine, panel)).catch(() => undefined);
    void mine.closed.then((why) => {
      if (session !== mine) return;
      session = undefined;
      offer.left?.(why);
    });
    (source as Window).postMessage(greeting('join'), to);
  };
  const call = (): void => {
    // The empty page that a frame begins with has the origin of the page about it.
    if (!session && frame.contentDocument?.URL !== 'about:blank')
      frame.contentWindow?.postMessage(greeting('call'), to);
  };

  const close = listening(onMessage, () => session?.close(), call, frame);
  call();
  return {
    get session() {
      return session;
    },
    changed: () => session?.changed(),
    close,
  };
}

/** Listens to messages, and to page and frame as they come and go, until what it gives back is called, which counts as going. */
function listening(
  heard: (event: MessageEvent) => void,
  gone: () => void,
  come = (): void => undefined,
  frame?: HTMLIFrameElement,
): () => void {
  const ended = new AbortController();
  const { signal } = ended;
  globalThis.addEventListener('message', heard, { signal });
  globalThis.addEventListener('pagehide', gone, { signal });
  globalThis.addEventListener('pageshow', come, { signal });
  frame?.addEventListener('load', come, { signal });
  return () => {
    ended.abort();
    gone();
  };
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
  /** Knocks again, as after a connection was lost; one that is not is replaced. */
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
  const alone = page === globalThis.window;
  const by = crypto.getRandomValues(new Uint32Array(4)).join();
  /** This side's ends of the channels that were brought, the latest of each origin. */
  const brought = new Map<string, MessagePort>();
  let session: PanelSession | undefined;

  const knockAt = (origin: string): void => {
    const { port1, port2 } = new MessageChannel();
    brought.set(origin, port1);
    page.postMessage(greeting('knock', { by }), origin, [port2]);
  };
  /** To whichever of the origins the page has: where the engine tells it, to that one alone. */
  const knock = (): void => {
    const about = originAbout();
    if (!alone) origins.filter((origin) => !about || about === origin).forEach(knockAt);
  };
  const onMessage = ({ source, origin, data }: MessageEvent): void => {
    const word = wordOf(data);
    if (alone || source !== page || (word !== 'call' && word !== 'join')) return;
    if (!origins.includes(origin)) return wanted.stranger?.(origin);
    if (word === 'call') return knockAt(origin);
    const port = brought.get(origin);
    if (!port) return;
    brought.delete(origin);
    session?.close();
    wanted.joined((session = panelOn(port, wanted)));
  };

  const close = listening(onMessage, () => session?.close());
  knock();
  return { knock, close };
}

/** The origin of the page about this one, where it can be known. */
function originAbout(): string | undefined {
  const { location, document } = globalThis;
  const { referrer } = document;
  return location.ancestorOrigins?.[0] ?? (referrer ? new URL(referrer).origin : undefined);
}
