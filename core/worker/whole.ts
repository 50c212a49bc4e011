/** Everything of the core, as the single-file build takes it in: the pure face, the service and what makes a worker of it. */
import { serve as serveWith } from './serve.js';
import { Service } from './service.js';

export * from '../index.js';
/** So that the client in the page takes it from here and the single file holds it once. */
export * as comlink from 'comlink';
export { Service };

/** Offers the whole service, all parts inside, to whoever made this worker. */
export function serve(): void {
  serveWith(new Service());
}
