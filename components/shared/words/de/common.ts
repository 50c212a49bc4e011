import type { Words } from '../../strings.js';

/** Wörter, die jedes Element brauchen kann: übliche Namen der Bereiche und Pinsel, Längen, Dateien. */
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
    'Er ließ sich wieder nicht laden. Manche Browser fragen erst neu danach, wenn die Seite neu geladen wird.',
  'part.unkept':
    'Was Sie hier eingestellt haben, wird in diesem Browser nicht aufbewahrt und ist fort, sobald die Seite neu geladen wird.',
  'part.again': 'Noch einmal versuchen',
  'part.reload': 'Seite neu laden',
  'unit.cm': 'cm',
  'unit.mm': 'mm',
  'unit.in': 'Zoll',
  'length.mm': '{figure} mm',
  'length.in': '{figure} Zoll',
  'length.sides': '{width} × {height}',
  'files.walled':
    'Falls keine Datei kam: Diese Seite steht in einem Rahmen, der keine Dateien herausgeben darf. Öffnen Sie sie in einem eigenen Fenster und sichern Sie dort.',
};
