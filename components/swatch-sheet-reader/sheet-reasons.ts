import { leanOf, munsellValue, type Lab, type Reason } from '../shared/core.js';

type Say = (key: string, values?: Record<string, string | number>) => string;

/** Figures that are L* and are told as values. */
const IN_VALUE: Readonly<Record<string, readonly string[]>> = {
  'sheet.dark': ['lightness'],
  'sheet.paper-assumed': ['lightness'],
  'card.fits': ['limit', 'lightness'],
  'card.too-dark': ['limit', 'lightness'],
  'card.too-light': ['limit', 'lightness'],
  'card.unsure': ['limit', 'lightness'],
  'card.missing': ['limit'],
  'card.coloured': ['limit'],
  'card.blotchy': ['limit'],
};

/** Figures that are shares and are told in percent. */
const SHARES: ReadonlySet<string> = new Set(['share', 'width']);

const valueOf = (lightness: number): number => munsellValue(Math.min(100, Math.max(0, lightness)));

/** A finding about a sheet, a card or a habit with the figures that its sentence tells. */
export function reasonFigures(
  { code, values }: Reason,
  say: Say,
  tubeName: (id: string) => string,
): Reason {
  const told: Record<string, string | number> = { ...values };
  for (const [key, figure] of Object.entries(values))
    if (typeof figure === 'number' && SHARES.has(key)) told[key] = Math.round(1000 * figure) / 10;
  for (const key of IN_VALUE[code] ?? []) {
    const figure = values[key];
    if (typeof figure === 'number') told[key] = valueOf(figure);
  }
  if (code === 'sheet.coloured-paper' && typeof values.hue === 'number') {
    const angle = (values.hue * Math.PI) / 180;
    const lab: Lab = [80, 20 * Math.cos(angle), 20 * Math.sin(angle)];
    told.lean = say(`lean.${leanOf(lab).name}`);
  }
  if (code === 'sheet.empty-place') {
    told.column = Number(values.column) + 1;
    told.place = Number(values.place) + 1;
  }
  if (code.startsWith('habit.')) {
    if (typeof values.range === 'string') told.range = say(`reader.range-${values.range}`);
    if (typeof values.tube === 'string') told.tube = tubeName(values.tube);
    if (typeof values.wet === 'string') told.wet = say(`reader.wet-${values.wet}`);
  }
  return { code, values: told };
}
