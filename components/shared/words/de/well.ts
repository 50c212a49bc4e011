import type { Words } from '../../strings.js';

/** Words of the mixing well before it is worked with; German. */
export const wellWords: Words = {
  'well.desk-failed':
    'Der Mischnapf ließ sich nicht laden. Prüfen Sie die Verbindung. Bevor Sie die Seite neu laden, sichern Sie den Plan als Datei, falls er hier nicht aufbewahrt wird.',
  'well.band':
    'Einen Bereich „{band}“ gibt es nicht: Nennen Sie seinen Namen oder seine Nummer ab 0, dem dunkelsten.',
  'well.recipe':
    'Dieses Rezept lässt sich nicht mischen: Es braucht Tuben, die sich vorhersagen lassen, und eine Stärke über 0.',
  'well.job-failed':
    'Die Suche ist stehen geblieben. Versuchen Sie es noch einmal; Ihr Plan bleibt erhalten.',
};
