import { proxy, releaseProxy, transfer, wrap, type Remote } from 'comlink';
import { abortError, CoreError, type Reason } from '../base/reason.js';
import { wrongType } from '../base/check.js';
import type { Pixels } from '../base/types.js';
import { embedded } from './embedded.js';
import { forgetAddress, isVouchedFor, ownAddress } from './own-address.js';
import type { Display, Jobs, PictureInfo, Progress, Settled } from './jobs.js';
import type { FirstService, PictureSource } from './first-service.js';
import type { PartAddresses, PartName } from './parts.js';
import { readable } from './raster.js';

/** Where the core runs: a module worker beside the bundle, a worker from a blob, or the page itself. */
export type CoreMode = 'worker' | 'blob' | 'page';

/** An address; where a page requires trusted types, a `TrustedScriptURL` of a policy of its own. */
type WorkerAddress = URL | string | { toString(): string };

export interface CoreOptions {
  /** A worker of the caller's own choice (the file `worker.js` of this package). */
  workerUrl?: WorkerAddress;
  /** Which ways to try, in order; all three by default. */
  modes?: CoreMode[];
  /** How long a worker may take to answer its first call, in milliseconds (default 8000). */
  timeout?: number;
}

export interface JobOptions {
  /** A later call with the same key supersedes this one, which then rejects with `AbortError`. */
  key?: string;
  signal?: AbortSignal;
  onProgress?: (progress: Progress) => void;
}

/** An opened picture. It stays usable when the worker had to be started again. */
export interface PictureHandle {
  readonly id: string;
  /** Size of the upright photo in pixels. */
  readonly width: number;
  readonly height: number;
  readonly format: string;
  readonly warnings: readonly Reason[];
  /** A quick, small copy to show at once. */
  readonly preview: Display;
  /** Lets go of the picture; jobs on it then reject with `PictureLost`. */
  close(): void;
}

/** The core, wherever it runs. Every call ends: with a value, an `AbortError`, or an error with a stable `name`. */
export interface Core {
  readonly mode: CoreMode;
  /** Why the ways before {@link mode} were not taken. */
  readonly tried: readonly string[];
  /**
   * Opens a picture. A Blob stays where it is, pixels and bitmaps are copied and remain the caller's.
   * Rejects with `PictureEmpty`, `PictureUnsupported`, `PictureUnreadable`, `PictureTooLarge`, `PictureForbidden`,
   * `AbortError` or a core error.
   */
  open(
    source: PictureSource,
    options?: {
      maxPixels?: number;
      signal?: AbortSignal;
      onProgress?: (progress: Progress) => void;
    },
  ): Promise<PictureHandle>;
  /** Runs a job on an opened picture. */
  run<K extends keyof Jobs>(
    job: K,
    input: Jobs[K]['in'],
    options?: JobOptions,
  ): Promise<Jobs[K]['out']>;
  /** Ends the core: pending calls reject with `CoreDisposed`, pictures are let go. */
  dispose(): void;
}

type Door = Pick<FirstService, 'open' | 'run' | 'cancel' | 'close' | 'ping'>;

/** The door of a worker, which is told where its parts lie. */
type WorkerDoor = Door & { partsAt(addresses: PartAddresses): void };

/** A running service and the news of its end. */
interface Link {
  readonly mode: CoreMode;
  readonly door: Door | Remote<WorkerDoor>;
  /** Set by the client: called once when the service is lost. */
  onLost?: (why: string) => void;
  end(): void;
}

const READY = 'tonewell-core-ready';
/** How often a busy worker is asked whether it lives, and how long it may stay silent. */
const HEARTBEAT_MS = 1000;
const SILENCE_MS = 5_000;
/** A worker that is lost again within this time is not started again. */
const RESTART_MS = 60_000;

/** The worker beside the bundle. Its address stands here once: bundlers would emit it for each place where it stands. */
const beside = (): string => new URL('./worker.js', import.meta.url).href;

