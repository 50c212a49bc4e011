/** Every event of the kit. */
export { KitEvent } from './kit-event.js';
export { KitErrorEvent } from './kit-error.js';
export { ReadyEvent } from './ready.js';
export { PictureChangeEvent } from './picture-change.js';
export { PlanChangeEvent } from './plan-change.js';
export { PlanSavedEvent } from './plan-saved.js';
export { PlanOpenEvent } from './plan-open.js';
export { BoardChangeEvent, type BoardAct } from './board-change.js';
export { LimitsChangeEvent } from './limits-change.js';
export { BandsChangeEvent } from './bands-change.js';
export { ViewChangeEvent, type PictureView } from './view-change.js';
export { ReadingEvent } from './reading.js';
export { ReadingSendEvent } from './reading-send.js';
export { StepChangeEvent, type StepAct } from './step-change.js';
export { MixChangeEvent } from './mix-change.js';
export { MixSendEvent } from './mix-send.js';
export { ShelfChangeEvent, type ShelfAct } from './shelf-change.js';
