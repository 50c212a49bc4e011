import { describe, expect, it } from 'vitest';
import {
  reserveAdvice,
  reservesOf,
  type Mark,
  type Masses,
  type Reserve,
} from '../../core/index.js';
import { massesOfLabels } from './masses-helper.js';

/** A light shape (label 2) on a dark ground (label 0). */
function lightShape(
  width: number,
  height: number,
  inside: (x: number, y: number) => boolean,
): Masses {
  const drawn = Array.from({ length: width * height }, (_, at) =>
    inside((at % width) + 0.5, Math.floor(at / width) + 0.5) ? 2 : 0,
  );
  return massesOfLabels(drawn, width, height);
}

const narrowest = (masses: Masses, brushPx = 20): number => {
  const reserves = reservesOf(masses, { brushPx });
  expect(reserves).toHaveLength(1);
  return reserves[0].narrowestPx;
};

describe('reservesOf', () => {
  it('finds the regions of the lightest band with their areas', () => {
    const masses = massesOfLabels([2, 2, 0, 1, 0, 2, 1, 2, 2], 9, 1);
    // Three runs of the lightest label are one id in the helper: give them ids of their own.
    const apart = massesOfLabels([2, 2, 0, 1, 0, 3, 1, 4, 4], 9, 1, (label) => Math.min(2, label));
    expect(reservesOf(masses, { brushPx: 1 })).toHaveLength(1);
    expect(reservesOf(apart, { brushPx: 3 })).toEqual<Reserve[]>([
      { region: 0, area: 2, narrowestPx: 1, mask: true },
      { region: 3, area: 1, narrowestPx: 1, mask: true },
      { region: 4, area: 2, narrowestPx: 1, mask: true },
    ]);
  });

  it('is the shorter side of an upright rectangle, odd or even', () => {
    for (const [w, h] of [
      [1, 1],
      [1, 9],
      [2, 2],
      [4, 30],
      [5, 30],
      [30, 6],
      [13, 13],
    ]) {
      const masses = lightShape(40, 40, (x, y) => x > 3 && x < 3 + w && y > 4 && y < 4 + h);
      expect(narrowest(masses)).toBe(Math.min(w, h));
    }
  });

  it('is the width of a slanted strip within a pixel', () => {
    for (const degrees of [10, 30, 45, 63, 80]) {
      const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      const masses = lightShape(
        120,
        120,
        (x, y) =>
          Math.abs((x - 60) * s - (y - 60) * c) < 4.5 && Math.abs((x - 60) * c + (y - 60) * s) < 45,
      );
      expect(Math.abs(narrowest(masses) - 9)).toBeLessThanOrEqual(1);
    }
  });

  it('does not count the tips of a triangle: its largest disc is what it holds', () => {
    // Sides 90, 120, 150: the inscribed circle has radius 2 x area / perimeter = 30.
    const masses = lightShape(
      130,
      100,
      (x, y) => x > 4 && y > 4 && (x - 4) / 120 + (y - 4) / 90 < 1,
    );
    expect(Math.abs(narrowest(masses) - 60)).toBeLessThanOrEqual(1.5);
  });

  it('is the diameter of a disc', () => {
    const masses = lightShape(60, 60, (x, y) => Math.hypot(x - 30, y - 30) < 21);
    expect(Math.abs(narrowest(masses) - 42)).toBeLessThanOrEqual(1);
  });

  it('is the waist of an hourglass', () => {
    const masses = lightShape(
      80,
      120,
      (x, y) => y > 6 && y < 114 && Math.abs(x - 40) < 4 + Math.abs(y - 60) * 0.5,
    );
    expect(Math.abs(narrowest(masses) - 8)).toBeLessThanOrEqual(1);
  });

  it('is the bar of a dumb-bell, straight or slanted', () => {
    const upright = lightShape(
      120,
      60,
      (x, y) =>
        Math.hypot(x - 25, y - 30) < 18 ||
        Math.hypot(x - 95, y - 30) < 14 ||
        (x > 25 && x < 95 && Math.abs(y - 30) < 3),
    );
    expect(narrowest(upright)).toBe(6);
    const slanted = lightShape(
      120,
      120,
      (x, y) =>
        Math.hypot(x - 25, y - 25) < 18 ||
        Math.hypot(x - 95, y - 95) < 14 ||
        (x + y > 50 && x + y < 190 && Math.abs(x - y) < 5 * Math.SQRT2),
    );
    expect(Math.abs(narrowest(slanted) - 10)).toBeLessThanOrEqual(1);
  });

  it('is the bridge beside a hole', () => {
    // A hole of radius 10 whose middle is off by 8 in a disc of radius 25: the bridge is 25 - 8 - 10 = 7 wide.
    const masses = lightShape(
      60,
      60,
      (x, y) => Math.hypot(x - 30, y - 30) < 25 && Math.hypot(x - 38, y - 30) >= 10,
    );
    expect(Math.abs(narrowest(masses) - 7)).toBeLessThanOrEqual(1);
    const even = lightShape(
      60,
      60,
      (x, y) => Math.hypot(x - 30, y - 30) < 25 && Math.hypot(x - 30, y - 30) >= 13,
    );
    // All the way round the steps of both borders (sqrt 1/2 each) and the half pixel of the raster find their worst place.
    expect(Math.abs(narrowest(even) - 12)).toBeLessThanOrEqual(Math.SQRT2 + 0.5);
  });

  it('takes large regions on whole pixels, within half a pixel or so', () => {
    for (const w of [30, 31]) {
      const masses = lightShape(
        700,
        600,
        (x, y) =>
          Math.hypot(x - 120, y - 300) < 100 ||
          Math.hypot(x - 580, y - 300) < 100 ||
          (x > 120 && x < 580 && y > 285 && y < 285 + w) ||
          (x > 570 && x < 580 && y < 590 && y > 10),
      );
      expect(masses.regions[1].bounds[2] * masses.regions[1].bounds[3]).toBeGreaterThan(262144);
      expect(Math.abs(narrowest(masses, 8) - w)).toBeLessThanOrEqual(0.5);
    }
  });

  it('asks for a mask where the brush is broader than the narrowest place', () => {
    const masses = lightShape(60, 40, (x, y) => x > 10 && x < 50 && y > 10 && y < 18);
    expect(reservesOf(masses, { brushPx: 8 })[0].mask).toBe(false);
    expect(reservesOf(masses, { brushPx: 8.5 })[0].mask).toBe(true);
  });

  it('takes the whole picture of one light, and the frame as its border', () => {
    const masses = massesOfLabels(new Array(12 * 5).fill(2), 12, 5);
    expect(reservesOf(masses, { brushPx: 100 })).toEqual([
      { region: 0, area: 60, narrowestPx: 5, mask: true },
    ]);
  });

  it('names a wrong argument', () => {
    const masses = massesOfLabels([0, 1], 2, 1);
    expect(() => reservesOf(masses, { brushPx: 0 })).toThrow(/options.brushPx is 0/);
    expect(() => reservesOf(masses, {} as never)).toThrow(TypeError);
    expect(() => reservesOf(undefined as never, { brushPx: 3 })).toThrow(/masses/);
  });
});

