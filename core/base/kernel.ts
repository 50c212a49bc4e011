/**
 * A long computation cut into slices. It yields its progress (0..1) at places where it may be paused or given up, and
 * returns its result. The same kernel runs to its end at once ({@link finish}) or in slices of a few milliseconds
 * (`core/worker/slices.ts`), so there is one copy of the arithmetic.
 */
export type Kernel<T> = Generator<number, T, void>;

/** Runs a kernel to its end without a pause. */
export function finish<T>(kernel: Kernel<T>): T {
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
  }
}

/** Runs `rows(from, to)` over `count` rows in runs of about `pixels` pixels, yielding the progress between them. */
export function* byRows(
  count: number,
  rowPixels: number,
  rows: (from: number, to: number) => void,
  pixels = 1 << 18,
): Kernel<void> {
  const step = Math.max(1, Math.floor(pixels / Math.max(1, rowPixels)));
  for (let from = 0; from < count; from += step) {
    const to = Math.min(count, from + step);
    rows(from, to);
    yield to / count;
  }
}
