import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { readSheet } from '../../core/swatch/index.js';
import type { Corners } from '../../core/base/types.js';
import truth from '../reference/sheets/uneven_light.json' with { type: 'json' };

const [width, height] = truth.size;
const whole: Corners = [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
/** The swatch as light as the paper has no border: nobody can see it. */
const visible = truth.swatches_x_y_w_h_Lstar.filter(([, , , , L]) => L !== truth.paper_Lstar);

// Synthetic sheets under a known uneven and warm light, with their true L* (test/reference/sheets, made apart from the package).
for (const [file, { sha256 }] of Object.entries(truth.files)) {
  const bytes = readFileSync(new URL(`../reference/sheets/${file}`, import.meta.url));
  const { data } = PNG.sync.read(bytes);
  const pixels = { width, height, data };

  it(`${file} is the file it was`, () => {
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(sha256);
  });

  for (const [how, corners, allowed] of [
    ['given', whole, 0.7],
    ['found', undefined, 1.2],
  ] as const) {
    describe(`${file}, corners ${how}`, () => {
      const reading = readSheet(pixels, { corners });

      it('finds every swatch that differs from the paper, and nothing else', () => {
        expect(reading.swatches).toHaveLength(visible.length);
        expect(reading.warnings).toEqual([]);
      });

      it(`reads each within ${allowed} L*, grey, and where it is`, () => {
        for (const [x, y, w, h, L] of visible) {
          const found = reading.swatches.filter(
            ({ quad }) => Math.abs(quad[0][0] - x) < 3 && Math.abs(quad[0][1] - y) < 3,
          );
          expect(found).toHaveLength(1);
          const [{ quad, lab, uncertainty, spread }] = found;
          expect(Math.abs(lab[0] - L)).toBeLessThan(allowed);
          expect(Math.hypot(lab[1], lab[2])).toBeLessThan(0.5);
          expect(Math.abs(quad[2][0] - x - w)).toBeLessThan(3);
          expect(Math.abs(quad[2][1] - y - h)).toBeLessThan(3);
          // The range that is told holds the truth.
          expect(Math.abs(lab[0] - L)).toBeLessThan(uncertainty);
          expect(uncertainty).toBeLessThan(0.9);
          expect(spread).toBeLessThan(0.5);
        }
      });

      it('lists them by column, top to bottom', () => {
        const inOrder = visible
          .slice()
          .sort((a, b) => a[0] - b[0] || a[1] - b[1])
          .map(([x, y]) => [Math.round((x - 75) / 130), y]);
        expect(
          reading.swatches.map(({ column, quad }) => [column, Math.round(quad[0][1] / 20) * 20]),
        ).toEqual(inOrder);
      });

      it('says that a dab as light as the paper is not told from it, and where one may be', () => {
        expect(reading.limits).toContainEqual({
          code: 'sheet.empty-place',
          values: { column: 0, place: 0 },
        });
        const asPaper = reading.limits.find(({ code }) => code === 'sheet.as-paper');
        expect(asPaper?.values.contrast).toBe(1);
      });

      it('reads the bare paper as what it was said to be', () => {
        expect(Math.abs(reading.paper.lab[0] - 95)).toBeLessThan(0.05);
        expect(reading.paper.residual).toBeLessThan(0.2);
        // 168000 of 540000 pixels are swatches, 14000 of them as light as paper.
        expect(Math.abs(reading.paper.share - (1 - 154000 / 540000))).toBeLessThan(0.06);
      });
    });
  }
}
