import type { Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import { DOCUMENT_LIMITS } from '../base/schema.js';
import { SwatchesError, ColourFault, type SwatchFileCode } from './exchange.js';

/**
 * A file of design tokens as a tree: groups with what they extend, the types that tokens inherit, references followed.
 *
 * Source: Design Tokens Community Group, Format Module 2025.10 (groups, `$extends`, `$root`, types, aliases and JSON Pointers, RFC 6901).
 */

/** An object of a file. */
export type Entry = Readonly<Record<string, unknown>>;

/** A token and where it stands. */
export interface Token {
  /** The names of its groups and its own. */
  path: readonly string[];
  entry: Entry;
  /** The type of the nearest group that has one. */
  groupType?: string;
}

/** Most steps of one reference. */
const MOST_STEPS = 50;
/** After so many tokens gathering may be paused; how far reading has come by then. */
const AT_ONCE = 256;
const GATHERING = 0.3;

export const isEntry = (value: unknown): value is Entry =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

const has = (entry: object, key: string): boolean => Object.hasOwn(entry, key);
const isToken = (entry: Entry): boolean => has(entry, '$value') || has(entry, '$ref');
const isGroup = (value: unknown): value is Entry => isEntry(value) && !isToken(value);
const isAlias = (value: unknown): value is string =>
  typeof value === 'string' && value.startsWith('{') && value.endsWith('}');
const isPointer = (value: unknown): value is { $ref: unknown } =>
  isEntry(value) && has(value, '$ref') && Object.keys(value).length === 1;

export class TokenTree {
  readonly #root: Entry;
  readonly #tokens = new Map<string, Token>();
  /** Entries of groups looked at so far, those they inherit included: a small file can unfold into very many. */
  #parts = 0;
  /** What was found about groups and tokens of an unclear form. */
  readonly findings: Reason[] = [];

  private constructor(root: Entry) {
    this.#root = root;
  }

  /** Reads a file, in slices. @throws {SwatchesError} when groups unfold into too many tokens or too deep */
  static *of(root: Entry): Kernel<TokenTree> {
    const tree = new TokenTree(root);
    yield* tree.#gather(root, [], undefined, []);
    return tree;
  }

  /** How many tokens there are. */
  get size(): number {
    return this.#tokens.size;
  }

  /** All tokens, those that groups inherit included, in the order of the file. */
  get tokens(): Iterable<Token> {
    return this.#tokens.values();
  }

  /** The type of a token: its own, else that of what it names, else that of its groups. */
  typeOf(token: Token, steps: readonly string[] = []): string | undefined {
    const { $type, $value, $ref } = token.entry;
    if (typeof $type === 'string') return $type;
    if ($type !== undefined) return undefined;
    const reference = isAlias($value) ? $value : isPointer($value) ? $value.$ref : $ref;
    if (typeof reference !== 'string') return token.groupType;
    const { token: named, rest } = this.#named(reference);
    const further = followed(steps, reference);
    return (rest.length <= 1 ? this.typeOf(named, further) : undefined) ?? token.groupType;
  }

  /** The value of a token, references followed. @throws {ColourFault} */
  valueOf(token: Token): unknown {
    return this.#valueOf(token, []);
  }

  /** A part of a value, the reference in its place followed. @throws {ColourFault} */
  partOf(value: Entry, key: string): unknown {
    return has(value, key) ? this.#resolved(value[key], []) : undefined;
  }

  /** A list in which references may stand in place of items. @throws {ColourFault} */
  itemsOf(list: readonly unknown[]): unknown[] {
    return list.map((item) => (isPointer(item) ? this.#resolved(item, []) : item));
  }

  *#gather(
    written: Entry,
    path: readonly string[],
    outerType: string | undefined,
    within: readonly Entry[],
  ): Kernel<void> {
    const seen = [...within, written];
    const group = this.#extended(written, path, seen);
    this.#expectRoom(path.length, Object.keys(group).length);
    const type = typeof group.$type === 'string' ? group.$type : outerType;
    for (const [name, entry] of Object.entries(group)) {
      if (!isEntry(entry) || (name.startsWith('$') && name !== '$root')) continue;
      if (isToken(entry)) this.#take([...path, name], entry, type);
      else if (name !== '$root') yield* this.#gather(entry, [...path, name], type, seen);
      if (this.#tokens.size % AT_ONCE === 0) yield GATHERING;
    }
  }

  #take(path: readonly string[], entry: Entry, groupType: string | undefined): void {
    const clear =
      has(entry, '$value') !== has(entry, '$ref') &&
      Object.keys(entry).every((key) => key.startsWith('$'));
    if (!clear) {
      this.#find('swatches.token-unclear', path);
      return;
    }
    this.#tokens.set(path.join('.'), { path, entry, groupType });
  }

  #expectRoom(depth: number, parts: number): void {
    this.#parts += parts;
    const fault = (code: string, limit: number): SwatchesError =>
      new SwatchesError([reason(`swatches.${code}`, { path: '$', limit })]);
    if (depth > DOCUMENT_LIMITS.depth) throw fault('too-deep', DOCUMENT_LIMITS.depth);
    if (this.#parts > DOCUMENT_LIMITS.parts) throw fault('too-large', DOCUMENT_LIMITS.parts);
  }

  #find(code: SwatchFileCode, path: readonly string[], values: Reason['values'] = {}): void {
    this.findings.push(reason(code, { name: path.join('.'), ...values }));
  }

  /** A group with what it inherits: its own tokens go before those of the group it extends. */
  #extended(group: Entry, path: readonly string[], seen: Entry[]): Entry {
    if (!has(group, '$extends')) return group;
    const found = String(group.$extends).slice(0, 120);
    const base = this.#groupAt(group.$extends);
    if (!base) {
      this.#find('swatches.reference-missing', path, { found });
      return group;
    }
    if (seen.includes(base)) {
      this.#find('swatches.reference-circle', path, { found });
      return group;
    }
    seen.push(base);
    this.#expectRoom(path.length, Object.keys(base).length);
    return merged(this.#extended(base, path, seen), group);
  }

  #groupAt(reference: unknown): Entry | undefined {
    if (typeof reference !== 'string') return undefined;
    let group: unknown = this.#root;
    for (const name of isAlias(reference) ? aliasPath(reference) : pointerPath(reference))
      group = isGroup(group) && has(group, name) ? group[name] : undefined;
    return isGroup(group) ? group : undefined;
  }

  #valueOf({ entry }: Token, steps: readonly string[]): unknown {
    return has(entry, '$ref')
      ? this.#pointed(entry.$ref, steps)
      : this.#resolved(entry.$value, steps);
  }

  #resolved(value: unknown, steps: readonly string[]): unknown {
    if (isAlias(value) || isPointer(value))
      return this.#pointed(isAlias(value) ? value : value.$ref, steps);
    return value;
  }

  /** What a reference of either form points at, followed to its end. */
  #pointed(reference: unknown, steps: readonly string[]): unknown {
    const { token, rest } = this.#named(reference);
    const further = followed(steps, reference as string);
    let value = this.#valueOf(token, further);
    for (const key of rest.slice(1)) {
      if (!holds(value, key)) throw missing(reference);
      value = this.#resolved(value[key], further);
    }
    return value;
  }

  /** The token a reference names, and its path from there (`['$value', …]`; empty for an alias). */
  #named(reference: unknown): { token: Token; rest: readonly string[] } {
    if (typeof reference !== 'string') throw missing(reference);
    if (isAlias(reference)) {
      const token = this.#tokens.get(reference.slice(1, -1));
      if (!token) throw missing(reference);
      return { token, rest: [] };
    }
    const path = pointerPath(reference);
    const at = path.indexOf('$value');
    const token = at < 0 ? undefined : this.#tokens.get(path.slice(0, at).join('.'));
    if (!token) throw missing(reference);
    return { token, rest: path.slice(at) };
  }
}

