import type { Words } from '../strings.js';

/** Words of the printed plan that are needed before a page is made. */
export const printedFirstWords: Words = {
  'printed.label': 'The printed plan',
  'printed.empty': 'No page yet: it is made from a photo.',
  'printed.empty-how':
    'Open the photo that you paint from. Its shapes, what stays paper, the marks and the order of work then come on one page at true size, with the outlines to trace.',
};
