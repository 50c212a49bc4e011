/** What the element loads once there is something to work with: the desk and what its views show. */
import { renderChecks } from './checks-view.js';
import { renderDelivery } from './delivery-view.js';
import type { Panels } from './desk.js';
import { renderDrawing } from './drawing-view.js';
import { renderFindings } from './findings-view.js';
import { renderPhoto } from './photo-view.js';

export { Desk, deskStyles, deskWords } from './desk.js';

export const PANELS: Panels = {
  photo: renderPhoto,
  findings: renderFindings,
  drawing: renderDrawing,
  checks: renderChecks,
  delivery: renderDelivery,
};