/** Runs a text as a worker. `own`: all that the text names is of the kit, so it may be vouched for. */
function blobWorker(text: string, own: boolean): { worker: Worker; done: () => void } {
  const url = URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));
  const done = (): void => {
    forgetAddress(url);
    URL.revokeObjectURL(url);
  };
  try {
    return { worker: new Worker(own ? ownAddress(url) : url), done };
  } catch (thrown) {
    done();
    throw thrown;
  }
}

/**
 * An address that the caller gives stays the caller's: the kit vouches for its own only, so where trusted types are required it has to
 * be a `TrustedScriptURL`.
 */
function makeWorker(
  mode: 'worker' | 'blob',
  workerUrl?: WorkerAddress,
): { worker: Worker; done?: () => void } | undefined {
  const given = workerUrl !== undefined;
  if (mode === 'worker') {
    if (!given && embedded) return undefined; // it is inside
    const address = given ? (workerUrl as string) : ownAddress(beside());
    return { worker: new Worker(address, { type: 'module' }) };
  }
  if (embedded && !given) return blobWorker(embedded.text(), true);
  // From another origin, through CORS. The worker is no module, since one in a sandboxed frame may not load a module from a blob; and
  // what fails is thrown once more where the event `error` tells of it.
  const { href } = new URL(String(workerUrl ?? beside()), globalThis.location?.href);
  const text = `import(${JSON.stringify(href)}).catch((error) => setTimeout(() => { throw error; }));`;
  return blobWorker(text, !given || isVouchedFor(workerUrl));
}

/** Where the worker's parts lie: beside a worker of the caller's own choice, and beside the bundle. */
function partAddresses(workerUrl?: WorkerAddress): PartAddresses | undefined {
  if (embedded?.whole && workerUrl === undefined) return undefined; // all inside
  const addresses: PartAddresses = { paint: [], plan: [], check: [] };
  if (!embedded?.whole) {
    addresses.paint.push(new URL('./worker-paint.js', import.meta.url).href);
    addresses.plan.push(new URL('./worker-plan.js', import.meta.url).href);
    addresses.check.push(new URL('./worker-check.js', import.meta.url).href);
  }
  if (workerUrl !== undefined) {
    const worker = new URL(String(workerUrl), globalThis.location?.href);
    for (const part of Object.keys(addresses) as PartName[])
      if (/^(https?|file):$/.test(worker.protocol))
        addresses[part].unshift(new URL(`worker-${part}.js`, worker).href);
  }
  return addresses;
}

/** A worker counts as started only once it has said so: a blocked one may throw, fire `error`, or stay silent. */
function handshake(
  { worker, done }: { worker: Worker; done?: () => void },
  timeout: number,
): Promise<Worker> {
  return new Promise<Worker>((resolve, reject) => {
    const settle = (error?: Error): void => {
      clearTimeout(timer);
      done?.();
      worker.removeEventListener('error', onError);
      worker.removeEventListener('message', onMessage);
      if (!error) return resolve(worker);
      worker.terminate();
      reject(error);
    };
    const onError = (event: ErrorEvent): void => {
      event.preventDefault();
      settle(new Error(event.message || 'blocked or failed to load'));
    };
    const onMessage = (event: MessageEvent): void => {
      if (event.data === READY) settle();
    };
    const timer = setTimeout(() => settle(new Error(`no answer in ${timeout} ms`)), timeout);
    worker.addEventListener('error', onError);
    worker.addEventListener('message', onMessage);
  });
}

function workerLink(worker: Worker, mode: CoreMode, parts?: PartAddresses): Link {
  const door = wrap<WorkerDoor>(worker);
  if (parts) void door.partsAt(parts);
  let ended = false;
  const link: Link = {
    mode,
    door,
    end() {
      if (ended) return;
      ended = true;
      link.onLost = undefined;
      door[releaseProxy]();
      worker.terminate();
    },
  };
  const lost = (event: Event): void => {
    event.preventDefault();
    link.onLost?.((event as ErrorEvent).message || event.type);
  };
  worker.addEventListener('error', lost);
  worker.addEventListener('messageerror', lost);
  return link;
}