describe('reserveAdvice', () => {
  // 20 x 10 pixels: a broad light of 8 x 10, a dark of 8 x 10, a narrow light of 1 x 10, a dark of 3 x 10.
  const width = 20;
  const masses = massesOfLabels(
    Array.from({ length: width * 10 }, (_, at) => {
      const x = at % width;
      return x < 8 ? 0 : x < 16 ? 1 : x < 17 ? 2 : 3;
    }),
    width,
    10,
    (label) => (label % 2 === 0 ? 1 : 0),
  );
  const reserves = reservesOf(masses, { brushPx: 4 });
  const inDark: Mark = { x: 12, y: 5, area: 4, band: 1, contrast: 40, region: 1 };
  const inLight: Mark = { x: 4, y: 5, area: 4, band: 1, contrast: 15, region: 0 };

  it('leaves broad lights bare and masks narrow ones', () => {
    const { lights, bareShare, tintedShare, cautions, unmet } = reserveAdvice(masses, reserves);
    expect(lights).toEqual([
      { region: 0, area: 80, share: 0.4, method: 'bare', asked: false, reasons: [] },
      {
        region: 2,
        area: 10,
        share: 0.05,
        method: 'mask',
        asked: false,
        reasons: [{ code: 'reserve.narrow', values: { widthPx: 1 } }],
      },
    ]);
    expect(bareShare).toBeCloseTo(0.45, 12);
    expect(tintedShare).toBe(0);
    expect(cautions.map(({ code }) => code)).toEqual([
      'reserve.mask-dry-paper',
      'reserve.mask-air',
    ]);
    expect(unmet).toEqual([]);
  });

  it('does what the painter says, last word first, and says what follows', () => {
    const overrules = [
      { kind: 'reserve', at: [0.1, 0.5], method: 'paint' },
      { kind: 'reserve', at: [0.1, 0.5], method: 'tint' },
      { kind: 'reserve', at: [0.82, 0.5], method: 'bare' },
      { kind: 'reserve', at: [0.95, 0.5], method: 'bare' },
      { kind: 'reserve', at: [1.2, 0.5], method: 'bare' },
      { kind: 'reserve', at: [0.1, 0.5], method: 'varnish' },
      { kind: 'edge' },
    ];
    const { lights, bareShare, tintedShare, cautions, unmet } = reserveAdvice(masses, reserves, {
      overrules,
    });
    expect(lights.map(({ method, asked }) => [method, asked])).toEqual([
      ['tint', true],
      ['bare', true],
    ]);
    expect(lights.map(({ reasons }) => reasons.map(({ code }) => code))).toEqual([
      ['reserve.tint-lightest', 'reserve.tint-below'],
      ['reserve.narrow-bare'],
    ]);
    expect(bareShare).toBeCloseTo(0.05, 12);
    expect(tintedShare).toBeCloseTo(0.4, 12);
    expect(cautions.map(({ code }) => code)).toEqual(['reserve.tint-dry-first']);
    expect(unmet).toEqual([
      { overrule: 3, reason: { code: 'reserve.no-light', values: { region: 3 } } },
      { overrule: 4, reason: { code: 'reserve.outside', values: {} } },
    ]);
  });

  it('keeps light marks as small reserves and counts no paper twice', () => {
    const marks = [inDark, inLight];
    const proposed = reserveAdvice(masses, reserves, { marks });
    expect(proposed.lights.slice(2)).toMatchObject([
      { region: 1, mark: 0, area: 4, method: 'mask', asked: false },
      { region: 0, mark: 1, area: 4, method: 'mask', asked: false },
    ]);
    // 80 + 10 of masses and 4 of the mark in the dark; the other one lies in bare paper anyway.
    expect(proposed.bareShare).toBeCloseTo(94 / 200, 12);
    const overrules = [
      { kind: 'reserve', at: [0.05, 0.5], method: 'tint' },
      { kind: 'reserve', at: [12 / 20, 0.5], method: 'paint' },
    ];
    const tinted = reserveAdvice(masses, reserves, { marks, overrules });
    expect(tinted.lights.map(({ method }) => method)).toEqual(['tint', 'mask', 'paint', 'mask']);
    expect(tinted.bareShare).toBeCloseTo((10 + 4) / 200, 12);
    expect(tinted.tintedShare).toBeCloseTo((80 - 4) / 200, 12);
  });

  it('warns when no paper is left', () => {
    const { bareShare, cautions } = reserveAdvice(masses, []);
    expect(bareShare).toBe(0);
    expect(cautions).toEqual([{ code: 'reserve.none', values: {} }]);
  });

  it('names a wrong argument', () => {
    expect(() => reserveAdvice(masses, undefined as never)).toThrow(/reserves/);
    expect(() => reserveAdvice(masses, [], { marks: 3 as never })).toThrow(/options.marks/);
  });
});
