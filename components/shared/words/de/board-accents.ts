import type { Words } from '../../strings.js';

/** Farbakzente einer Tafel. Tonwerte nach Munsell, 0 bis 10. */
export const boardAccentsWords: Words = {
  'accents.among': 'Buntheit {chroma, 0} zwischen Neutralen von {surround, 0}.',
  'accents.alone': 'In ihrem Fach liegt keine andere Farbe, mit der sie sich vergleichen ließe.',
  'accents.lighter': 'Statt einer von ihnen gesetzt, wird die Stelle um {cost, 1} heller.',
  'accents.darker': 'Statt einer von ihnen gesetzt, wird die Stelle um {cost, 1} dunkler.',
  'accents.even': 'Statt einer von ihnen gesetzt, kostet sie keinen Tonwert.',
  'accents.seems': 'Sie wirkt um {by, 1} heller, als sie ist.',
  'accents.echoed':
    '{count, plural, one {Ihr Farbton kehrt wieder in {swatches}.} other {Ihr Farbton kehrt wieder in # Proben: {swatches}.}}',
  'accents.not-echoed': 'Ihr Farbton kehrt in keiner anderen Probe wieder.',
  'accents.used':
    '{times, plural, one {Ein Fleck des Fotos hat ihn} other {# Flecke des Fotos haben ihn}}',
  'accents.not-used': 'Kein Fleck des Fotos hat ihn',
  'accents.places':
    '{used}; {places, plural, =0 {keine andere Stelle deutet ihn an.} one {eine weitere Stelle deutet ihn an.} other {# weitere Stellen deuten ihn an.}}',
};
