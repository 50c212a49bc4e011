/** What is said about paints on a printed plan, English. Figures stand in braces. */
export const PAINT_STRINGS: Readonly<Record<string, string>> = {
  'paint.cadmium':
    'Contains compounds of cadmium. The tube’s label ({label}) and local rules come first.',
  'paint.cobalt':
    'Contains compounds of cobalt. The tube’s label ({label}) and local rules come first.',
  'paint.manganese':
    'Contains compounds of manganese. The tube’s label ({label}) and local rules come first.',
  'paint.nickel':
    'Contains compounds of nickel. The tube’s label ({label}) and local rules come first.',
  'paint.chromium':
    'Contains compounds of chromium. The tube’s label ({label}) and local rules come first.',
  'paint.lead':
    'Contains lead: keep it off skin and food. The tube’s label ({label}) and local rules come first.',
  'paint.acid-and-heat':
    'Gives off a poisonous gas (hydrogen cyanide) with strong acid or great heat. The tube’s label ({label}) and local rules come first.',
  'paint.fades': 'It fades in light: what is painted with it will not stay as it is.',
  'paint.fades-or-darkens': 'It fades or darkens in light.',
  'paint.rated-apart': 'Tests of how it lasts differ: some pass it, some do not.',
  'paint.blend': 'Sold as a mixture of several pigments; makers mix it in their own way.',
  'paint.stand-in': '{paint} has no data of its own: those of {tube} stand in.',
  'paint.lasting-same-data': 'One set of data stands for both, so how they differ is not known.',
  'paint.lasting-alike': 'Weak or strong, the two look alike.',
  'paint.lasting-lighter': 'It differs most in {wash} washes: lighter.',
  'paint.lasting-darker': 'It differs most in {wash} washes: darker.',
  'paint.lasting-purer': 'It differs most in {wash} washes: purer.',
  'paint.lasting-duller': 'It differs most in {wash} washes: duller.',
  'paint.lasting-hue': 'It differs most in {wash} washes: another hue.',
  'paint.wash-weak': 'weak',
  'paint.wash-middle': 'middling',
  'paint.wash-strong': 'strong',
};

/**
 * The words of the printed plan, English. Figures stand in braces; they come as text, lengths in mm. A page in another language passes
 * its own under the same keys.
 */
