/**
 * The words of the printed plan, English. Figures stand in braces; they come as text, lengths in mm. A page in another language passes
 * its own under the same keys.
 */
export const SHEET_STRINGS: Readonly<Record<string, string>> = {
  'sheet.untitled': 'Plan of a painting',
  'sheet.facts': 'Paper {width} × {height} mm · brush {brush} · {way}',
  'sheet.facts-plain': 'Paper {width} × {height} mm · {way}',
  'sheet.brush': '{name}, {tip} to {pressed} mm',
  'sheet.way-direct': 'darks first, each laid once',
  'sheet.way-light-to-dark': 'light to dark',
  'sheet.scale-true': 'True size',
  'sheet.scale': 'Reduced: 1 mm here is {times} mm on the paper',
  'sheet.mirrored': 'mirrored',
  'sheet.squares': 'squares of {mm} mm, counted from the left and from the top',
  'sheet.key-hard': 'hard edge',
  'sheet.key-soft': 'soft edge',
  'sheet.key-lost': 'lost edge: no line',
  'sheet.key-bare': 'stays paper',
  'sheet.key-mask': 'masked',
  'sheet.key-tint': 'tinted pale first',
  'sheet.key-light-mark': 'light mark',
  'sheet.key-dark-mark': 'dark mark',
  'sheet.key-stroke': 'way of the brush',
  'sheet.key-step': 'its step',
  'sheet.values': 'Values and dabs',
  'sheet.band-values': 'value {low} to {high}',
  'sheet.band-share': 'L* {from} to {to} · {share} %',
  'sheet.paper-band': 'bare paper',
  'sheet.paper-value': 'value {value}',
  'sheet.dabs-strip':
    'Tape a strip of the painting’s own paper into the frame: a dab for each band.',
  'sheet.recipe-part': '{parts} {tube}',
  'sheet.recipe-join': ' + ',
  'sheet.order': 'Order of work',
  'sheet.order-on': 'Order of work, continued',
  'sheet.order-more': 'The rest is on the next page.',
  'sheet.cautions': 'Cautions',
  'sheet.caution-label': 'Paints and masking: what the label says comes first.',
  'sheet.rule': '100 mm. Measure this line after printing: print at 100 %, not fitted to the page.',
  'sheet.tile': '{title}: part {part} of {parts}, row {row}, place {column}',
  'sheet.tile-whole': '{title}: at true size',
  'sheet.tile-join': 'Parts overlap by {mm} mm: lay cross on cross.',
  'sheet.mark-sizes': 'Marks, widths on the paper',
  'sheet.mark-light': '{number} light, {mm} mm',
  'sheet.mark-dark': '{number} dark, {mm} mm',
  'step.keep': 'Draw what stays paper, and leave it',
  'step.mask': 'Mask',
  'step.tint': 'Tint pale',
  'step.ground': 'Wash in the ground',
  'step.lay-darkest': 'Lay the darkest darks: {band}',
  'step.lay-middles': 'Lay the middles: {band}',
  'step.lay-second-darks': 'Lay the second darks: {band}',
  'step.lay-lights': 'Lay the lights with their form: {band}',
  'step.lay': 'Lay {band}',
  'step.unmask': 'Take the masking off',
  'step.marks': 'Set the last marks',
  'step.own': '{text}',
  'step.with': '{step} · {what}',
  'step.masses': 'masses: {count}',
  'step.mark-numbers': 'marks: {numbers}',
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
  'order.warn-covers-reserve': 'Covers a reserve, {mm2} mm²: its white is gone.',
  'order.warn-before-masking': 'Paints over what is masked later.',
  'order.warn-after-unmasking': 'The masking beside it is off already: paint around by hand.',
  'order.warn-on-masking': 'Paint on masking comes off with it.',
  'order.warn-narrow-reserve':
    'A reserve of {widthMm} mm beside it is narrower than the brush, {brushMm} mm.',
  'order.warn-tint-after-paint': 'The tint will draw colour from the masses beside it.',
  'order.warn-soft-dried': 'A soft edge turns hard: its other side has dried.',
  'order.warn-covers-marks': 'Covers marks that are set already.',
  'order.warn-still-masked': 'This masking is never taken off; left for long it harms the paper.',
};

/** Figures as text, by the language's way of writing numbers. */
export class SheetWords {
  readonly #table: Readonly<Record<string, string>>;
  readonly #number: (digits: number) => Intl.NumberFormat;

  constructor(strings: Readonly<Record<string, string>> = {}, language = 'en') {
    this.#table = { ...SHEET_STRINGS, ...strings };
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
