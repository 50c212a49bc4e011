import type { Words } from '../strings.js';

/** Words that several later parts need: units by themselves, files that may be held back. */
export const unitsFilesWords: Words = {
  'unit.cm': 'cm',
  'unit.mm': 'mm',
  'unit.in': 'in',
  'files.walled':
    'If no file came: this page is shown in a frame that may not hand files over. Open it in a window of its own and save there.',
};
