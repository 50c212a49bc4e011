import { expose, releaseProxy, transfer } from 'comlink';
import { plainError, type FirstService } from './first-service.js';
import type { PartAddresses } from './parts.js';

/** What the worker says once it can be called. */
export const READY = 'tonewell-core-ready';

/** The buffers and bitmaps of an answer, which are handed over instead of copied. */
function handedOver(value: unknown, found = new Set<Transferable>(), depth = 0): Set<Transferable> {
  if (value === null || typeof value !== 'object' || depth > 6) return found;
  if (ArrayBuffer.isView(value)) {
    const { buffer } = value;
    if (buffer instanceof ArrayBuffer && buffer.byteLength > 0) found.add(buffer);
  } else if (typeof ImageBitmap !== 'undefined' && value instanceof ImageBitmap) {
    found.add(value);
  } else if (Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype) {
    for (const part of Object.values(value)) handedOver(part, found, depth + 1);
  }
  return found;
}

/** Offers a service to whoever made this worker, and says so. `partsAt` hears where parts lie that are not inside. */
export function serve(
  service: FirstService,
  partsAt: (addresses: PartAddresses) => void = () => undefined,
): void {
  type Tell = ((stage: string, done: number) => void) & { [releaseProxy]?: () => void };
  const give = <T>(answer: Promise<T>, tell: Tell | undefined): Promise<T> =>
    answer
      .then((value) => transfer(value as object, [...handedOver(value)]) as T)
      .catch((thrown: unknown) => ({ ok: false, error: plainError(thrown) }) as T)
      .finally(() => tell?.[releaseProxy]?.());
  expose({
    open: (...of: Parameters<FirstService['open']>) => give(service.open(...of), of[4]),
    run: (...of: Parameters<FirstService['run']>) => give(service.run(...of), of[3]),
    cancel: (job: string) => service.cancel(job),
    close: (picture: string) => service.close(picture),
    ping: () => service.ping(),
    partsAt,
  });
  postMessage(READY);
}
