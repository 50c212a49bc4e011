import type { Words } from '../../strings.js';

export const checkWords: Words = {
  'checking.label': 'Das Bild gegen seinen Plan',
  'checking.no-plan': 'Ein Bild wird gegen seinen Plan gehalten.',
  'checking.no-plan-how':
    'Öffnen Sie zuerst das Foto, nach dem Sie malen. Seine Tonwerte und Formen sind der Plan; Fotos vom Bild folgen, von der ersten Lasur bis zur letzten.',
  'checking.no-painting': 'Noch kein Foto vom Bild.',
  'checking.no-painting-how':
    'Fotografieren Sie das Bild, wie es ist: trocken, flach, gerade von vorn, mit allen vier Kanten und einem Rand blanken Papiers, am Fenster, ohne Ihren Schatten. Das Weiß des Papiers ist dann das Maß aller Tonwerte.',
  'checking.failed':
    'Die Prüfung konnte nicht geladen werden. Sehen Sie nach der Verbindung und versuchen Sie es noch einmal.',
  'checking.again': 'Noch einmal versuchen',
};
