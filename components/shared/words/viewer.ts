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
  'band.paper': 'bare paper',
};
