import type { Words } from '../strings.js';

/** Words of the viewer's picture. */
export const viewerWords: Words = {
  'view.photo': 'Photo',
  'view.greys': 'Greys',
  'view.bands': 'Bands',
  'view.masses': 'Masses',
  'picture.label': '{view} of the picture',
  'picture.label-alone': '{band} alone, {view} of the picture',
  'picture.label-named': '{alt}: {view}',
  'picture.label-named-alone': '{alt}: {band} alone',
  'viewer.limits': 'The limits or bands given by the page cannot be used ({message}).',
  'viewer.desk-failed':
    'What this picture is worked with could not be fetched. Check the connection and reload the page.',
  'empty.title': 'A photo becomes a few values here',
  'empty.text':
    'Open one, drop it on this sheet or paste it. Then set where dark ends and light begins.',
  'empty.drop': 'Let go to open this picture',
  'band.paper': 'bare paper',
};
