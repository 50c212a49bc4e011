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
  'viewer.desk-failed':
    'Womit dieses Bild bearbeitet wird, ließ sich nicht laden. Prüfen Sie die Verbindung und laden Sie die Seite neu.',
  'empty.title': 'Hier wird ein Foto zu wenigen Tonwerten',
  'empty.text':
    'Öffnen Sie eines, ziehen Sie es auf dieses Blatt oder fügen Sie es ein. Dann legen Sie fest, wo das Dunkle endet und das Licht beginnt.',
  'empty.drop': 'Loslassen, um dieses Bild zu öffnen',
  'band.paper': 'blankes Papier',
};
