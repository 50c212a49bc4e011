import { BridgeError, LIMITS, VERSIONS, type Limits, type Peer, type Taking } from './protocol.js';
import { own, readError, readHello, readId, readNothing, type Hello, type Reader } from './read.js';

/** How long a request may take when nothing else is said, and how long a greeting, in milliseconds. */
const CALL_MS = 60_000;
const HELLO_MS = 10_000;
/** How often a side looks whether it has heard anything; a look later than twice that means that the page itself slept. */
const LOOK_MS = 5_000;
/** Looks in a row without a sign of the other side that count as its loss. */
const SILENT_LOOKS = 5;
/** Requests of the other side that are worked on at once. */
const MOST_ANSWERING = 16;

/** How a request is made. */
export interface CallOptions {
  signal?: AbortSignal;
  /** Milliseconds until it is given up with `TimeoutError`; 60 000 when missing. */
  timeout?: number;
}

/** What is sent with a request or its answer, and which parts of it are handed over. */
export interface Load {
  value: unknown;
  transfer: Transferable[];
}

/** What is done with one kind of request: it is read, then acted on. What the act gives back is the answer. */
export interface Asked {
  read: Reader<unknown>;
  act(value: unknown, signal: AbortSignal): Promise<Load | void>;
}

/** What is done with one kind of message that is not answered. */
export interface Told {
  read: Reader<unknown>;
  act(value: unknown): void;
}

/** A request's reader with an act on what it gives. */
export const asked = <T>(
  read: Reader<T>,
  does: (value: T, signal: AbortSignal) => Promise<Load | void>,
): Asked => ({ read, act: does as Asked['act'] });

/** The same for a message that is not answered. */
export const told = <T>(read: Reader<T>, does: (value: T) => void): Told => ({
  read,
  act: does as Told['act'],
});

/** Both sides' messages by their kinds. */
export interface Acts {
  asked?: Readonly<Record<string, Asked>>;
  told: Readonly<Record<string, Told>>;
}

/** What a side tells of itself. */
export interface Self {
  side: Hello['side'];
  name: string;
  limits?: Partial<Limits>;
  takes?: readonly Taking[];
}

/** A request that waits for its answer. */
interface Call {
  answered(value: unknown): void;
  failed(error: unknown): void;
}

/**
 * One side of a connection: greets, matches answers to requests, and ends every request with a value, an error, an abort or a
 * timeout. The port is its own from now on.
 */
export class Wire {
  /** Settles once both sides have greeted each other; rejects when that fails. */
  readonly ready: Promise<Peer>;
  /** Why the connection ended; it does not reject. */
  readonly closed: Promise<BridgeError>;

  readonly #port: MessagePort;
  readonly #self: Hello;
  readonly #asked: Acts['asked'];
  readonly #tellings: Acts['told'];
  readonly #calls = new Map<number, Call>();
  readonly #answering = new Map<number, AbortController>();
  readonly #ears = new AbortController();
  readonly #heart: ReturnType<typeof setInterval>;
  readonly #patience: ReturnType<typeof setTimeout>;
  #greeted!: (peer: Peer) => void;
  #refused!: (error: BridgeError) => void;
  #ended!: (why: BridgeError) => void;
  #peer?: Peer;
  #over?: BridgeError;
  #number = 0;
  #silent = 0;
  #looked = Date.now();

