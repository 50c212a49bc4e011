import { describe, expect, it } from 'vitest';
import { massesOf, type Mark, type MassOverrule } from '../../core/index.js';
import { photograph, planeOf } from './mass-helper.js';

const near = (marks: Mark[], x: number, y: number, reach = 2) =>
  marks.filter((mark) => Math.hypot(mark.x - x, mark.y - y) <= reach);

/** A dark head on a light ground, with a catchlight, a nostril darker than dark, and a whisker two pixels wide. */
const plane = planeOf(400, 300, (x, y) => {
  if (Math.hypot(x - 150, y - 120) < 4) return 245;
  if (Math.abs(y - 200 - 0.3 * (x - 200)) < 1.3 && x > 190 && x < 260) return 235;
  if (Math.hypot(x - 180, y - 170) < 90) return 70;
  if (Math.hypot(x - 360, y - 40) < 5) return 20;
  return 200;
});
const options = { thresholds: [40, 130, 225], brushPx: 36 };

describe('marks', () => {
  const { marks, regions, labels } = massesOf(plane, options);

  it('are what masses leave out, with place, area, band and contrast', () => {
    expect(regions.map(({ band }) => band)).toEqual([2, 1]);
    const [catchlight] = near(marks, 150.5, 120.5);
    expect(catchlight.area).toBe(45);
    expect(catchlight.band).toBe(3);
    expect(catchlight.region).toBe(labels[120 * 400 + 150]);
    expect(catchlight.contrast).toBeCloseTo(245 / 2.55 - regions[1].mean, 6);
    const [dark] = near(marks, 360.5, 40.5);
    expect(dark.band).toBe(0);
    expect(dark.contrast).toBeCloseTo(20 / 2.55 - regions[0].mean, 6);
    expect(dark.contrast).toBeLessThan(-60);
  });

  it('may be thin: a whisker holds together over its corners', () => {
    const [whisker] = near(marks, 225.5, 208, 4);
    expect(whisker.band).toBe(3);
    expect(whisker.area).toBeGreaterThan(150);
  });

  it('come the most telling first, and not without end', () => {
    const speckled = planeOf(500, 400, (x, y) => {
      const [i, j] = [Math.floor(x / 25), Math.floor(y / 25)];
      const far = Math.hypot(x - 25 * i - 12, y - 25 * j - 12);
      return far < 1 + (j % 4) ? 220 - 8 * (i % 5) : 90;
    });
    const found = massesOf(speckled, { thresholds: [130], brushPx: 60 }).marks;
    expect(found.length).toBe(40);
    const worth = found.map(({ contrast, area }) => contrast * Math.sqrt(area));
    // All of one region, so the rank grows with contrast and with size.
    expect(found[0].area).toBe(Math.max(...found.map(({ area }) => area)));
    expect(worth[0]).toBeGreaterThan(worth[39]);
  });

  it('are not the ragged border of the next mass', () => {
    const ragged = planeOf(300, 200, (x, y) => (x + 3 * Math.sin(y * 1.7) < 150 ? 60 : 200));
    expect(massesOf(ragged, { thresholds: [130], brushPx: 40 }).marks).toEqual([]);
  });

  it('finds catchlights and nostrils of the clay dog (seen in the picture at these places)', () => {
    const dog = photograph('clay-dog');
    const found = massesOf(dog, { thresholds: [84, 155], brushPx: (900 * 15) / 380 }).marks;
    expect(near(found, 332, 323, 8)).toHaveLength(1);
    expect(near(found, 442, 317, 8)).toHaveLength(1);
  });
});

describe('pinned marks', () => {
  const pin = (at: [number, number], light: boolean): MassOverrule => ({
    kind: 'mark',
    at,
    keep: true,
    light,
    radius: 5 / 400,
  });

  it('come first, in the order they were pinned, at least a band away from their mass', () => {
    const { marks, regions } = massesOf(plane, {
      ...options,
      overrules: [pin([0.9, 0.8], true), pin([0.5, 0.6], false)],
    });
    expect(marks[0]).toMatchObject({ x: 360, y: 240, band: 3, region: 0 });
    expect(marks[0].area).toBeCloseTo(Math.PI * 25, 9);
    expect(marks[0].contrast).toBeGreaterThan(0);
    expect(marks[1]).toMatchObject({ x: 200, y: 180, band: 0, region: 1 });
    expect(marks[1].contrast).toBeLessThan(0);
    expect(regions).toHaveLength(2);
  });

  it('are measured where the picture shows them', () => {
    const { marks } = massesOf(plane, {
      ...options,
      overrules: [pin([150.5 / 400, 120.5 / 300], true)],
    });
    expect(marks[0].band).toBe(3);
    expect(marks[0].contrast).toBeGreaterThan(60);
  });

  it('outside the picture are told', () => {
    const { unmet } = massesOf(plane, {
      ...options,
      overrules: [pin([0.5, 0.5], true), pin([1.5, 0.5], true)],
    });
    expect(unmet).toEqual([{ overrule: 1, reason: { code: 'mass.mark-outside', values: {} } }]);
  });

  it('that are only kept or dropped change nothing here', () => {
    const overrules: MassOverrule[] = [{ kind: 'mark', at: [0.4, 0.4], keep: false }];
    expect(massesOf(plane, { ...options, overrules })).toEqual(massesOf(plane, options));
  });
});
