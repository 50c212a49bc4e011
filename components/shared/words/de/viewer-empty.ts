import type { Words } from '../../strings.js';

/** Der Betrachter, der auf ein Bild wartet. */
export const viewerEmptyWords: Words = {
  'empty.title': 'Hier wird ein Foto zu wenigen Tonwerten',
  'empty.text':
    'Öffnen Sie eines, ziehen Sie es auf dieses Blatt oder fügen Sie es ein. Dann legen Sie fest, wo das Dunkle endet und das Licht beginnt.',
  'empty.drop': 'Loslassen, um dieses Bild zu öffnen',
};
