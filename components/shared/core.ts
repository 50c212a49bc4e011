import { CoreError } from '../../core/index.js';
import type { Core, CoreOptions } from '../../core/worker/client.js';

export * from '../../core/index.js';
export { startCore } from '../../core/worker/client.js';
export type {
  Core,
  CoreMode,
  CoreOptions,
  JobOptions,
  PictureHandle,
} from '../../core/worker/client.js';

let settings: CoreOptions = {};
let shared: Promise<Core> | undefined;

/**
 * How the core that elements share is started; call it before the first element opens a picture. Pages whose policy or
 * bundler moves the worker give its address here.
 */
export function configureCore(options: CoreOptions): void {
  settings = options;
}

/** The core that all elements of this page share; started when first needed. A failed start is tried again on the next call. */
export function sharedCore(): Promise<Core> {
  if (!shared) {
    // The client comes with the first picture: a page of figures further down does not wait for it.
    shared = partOf(import('../../core/worker/client.js')).then(({ startCore }) =>
      startCore(settings),
    );
    shared.catch(() => (shared = undefined));
  }
  return shared;
}

/**
 * Ends a core that was lost beyond mending, so that the next call starts a new one; a core that the elements no longer share
 * is left alone.
 */
export function renewCore(lost: Core | undefined): void {
  const old = shared;
  void old
    ?.then((core) => {
      if (core !== lost || shared !== old) return;
      shared = undefined;
      core.dispose();
    })
    .catch(() => undefined);
}

/** A part of the kit that is on its way. Rejects with `PartUnavailable` when it cannot be had. */
export function partOf<Module>(coming: Promise<Module>): Promise<Module> {
  return coming.catch((thrown: unknown) => {
    throw new CoreError('PartUnavailable', `A part could not be loaded (${String(thrown)}).`);
  });
}
