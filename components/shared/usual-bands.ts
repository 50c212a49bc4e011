import { withBandNamed, type Plan } from './core.js';

/** Says a word, as an element does. */
export type Say = (key: string, values?: Record<string, string | number>) => string;

/** Bands as painters call them, darkest first, by their number; their words are `usual.` and the name. */
const USUAL: Readonly<Record<number, readonly string[]>> = {
  2: ['dark', 'light'],
  3: ['dark', 'middle', 'light'],
  4: ['dark', 'dark-middle', 'light-middle', 'light'],
  5: ['dark', 'dark-middle', 'middle', 'light-middle', 'light'],
};

/** The usual names of two to five bands, darkest first; none for other numbers. */
export function usualNames(count: number, say: Say): string[] {
  return (USUAL[count] ?? []).map((name) => say(`usual.${name}`));
}

/** A name that no band has yet: the one that is meant, with a number behind it where it is taken. */
export function freeName(wanted: string, bands: readonly { name: string }[]): string {
  const taken = new Set(bands.map(({ name }) => name));
  let name = wanted;
  for (let number = 2; taken.has(name); number++) name = `${wanted} ${number}`;
  return name;
}

/** A new plan's bands and brushes in the words of a language; the core names them in English. */
export function inWords(plan: Plan, say: Say): Plan {
  const named = usualNames(plan.board.bands.length, say).reduce(
    (each, name, band) => withBandNamed(each, band, name),
    plan,
  );
  const brushes = plan.brushes.map((brush) => {
    const [, size] = /^round (\d+)$/.exec(brush.name) ?? [];
    return size ? { ...brush, name: say('usual.round', { size }) } : brush;
  });
  return { ...named, brushes };
}
