import type { Words } from '../../strings.js';

/** Words of the mixing well before it is worked with; German. */
export const wellWords: Words = {
  'well.band':
    'Einen Bereich „{band}“ gibt es nicht: Nennen Sie seinen Namen oder seine Nummer ab 0, dem dunkelsten.',
  'well.recipe':
    'Dieses Rezept lässt sich nicht mischen: Es braucht Tuben, die sich vorhersagen lassen, und eine Stärke über 0.',
  'well.job-failed':
    'Die Suche ist stehen geblieben. Versuchen Sie es noch einmal; Ihr Plan bleibt erhalten.',
};
