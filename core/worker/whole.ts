/** Everything of the core, as the single-file build takes it in: the pure face, the service and what makes a worker of it. */
export * from '../index.js';
export { Service } from './service.js';
export { serve } from './serve.js';
