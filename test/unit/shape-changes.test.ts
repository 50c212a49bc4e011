/** Places and lines about masses on shapes whose geometry is known by construction. */
import { describe, expect, it } from 'vitest';
import { newPlan, regionAt, type Masses, type Plan, type Region } from '../../core/index.js';
import {
  bySize,
  cm2Of,
  factsOf,
  insideOf,
  massBeside,
  placeOf,
  pxPerMmOf,
} from '../../components/value-band-viewer/mass-facts.js';
import {
  axisOf,
  lockOf,
  near,
  withChange,
  withoutChange,
  wordOnMark,
} from '../../components/value-band-viewer/tools/shape-changes.js';

const plan = (partial: Partial<Plan> = {}): Plan =>
  newPlan({ paper: { widthMm: 200, heightMm: 100, lightness: 95 }, ...partial });

/** Masses of labels drawn by a function; bounds and areas are counted. */
function drawn(width: number, height: number, label: (x: number, y: number) => number): Masses {
  const labels = Int32Array.from({ length: width * height }, (_, i) =>
    label(i % width, Math.floor(i / width)),
  );
  const regions: Region[] = [];
  labels.forEach((id, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    const region = (regions[id] ??= {
      id,
      band: id,
      area: 0,
      mean: 50,
      bounds: [width, height, 0, 0],
      neighbours: [],
    });
    region.area++;
    const [left, top, w, h] = region.bounds;
    const [right, bottom] = [Math.max(left + w, x + 1), Math.max(top + h, y + 1)];
    const [l, t] = [Math.min(left, x), Math.min(top, y)];
    region.bounds = [
      l,
      t,
      (region.area === 1 ? x + 1 : right) - l,
      (region.area === 1 ? y + 1 : bottom) - t,
    ];
  });
  return {
    map: { width, height, data: Uint8Array.from(labels), bands: regions.length },
    labels,
    regions,
    marks: [],
  };
}

/** A ring about a square with a hole: its middle is not in it. */
const RING = drawn(60, 60, (x, y) => {
  const far = Math.max(Math.abs(x - 29.5), Math.abs(y - 29.5));
  return far < 25 && far > 12 ? 1 : 0;
});

describe('insideOf', () => {
  it('is a spot of the mass, also of one with a hole or of a thin oblique one', () => {
    const oblique = drawn(80, 80, (x, y) => (Math.abs(x - y) < 3 ? 1 : 0));
    for (const masses of [RING, oblique])
      for (const { id } of masses.regions)
        expect(regionAt(plan(), masses, insideOf(plan(), masses, id))).toBe(id);
  });

  it('is told on the whole photo when a crop is painted', () => {
    const cropped = plan({ crop: { x: 0.5, y: 0.25, width: 0.25, height: 0.5 } });
    const [x, y] = insideOf(cropped, RING, 1);
    expect(x).toBeGreaterThan(0.5);
    expect(x).toBeLessThan(0.75);
    expect(y).toBeGreaterThan(0.25);
    expect(y).toBeLessThan(0.75);
    expect(regionAt(cropped, RING, [x, y])).toBe(1);
  });
});

describe('axisOf', () => {
  /** The angle of a line, degrees 0..180, on a picture of these sides. */
  const angleOf = (line: [number, number][], width: number, height: number): number => {
    const [[ax, ay], [bx, by]] = line;
    const turn = (Math.atan2((by - ay) * height, (bx - ax) * width) * 180) / Math.PI;
    return (turn + 360) % 180;
  };

  it.each([0, 20, 45, 70, 110, 160])('follows a bar at %i degrees, and crosses it', (degrees) => {
    const turn = (degrees * Math.PI) / 180;
    const bar = drawn(200, 100, (x, y) => {
      const [dx, dy] = [x - 80, y - 50];
      const along = dx * Math.cos(turn) + dy * Math.sin(turn);
      const across = -dx * Math.sin(turn) + dy * Math.cos(turn);
      return Math.abs(along) < 40 && Math.abs(across) < 8 ? 1 : 0;
    });
    const off = (a: number, b: number): number =>
      Math.min((a - b + 360) % 180, (b - a + 360) % 180);
    const lengthwise = axisOf(plan(), bar, 1, false) as [number, number][];
    const across = axisOf(plan(), bar, 1, true) as [number, number][];
    expect(off(angleOf(lengthwise, 200, 100), degrees)).toBeLessThan(1.5);
    expect(off(angleOf(across, 200, 100), degrees + 90)).toBeLessThan(4);
    const long = ([[ax, ay], [bx, by]]: [number, number][]): number =>
      Math.hypot((bx - ax) * 200, (by - ay) * 100);
    // No longer than the bar: the line lies in the mass that it is to cut.
    expect(long(lengthwise)).toBeGreaterThan(75);
    expect(long(lengthwise)).toBeLessThan(84);
    expect(long(across)).toBeGreaterThan(14);
    expect(long(across)).toBeLessThan(18);
  });

  it('runs through the mass on one side of its hole', () => {
    const line = axisOf(plan(), RING, 1, false);
    const [[ax, ay], [bx, by]] = line;
    expect(regionAt(plan(), RING, [(ax + bx) / 2, (ay + by) / 2])).toBe(1);
  });
});

