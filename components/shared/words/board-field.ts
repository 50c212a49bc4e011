import type { Words } from '../strings.js';
import { leanWords } from './leans.js';

/** Words of a board that its form and its faults need at once; the rest comes with what is seen of it. */
export const boardFieldWords: Words = {
  ...leanWords,
  'buckets.label': 'Swatch board',
  'buckets.unnamed': 'unnamed',
  'verdict.too-dark': 'too dark',
  'verdict.too-light': 'too light',
  'validity.lack': '{band} needs {missing, plural, one {one more swatch} other {# more swatches}}.',
  'validity.lack-lean':
    '{band} lacks {missing, plural, one {a swatch that leans {lean}} other {# swatches that lean {lean}}}.',
  'validity.lack-neutral':
    '{band} lacks {missing, plural, one {a neutral swatch} other {# neutral swatches}}.',
  'validity.judging': 'The board is still being judged.',
  'validity.fault':
    '“{swatch}” is {verdict}{count, plural, =0 {} one {, and one more swatch is out of place} other {, and # more are out of place}}.',

  BoardError:
    'This board cannot be used: {fault}{more, plural, =0 {} one { One more thing is wrong with it.} other { # more things are wrong with it.}} The board in hand stays as it was.',
  BoardBands:
    'The bands cannot be used: give names and, between them, ascending limits from L* 0 to 100, one fewer than names.',
  BoardColours:
    '{count, plural, one {One swatch of this page has} other {# swatches of this page have}} no colour or bucket that can be understood and {count, plural, one {is} other {are}} left out: {names}.',
  BoardLeans:
    'Some leans that this board asks for are not known and are left out: {names}. Known are neutral, red, orange, yellow, yellow-green, green, blue-green, blue, violet and red-violet.',
  LessonError:
    'This lesson cannot be used: {fault}{more, plural, =0 {} one { One more thing is wrong with it.} other { # more things are wrong with it.}} The board is as it was without it.',
  'board.not-json-text': 'it is not JSON text ({found}).',
  'board.missing': '{path} is missing.',
  'board.unknown-key': '{path} is not known.',
  'board.wrong-type': '{path} should be {expected}, not {found}.',
  'board.out-of-range': '{path} is {found}; it should be {expected}.',
  'board.too-long': '{path} has {found} letters; {limit} are allowed.',
  'board.too-short': '{path} is empty.',
  'board.wrong-form': '{path} should be {expected}, not {found}.',
  'board.too-many': '{path} has {found} parts; {limit} are allowed.',
  'board.too-few': '{path} has {found} parts; {limit} are needed.',
  'board.not-allowed': '{path} is {found}; it should be {expected}.',
  'board.not-finite': '{path} is no finite number.',
  'board.not-json': '{path} is a {found}, which JSON cannot hold.',
  'board.forbidden-key': '{path} holds the key {key}, which is not allowed.',
  'board.too-deep': '{path} lies too deep.',
  'board.too-large': 'it is too large.',
  'board.no-bands': 'it has no bands.',
  'board.more': '{count} more things are wrong.',
  'board.ceiling-below-floor':
    '{path} ends (L* {ceiling, 1}) below where it begins (L* {floor, 1}).',
  'board.bands-disorder': '{path} is darker than the band before it; bands go from dark to light.',
  'board.no-such-bucket': '{path} is {found}, but there are {bands} bands, counted from 0.',
  'board.duplicate-id': '{path} is used twice ({id}).',
  'board.other-count': '{path} has {found} parts; it needs one for each of the {bands} bands.',
};
