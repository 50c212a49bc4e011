import type { Words } from '../strings.js';

/** Words of the painting check while there is nothing to check. */
export const checkWords: Words = {
  'checking.label': 'The painting against its plan',
  'checking.no-plan': 'A painting is checked against its plan.',
  'checking.no-plan-how':
    'Open the photo that you paint from first. Its values and shapes are the plan; photos of the painting follow, from the first wash to the last.',
  'checking.no-painting': 'No photo of the painting yet.',
  'checking.no-painting-how':
    'Photograph the painting as it stands: dry, flat, square on, with all four edges and a rim of bare paper in sight, by a window, without your shadow. The white of the paper is then the measure of all values.',
  'checking.failed': 'The check could not be loaded. Look at the connection, then try again.',
  'checking.again': 'Try again',
};
