import { describe, expect, it } from 'vitest';
import type { Lightness } from '../../core/base/types.js';
import { massesOf, type Masses } from '../../core/mass/index.js';
import { directionField, strokesKernel, strokesOf } from '../../core/stroke/index.js';
import type { Arrow, DirectionField, Strokes } from '../../core/stroke/index.js';
import { histogramOf, suggestThresholds } from '../../core/value/index.js';
import { photograph, PHOTOGRAPHS } from './mass-helper.js';

const RADIANS = Math.PI / 180;

/** Masses as a hand lays them down: a label each pixel. */
function massesFrom(
  width: number,
  height: number,
  labelAt: (x: number, y: number) => number,
): Masses {
  const labels = Int32Array.from({ length: width * height }, (_, i) =>
    labelAt((i % width) + 0.5, Math.floor(i / width) + 0.5),
  );
  const regions = Array.from({ length: Math.max(...labels) + 1 }, (_, id) => {
    let [left, top, right, bottom, area] = [width, height, 0, 0, 0];
    labels.forEach((label, i) => {
      if (label !== id) return;
      left = Math.min(left, i % width);
      right = Math.max(right, i % width);
      top = Math.min(top, Math.floor(i / width));
      bottom = Math.max(bottom, Math.floor(i / width));
      area++;
    });
    return {
      id,
      band: id % 2,
      area,
      mean: 50,
      bounds: [left, top, right - left + 1, bottom - top + 1] as [number, number, number, number],
      neighbours: [],
    };
  });
  return {
    map: { width, height, bands: 2, data: Uint8Array.from(labels, (label) => label % 2) },
    labels,
    regions,
    marks: [],
  };
}

const fieldOf = (
  width: number,
  height: number,
  angleAt: (x: number, y: number) => number,
  coherence = 1,
): DirectionField => ({
  width,
  height,
  angle: Float32Array.from({ length: width * height }, (_, i) => {
    const angle = angleAt((i % width) + 0.5, Math.floor(i / width) + 0.5) % 180;
    return angle < 0 ? angle + 180 : angle;
  }),
  coherence: new Float32Array(width * height).fill(coherence),
});

const all = (
  masses: Masses,
  field: DirectionField,
  options: Parameters<typeof strokesKernel>[2],
): Strokes => {
  const kernel = strokesKernel(masses, field, options);
  let step = kernel.next();
  while (!step.done) step = kernel.next();
  return step.value;
};

const lengthOf = ({ line }: Arrow): number => {
  let sum = 0;
  for (let n = 2; n < line.length; n += 2)
    sum += Math.hypot(line[n] - line[n - 2], line[n + 1] - line[n - 1]);
  return sum;
};

/** From root to tip. */
const wayOf = ({ line }: Arrow): [number, number] => [
  line[line.length - 2] - line[0],
  line[line.length - 1] - line[1],
];

/** Whether every point of an arrow, and of the straight pieces between, lies in its mass. */
const within = (arrow: Arrow, { labels, map }: Masses): boolean => {
  const { line, region } = arrow;
  for (let n = 0; n + 3 < line.length; n += 2) {
    for (let part = 0; part <= 1; part += 0.125) {
      const x = Math.floor(line[n] + part * (line[n + 2] - line[n]));
      const y = Math.floor(line[n + 1] + part * (line[n + 3] - line[n + 1]));
      if (labels[Math.min(map.height - 1, y) * map.width + Math.min(map.width - 1, x)] !== region)
        return false;
    }
  }
  return true;
};

const perMass = (arrows: Arrow[], masses: Masses): number[] =>
  masses.regions.map(({ id }) => arrows.filter(({ region }) => region === id).length);

// A big ground, a disc, a slanted strip, a small square.
const W = 300;
const H = 240;
const shapes = massesFrom(W, H, (x, y) => {
  if (Math.hypot(x - 90, y - 120) < 60) return 1;
  if (Math.abs((x - 210) * Math.sin(0.5) - (y - 130) * Math.cos(0.5)) < 12 && x > 170 && x < 270)
    return 2;
  if (x > 30 && x < 45 && y > 20 && y < 35) return 3;
  return 0;
});
const mute: Lightness = { width: W, height: H, data: new Uint8Array(W * H).fill(120) };

