/** The worker's entry: self-contained, so that it runs as a module, a classic and a blob worker alike. */
import { FirstService } from './first-service.js';
import * as lent from './lent.js';
import { partsAt, type LoadPart, type PartAddresses } from './parts.js';
import { serve } from './serve.js';

Object.assign(globalThis, { tonewellLent: lent });

// Only who made the worker knows where the parts lie: a bundler may have given each a name of its own.
let load: LoadPart = partsAt({ paint: [], plan: [], check: [] });
const service = new FirstService((name) => load(name));
serve(service, (addresses: PartAddresses) => {
  load = partsAt(addresses);
});
