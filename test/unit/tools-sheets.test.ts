/** Sheet sizes, units, and small pictures. */
import { describe, expect, it } from 'vitest';
import { inMm, inUnit, unitOfLocale } from '../../components/shared/measure.js';
import { sheetOf, SHEETS } from '../../components/value-band-viewer/tools/sheets.js';
import { smallPlane } from '../../components/value-band-viewer/tools/small-plane.js';
import { toolsWords } from '../../components/shared/words/tools.js';

describe('sheets', () => {
  it('are those of ISO 216 where they say so', () => {
    // ISO 216, A series, trimmed sizes in mm
    const iso216 = { a5: [148, 210], a4: [210, 297], a3: [297, 420], a2: [420, 594] };
    const found = Object.fromEntries(
      SHEETS.filter(({ source }) => source === 'iso').map(({ key, short, long }) => [
        key,
        [short, long],
      ]),
    );
    expect(found).toEqual(iso216);
  });

  it('halve one another as sheets do: quarter, half and full', () => {
    // Common trade sizes in inches: full sheet 22 x 30, half 15 x 22, quarter 11 x 15, eighth 7.5 x 11; 1 in is 25.4 mm
    const [eighth, quarter, half, full] = ['eighth', 'quarter', 'half', 'full'].map((key) =>
      SHEETS.find((sheet) => sheet.key === key)!,
    );
    expect([full.short, full.long]).toEqual([22 * 25.4, 30 * 25.4]);
    for (const [small, large] of [
      [half, full],
      [quarter, half],
      [eighth, quarter],
    ]) {
      expect(small.long).toBeCloseTo(large.short, 9);
      expect(small.short).toBeCloseTo(large.long / 2, 9);
    }
  });

  it('tell their sizes in their names', () => {
    for (const { key, long, short } of SHEETS) {
      const words = toolsWords[`sheet.${key}`];
      const [, a, b, unit] = /([\d½]+) x ([\d½]+) (in|mm)$/.exec(words)!;
      const mm = (text: string): number =>
        Number(text.replace('½', '.5')) * (unit === 'in' ? 25.4 : 1);
      expect([mm(a), mm(b)]).toEqual([expect.closeTo(long, 6), expect.closeTo(short, 6)]);
    }
  });

  it('are known whichever way they lie', () => {
    expect(sheetOf(381, 279.4)?.key).toBe('quarter');
    expect(sheetOf(210, 297)?.key).toBe('a4');
    expect(sheetOf(297.4, 209.7)?.key).toBe('a4');
    expect(sheetOf(300, 300)).toBeUndefined();
  });
});

describe('units', () => {
  it('are inches in the United States and millimetres elsewhere', () => {
    expect(unitOfLocale('en-US')).toBe('in');
    expect(unitOfLocale('es-US')).toBe('in');
    for (const locale of ['en', 'en-GB', 'de-CH', 'ar-EG', '', 'not a tag'])
      expect(unitOfLocale(locale)).toBe('mm');
  });

  it('are written as one would write them and come back', () => {
    expect(inUnit(279.4, 'in')).toBe(11);
    expect(inUnit(279.4, 'mm')).toBe(279.4);
    expect(inUnit(210, 'in')).toBe(8.27);
    expect(inMm(11, 'in')).toBeCloseTo(279.4, 9);
    expect(inMm(210, 'mm')).toBe(210);
  });
});

describe('a small picture', () => {
  it('keeps the proportion and the mean of even areas', () => {
    const width = 640;
    const height = 480;
    // four quarters of one code each
    const data = Uint8Array.from({ length: width * height }, (_, i) => {
      const right = i % width >= width / 2;
      const low = Math.floor(i / width) >= height / 2;
      return right ? (low ? 200 : 150) : low ? 100 : 50;
    });
    const small = smallPlane({ width, height, data }, 160);
    expect([small.width, small.height]).toEqual([160, 120]);
    expect(small.data).toHaveLength(160 * 120);
    const at = (x: number, y: number): number => small.data[y * 160 + x];
    expect([at(0, 0), at(159, 0), at(0, 119), at(159, 119)]).toEqual([50, 150, 100, 200]);
    expect([at(79, 59), at(80, 60)]).toEqual([50, 200]);
  });

  it('means over each cell', () => {
    const small = smallPlane(
      { width: 4, height: 2, data: Uint8Array.of(0, 10, 100, 200, 20, 30, 100, 200) },
      2,
    );
    expect([small.width, small.height]).toEqual([2, 1]);
    expect([...small.data]).toEqual([15, 150]);
  });

  it('copies what is small already', () => {
    const plane = { width: 3, height: 1, data: Uint8Array.of(1, 2, 3) };
    const small = smallPlane(plane, 160);
    expect(small).toEqual(plane);
    expect(small.data).not.toBe(plane.data);
  });

  it('never vanishes', () => {
    const strip = smallPlane({ width: 4000, height: 2, data: new Uint8Array(8000).fill(9) }, 160);
    expect([strip.width, strip.height]).toEqual([160, 1]);
  });
});