  constructor(port: MessagePort, self: Self, acts: Acts) {
    this.#port = port;
    this.#self = {
      takes: [],
      ...self,
      versions: VERSIONS,
      limits: { ...LIMITS, ...self.limits },
    };
    this.#asked = acts.asked;
    this.#tellings = { ...acts.told, ...this.#common() };
    this.ready = new Promise((resolve, reject) => {
      this.#greeted = resolve;
      this.#refused = reject;
    });
    this.ready.catch(() => undefined); // `closed` tells too: nobody has to listen here
    this.closed = new Promise((resolve) => (this.#ended = resolve));
    const { signal } = this.#ears;
    port.addEventListener('message', this.#hear, { signal });
    port.addEventListener('close', this.#gone, { signal });
    port.start();
    this.#heart = setInterval(this.#look, LOOK_MS);
    this.#patience = setTimeout(
      () => this.#end('Silent', 'The other side has not greeted.'),
      HELLO_MS,
    );
    this.tell('hello', this.#self);
  }

  /** Tells something that is not answered; without effect once the connection has ended. */
  tell(kind: string, body?: unknown): void {
    this.#send({ kind, body });
  }

  /**
   * Asks the other side, as soon as it has greeted.
   * @param pack - what is sent, looked at by the other side's limits
   * @throws {BridgeError} by rejecting: what the other side answers, or `Malformed`, `TooLarge`, `Closed`, `Silent`, `TimeoutError`,
   * `AbortError`
   */
  call<T>(
    kind: string,
    pack: (peer: Peer) => Load,
    read: Reader<T>,
    { signal, timeout = CALL_MS }: CallOptions = {},
  ): Promise<T> {
    const id = ++this.#number;
    return new Promise<T>((resolve, reject) => {
      if (this.#over) return reject(this.#over);
      const giveUp = (name: string, message: string): void => {
        if (this.#peer) this.tell('cancel', id);
        call.failed(new BridgeError(name, message));
      };
      const onAbort = (): void => giveUp('AbortError', 'The request was given up.');
      const timer = setTimeout(
        () => giveUp('TimeoutError', `“${kind}” was not answered within ${timeout} ms.`),
        timeout,
      );
      const tidy = (): void => {
        clearTimeout(timer);
        signal?.removeEventListener('abort', onAbort);
        this.#calls.delete(id);
      };
      const call: Call = {
        answered: (value) => {
          tidy();
          try {
            resolve(read(value, kind, this.#self.limits));
          } catch (thrown) {
            reject(thrown as Error);
          }
        },
        failed: (error) => {
          tidy();
          reject(error as Error);
        },
      };
      this.#calls.set(id, call);
      signal?.addEventListener('abort', onAbort);
      if (signal?.aborted) return onAbort();
      this.ready
        .then((peer) => {
          if (!this.#calls.has(id)) return;
          const { value, transfer } = pack(peer);
          this.#send({ kind, id, body: value }, transfer);
        })
        .catch(call.failed);
    });
  }

  /** Ends the connection: requests under way are rejected with `Closed`, those of the other side are aborted. */
  close(name = 'Closed', message = 'The connection was closed.'): void {
    this.tell('close', { name, message });
    this.#end(name, message);
  }

  #send(message: object, transfer: Transferable[] = []): void {
    if (!this.#over) this.#port.postMessage(message, transfer);
  }

  /** What both sides hear. */
  #common(): Acts['told'] {
    return {
      hello: told(readHello, (hello) => this.#meet(hello)),
      ping: told(readNothing, () => this.tell('pong')), // which needs nothing done: any message is a sign of life
      close: told(readError, ({ name, message }) => this.#end(name, message)),
      cancel: told(readId, (id) => this.#answering.get(id)?.abort()),
    };
  }

  #meet({ side, versions, ...rest }: Hello): void {
    if (this.#peer || side === this.#self.side) return;
    const version = Math.max(...versions.filter((each) => VERSIONS.includes(each)));
    if (!(version > 0))
      return this.close(
        'VersionUnknown',
        `This side speaks version ${VERSIONS.join(', ')}, the other ${versions.join(', ')}.`,
      );
    clearTimeout(this.#patience);
    this.#greeted((this.#peer = { version, ...rest }));
  }

  readonly #hear = ({ data }: MessageEvent): void => {
    this.#silent = 0;
    const kind = own(data, 'kind');
    const id = own(data, 'id');
    if (typeof kind !== 'string' || (!this.#peer && kind !== 'hello' && kind !== 'close')) return;
    if (kind === 'answer') this.#answered(id, data);
    else if (id === undefined) this.#told(kind, own(data, 'body'));
    else if (typeof id === 'number') void this.#answer(kind, id, own(data, 'body'));
  };

  /** What is not of its form is left alone: nothing is owed to it. */
  #told(kind: string, body: unknown): void {
    const known = own(this.#tellings, kind) as Told | undefined;
    let value;
    try {
      value = known?.read(body, kind, this.#self.limits);
    } catch {
      return;
    }
    known?.act(value);
  }

  #answered(id: unknown, data: unknown): void {
    const call = this.#calls.get(id as number);
    if (!call) return;
    const error = own(data, 'error');
    if (error === undefined) return call.answered(own(data, 'body'));
    try {
      call.failed(readError(error, 'error', this.#self.limits));
    } catch (malformed) {
      call.failed(malformed);
    }
  }

  async #answer(kind: string, id: number, body: unknown): Promise<void> {
    const answering = new AbortController();
    const reply = (more: object, transfer?: Transferable[]): void => {
      if (!answering.signal.aborted) this.#send({ kind: 'answer', id, ...more }, transfer);
    };
    try {
      const known = own(this.#asked, kind) as Asked | undefined;
      if (!known) throw new BridgeError('Unknown', `No request “${kind}” is known here.`);
      if (this.#answering.size >= MOST_ANSWERING || this.#answering.has(id))
        throw new BridgeError('Busy', 'Too many requests at once.');
      const value = known.read(body, kind, this.#self.limits);
      this.#answering.set(id, answering);
      const load = await known.act(value, answering.signal);
      reply({ body: load?.value }, load?.transfer);
    } catch (thrown) {
      reply({ error: factsOf(thrown) });
    } finally {
      if (this.#answering.get(id) === answering) this.#answering.delete(id);
    }
  }

  /** Asks for a sign of life; the time in which this page slept does not count. */
  readonly #look = (): void => {
    const now = Date.now();
    const slept = now - this.#looked > 2 * LOOK_MS;
    this.#looked = now;
    if (!this.#peer) return;
    this.#silent = slept ? 0 : this.#silent + 1;
    if (this.#silent > SILENT_LOOKS)
      return this.#end('Silent', 'Nothing is heard of the other side.');
    this.tell('ping');
  };

  readonly #gone = (): void => this.#end('Closed', 'The other side is gone.');

  #end(name: string, message: string): void {
    if (this.#over) return;
    const why = (this.#over = new BridgeError(name, message));
    clearTimeout(this.#patience);
    clearInterval(this.#heart);
    this.#ears.abort();
    this.#port.close();
    for (const call of [...this.#calls.values()]) call.failed(why);
    for (const answering of this.#answering.values()) answering.abort();
    this.#refused(why);
    this.#ended(why);
  }
}

/** An error in plain data. What has no stable name of the protocol is `Failed`. */
function factsOf(thrown: unknown): { name: string; message: string } {
  const { name, message } = thrown as Error;
  const known = thrown instanceof BridgeError || name === 'AbortError';
  const told = String(message ?? thrown).slice(0, 2000);
  return { name: known ? name : 'Failed', message: told };
}
