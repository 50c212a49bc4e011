/**
 * What is told of a sheet as doubtful: no rim of paper, colours that a camera cuts off, shadows that look like dabs, coarse files. Photographs
 * by the tests' camera (test/synthetic/camera.ts) at fixed seeds.
 */
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { jpegTables } from '../../core/index.js';
import { readSheet, type SheetReading } from '../../core/swatch/index.js';
import { photograph, type CameraOptions } from '../synthetic/camera.js';
import { linearOf, paintedSheet, type PaintedDab } from '../synthetic/sheet.js';

const dabs: PaintedDab[] = [30, 45, 60, 70, 80, 88].map((L, i) => ({
  at: [0.2 + 0.3 * (i % 3), 0.3 + 0.4 * Math.floor(i / 3)],
  radius: [0.05, 0.07],
  lab: [L, 8, 14],
}));
const sheet = paintedSheet({ width: 900, height: 600, paper: [95, 0, 0], dabs, seed: 3 });
const camera: CameraOptions = {
  seed: 3,
  width: 900,
  height: 640,
  exposure: 0.88,
  table: [0.1, 0.08, 0.06],
  corners: [
    [60, 50],
    [840, 60],
    [820, 590],
    [50, 580],
  ],
  noise: { electrons: 5000, read: 4 },
};
const shot = (options: Partial<CameraOptions> = {}): ReturnType<typeof photograph> =>
  photograph(sheet, { ...camera, ...options });
const codes = (reasons: readonly { code: string }[]): string[] => reasons.map(({ code }) => code);
const doubts = ({ swatches }: SheetReading): string[][] =>
  swatches.map(({ reasons = [] }) => codes(reasons));

describe('a table as light as the paper', { timeout: 60_000 }, () => {
  it('is not taken silently for paper: no rim is seen', () => {
    const paper = linearOf([95, 0, 0]);
    const reading = readSheet(shot({ table: paper }));
    expect(codes(reading.limits)).toContain('sheet.no-rim');
    const set = readSheet(shot({ table: paper }), { corners: camera.corners });
    expect(codes(set.limits)).not.toContain('sheet.no-rim');
    expect(codes(readSheet(shot()).limits)).not.toContain('sheet.no-rim');
  });
});

describe('a shadow with a hard edge', { timeout: 60_000 }, () => {
  const hard = (at: [number, number], radius: [number, number], depth: number): SheetReading =>
    readSheet(shot({ shadows: [{ at, radius, softness: 0, depth }] }));

  it.each([0.3, 0.5])('that takes %f of the light is asked about, no dab is', (depth) => {
    const reading = hard([0.36, 0.5], [0.1, 0.1], depth);
    const asked = reading.swatches.filter(({ reasons = [] }) =>
      codes(reasons).includes('dab.maybe-shadow'),
    );
    expect(reading.swatches.length - asked.length).toBe(dabs.length);
    expect(asked.length + (codes(reading.warnings).includes('sheet.shadow') ? 1 : 0)).toBe(1);
    if (asked.length > 0) expect(codes(reading.warnings)).toContain('sheet.maybe-shadow');
  });

  it('is not seen in dabs of paint, nor in a strip of painted greys', () => {
    expect(doubts(readSheet(shot())).flat()).toEqual([]);
    const greys: PaintedDab[] = [30, 50, 70, 85].map((L, i) => ({
      at: [0.2 + 0.2 * i, 0.5],
      radius: [0.05, 0.08],
      lab: [L, 0, 0],
    }));
    const strip = paintedSheet({
      width: 900,
      height: 600,
      paper: [95, 0, 0],
      dabs: greys,
      seed: 4,
    });
    const reading = readSheet(photograph(strip, camera));
    expect(reading.swatches).toHaveLength(4);
    expect(doubts(reading).flat()).toEqual([]);
  });
});

describe('a file that keeps tones coarsely', { timeout: 60_000 }, () => {
  const readAt = (quality: number) => {
    const { width, height, data } = shot({ noise: undefined });
    const file = jpeg.encode({ width, height, data: new Uint8Array(data) }, quality).data;
    const back = jpeg.decode(file, { useTArray: true });
    return {
      reading: readSheet(
        { width, height, data: back.data },
        { jpeg: jpegTables(new Uint8Array(file)) },
      ),
      plain: readSheet({ width, height, data: back.data }),
    };
  };

  it.each([90, 75])('at quality %i is good enough: not told, nothing less sure', (quality) => {
    const { reading, plain } = readAt(quality);
    expect(codes(reading.warnings)).toEqual([]);
    expect(reading).toEqual(plain);
  });

  it.each([10, 20])(
    'at quality %i is told, and each dab lies within its uncertainty',
    (quality) => {
      const { reading } = readAt(quality);
      expect(reading.warnings).toContainEqual({ code: 'sheet.compressed', values: { quality } });
      expect(reading.swatches).toHaveLength(dabs.length);
      const read = reading.swatches.slice().sort((a, b) => a.lab[0] - b.lab[0]);
      read.forEach(({ lab, uncertainty }, i) =>
        expect(Math.abs(lab[0] - dabs[i].lab[0])).toBeLessThan(uncertainty),
      );
    },
  );

  it('wrong tables are refused by name', () => {
    const wrong = { quality: 0, lumaStep: 2, chromaStep: 2 };
    expect(() => readSheet(shot(), { jpeg: wrong })).toThrow(/options\.jpeg\.quality/);
  });
});
