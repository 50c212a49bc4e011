import type { Words } from '../strings.js';

/**
 * Words for passages with their swatches, and for passages of a painting against them. `passage`, `first` and `second` are the passages as the
 * sheet writes them (`7b`), `swatch` the name of the swatch.
 */
export const passagesWorkWords: Words = {
  'passages.no-swatch':
    '{passages, plural, one {# passage has} other {# passages have}} no swatch yet: the bucket has no colour.',
  'passages.swatch-far':
    'Passage {passage} leans another way than any swatch of its bucket; nearest is {swatch}.',
  'passages.swatch-unused': 'No passage uses {swatch}.',
  'passages.one-mix':
    'Passages {first} and {second} should stay apart, yet both are painted with {swatch}: mix another lean for one of them.',
  'check.passage-lean':
    'Passage {passage} has another hue than its swatch: lay a thin glaze of the swatch’s hue over it when it is dry.',
  'check.passage-greyer':
    'Passage {passage} is greyer than its swatch: glaze it with the purer of its paints when it is dry.',
  'check.passage-purer':
    'Passage {passage} is purer than its swatch: a thin glaze of its complement greys it.',
  'check.passage-vanished':
    'Passage {first} has vanished into passage {second}: glaze it with its own mix, or lift it and lay it anew.',
};
