import type { PlanStorage } from './storage.js';

type Later = {
  readonly [
    K in keyof PlanStorage as PlanStorage[K] extends (...given: never[]) => Promise<unknown>
      ? K
      : never
  ]: PlanStorage[K];
};

/** What is kept in the browser, by the same promises as `PlanStorage` gives; its module and IndexedDB's come with the first call. */
export type LaterStorage = Later;

/** Makes one; a module that cannot be had rejects the call with an `UnknownError`, and the next call asks for it again. */
export function laterStorage(): LaterStorage {
  let coming: Promise<PlanStorage> | undefined;
  const storage = (): Promise<PlanStorage> =>
    (coming ??= import('./storage.js')
      .then(({ PlanStorage }) => new PlanStorage())
      .catch((thrown: unknown) => {
        coming = undefined;
        throw new DOMException(String(thrown), 'UnknownError');
      }));
  return new Proxy({} as LaterStorage, {
    get:
      (_none, method: keyof LaterStorage) =>
      async (...given: never[]): Promise<unknown> => {
        const real = await storage();
        return (real[method] as (...given: never[]) => Promise<unknown>).apply(real, given);
      },
  });
}
