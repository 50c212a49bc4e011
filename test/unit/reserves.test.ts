import { describe, expect, it } from 'vitest';
import { reservesOf, type Masses, type Reserve } from '../../core/index.js';
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
