import type { Words } from '../strings.js';

/** Words of a board about its accents. Values are Munsell, 0 to 10. */
export const boardAccentsWords: Words = {
  'accents.among': 'Chroma {chroma, 0} among neutrals of {surround, 0}.',
  'accents.alone': 'Its bucket has no other colour to compare it with.',
  'accents.lighter': 'In place of one of them it makes the spot lighter by {cost, 1}.',
  'accents.darker': 'In place of one of them it makes the spot darker by {cost, 1}.',
  'accents.even': 'In place of one of them it costs no value.',
  'accents.seems': 'It looks lighter than it is, by {by, 1}.',
  'accents.echoed':
    '{count, plural, one {Its hue comes again in {swatches}.} other {Its hue comes again in # swatches: {swatches}.}}',
  'accents.not-echoed': 'Its hue comes again in no other swatch.',
  'accents.used':
    '{times, plural, one {One spot of the photo has it} other {# spots of the photo have it}}',
  'accents.not-used': 'No spot of the photo has it',
  'accents.places':
    '{used}; {places, plural, =0 {no other place hints at it.} one {one more place hints at it.} other {# more places hint at it.}}',
};
