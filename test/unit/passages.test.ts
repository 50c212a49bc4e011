import { describe, expect, it } from 'vitest';
import { componentsOf } from '../../core/geometry/index.js';
import { massesOf, passagesOf, type Masses, type Passages } from '../../core/mass/index.js';
import { lightnessPlane } from '../../core/picture/index.js';
import type { Pixels } from '../../core/base/types.js';

type Colour = [r: number, g: number, b: number];

/** A picture by a colour for each pixel. */
function picture(width: number, height: number, colour: (x: number, y: number) => Colour): Pixels {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set([...colour(x, y), 255], 4 * (y * width + x));
  return { width, height, data };
}

// Two colours of one value: CIE L* 47.25 and 46.46 (culori 4.0.2, lab65), a* -35.5 and 55.7.
const GREEN: Colour = [60, 126, 60];
const RED: Colour = [200, 58, 58];

const masses = (pixels: Pixels, brushPx: number, thresholds = [100]): Masses =>
  massesOf(lightnessPlane(pixels), { thresholds, brushPx });

/** Area, connection, one mass: what every division must keep. */
function expectSound(found: Passages, of: Masses, width: number, height: number, brushPx: number) {
  const least = Math.floor((Math.PI / 4) * brushPx * brushPx);
  const area = new Array<number>(found.passages.length).fill(0);
  let strays = 0;
  found.labels.forEach((label, at) => {
    area[label]++;
    if (of.labels[at] !== found.passages[label].region) strays++;
  });
  expect(strays).toBe(0);
  found.passages.forEach((passage, i) => {
    expect(passage.id).toBe(i);
    expect(passage.area).toBe(area[i]);
    const whole = of.regions[passage.region].area;
    expect(passage.area).toBeGreaterThanOrEqual(Math.min(least, whole));
    const [x, y] = passage.at;
    expect(found.labels[Math.floor(y) * width + Math.floor(x)]).toBe(i);
    const [left, top, w, h] = passage.bounds;
    expect(x > left && x < left + w && y > top && y < top + h).toBe(true);
  });
  for (const { passages, lengthPx, deltaE } of found.borders) {
    expect(passages[0]).toBeLessThan(passages[1]);
    expect(lengthPx).toBeGreaterThan(0);
    expect(deltaE).toBeGreaterThanOrEqual(0);
    expect(found.passages[passages[0]].region).toBe(found.passages[passages[1]].region);
  }
  expect(found.labels).toHaveLength(width * height);
}

