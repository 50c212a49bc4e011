import { describe, expect, it } from 'vitest';
import { streamlines, streamlinesKernel } from '../../core/stroke/index.js';
import type { DirectionField } from '../../core/stroke/index.js';

// The measure of Jobard & Lefer 1997: lines keep d_test = 0.5 d_sep from each other all along, and no place that has a direction
// is farther than d_sep from a line.

const DEGREES = 180 / Math.PI;

const fieldOf = (
  width: number,
  height: number,
  angleAt: (x: number, y: number) => number,
  coherenceAt: (x: number, y: number) => number = () => 1,
): DirectionField => {
  const angle = new Float32Array(width * height);
  const coherence = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const degrees = angleAt(x + 0.5, y + 0.5) % 180;
      angle[y * width + x] = degrees < 0 ? degrees + 180 : degrees;
      coherence[y * width + x] = coherenceAt(x + 0.5, y + 0.5);
    }
  }
  return { width, height, angle, coherence };
};

const about = (x: number, y: number): number => Math.atan2(y - 80, x - 80) * DEGREES;

const FIELDS: Record<string, DirectionField> = {
  'one direction': fieldOf(160, 120, () => 37),
  circles: fieldOf(160, 160, (x, y) => about(x, y) + 90),
  rays: fieldOf(160, 160, about),
  'a saddle': fieldOf(160, 160, (x, y) => -about(x, y)),
  'a spiral': fieldOf(160, 160, (x, y) => about(x, y) + 80),
  // Half a turn about the middle: no sense can be given to it without a seam.
  'a loop of half a turn': fieldOf(160, 160, (x, y) => about(x, y) / 2),
  waves: fieldOf(160, 160, (x) => 40 * Math.sin(x / 20)),
  'with a mute disc': fieldOf(
    160,
    160,
    () => 90,
    (x, y) => (Math.hypot(x - 80, y - 80) < 40 ? 0 : 1),
  ),
};

function toSegment(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

/** Distance from a point to a polyline. */
function toLine(x: number, y: number, line: Float32Array): number {
  let least = Infinity;
  for (let n = 0; n + 3 < line.length; n += 2) {
    if (Math.abs(line[n] - x) > least + 2 || Math.abs(line[n + 1] - y) > least + 2) continue;
    least = Math.min(least, toSegment(x, y, line[n], line[n + 1], line[n + 2], line[n + 3]));
  }
  return least;
}

describe('streamlines', () => {
  for (const [name, field] of Object.entries(FIELDS)) {
    for (const spacingPx of [5, 12, 30]) {
      it(`${name}, ${spacingPx} pixels apart: no two lines nearer than half, no place farther than the whole`, () => {
        const lines = streamlines(field, { spacingPx });
        expect(lines.length).toBeGreaterThan(1);
        let nearest = Infinity;
        lines.forEach((line, a) =>
          lines.forEach((other, b) => {
            if (a === b) return;
            for (let n = 0; n < line.length; n += 2)
              nearest = Math.min(nearest, toLine(line[n], line[n + 1], other));
          }),
        );
        // single precision
        expect(nearest).toBeGreaterThan(0.5 * spacingPx - 1e-4);
        let farthest = 0;
        for (let y = 2.5; y < field.height; y += 5) {
          for (let x = 2.5; x < field.width; x += 5) {
            if (field.coherence[Math.floor(y) * field.width + Math.floor(x)] === 0) continue;
            farthest = Math.max(farthest, Math.min(...lines.map((line) => toLine(x, y, line))));
          }
        }
        expect(farthest).toBeLessThan(spacingPx);
      });
    }
  }

  it('lines run along the field and never over mute places', () => {
    const direct = FIELDS['one direction'];
    for (const line of streamlines(direct, { spacingPx: 10 })) {
      const turn = Math.atan2(line[3] - line[1], line[2] - line[0]) * DEGREES;
      expect(Math.abs(Math.sin((turn - 37) / DEGREES))).toBeLessThan(1e-3);
    }
    for (const line of streamlines(FIELDS.circles, { spacingPx: 10 })) {
      const start = Math.hypot(line[0] - 80, line[1] - 80);
      if (start < 10) continue;
      for (let n = 0; n < line.length; n += 2)
        expect(Math.abs(Math.hypot(line[n] - 80, line[n + 1] - 80) - start)).toBeLessThan(0.5);
    }
    const holed = FIELDS['with a mute disc'];
    for (const line of streamlines(holed, { spacingPx: 10 })) {
      for (let n = 0; n < line.length; n += 2) {
        const at =
          Math.min(159, Math.floor(line[n + 1])) * 160 + Math.min(159, Math.floor(line[n]));
        expect(holed.coherence[at]).toBe(1);
      }
    }
  });

  it('a spacing wider than the picture leaves one line; a mute field and a pixel have none to speak of', () => {
    expect(streamlines(FIELDS['one direction'], { spacingPx: 1000 }).length).toBe(1);
    expect(
      streamlines(
        fieldOf(
          40,
          40,
          () => 0,
          () => 0,
        ),
        { spacingPx: 5 },
      ),
    ).toEqual([]);
    for (const line of streamlines(
      fieldOf(1, 1, () => 0),
      { spacingPx: 4 },
    )) {
      expect(line.every((value) => value >= 0 && value <= 1)).toBe(true);
    }
  });

  it('the same field gives the same lines, in slices too', () => {
    const once = streamlines(FIELDS.waves, { spacingPx: 9 });
    expect(streamlines(FIELDS.waves, { spacingPx: 9 })).toEqual(once);
    const kernel = streamlinesKernel(FIELDS.waves, { spacingPx: 9 });
    let step = kernel.next();
    while (!step.done) step = kernel.next();
    expect(step.value).toEqual(once);
  });

  it('refuses spacings that would be a tint, and fields that do not fit', () => {
    const field = FIELDS.waves;
    for (const spacingPx of [0, -1, 1e-9, 1.99, NaN, Infinity]) {
      expect(() => streamlines(field, { spacingPx })).toThrow(RangeError);
    }
    expect(() => streamlines(field, {} as never)).toThrow(TypeError);
    expect(() => streamlines({ ...field, width: 3 }, { spacingPx: 5 })).toThrow(/field\.angle/);
  });
});