describe('changes of a plan', () => {
  it('come last, and those that they replace are left out', () => {
    const first = withChange(plan(), { kind: 'band', at: [0.1, 0.1], band: 1 });
    const second = withChange(first, { kind: 'band', at: [0.9, 0.1], band: 2 });
    const third = withChange(
      second,
      { kind: 'band', at: [0.1, 0.1], band: 0 },
      (each) => each.band === 1,
    );
    expect(third.overrules.map(({ band }) => band)).toEqual([2, 0]);
    expect(withoutChange(third, 0).overrules.map(({ band }) => band)).toEqual([0]);
    expect(first.overrules).toHaveLength(1);
  });

  it('a lock keeps the outline in fractions of the photo', () => {
    const rings = [Float32Array.from([0, 0, 60, 0, 60, 30])];
    const lock = lockOf(plan(), RING, { region: 0, rings });
    expect(lock).toMatchObject({ kind: 'lock', band: 0 });
    expect(lock.kind === 'lock' && lock.rings).toEqual([
      [
        [0, 0],
        [1, 0],
        [1, 0.5],
      ],
    ]);
  });

  it('the last word on a mark counts, within four thousandths', () => {
    const mark = { x: 30, y: 30, area: 9, band: 1, contrast: 20, region: 0 };
    const said = [0.5, 0.503, 0.6].reduce(
      (now, x, i) => withChange(now, { kind: 'mark', at: [x, 0.5], keep: i > 0 }),
      plan(),
    );
    expect(wordOnMark(said, RING, mark)?.at).toEqual([0.503, 0.5]);
    expect(near([0, 0], [0.003, 0.002])).toBe(true);
    expect(near([0, 0], [0.003, 0.003])).toBe(false);
  });
});

describe('what is told of a mass', () => {
  // 200 x 100 px on 200 mm: a pixel is a millimetre. Three uprights 100, 60 and 40 mm wide.
  const stripes = drawn(200, 100, (x) => (x < 60 ? 0 : x < 160 ? 1 : 2));
  const work = {
    masses: stripes,
    outlines: [],
    edges: [
      {
        regions: [0, 1] as [number, number],
        kind: 'soft' as const,
        widthPx: 9,
        contrast: 9,
        lengthPx: 100,
      },
      {
        regions: [1, 2] as [number, number],
        kind: 'hard' as const,
        widthPx: 1,
        contrast: 9,
        lengthPx: 100,
      },
    ],
    reserves: [{ region: 2, area: 4000, narrowestPx: 40, mask: false }],
    marks: [],
    advice: {
      lights: [
        { region: 2, area: 4000, share: 0.2, method: 'bare' as const, asked: false, reasons: [] },
      ],
      bareShare: 0.2,
      tintedShare: 0,
      cautions: [],
      unmet: [],
    },
    lines: { outlines: [], hard: '', soft: '' },
  };

  it('area, share, brushes across, edges and how a light is kept', () => {
    const brushed = plan({ brushes: [{ name: 'round', tipMm: 2, pressedMm: 10 }] });
    const facts = factsOf(brushed, work, 1)!;
    expect(facts).toMatchObject({
      place: 1,
      count: 3,
      band: 1,
      areaCm2: 100,
      share: 0.5,
      edges: { hard: 1, soft: 1, lost: 0 },
    });
    // The disc of 10 000 mm² is 2 sqrt(10000 / pi) = 112.838 mm across.
    expect(facts.brushWidths).toBeCloseTo(11.2838, 3);
    expect(facts.kept).toBeUndefined();
    expect(factsOf(brushed, work, 2)!.kept).toEqual({
      how: 'bare',
      narrowestMm: 40,
      narrow: false,
    });
    expect(factsOf(brushed, work, 3)).toBeUndefined();
  });

  it('order of size, and the way through it', () => {
    expect(bySize(stripes).map(({ id }) => id)).toEqual([1, 0, 2]);
    expect([0, 1, 2].map((id) => placeOf(stripes, id))).toEqual([2, 1, 3]);
    expect(massBeside(stripes, undefined, 1)).toBe(1);
    expect(massBeside(stripes, undefined, -1)).toBe(2);
    expect(massBeside(stripes, 2, 1)).toBe(1);
    expect(massBeside(stripes, 1, -1)).toBe(2);
    expect(pxPerMmOf(plan(), stripes)).toBe(1);
    expect(cm2Of(250, 0.5)).toBe(10);
  });
});