describe('passagesOf', () => {
  it('keeps a red ribbon on a green sleeve of equal value', () => {
    const [width, height] = [240, 160];
    // Ten pixels wide, half the brush, slanting.
    const ribbon = (x: number, y: number): boolean => Math.abs(x - y / 2 - 80) < 5;
    const pixels = picture(width, height, (x, y) => (ribbon(x, y) ? RED : GREEN));
    const found = masses(pixels, 20);
    expect(found.regions).toHaveLength(1);
    const passages = passagesOf(pixels, found, { brushPx: 20 });
    expectSound(passages, found, width, height, 20);
    const reds = passages.passages.filter(({ lab }) => lab[1] > 30);
    expect(reds).toHaveLength(1);
    expect(reds[0].area).toBeGreaterThan(0.85 * 10 * height);
    expect(reds[0].area).toBeLessThan(1.15 * 10 * height);
    expect(passages.passages).toHaveLength(3);
    expect(passages.borders).toHaveLength(2);
    for (const border of passages.borders) expect(border.run).toBe('keep-apart');
  });

  it('lets a gradual change of lean run', () => {
    const mix = (t: number): Colour =>
      GREEN.map((value, i) => Math.round(value + t * (RED[i] - value))) as Colour;
    const pixels = picture(240, 100, (x) => mix(Math.min(1, Math.max(0, (x - 40) / 160))));
    const found = masses(pixels, 16, [60]);
    expect(found.regions).toHaveLength(1);
    const passages = passagesOf(pixels, found, { brushPx: 16 });
    expectSound(passages, found, 240, 100, 16);
    expect(passages.passages.length).toBeGreaterThan(1);
    for (const border of passages.borders) expect(border.run).toBe('let-run');
  });

  it('leaves an even mass whole, noise and all', () => {
    let state = 9;
    const noise = (): number => {
      state = (state * 16807) % 2147483647;
      return (state % 17) - 8;
    };
    const pixels = picture(200, 150, () => [120 + noise(), 110 + noise(), 100 + noise()]);
    const found = masses(pixels, 24, [60]);
    const passages = passagesOf(pixels, found, { brushPx: 24 });
    expect(passages.passages).toHaveLength(found.regions.length);
    expect(passages.borders).toEqual([]);
  });

  it('never crosses a border of masses and joins what is too small', () => {
    const pixels = picture(160, 120, (x, y) => {
      if (x >= 80) return [230, 225, 220];
      if (Math.hypot(x - 40, y - 60) < 4) return RED;
      return y < 60 ? GREEN : [90, 110, 140];
    });
    const found = masses(pixels, 20, [150]);
    const passages = passagesOf(pixels, found, { brushPx: 20 });
    expectSound(passages, found, 160, 120, 20);
    expect(passages.passages).toHaveLength(3);
    // The dot of 50 pixels is smaller than a dab of 314.
    expect(passages.passages.every(({ lab }) => lab[1] < 30)).toBe(true);
    for (const { id } of passages.passages) {
      const where = Uint8Array.from(passages.labels, (label) => (label === id ? 1 : 0));
      expect(componentsOf(where, 160, 120, { background: 0 }).count).toBe(1);
    }
  });

  it('gives the same again, and takes the painter at his word', () => {
    const pixels = picture(120, 80, (x) => (x < 60 ? RED : GREEN));
    const found = masses(pixels, 16);
    const options = { brushPx: 16 };
    const first = passagesOf(pixels, found, options);
    expect(passagesOf(pixels, found, options)).toEqual(first);
    expect(first.borders).toMatchObject([{ passages: [0, 1], run: 'keep-apart', lengthPx: 80 }]);
    const between = [
      [0.1, 0.5],
      [0.9, 0.5],
    ];
    const overrules = [
      { kind: 'passage', between, run: 'let-run' },
      { kind: 'passage', between: [between[0], between[0]], run: 'let-run' },
      { kind: 'passage', between: [between[0], [2, 2]], run: 'let-run' },
      { kind: 'band', at: [0.5, 0.5], band: 1 },
    ];
    const told = passagesOf(pixels, found, { ...options, overrules });
    expect(told.borders[0].run).toBe('let-run');
    expect(told.unmet).toEqual([
      { overrule: 1, reason: { code: 'passage.same', values: { passage: 0 } } },
      { overrule: 2, reason: { code: 'passage.outside', values: {} } },
    ]);
  });

  it('takes a single pixel and a brush wider than the picture', () => {
    for (const [width, height, brushPx] of [
      [1, 1, 1],
      [1, 1, 500],
      [7, 3, 40],
      [40, 1, 2],
    ]) {
      const pixels = picture(width, height, (x) => (x < width / 2 ? RED : GREEN));
      const found = masses(pixels, brushPx);
      const passages = passagesOf(pixels, found, { brushPx });
      expectSound(passages, found, width, height, brushPx);
    }
  });

  it('refuses masses of another picture and a brush of no width', () => {
    const pixels = picture(20, 20, () => RED);
    const found = masses(pixels, 4);
    expect(() =>
      passagesOf(
        picture(10, 10, () => RED),
        found,
        { brushPx: 4 },
      ),
    ).toThrow(/masses\.map/);
    expect(() => passagesOf(pixels, found, { brushPx: 0 })).toThrow(/options\.brushPx/);
    expect(() => passagesOf(pixels, found, { brushPx: NaN })).toThrow(RangeError);
    expect(() => passagesOf(pixels, {} as Masses, { brushPx: 4 })).toThrow(TypeError);
  });
});
