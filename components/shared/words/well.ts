import type { Words } from '../strings.js';

/** Words of the mixing well before it is worked with. */
export const wellWords: Words = {
  'well.band': 'There is no band “{band}”: give its name, or its number from 0, the darkest.',
  'well.recipe':
    'This recipe cannot be mixed: it needs tubes that can be predicted and a strength above 0.',
  'well.job-failed': 'The search stopped. Try it once more; your plan is kept.',
};
