/** Every event of the kit. */
export { KitEvent } from './kit-event.js';
export { KitErrorEvent } from './kit-error.js';
export { ReadyEvent } from './ready.js';
export { PictureChangeEvent } from './picture-change.js';
export { PlanChangeEvent } from './plan-change.js';
export { PlanSavedEvent } from './plan-saved.js';
