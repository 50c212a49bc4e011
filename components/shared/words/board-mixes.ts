import type { Words } from '../strings.js';

/** Words of a board about recipes, and about what a bucket lacks. */
export const boardMixesWords: Words = {
  'mixes.recipe': 'Mix {recipe}',
  'mixes.complete': 'Complete this bucket',
  'mixes.close': 'Close',
  'mixes.stop': 'Stop',
  'mixes.looking': 'Looking for leans that are missing',
  'mixes.at': 'Mixes of value {value, 1} from your tubes that lean where nothing here does:',
  'mixes.none': 'Nothing is missing: every lean that your tubes have is here already.',
  'mixes.beyond': 'Your tubes have nothing that leans {lean} at this value.',
  'mixes.lay': 'Lay it in',
  'mixes.lay-all': 'Lay all {count} in',
  'mixes.laid':
    '{count, plural, one {One mix is} other {# mixes are}} now in {band}, with {count, plural, one {its recipe} other {their recipes}}.',
  'mixes.failed': 'The search stopped. Try it once more; your board is kept.',
  'mixes.no-lasting':
    'None of the tubes that can be predicted lasts in light. Choose others in the well for work that will be sold.',
  'mixes.left-out': 'Left out, since the work will be sold: {tubes}.',
  'mixes.no-tubes': 'None of the tubes on the shelf can be predicted. Choose others in the well.',
};
