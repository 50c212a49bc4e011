import type { Words } from '../strings.js';

/** Words of the sheet reader before there is a photo. */
export const sheetReaderWords: Words = {
  'reader.empty': 'Paint a test sheet, photograph it, and read its values here.',
  'reader.teach-paint':
    'Paint dabs as broad as a thumb, one column a band. Leave bare paper between them: it is the white that all is measured by.',
  'reader.teach-dry':
    'Let them dry. Photographed once more while still wet, the same sheet tells how your paint dries.',
  'reader.teach-light':
    'Light it from a window at the side. No flash, no lamp as well, no shadow of your own.',
  'reader.teach-frame':
    'Hold the camera straight above, with the whole sheet in the picture, on a table darker than the paper.',
  'reader.stays-here': 'The photo stays on this device; nothing is sent anywhere.',
  'reader.look-through':
    'Look through {count, plural, one {the dab that was read} other {the # dabs that were read}}',
  'reader.desk-failed':
    'The reader’s tools could not be loaded. Check the connection. Before you reload the page, save the plan as a file if it is not kept here.',
  'reader.card-page-offer': 'Print a value card for this plan',
};
