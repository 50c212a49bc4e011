import type { Words } from '../../strings.js';

/** Das Bild des Betrachters. */
export const viewerWords: Words = {
  'view.photo': 'Foto',
  'view.greys': 'Grautöne',
  'view.bands': 'Bereiche',
  'view.masses': 'Massen',
  'picture.label': '{view} des Bildes',
  'picture.label-alone': 'Nur „{band}“, {view} des Bildes',
  'picture.label-named': '{alt}: {view}',
  'picture.label-named-alone': '{alt}: nur „{band}“',
  'viewer.limits':
    'Die Grenzen oder Bereiche, die die Seite angibt, sind nicht brauchbar ({message}).',
  'band.paper': 'blankes Papier',
};