describe('arrows of masses', () => {
  it('three to seven a mass, inside it, apart from each other, longer in larger masses', () => {
    for (const brushPx of [8, 16]) {
      const field = directionField(mute, { scalePx: brushPx, masses: shapes });
      const arrows = strokesOf(shapes, field, { brushPx });
      for (const count of perMass(arrows, shapes)) {
        expect(count).toBeGreaterThanOrEqual(3);
        expect(count).toBeLessThanOrEqual(7);
      }
      expect(arrows.every((arrow) => within(arrow, shapes))).toBe(true);
      expect(arrows.every((arrow) => !arrow.sensed)).toBe(true);
      const longest = (region: number): number =>
        Math.max(...arrows.filter((arrow) => arrow.region === region).map(lengthOf));
      expect(longest(0)).toBeGreaterThan(longest(3));
      arrows.forEach((arrow, a) =>
        arrows.slice(a + 1).forEach((other) => {
          let least = Infinity;
          for (let n = 0; n < arrow.line.length; n += 2) {
            for (let m = 0; m < other.line.length; m += 2) {
              const dx = arrow.line[n] - other.line[m];
              const dy = arrow.line[n + 1] - other.line[m + 1];
              least = Math.min(least, Math.hypot(dx, dy));
            }
          }
          expect(least).toBeGreaterThan(1);
        }),
      );
    }
  });

  it.each(Object.keys(PHOTOGRAPHS) as (keyof typeof PHOTOGRAPHS)[])(
    'on %s: three to seven a mass, each wholly inside its mass',
    (name) => {
      const plane = photograph(name);
      const thresholds = suggestThresholds(histogramOf(plane), 3);
      for (const brushPx of [10, 24]) {
        const masses = massesOf(plane, { thresholds, brushPx });
        const field = directionField(plane, { scalePx: brushPx, masses });
        const arrows = strokesOf(masses, field, { brushPx });
        for (const count of perMass(arrows, masses)) {
          expect(count).toBeGreaterThanOrEqual(3);
          expect(count).toBeLessThanOrEqual(7);
        }
        expect(arrows.filter((arrow) => !within(arrow, masses))).toEqual([]);
      }
    },
    60_000,
  );

  it('the more the larger the mass against the brush', () => {
    const one = massesFrom(200, 200, () => 0);
    const field = fieldOf(200, 200, () => 30);
    const few = strokesOf(one, field, { brushPx: 120 }).length;
    const many = strokesOf(one, field, { brushPx: 10 }).length;
    expect(few).toBe(3);
    expect(many).toBe(7);
  });

  it('they run along the field', () => {
    const one = massesFrom(200, 160, () => 0);
    for (const angle of [0, 35, 90, 150]) {
      for (const arrow of strokesOf(
        one,
        fieldOf(200, 160, () => angle),
        { brushPx: 12 },
      )) {
        const [dx, dy] = wayOf(arrow);
        const off = Math.abs(Math.atan2(dy, dx) / RADIANS - angle) % 180;
        expect(Math.min(off, 180 - off)).toBeLessThan(0.5);
      }
    }
  });

  it('one drawn stroke gives the sense to its mass, round a ring, whichever way it is drawn', () => {
    const ring = massesFrom(200, 200, (x, y) => {
      const r = Math.hypot(x - 100, y - 100);
      return r > 50 && r < 90 ? 1 : 0;
    });
    const field = fieldOf(200, 200, (x, y) => Math.atan2(y - 100, x - 100) / RADIANS + 90);
    for (const turn of [1, -1]) {
      // At the right of the ring, downward is clockwise on the screen.
      const stroke = {
        kind: 'stroke',
        from: [0.85, 0.5 - 0.05 * turn],
        to: [0.85, 0.5 + 0.05 * turn],
      };
      const { arrows, unmet } = all(ring, field, { brushPx: 10, overrules: [stroke] });
      expect(unmet).toEqual([]);
      const own = arrows.filter(({ region }) => region === 1);
      expect(own.length).toBeGreaterThanOrEqual(3);
      for (const arrow of own) {
        expect(arrow.sensed).toBe(true);
        const [x, y] = arrow.line;
        const [dx, dy] = wayOf(arrow);
        // the turn about the middle
        expect(Math.sign((x - 100) * dy - (y - 100) * dx)).toBe(turn);
      }
      expect([...own[0].line]).toEqual(
        [0.85, 0.5 - 0.05 * turn, 0.85, 0.5 + 0.05 * turn].map((part) => Math.fround(part * 200)),
      );
    }
  });

  it('the sense goes on where neighbours run alike, stops where they do not, and before another stroke', () => {
    // Four upright strips: alike, alike, across, alike.
    const strips = massesFrom(320, 100, (x) => Math.floor(x / 80));
    const field = fieldOf(320, 100, (x) => [10, 25, 100, 20][Math.floor(x / 80)]);
    const right = { kind: 'stroke', from: [0.05, 0.5], to: [0.15, 0.52] };
    const first = strokesOf(strips, field, { brushPx: 12, overrules: [right] });
    for (const arrow of first) {
      expect(arrow.sensed).toBe(arrow.region <= 1);
      if (arrow.sensed) expect(wayOf(arrow)[0]).toBeGreaterThan(0);
    }
    const left = { kind: 'stroke', from: [0.45, 0.5], to: [0.3, 0.44] };
    const second = strokesOf(strips, field, { brushPx: 12, overrules: [right, left] });
    for (const arrow of second) {
      if (arrow.region === 0) expect(wayOf(arrow)[0]).toBeGreaterThan(0);
      if (arrow.region === 1) expect(wayOf(arrow)[0]).toBeLessThan(0);
    }
    // Where the picture is mute the sense keeps to its mass.
    const quiet = fieldOf(320, 100, () => 10, 0);
    for (const arrow of strokesOf(strips, quiet, { brushPx: 12, overrules: [right] }))
      expect(arrow.sensed).toBe(arrow.region === 0);
  });

  it('strokes that cannot be followed are listed', () => {
    const field = fieldOf(W, H, () => 0, 0);
    const { unmet, arrows } = all(shapes, field, {
      brushPx: 12,
      overrules: [
        { kind: 'join', from: [0, 0], to: [1, 1] },
        { kind: 'stroke', from: [0.3, 0.3], to: [0.3, 0.3] },
        { kind: 'stroke', from: [1.2, 0.3], to: [1.4, 0.3] },
        { kind: 'stroke', from: [0.3, 0.4], to: [0.3, 0.55] },
        { kind: 'stroke', from: [0.6, 0.9], to: [0.7, 0.9] },
      ],
    });
    expect(unmet.map(({ overrule, reason }) => [overrule, reason.code])).toEqual([
      [1, 'stroke-too-short'],
      [2, 'stroke-outside'],
      [3, 'stroke-across-the-form'],
    ]);
    // That across the form stays drawn as the painter drew it, but gives no sense to others.
    const disc = arrows.filter(({ region }) => region === 1);
    expect(disc.filter(({ sensed }) => sensed).length).toBe(1);
  });

  it('odd masses: one pixel, one mass of all, hair-thin ones, a brush wider than the picture', () => {
    const pixel = massesFrom(1, 1, () => 0);
    for (const { line } of strokesOf(
      pixel,
      fieldOf(1, 1, () => 0),
      { brushPx: 40 },
    ))
      expect(line.every(Number.isFinite)).toBe(true);
    const whole = massesFrom(60, 40, () => 0);
    expect(
      strokesOf(
        whole,
        fieldOf(60, 40, () => 45),
        { brushPx: 500 },
      ).length,
    ).toBe(3);
    const thin = massesFrom(120, 90, (x, y) => (y > 40 && y < 42 ? 1 : x > 60 && x < 61.9 ? 2 : 0));
    const arrows = strokesOf(
      thin,
      fieldOf(120, 90, (_, y) => (y > 40 && y < 42 ? 0 : 90)),
      {
        brushPx: 40,
      },
    );
    expect(arrows.every((arrow) => within(arrow, thin))).toBe(true);
    expect(arrows.every(({ line }) => line.every(Number.isFinite))).toBe(true);
  });

  it('refuses what does not fit', () => {
    const field = fieldOf(W, H, () => 0);
    expect(() =>
      strokesOf(
        shapes,
        fieldOf(3, 3, () => 0),
        { brushPx: 4 },
      ),
    ).toThrow(/field/);
    expect(() => strokesOf(shapes, field, { brushPx: 0 })).toThrow(/options\.brushPx/);
    expect(() => strokesOf(shapes, field, { brushPx: 4, overrules: [{ kind: 'stroke' }] })).toThrow(
      /options\.overrules\[0\]/,
    );
  });
});
