import type { Words } from '../../strings.js';

/** Words of the sheet reader before there is a photo; German. */
export const sheetReaderWords: Words = {
  'reader.empty':
    'Malen Sie ein Probenblatt, fotografieren Sie es, und lesen Sie hier seine Tonwerte.',
  'reader.teach-paint':
    'Malen Sie Proben so breit wie ein Daumen, eine Spalte je Stufe. Lassen Sie dazwischen blankes Papier: Es ist das Weiß, an dem alles gemessen wird.',
  'reader.teach-dry':
    'Lassen Sie sie trocknen. Einmal auch nass fotografiert, sagt dasselbe Blatt, wie Ihre Farbe trocknet.',
  'reader.teach-light':
    'Licht von einem Fenster an der Seite. Kein Blitz, keine Lampe dazu, kein eigener Schatten.',
  'reader.teach-frame':
    'Halten Sie die Kamera senkrecht darüber, das ganze Blatt im Bild, auf einem Tisch, der dunkler ist als das Papier.',
  'reader.stays-here': 'Das Foto bleibt auf diesem Gerät; nichts wird verschickt.',
  'reader.look-through':
    '{count, plural, one {Die gelesene Probe ansehen} other {Die # gelesenen Proben ansehen}}',
  'reader.desk-failed':
    'Die Werkzeuge des Lesers konnten nicht geladen werden. Prüfen Sie die Verbindung. Bevor Sie die Seite neu laden, sichern Sie den Plan als Datei, falls er hier nicht aufbewahrt wird.',
  'reader.card-page-offer': 'Tonwertkarte für diesen Plan drucken',
};
