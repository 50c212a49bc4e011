import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import {
  expectFewSwatches,
  expectFileText,
  readSwatches,
  swatchOfColour,
  ColourFault,
  type ReadSwatch,
  type ReadSwatches,
  visibleColour,
} from './exchange.js';

/**
 * The colours of a style sheet as swatches: every custom property whose value is a CSS colour (`--name: #7a5c3e;`), in the order of the
 * text, under any selector or none. `var()` is followed, in any order, with its fallback. All else in the text is passed over. Where the
 * same name has another value under another selector, as for a dark page, the first selector's stands; under the same selector the last.
 * Alpha is laid over white.
 *
 * @param text - CSS, at most 4 000 000 characters.
 * @returns At least one swatch; `findings` names the properties that look like colours and cannot be read.
 * @throws {SwatchesError}
 */
export function swatchesFromCss(text: string): ReadSwatches {
  return finish(swatchesFromCssKernel(text));
}

/** After so many declarations or properties reading may be paused. */
const AT_ONCE = 16;

/** {@link swatchesFromCss} in slices. */
export function* swatchesFromCssKernel(text: string): Kernel<ReadSwatches> {
  const findings: Reason[] = [];
  const properties = yield* customProperties(expectFileText(text), findings);
  const swatches: ReadSwatch[] = [];
  const values = new Values(properties);
  let count = 0;
  for (const [name, value] of properties) {
    if (count++ % AT_ONCE === 0) yield 0.5 + (0.5 * count) / properties.size;
    try {
      const css = visibleColour(values.of(name) ?? '');
      swatches.push(swatchOfColour(css, name.slice(2).replace(/[-_]+/g, ' ')));
    } catch (fault) {
      if (!(fault instanceof ColourFault)) throw fault;
      if (COLOUR_LIKE.test(value)) findings.push(reason(fault.code, { name, ...fault.values }));
    }
    expectFewSwatches(swatches.length);
  }
  return readSwatches(swatches, findings);
}

