import { PAINT_STRINGS } from '../core.js';
import type { Words } from '../strings.js';

/** Words for what is known of paints, of mixes and of how far off a prediction may be. Values are Munsell, 0 to 10. */
export const paintWords: Words = {
  ...PAINT_STRINGS,
  'transparency.transparent': 'transparent',
  'transparency.semi-transparent': 'half transparent',
  'transparency.semi-opaque': 'half opaque',
  'transparency.opaque': 'opaque',
  'staining.low': 'lifts easily',
  'staining.medium': 'stains a little',
  'staining.high': 'stains',
  'granulation.none': 'lies even',
  'granulation.slight': 'granulates a little',
  'granulation.strong': 'granulates',
  'lasting.I': 'lasts very well',
  'lasting.II': 'lasts well',
  'lasting.doubtful': 'lasting in doubt',
  'lasting.fugitive': 'fades in light',

  'paint.no-data': 'No data: it cannot be predicted. Nearest with data: {near}.',
  'paint.lasting-near': 'Nearest that lasts: {tube}.',
  'paint.acrylic-films':
    'Predicted from measured films of acrylic paint. Your watercolour may dry anywhere from value {low, 1, fixed} to {high, 1, fixed}: try it on a scrap first.',
  'paint.across-sets':
    'Its tubes were measured in two places; one pigment differs there in strength, {low, 1} to {high, 1} times.',
  'paint.granulates': '{paint} settles into the grain of the paper: the wash will look speckled.',
  'paint.opaque': '{paint} is opaque: how light a thin wash dries depends much on how it is laid.',
  'paint.re-wets':
    'Watercolour re-wets: {layers, plural, one {the dried layer} other {the dried layers}} below may lift into the wash, which is not predicted.',

  'paint.fit-as-data':
    'Your tube is as strong as the data, as far as these dabs tell ({low, 2} to {high, 2} times).',
  'paint.fit-differs':
    'Your tube is {load, 2} times as strong as the data, between {low, 2} and {high, 2} times.',
  'paint.fit-one-reading': 'One dab says little: paint two or three more, weaker ones.',
  'paint.fit-open':
    'These dabs leave the strength open to one side ({low, 2} to {high, 2}): add a weaker one.',
  'paint.fit-another-hue':
    'Your tube has another hue than the data (off by {deltaE, 1}): predictions with it stay off.',

  'paint.puddle-guess':
    'A guess of the right size: papers and hands differ, {low, 0} to {high, 0} ml.',
  'paint.puddle-more':
    'A little more than is needed ({needed, 0} ml), so that each tube can be measured by the spoon.',
  'paint.puddle-touch': 'All at once, the smallest part would be {spoonfuls, 2} of a spoonful.',

  'mix.too-dark':
    'It would have to be darker than your tubes go: value {reached, 1, fixed} is the end.',
  'mix.too-light':
    'It would have to be lighter: your tubes come to value {reached, 1, fixed} there.',
  'mix.too-chromatic': 'Your tubes do not mix a {lean} as pure as this.',
  'mix.too-neutral': 'Your tubes stay purer there: this {lean} is greyer.',
  'mix.hue-missing': 'Your tubes turn to {reached} where {lean} is asked for.',

  'grade.close': 'close',
  'grade.near': 'near',
  'grade.out-of-reach': 'out of reach',
  'steadiness.steady': 'forgives a careless spoon',
  'steadiness.careful': 'wants careful spoons',
  'steadiness.touchy': 'changes with every drop',
};