/** Whether a value has such a part; places of lists are whole numbers without leading zeros (RFC 6901, 4). */
const holds = (value: unknown, key: string): value is Entry =>
  Array.isArray(value)
    ? /^(0|[1-9]\d*)$/.test(key) && has(value, key)
    : isEntry(value) && has(value, key);

const missing = (reference: unknown): ColourFault =>
  new ColourFault('swatches.reference-missing', { found: String(reference).slice(0, 120) });

/** The steps taken so far and one more. @throws {ColourFault} in a circle, and when the way is too long */
function followed(steps: readonly string[], reference: string): readonly string[] {
  const found = reference.slice(0, 120);
  if (steps.includes(reference)) throw new ColourFault('swatches.reference-circle', { found });
  if (steps.length >= MOST_STEPS)
    throw new ColourFault('swatches.reference-far', { found, limit: MOST_STEPS });
  return [...steps, reference];
}

const aliasPath = (alias: string): string[] => alias.slice(1, -1).split('.');

/** The names in a JSON Pointer as a URI fragment (RFC 6901, 6); none when it is no such pointer. */
function pointerPath(pointer: string): string[] {
  if (!pointer.startsWith('#/')) return [''];
  try {
    const text = decodeURIComponent(pointer.slice(2));
    return text.split('/').map((name) => name.replaceAll('~1', '/').replaceAll('~0', '~'));
  } catch {
    return [''];
  }
}

/** Two groups as one: what `own` has goes before `base`, groups of the same name become one. */
function merged(base: Entry, own: Entry): Entry {
  const both: Record<string, unknown> = { ...base, ...own };
  delete both.$extends;
  for (const [name, entry] of Object.entries(own)) {
    const inherited = has(base, name) ? base[name] : undefined;
    if (name.startsWith('$') || !isGroup(entry) || !isGroup(inherited)) continue;
    const $extends = entry.$extends ?? inherited.$extends;
    both[name] = { ...merged(inherited, entry), ...($extends === undefined ? {} : { $extends }) };
  }
  return both;
}
