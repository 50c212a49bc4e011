import { abortError } from '../base/reason.js';
import type { Kernel } from '../base/kernel.js';

/** How long a slice of work may run before messages are heard again, in milliseconds. */
export const SLICE_MS = 8;

/** Lets waiting messages, timers and input in; a message channel is not clamped to 4 ms as nested timers are. */
export const breathe: () => Promise<void> = (() => {
  let channel: MessageChannel | undefined;
  const waiting: (() => void)[] = [];
  return () =>
    new Promise<void>((resolve) => {
      if (!channel) {
        channel = new MessageChannel();
        channel.port1.onmessage = () => {
          const next = waiting.shift();
          // In Node an open port keeps the process alive: let it go whenever nothing waits.
          if (waiting.length === 0) (channel!.port1 as { unref?: () => void }).unref?.();
          next?.();
        };
      }
      (channel.port1 as { ref?: () => void }).ref?.();
      waiting.push(resolve);
      channel.port2.postMessage(0);
    });
})();

/** What a running job may ask of its surroundings. */
export interface Watch {
  /** Throws the platform's `AbortError` once the job was given up. */
  check(): void;
  /** Tells how far the named stage has come (0..1). */
  tell(stage: string, done: number): void;
}

/** Runs a kernel in slices, hearing a cancel between them. */
export async function sliced<T>(kernel: Kernel<T>, watch: Watch, stage: string): Promise<T> {
  let until = performance.now() + SLICE_MS;
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
    if (performance.now() >= until) {
      watch.tell(stage, step.value);
      await breathe();
      watch.check();
      until = performance.now() + SLICE_MS;
    }
  }
}

/**
 * Runs a kernel in slices where there is no job about it, as on a page.
 *
 * @throws `AbortError` by rejecting, once it was given up
 */
export function inSlices<T>(kernel: Kernel<T>, signal?: AbortSignal): Promise<T> {
  const check = (): void => {
    if (signal?.aborted) throw abortError();
  };
  return sliced(kernel, { check, tell: () => {} }, '');
}

/** A watch that can be given up. */
export class Cancellable implements Watch {
  #given = false;

  constructor(readonly onProgress?: (stage: string, done: number) => void) {}

  cancel(): void {
    this.#given = true;
  }

  check(): void {
    if (this.#given) throw abortError();
  }

  tell(stage: string, done: number): void {
    this.onProgress?.(stage, done);
  }
}
