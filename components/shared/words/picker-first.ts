import type { Words } from '../strings.js';

/** Words of the hole card that are needed before a photo is read. */
export const pickerFirstWords: Words = {
  'picker.empty-title': 'A card with a hole',
  'picker.empty':
    'Colours beside a spot mislead the eye. Open a photo and lay the card over it: through the hole you see one spot alone on neutral grey, with its value from 0 (black) to 10 (white).',
  'picker.drop': 'Let go to open the photo.',
  'picker.paper': 'bare paper',
  'picker.kept': 'Kept: value {value}, {band}.',
  'picker.sent': 'Now on the board, in the bucket {band}.',
  'picker.no-bucket': 'This light is left as bare paper, which has no bucket.',
  'picker.deleted': 'Reading deleted.',
  'picker.required': 'Take a reading first: move the hole over the photo, or press Enter on it.',
  'picker.required-guess': 'Take a reading first: say the value under the hole.',
};
