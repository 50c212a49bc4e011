import {
  BridgeError,
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
  readLayers,
  readNothing,
  readPicture,
  readReadings,
  readSwatches,
  type Reader,
} from './read.js';
import { told, Wire, type CallOptions } from './wire.js';

/** What a panel tells of itself, and what it hears. */
export interface PanelOptions {
  /** The panel's name, for people. */
  name: string;
  /** What the panel takes at once; `LIMITS` where nothing is said. */
  limits?: Partial<Limits>;
  /** Hears that picture or selection of the host are no longer what was given. */
  changed?(): void;
}

/**
 * The kit's side of a connection. Every call ends: with a value or by rejecting with a `BridgeError` (see there for its names).
 */
export interface PanelSession {
  /** The host and what it takes, once it has greeted. */
  readonly ready: Promise<Peer>;
  /** Why the connection ended; does not reject. */
  readonly closed: Promise<BridgeError>;
  /** Asks for the host's picture or for the selection of it. */
  picture(asked: PictureAsked, options?: CallOptions): Promise<OfferedPicture>;
  /** Lays layers on the host's picture, lowest first, as one step of its undo. The bytes of PNG files are handed over. */
  layers(layers: Layer[], options?: CallOptions): Promise<void>;
  /** Tells what was read of spots. */
  readings(readings: SpotReading[], options?: CallOptions): Promise<void>;
  /** Hands over the board's colours. */
  swatches(swatches: Swatches, options?: CallOptions): Promise<void>;
  /** Tells how far the panel is. */
  progress(progress: PanelProgress): void;
  /** Ends the connection. */
  close(): void;
}

/** Speaks to a host over a port, which is the session's own from now on. */
export function panelOn(port: MessagePort, options: PanelOptions): PanelSession {
  const { name, limits } = options;
  const wire = new Wire(
    port,
    { side: 'panel', name, limits },
    { told: { changed: told(readNothing, () => options.changed?.()) } },
  );
  /** Hands something over, looked at by the host's limits first. */
  const give = <T>(what: Taking, value: T, read: Reader<T>, call?: CallOptions): Promise<void> =>
    wire.call(
      what,
      (host) => {
        if (!host.takes.includes(what))
          throw new BridgeError('NotOffered', `${host.name} takes no ${what}.`);
        const sent = read(value, what, host.limits);
        return { value: sent, transfer: buffersIn(sent) };
      },
      readNothing,
      call,
    );
  return {
    ready: wire.ready,
    closed: wire.closed,
    picture: (asked, call) =>
      wire.call('picture', () => ({ value: asked, transfer: [] }), readPicture, call),
    layers: (layers, call) => give('layers', layers, readLayers, call),
    readings: (readings, call) => give('readings', readings, readReadings, call),
    swatches: (swatches, call) => give('swatches', swatches, readSwatches, call),
    progress: (progress: PanelProgress) => wire.tell('progress', progress),
    close: () => wire.close(),
  };
}

/** The files of layers. */
function buffersIn(sent: unknown): ArrayBuffer[] {
  if (!Array.isArray(sent)) return [];
  return (sent as Partial<Layer>[]).flatMap(({ data }) =>
    data instanceof ArrayBuffer ? data : [],
  );
}