export const SHEET_STRINGS: Readonly<Record<string, string>> = {
  'page.untitled': 'Plan of a painting',
  'page.facts': 'Paper {width} × {height} mm · brush {brush} · {way}',
  'page.facts-plain': 'Paper {width} × {height} mm · {way}',
  'page.brush': '{name}, {tip} to {pressed} mm',
  'page.way-direct': 'darks first, each laid once',
  'page.way-light-to-dark': 'light to dark',
  'page.scale-true': 'True size',
  'page.scale': 'Reduced: 1 mm here is {times} mm on the paper',
  'page.mirrored': 'mirrored',
  'page.squares': 'squares of {mm} mm, counted from the left and from the top',
  'page.key-hard': 'hard edge',
  'page.key-soft': 'soft edge',
  'page.key-lost': 'lost edge: no line',
  'page.key-apart': 'passages kept apart',
  'page.key-run': 'passages run together',
  'page.key-passage': 'passage and its mix',
  'page.key-bare': 'stays paper',
  'page.key-mask': 'masked',
  'page.key-tint': 'tinted pale first',
  'page.key-light-mark': 'light mark',
  'page.key-dark-mark': 'dark mark',
  'page.key-accent': 'accent',
  'page.key-accent-again': 'it might come again',
  'page.key-stroke': 'way of the brush',
  'page.key-step': 'its step',
  'page.values': 'Values and dabs',
  'page.band-values': 'value {low} to {high}',
  'page.band-share': 'L* {from} to {to} · {share} %',
  'page.paper-band': 'bare paper',
  'page.paper-value': 'value {value}',
  'page.dabs-strip':
    'Tape a strip of the painting’s own paper into the frame: a dab for each band.',
  'page.recipe-part': '{parts} {tube}',
  'page.recipe-join': ' + ',
  'page.recipe-water': '{water} water',
  'page.recipe-no-water': 'no water',
  'page.recipe-then': 'then {spoons} of it in {water} water',
  'page.recipe-over': '{recipe}, over dried {below}',
  'page.mix-accent': 'accent: {recipe}',
  'page.mix-unused': 'not used: {recipe}',
  'page.mix-plain': '· {recipe}',
  'page.mix-no-recipe': 'value {value}, no recipe yet',
  'page.mix-area': '{cm2} cm²',
  'page.mix-passages': 'passages {passages}: {area}',
  'page.mixes': 'Mixes',
  'page.mixes-more': 'The rest: page “Mixes”.',
  'page.order': 'Order of work',
  'page.order-on': 'Order of work, continued',
  'page.on': 'continued',
  'page.order-more': 'The rest is on the next page.',
  'page.accents': 'Accents',
  'page.accent': '{number} {name}',
  'page.accent-band': 'band {band}',
  'page.accent-stray': 'band {band} by its value, in the bucket {bucket}',
  'page.accent-vivid': 'chroma {chroma} among {surround}',
  'page.accent-alone': 'no neutral in its bucket to compare it with',
  'page.accent-lighter': 'pure colour for a neutral: {cost} L* lighter',
  'page.accent-darker': 'pure colour for a neutral: {cost} L* darker',
  'page.accent-even': 'pure colour for a neutral: the same value',
  'page.accent-seems': 'looks {by} L* lighter than it is',
  'page.accent-used': 'places of its hue in the photo: {times}',
  'page.accent-unused': 'no accent of the photo has its hue',
  'page.accent-echoes': 'its hue again on the board: {swatches}',
  'page.accent-single': 'its hue nowhere else on the board',
  'page.accent-places': 'places where it might come again: {places}, of its own value: {inBand}',
  'page.accent-nowhere': 'no other place of the photo carries its hue',
  'page.cautions': 'Cautions',
  'page.caution-label': 'Paints and masking: what their labels and local rules say comes first.',
  'page.caution-tubes': '{tubes}: {caution}',
  'page.caution-sold':
    'For work that is sold: instead of {tube} the nearest that lasts is {lasting}.',
  'page.caution-heat':
    'Drying with warm air: from a distance, and not on masking, which bakes on. Let what label and local rules say come first.',
  'page.rule': '100 mm. Measure this line after printing: print at 100 %, not fitted to the page.',
  'page.tile': '{title}: part {part} of {parts}, row {row}, place {column}',
  'page.tile-whole': '{title}: at true size',
  'page.tile-join': 'Parts overlap by {mm} mm: lay cross on cross.',
  'page.mark-sizes': 'Marks, widths on the paper',
  'page.mark-light': '{number} light, {mm} mm',
  'page.mark-dark': '{number} dark, {mm} mm',
  'work.keep': 'Draw what stays paper, and leave it',
  'work.mask': 'Mask',
  'work.tint': 'Tint pale',
  'work.ground': 'Wash in the ground',
  'work.lay-darkest': 'Lay “{band}”, the darkest part',
  'work.lay-middles': 'Lay “{band}”, between dark and light',
  'work.lay-second-darks': 'Lay “{band}”, the second darks',
  'work.lay-lights': 'Lay “{band}” with the form in it',
  'work.lay': 'Lay “{band}”',
  'work.unmask': 'Take the masking off',
  'work.marks': 'Set the last marks',
  'work.own': '{text}',
  'work.with': '{step} · {what}',
  'work.masses': 'masses: {count}',
  'work.mark-numbers': 'marks: {numbers}',
  'work.passages': 'passages: {passages}',
  'order.wait-masking-dry': 'Wait until the masking is dry.',
  'order.wait-tint-dry': 'Wait until the tint is dry.',
  'order.wait-hard-edges': 'Wait until all is dry: hard edges follow.',
  'order.wait-before-mask': 'Wait until the paper is bone dry.',
  'order.wait-before-unmask': 'Wait until the paint is bone dry.',
  'order.wait-before-marks': 'Wait until all is dry.',
  'order.hint-masking':
    'Masking goes on dry paper. Mind its label; work with the window open; test it on a strip of this paper.',
  'order.hint-wet-together': 'While the neighbours are wet: soft edges {edges}.',
  'order.hint-hard-while-wet': 'Leave a hair of dry paper where edges stay hard: {edges}.',
  'order.hint-large-session': 'A large wet part, {cm2} cm²: damp it first.',
  'order.hint-tint-below': 'The tint will show through all that is laid over it.',
  'order.hint-passages-run': 'Let these run into each other while wet: {passages}.',
  'order.hint-passages-apart': 'Keep these apart, the first dry before the second: {passages}.',
  'order.warn-covers-reserve': 'Covers a reserve, {mm2} mm²: its white is gone.',
  'order.warn-before-masking': 'Paints over what is masked later: its white will be gone.',
  'order.warn-after-unmasking':
    'The masking beside it is off already: what it kept must be painted around by hand.',
  'order.warn-on-masking': 'Paint on masking comes off with it.',
  'order.warn-narrow-reserve':
    'A reserve of {widthMm} mm beside it is narrower than the brush, {brushMm} mm.',
  'order.warn-tint-after-paint': 'The tint will draw colour from the masses beside it.',
  'order.warn-soft-dried': 'A soft edge turns hard: its other side has dried.',
  'order.warn-covers-marks': 'Covers marks that are set already: they must be set again.',
  'order.warn-still-masked': 'This masking is never taken off; left for long it harms the paper.',
  'order.warn-passages-wet':
    'Meant to stay apart, but the washes about them keep both wet: {passages}. Without a hair of dry paper between they bleed.',
  ...PAINT_STRINGS,
};

/** Sentences by their keys, with figures as text by the language's way of writing numbers. */
export class SheetWords {
  readonly #table: Readonly<Record<string, string>>;
  readonly #number: (digits: number) => Intl.NumberFormat;

  constructor(strings: Readonly<Record<string, string>>, language = 'en') {
    this.#table = strings;
    const formats = new Map<number, Intl.NumberFormat>();
    this.#number = (digits) => {
      const found =
        formats.get(digits) ??
        new Intl.NumberFormat(language, { maximumFractionDigits: digits, useGrouping: false });
      formats.set(digits, found);
      return found;
    };
  }

  /** The text of a key with its figures; `undefined` when there is none. */
  find(key: string, values: Readonly<Record<string, string | number>> = {}): string | undefined {
    if (!Object.hasOwn(this.#table, key)) return undefined;
    return this.#table[key].replace(/\{([a-zA-Z0-9]+)\}/g, (whole, name: string) => {
      const value = Object.hasOwn(values, name) ? values[name] : undefined;
      if (value === undefined) return whole;
      return typeof value === 'number' ? this.number(value, 1) : value;
    });
  }

  of(key: string, values: Readonly<Record<string, string | number>> = {}): string {
    return this.find(key, values) ?? key;
  }

  number(value: number, digits: number): string {
    return this.#number(digits).format(value);
  }
}
