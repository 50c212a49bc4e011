import type { Words } from '../../strings.js';

/** Vom Öffnen der Bilder und davon, was ein Foto hergibt. */
export const pictureWords: Words = {
  'picture.open': 'Foto öffnen',
  'picture.camera': 'Foto aufnehmen',
  'picture.paste': 'Einfügen',
  'picture.forgive': 'Beiseitelegen',
  'picture.animated': 'Diese Datei enthält mehrere Bilder; das erste wird verwendet.',
  'picture.thin':
    'Dieses Bild misst {width} x {height} Pixel: ein Streifen. Es öffnet sich, doch Formen lassen sich darin kaum beurteilen.',
  'picture.small':
    'Dieses Bild misst nur {width} x {height} Pixel; bitten Sie um eine größere Fassung.',
  'picture.clipboard-empty':
    'Die Zwischenablage enthält kein Bild. Kopieren Sie zuerst eines und fügen Sie es dann ein.',
  'picture.clipboard-closed':
    'Der Browser lässt diese Seite nicht in die Zwischenablage sehen. Drücken Sie hier stattdessen Strg+V (oder ⌘V).',
  PictureEmpty: 'Die Datei ist leer. Bitten Sie noch einmal darum oder wählen Sie eine andere.',
  PictureUnsupported:
    'Browser können Bilder der Art {format} hier nicht öffnen. Sichern Sie es als JPEG oder PNG (am Telefon: beim Teilen „maximale Kompatibilität“) und öffnen Sie dann diese Datei.',
  PictureUnreadable:
    'Diese Datei ist beschädigt, bricht vor dem Ende ab oder ist kein Bild. Bitten Sie noch einmal darum, oder sichern Sie sie als JPEG oder PNG und öffnen Sie diese Fassung.',
  PictureTooLarge:
    'Dieses Bild hat {width} x {height} Pixel, mehr als sich hier öffnen lassen. Machen Sie eine Kopie mit höchstens 50 Megapixeln und öffnen Sie diese.',
  PictureForbidden:
    'Das Bild unter dieser Adresse ist nicht erreichbar, oder sein Server lässt andere Seiten nicht mitlesen. Sichern Sie es auf diesem Gerät und öffnen Sie die Datei.',
  PictureMissing:
    'Unter dieser Adresse ist kein Bild. Prüfen Sie die Adresse, oder sichern Sie das Bild auf diesem Gerät und öffnen Sie die Datei.',
  PictureLost: 'Dieses Bild ist nicht mehr offen. Öffnen Sie es noch einmal; Ihr Plan bleibt.',
  CornersUnusable:
    'Kein Blatt kann diese Ecken haben: sie kreuzen sich, liegen auf einer Linie, oder eine liegt innerhalb der anderen. Setzen Sie sie der Reihe nach neu: oben links, oben rechts, unten rechts, unten links.',
  CoreLost:
    'Die Berechnung ist unerwartet abgebrochen. Ihr Plan bleibt; öffnen Sie das Foto noch einmal.',
  CoreUnavailable:
    'Die Berechnung ließ sich in diesem Browser nicht starten. Sichern Sie den Plan als Datei, falls er hier nicht aufbewahrt wird, und laden Sie die Seite neu.',
  PartUnavailable:
    'Ein Teil der Berechnung ließ sich nicht laden. Prüfen Sie die Verbindung und versuchen Sie es noch einmal. Bevor Sie die Seite neu laden, sichern Sie den Plan als Datei, falls er hier nicht aufbewahrt wird.',
  CoreDisposed:
    'Die Berechnung wurde beendet. Sichern Sie den Plan als Datei, falls er hier nicht aufbewahrt wird, und laden Sie die Seite neu.',
  TypeError: 'Das ist kein Bild, das sich öffnen lässt. Wählen Sie eine JPEG- oder PNG-Datei.',
  RangeError: 'Das ist kein Bild, das sich öffnen lässt. Wählen Sie eine JPEG- oder PNG-Datei.',
  'progress.label': 'Das Foto wird geöffnet',
  'progress.read': 'Die Datei wird gelesen',
  'progress.decode': 'Das Foto wird entpackt',
  'progress.reduce': 'Die Arbeitsfassung entsteht',
  'progress.stop': 'Abbrechen',
};
