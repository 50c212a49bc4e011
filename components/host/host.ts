import {
  BridgeError,
  TAKINGS,
  type Layer,
  type Limits,
  type OfferedPicture,
  type PanelProgress,
  type Peer,
  type PictureAsked,
  type SpotReading,
  type Swatches,
  type Taking,
} from './protocol.js';
import {
  readAsked,
  readLayers,
  readPicture,
  readProgress,
  readReadings,
  readSwatches,
  type Reader,
} from './read.js';
import { asked, told, Wire, type Asked, type Load } from './wire.js';

/** What an answer is told beside what was asked: the panel's limits, and a signal that fires when the answer is no longer wanted. */
export interface Asking {
  panel: Peer;
  signal: AbortSignal;
}

/** What a host offers. Whatever it leaves out is refused with `NotOffered`, and the panel does not show it. */
export interface HostOffer {
  /** The host's name, for people. */
  name: string;
  /** What the host takes at once; `LIMITS` where nothing is said. */
  limits?: Partial<Limits>;
  /** Gives the picture, or the selection of it. Throw `BridgeError('NoPicture', …)` where there is none. */
  picture(asked: PictureAsked & Asking): OfferedPicture | Promise<OfferedPicture>;
  /** Takes layers into the host's picture, lowest first. One call is one step of undo. */
  layers?(layers: Layer[], asking: Asking): void | Promise<void>;
  /** Takes what was read of spots. */
  readings?(readings: SpotReading[], asking: Asking): void | Promise<void>;
  /** Takes the colours of the board, in place of those it had before. */
  swatches?(swatches: Swatches, asking: Asking): void | Promise<void>;
  /** Hears how far the panel is. */
  progress?(progress: PanelProgress): void;
}

/** The host's side of a connection. */
export interface HostSession {
  /** The panel, once it has greeted; rejects with a `BridgeError` when it does not, or speaks no version that is known here. */
  readonly ready: Promise<Peer>;
  /** Why the connection ended; does not reject. */
  readonly closed: Promise<BridgeError>;
  /** Tells the panel that picture or selection are no longer what it was given. */
  changed(): void;
  /** Ends the connection. */
  close(): void;
}

/** Serves a panel over a port, which is the session's own from now on. */
export function hostOn(port: MessagePort, offer: HostOffer): HostSession {
  const takes = TAKINGS.filter((what) => offer[what]);
  const asking = async (signal: AbortSignal): Promise<Asking> => ({
    panel: await wire.ready,
    signal,
  });
  const taking = <T>(what: Taking, read: Reader<T>): Asked =>
    asked(read, async (value, signal) => {
      const take = offer[what] as ((value: T, asking: Asking) => unknown) | undefined;
      if (!take) throw new BridgeError('NotOffered', `${offer.name} takes no ${what}.`);
      await take.call(offer, value, await asking(signal));
    });
  const wire: Wire = new Wire(
    port,
    { side: 'host', name: offer.name, limits: offer.limits, takes },
    {
      asked: {
        picture: asked(readAsked, async (wanted, signal) => {
          const picture = await offer.picture({ ...wanted, ...(await asking(signal)) });
          return handedOver(picture, await wire.ready);
        }),
        layers: taking('layers', readLayers),
        readings: taking('readings', readReadings),
        swatches: taking('swatches', readSwatches),
      },
      told: { progress: told(readProgress, (progress) => offer.progress?.(progress)) },
    },
  );
  return {
    ready: wire.ready,
    closed: wire.closed,
    changed: () => wire.tell('changed'),
    close: () => wire.close(),
  };
}

/** A picture as it is sent: looked at by the panel's limits, its pixels handed over. */
function handedOver(picture: OfferedPicture, { limits }: Peer): Load {
  const value = readPicture(picture, 'picture', limits);
  const { image } = value;
  if (image instanceof Blob) return { value, transfer: [] };
  return { value, transfer: ['data' in image ? image.data : image] };
}