async function connect(options: CoreOptions, tried: string[]): Promise<Link> {
  const { modes = ['worker', 'blob', 'page'], timeout = 8000, workerUrl } = options;
  for (const mode of modes) {
    try {
      if (mode === 'page') {
        const { Service } = await import('./service.js');
        return { mode, door: new Service(), end() {} };
      }
      const made = makeWorker(mode, workerUrl);
      if (made) return workerLink(await handshake(made, timeout), mode, partAddresses(workerUrl));
    } catch (thrown) {
      tried.push(`${mode}: ${(thrown as Error)?.message ?? String(thrown)}`);
    }
  }
  throw new CoreError(
    'CoreUnavailable',
    `The core could not start (${tried.join('; ') || 'no way was left to try'}).`,
    { tried: tried.join('; ') },
  );
}

/** Rejects when the call is given up, the worker is lost, or the core ends. */
interface Pending {
  lose(error: Error): void;
}

class CoreClient implements Core {
  #link: Link;
  #options: CoreOptions;
  #disposed = false;
  #restarting?: Promise<void>;
  #restarted = -Infinity;
  #dead?: CoreError;
  #pending = new Set<Pending>();
  #keys = new Map<string, AbortController>();
  #pictures = new Map<string, { source?: Blob; maxPixels?: number }>();
  #heart?: ReturnType<typeof setInterval>;
  #heard = 0;
  #number = 0;
  readonly #name = Math.random().toString(36).slice(2, 8);

  constructor(
    link: Link,
    options: CoreOptions,
    readonly tried: readonly string[],
  ) {
    this.#link = link;
    this.#options = options;
    link.onLost = (why) => this.#lost(link, why);
  }

  get mode(): CoreMode {
    return this.#link.mode;
  }

  async open(
    source: PictureSource,
    options: {
      maxPixels?: number;
      signal?: AbortSignal;
      onProgress?: (progress: Progress) => void;
    } = {},
  ): Promise<PictureHandle> {
    if (source === null || typeof source !== 'object')
      throw wrongType('source', source, 'a Blob, an ImageBitmap or pixels');
    const id = `p${this.#name}${++this.#number}`;
    const { maxPixels } = options;
    const blob = typeof Blob !== 'undefined' && source instanceof Blob ? source : undefined;
    const info = await this.#call<PictureInfo>(options, async (door, job, tell) => {
      const answer = await door.open(job, id, await this.#handed(source), { maxPixels }, tell);
      // Given up at the last moment: nobody will ever close it.
      if (options.signal?.aborted) void door.close(id);
      return answer;
    });
    this.#pictures.set(id, { source: blob, maxPixels });
    if (!blob && this.mode !== 'page') void this.#keepOriginal(id);
    const { width, height, format, warnings, preview } = info;
    return { id, width, height, format, warnings, preview, close: () => this.#close(id) };
  }

