import type { Kernel } from '../base/kernel.js';

/** Runs a kernel as the part `from..to` (0..1) of a longer one. */
export function* stage<T>(kernel: Kernel<T>, from: number, to: number): Kernel<T> {
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
    yield from + (to - from) * step.value;
  }
}
