import type { Words } from '../strings.js';

/** Words that any element may need at once: the usual names of bands and brushes, lengths, a part that did not come. */
export const commonWords: Words = {
  'usual.dark': 'dark',
  'usual.dark-middle': 'dark middle',
  'usual.middle': 'middle',
  'usual.light-middle': 'light middle',
  'usual.light': 'light',
  'usual.round': 'round {size}',
  'part.failed': 'This part could not be loaded. Look at the connection, then try again.',
  'part.failed-again': 'It still could not be loaded. Some browsers need the page reloaded first.',
  'part.unkept': 'What you have set here is not kept and is lost when the page is reloaded.',
  'part.again': 'Try again',
  'part.reload': 'Reload the page',
  'length.mm': '{figure} mm',
  'length.in': '{figure} in',
};
