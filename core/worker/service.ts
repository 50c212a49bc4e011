import { FirstService } from './first-service.js';
import { partUnavailable, type LoadPart, type Part, type PartName } from './parts.js';

const MODULES: { [P in PartName]: () => Promise<Part<P>> } = {
  paint: () => import('./worker-paint.js'),
  plan: () => import('./worker-plan.js'),
  check: () => import('./worker-check.js'),
};

const load: LoadPart = (name) =>
  MODULES[name]().catch((thrown: unknown) => {
    throw partUnavailable(name, (thrown as Error)?.message ?? String(thrown));
  });

/** The service in a page and in Node: its parts are modules, found as those of the page or the bundler are. */
export class Service extends FirstService {
  constructor() {
    super(load);
  }
}