  run<K extends keyof Jobs>(
    job: K,
    input: Jobs[K]['in'],
    options: JobOptions = {},
  ): Promise<Jobs[K]['out']> {
    return this.#call<Jobs[K]['out']>(options, (door, number, tell) =>
      (door as Door).run(number, job, input, tell),
    );
  }

  dispose(): void {
    if (this.#disposed) return;
    this.#disposed = true;
    for (const pending of [...this.#pending]) pending.lose(disposedError());
    clearInterval(this.#heart);
    this.#pictures.clear();
    this.#link.end();
  }

  /** What crosses to the worker: bare pixels and bitmaps are copied first and the copy is handed over. */
  async #handed(source: PictureSource): Promise<PictureSource> {
    if (typeof Blob !== 'undefined' && source instanceof Blob) return source;
    if (typeof ImageBitmap !== 'undefined' && source instanceof ImageBitmap) {
      if (source.width === 0) throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
      const copy = await createImageBitmap(source);
      expectReadable(copy);
      return this.mode === 'page' ? copy : transfer(copy, [copy]);
    }
    const { width, height, data, colorSpace } = source as Pixels;
    if (!ArrayBuffer.isView(data))
      throw wrongType('source.data', data, 'a Uint8ClampedArray or Uint8Array');
    const pixels = { width, height, data: data.slice(), colorSpace };
    return this.mode === 'page' ? pixels : transfer(pixels, [pixels.data.buffer]);
  }

  /** Bare pixels are written as a file in the worker, so that they outlive it. */
  async #keepOriginal(id: string): Promise<void> {
    try {
      const source = await this.run('original', { picture: id });
      const picture = this.#pictures.get(id);
      if (picture) picture.source = source;
    } catch {
      // The picture then cannot be opened again by itself; a job on it will say so.
    }
  }

  #close(id: string): void {
    this.#pictures.delete(id);
    if (!this.#disposed && !this.#dead) void this.#link.door.close(id);
  }

  /** One call: superseding, giving up, progress, loss and one second try after a restart. */
  async #call<T>(
    { key, signal, onProgress }: JobOptions,
    work: (
      door: Door,
      job: string,
      tell: ((stage: string, done: number) => void) | undefined,
    ) => Promise<Settled<T>>,
  ): Promise<T> {
    const superseded = new AbortController();
    if (key !== undefined) {
      this.#keys.get(key)?.abort();
      this.#keys.set(key, superseded);
    }
    try {
      for (let tries = 0; ; tries++) {
        await this.#restarting;
        if (this.#disposed) throw disposedError();
        if (signal?.aborted || superseded.signal.aborted) throw abortError();
        if (this.#dead) throw this.#dead;
        const link = this.#link;
        try {
          return await this.#once(link, [signal, superseded.signal], onProgress, work);
        } catch (thrown) {
          const again =
            (thrown as Error).name === 'CoreLost' && tries === 0 && !this.#dead && !this.#disposed;
          if (!again) throw thrown;
        }
      }
    } finally {
      if (key !== undefined && this.#keys.get(key) === superseded) this.#keys.delete(key);
    }
  }

  #once<T>(
    link: Link,
    signals: (AbortSignal | undefined)[],
    onProgress: ((progress: Progress) => void) | undefined,
    work: (
      door: Door,
      job: string,
      tell: ((stage: string, done: number) => void) | undefined,
    ) => Promise<Settled<T>>,
  ): Promise<T> {
    const job = `j${++this.#number}`;
    return new Promise<T>((resolve, reject) => {
      let over = false;
      const tell = (stage: string, done: number): void => {
        if (!over) onProgress?.({ stage, done });
      };
      const end = (settle: () => void): void => {
        if (over) return;
        over = true;
        this.#pending.delete(pending);
        for (const signal of signals) signal?.removeEventListener('abort', onAbort);
        this.#watch();
        settle();
      };
      const onAbort = (): void => {
        void link.door.cancel(job);
        end(() => reject(abortError()));
      };
      const pending: Pending = { lose: (error) => end(() => reject(error)) };
      for (const signal of signals) signal?.addEventListener('abort', onAbort);
      if (signals.some((signal) => signal?.aborted)) return onAbort();
      this.#pending.add(pending);
      this.#watch();
      const told = onProgress && (link.mode === 'page' ? tell : proxy(tell));
      work(link.door as Door, job, told).then(
        (answer) => {
          if (over) return letGo(answer);
          end(() => {
            if (answer.ok) resolve(answer.value);
            else reject(errorOf(answer.error));
          });
        },
        (thrown: unknown) =>
          end(() => reject(thrown instanceof Error ? thrown : new Error(String(thrown)))),
      );
    });
  }

  /** While calls are pending, a worker is asked each second whether it lives: a killed one says nothing by itself. */
  #watch(): void {
    if (this.#link.mode === 'page') return;
    if (this.#pending.size === 0) {
      clearInterval(this.#heart);
      this.#heart = undefined;
      return;
    }
    if (this.#heart !== undefined) return;
    const link = this.#link;
    this.#heard = performance.now();
    let asked = 0;
    this.#heart = setInterval(() => {
      const now = performance.now();
      // A page that slept (a tablet laid aside) has not listened either: count only the time it was awake.
      if (now - asked > 3 * HEARTBEAT_MS) this.#heard = now;
      asked = now;
      if (now - this.#heard > SILENCE_MS) return this.#lost(link, 'no answer');
      void (link.door as Remote<Door>).ping().then(
        () => (this.#heard = performance.now()),
        () => undefined,
      );
    }, HEARTBEAT_MS);
  }

  #lost(link: Link, why: string): void {
    if (link !== this.#link || this.#disposed || this.#dead) return;
    clearInterval(this.#heart);
    this.#heart = undefined;
    link.end();
    const error = new CoreError(
      'CoreLost',
      `The work stopped unexpectedly (${why}); try it again.`,
      { why },
    );
    const soon = performance.now() - this.#restarted < RESTART_MS; // e.g. by the picture it opens again
    this.#restarted = performance.now();
    if (soon) this.#dead = error;
    else this.#restarting = this.#restart().finally(() => (this.#restarting = undefined));
    for (const pending of [...this.#pending]) pending.lose(error);
  }

  async #restart(): Promise<void> {
    try {
      const link = await connect(this.#options, []);
      if (this.#disposed) return link.end();
      this.#link = link;
      link.onLost = (why) => this.#lost(link, why);
      for (const [id, { source, maxPixels }] of this.#pictures) {
        if (this.#dead) return;
        if (!source) continue;
        const again = this.#once<PictureInfo>(link, [], undefined, (door, job, tell) =>
          door.open(job, id, source, { maxPixels }, tell),
        );
        const info = await again.catch(() => undefined);
        info?.preview.bitmap?.close();
      }
    } catch (thrown) {
      this.#dead =
        thrown instanceof CoreError
          ? thrown
          : new CoreError(
              'CoreLost',
              'The work stopped and could not be started again; reload the page.',
              {},
            );
    }
  }
}

/** Throws `PictureForbidden` for a bitmap of another origin's picture, which may be shown but not read. */
function expectReadable(bitmap: ImageBitmap): void {
  const { context } = readable(1, 1);
  context.drawImage(bitmap, 0, 0);
  try {
    context.getImageData(0, 0, 1, 1);
  } catch {
    bitmap.close();
    throw new CoreError('PictureForbidden', 'The page may not read this picture.', { address: '' });
  }
}

/** Bitmaps of an answer that nobody waits for any more. */
function letGo(answer: Settled<unknown>): void {
  if (!answer.ok) return;
  const { bitmap, preview } = (answer.value ?? {}) as { bitmap?: ImageBitmap; preview?: Display };
  bitmap?.close();
  preview?.bitmap?.close();
}

function disposedError(): CoreError {
  return new CoreError('CoreDisposed', 'The core was ended.', {});
}

function errorOf({
  name,
  message,
  reason,
}: {
  name: string;
  message: string;
  reason: Reason;
}): Error {
  if (name === 'AbortError') return abortError(message);
  if (name === 'TypeError') return new TypeError(message);
  if (name === 'RangeError') return new RangeError(message);
  return new CoreError(name, message, reason.values);
}

/**
 * Starts the core: in a worker the caller names, else in the worker beside the bundle, else in a worker from the embedded
 * source, else in the page (in slices). Rejects with `CoreUnavailable` when no way is left.
 */
export async function startCore(options: CoreOptions = {}): Promise<Core> {
  const tried: string[] = [];
  return new CoreClient(await connect(options, tried), options, tried);
}
