import type { Words } from '../strings.js';

/** Words of the viewer that waits for a picture. */
export const viewerEmptyWords: Words = {
  'empty.title': 'A photo becomes a few values here',
  'empty.text':
    'Open one, drop it on this sheet or paste it. Then set where dark ends and light begins.',
  'empty.drop': 'Let go to open this picture',
};