/** What must be a colour, whether it is understood or not. */
const COLOUR_LIKE =
  /^(#|transparent$|(var|rgba?|hsla?|hwb|lab|lch|oklab|oklch|color|color-mix|light-dark)\()/i;

/** Most steps of one reference, and most characters that references may make of one value. */
const MOST_STEPS = 50;
const MOST_TEXT = 1000;

/**
 * Values with what their `var()` stand for, each worked out once.
 * Source: CSS Custom Properties for Cascading Variables 1, "Using Cascading Variables".
 */
class Values {
  readonly #written: ReadonlyMap<string, string>;
  readonly #known = new Map<string, string>();

  constructor(written: ReadonlyMap<string, string>) {
    this.#written = written;
  }

  /** The value of a property, or `undefined` where there is none of that name. @throws {ColourFault} */
  of(name: string, steps: readonly string[] = []): string | undefined {
    const written = this.#written.get(name);
    if (written === undefined || this.#known.has(name)) return this.#known.get(name);
    const found = name.slice(0, 120);
    if (steps.includes(name)) throw new ColourFault('swatches.reference-circle', { found });
    if (steps.length >= MOST_STEPS)
      throw new ColourFault('swatches.reference-far', { found, limit: MOST_STEPS });
    const value = this.#substituted(written, [...steps, name]);
    this.#known.set(name, value);
    return value;
  }

  #substituted(value: string, steps: readonly string[]): string {
    const at = value.search(/(?<![\w-])var\(/i);
    if (at < 0) return value;
    const open = at + 'var('.length;
    const close = closingOf(value, open);
    const put = this.#standsFor(value.slice(open, close), steps);
    const text = value.slice(0, at) + put + value.slice(close + 1);
    if (text.length > MOST_TEXT)
      throw new ColourFault('swatches.colour-unreadable', { found: value.slice(0, 120) });
    return this.#substituted(text, steps);
  }

  /** What stands for the inside of a `var()`: the property named, else what follows the comma. */
  #standsFor(inside: string, steps: readonly string[]): string {
    const comma = inside.indexOf(',');
    const named = identifier((comma < 0 ? inside : inside.slice(0, comma)).trim()) ?? '';
    const value = this.of(named, steps);
    if (value !== undefined) return value;
    if (comma >= 0) return this.#substituted(inside.slice(comma + 1).trim(), steps);
    throw new ColourFault('swatches.reference-missing', { found: named.slice(0, 120) });
  }
}

/** Where the parenthesis that is open before `from` ends; the end of the text when it does not. */
function closingOf(text: string, from: number): number {
  let depth = 1;
  for (let at = from; at < text.length; at = nextOf(text, at)) {
    if (text[at] === '(') depth++;
    else if (text[at] === ')' && --depth === 0) return at;
  }
  return text.length;
}

/* Reading a style sheet, as far as custom properties need it (CSS Syntax 3). */

const IDENTIFIER = /^(?:[\w-]|[^\0-\x7f]|\\[0-9a-f]{1,6}\s?|\\[^\n0-9a-f])+/i;
/** The name of a custom property up to its colon. */
const DECLARATION = new RegExp(`^(--${IDENTIFIER.source.slice(1)})\\s*:`, 'i');

/** The custom properties of a style sheet, escapes in names resolved. */
function* customProperties(text: string, findings: Reason[]): Kernel<Map<string, string>> {
  const found = new Map<string, { value: string; scope: string }>();
  const plain = withoutComments(text);
  let count = 0;
  for (const { scope, piece, end } of declarations(plain)) {
    if (count++ % AT_ONCE === 0) yield (0.5 * end) / plain.length;
    const [head, written] = DECLARATION.exec(piece) ?? [];
    const name = written === undefined ? '' : (identifier(written) ?? '');
    if (head === undefined || name.length <= 2) continue;
    const value = piece
      .slice(head.length)
      .replace(/!\s*important\s*$/i, '')
      .trim();
    const first = found.get(name);
    if (!first || first.scope === scope) found.set(name, { value, scope });
    else if (first.value !== value) findings.push(reason('swatches.again', { name }));
  }
  return new Map([...found].map(([name, { value }]) => [name, value]));
}

/** Everything that stands where a declaration may stand, with the selectors about it and where it ends. */
function* declarations(text: string): Generator<{ scope: string; piece: string; end: number }> {
  const scopes: string[] = [];
  const scope = (): string => scopes.join(' { ');
  let start = 0;
  let depth = 0;
  for (let at = 0; at < text.length; at = nextOf(text, at)) {
    const sign = text[at];
    const piece = (): string => text.slice(start, at).trim();
    if ('([{'.includes(sign) && (depth > 0 || sign !== '{' || /^--[^;{]*:/.test(piece()))) depth++;
    else if (depth > 0) depth -= ')]}'.includes(sign) ? 1 : 0;
    else if (sign === '{') {
      scopes.push(piece().replace(/\s+/g, ' '));
      start = at + 1;
    } else if (sign === ';' || sign === '}') {
      yield { scope: scope(), piece: piece(), end: at };
      if (sign === '}') scopes.pop();
      start = at + 1;
    }
  }
  yield { scope: scope(), piece: text.slice(start).trim(), end: text.length };
}

/** Where the sign behind the one at `at` begins: strings and escaped signs count as one. */
function nextOf(text: string, at: number): number {
  const sign = text[at];
  if (sign === '\\') return at + 2;
  if (sign !== '"' && sign !== "'") return at + 1;
  for (let end = at + 1; end < text.length; end++) {
    if (text[end] === '\\') end++;
    else if (text[end] === sign || text[end] === '\n') return end + 1;
  }
  return text.length;
}

/** The text with a space in place of each comment; signs in strings begin none. */
function withoutComments(text: string): string {
  let kept = '';
  let start = 0;
  for (let at = 0; at < text.length; at = nextOf(text, at)) {
    if (text[at] !== '/' || text[at + 1] !== '*') continue;
    const end = text.indexOf('*/', at + 2);
    kept += `${text.slice(start, at)} `;
    start = end < 0 ? text.length : end + 2;
    at = start - 1;
  }
  return kept + text.slice(start);
}

/** An identifier with its escapes resolved; `undefined` for what is none. */
function identifier(text: string): string | undefined {
  if (IDENTIFIER.exec(text)?.[0] !== text) return undefined;
  return text.replace(/\\([0-9a-f]{1,6})\s?|\\(.)/gi, (_, code?: string, sign?: string) => {
    const point = parseInt(code ?? '', 16);
    if (sign !== undefined) return sign;
    return point === 0 || point > 0x10ffff ? '\ufffd' : String.fromCodePoint(point);
  });
}
