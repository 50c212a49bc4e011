import type { Words } from '../../strings.js';

/** Wörter, die jedes Element gleich brauchen kann: übliche Namen der Bereiche und Pinsel, Längen, ein Teil, der nicht kam. */
export const commonWords: Words = {
  'usual.dark': 'Tiefen',
  'usual.dark-middle': 'tiefe Mitteltöne',
  'usual.middle': 'Mitteltöne',
  'usual.light-middle': 'helle Mitteltöne',
  'usual.light': 'Lichter',
  'usual.round': 'Rundpinsel {size}',
  'part.failed':
    'Dieser Teil konnte nicht geladen werden. Sehen Sie nach der Verbindung und versuchen Sie es noch einmal.',
  'part.failed-again':
    'Er ließ sich wieder nicht laden. In manchen Browsern muss erst die Seite neu geladen werden.',
  'part.unkept':
    'Was Sie hier eingestellt haben, wird nicht aufbewahrt und geht verloren, wenn die Seite neu geladen wird.',
  'part.again': 'Noch einmal versuchen',
  'part.reload': 'Seite neu laden',
  'length.mm': '{figure} mm',
  'length.in': '{figure} Zoll',
};
