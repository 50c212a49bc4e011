import type { Words } from '../../strings.js';

/** Wörter, die mehrere spätere Teile brauchen: Einheiten für sich, Dateien, die zurückgehalten werden können. */
export const unitsFilesWords: Words = {
  'unit.cm': 'cm',
  'unit.mm': 'mm',
  'unit.in': 'Zoll',
  'files.walled':
    'Falls keine Datei kam: Diese Seite steht in einem Rahmen, der keine Dateien herausgeben darf. Öffnen Sie sie in einem eigenen Fenster und sichern Sie dort.',
};
