import { describe, expect, it } from 'vitest';
import { deltaE2000 } from '../../core/index.js';
import { readSheet } from '../../core/swatch/index.js';
import chart from '../reference/colour-chart-24.json' with { type: 'json' };
import { onQuad, photograph } from '../synthetic/camera.js';
import { linearOf, paintedSheet, type Lab3, type PaintedDab } from '../synthetic/sheet.js';
import { usualCamera } from '../synthetic/standard-sheet.js';

// CIELAB under D50 to CIELAB under D65: CIE 15, and the Bradford adaptation with the matrix and whites of CSS Color 4.
const D50 = [0.3457 / 0.3585, 1, (1 - 0.3457 - 0.3585) / 0.3585];
const D65 = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];
const D65_OF_D50 = [
  [0.955473421488075, -0.02309845494876471, 0.06325924320057072],
  [-0.0283697093338637, 1.0099953980813041, 0.021041441191917323],
  [0.012314014864481998, -0.020507649298898964, 1.330365926242124],
];
const E = 216 / 24389;
const K = 24389 / 27;

function labD65([L, a, b]: number[]): Lab3 {
  const fy = (L + 16) / 116;
  const cube = (f: number): number => (f ** 3 > E ? f ** 3 : (116 * f - 16) / K);
  const xyz = [cube(fy + a / 500) * D50[0], cube(fy) * D50[1], cube(fy - b / 200) * D50[2]];
  const [x, y, z] = D65_OF_D50.map((row, i) => {
    const value = row.reduce((sum, m, j) => sum + m * xyz[j], 0) / D65[i];
    return value > E ? Math.cbrt(value) : (K * value + 16) / 116;
  });
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const patches = chart.patches.map(({ name, labD50 }) => ({ name, lab: labD65(labD50) }));

/** The one patch that sRGB cannot show: a camera that writes sRGB cuts it. */
const OUT_OF_SRGB = 'cyan';

/** Paper darker than the chart's white, as much paper is, so that each patch differs from it. */
const PAPER = 93;

const dabs = patches.map(({ lab }, i): PaintedDab => ({
  at: [0.12 + 0.152 * (i % 6), 0.17 + 0.22 * Math.floor(i / 6)],
  radius: [0.052, 0.073],
  lab,
  rectangle: true,
}));
const sheet = paintedSheet({ width: 1200, height: 860, paper: [PAPER, 0, 0], dabs, seed: 2 });

describe('the 24 published patches on white paper', () => {
  it('only the named patch lies outside sRGB', () => {
    const outside = patches.filter(({ lab }) => linearOf(lab).some((c) => c < -0.001 || c > 1));
    expect(outside.map(({ name }) => name)).toEqual([OUT_OF_SRGB]);
  });

  for (const [how, options] of [
    [
      'evenly lit',
      { cast: undefined, falloff: undefined, vignette: 0, noise: undefined, jpeg: undefined },
    ],
    ['tilted, warm, uneven, noisy, as JPEG', {}],
  ] as const) {
    const camera = { ...usualCamera(4, 1200, 900), exposure: 0.85, ...options };
    const reading = readSheet(photograph(sheet, camera), { paperLightness: PAPER });

    it(`all 24 are found, ${how}`, () => {
      expect(reading.swatches).toHaveLength(24);
      expect(new Set(reading.swatches.map(({ column }) => column)).size).toBe(6);
      expect(reading.warnings).toEqual([]);
    });

    it(`each within dE00 1.5 of what is published, ${how}`, () => {
      for (const [i, { name, lab }] of patches.entries()) {
        const [x, y] = onQuad(camera.corners!, ...dabs[i].at);
        const [hit] = reading.swatches
          .map((swatch) => ({
            swatch,
            far: Math.hypot(
              (swatch.quad[0][0] + swatch.quad[2][0]) / 2 - x,
              (swatch.quad[0][1] + swatch.quad[2][1]) / 2 - y,
            ),
          }))
          .sort((a, b) => a.far - b.far);
        expect(hit.far, name).toBeLessThan(6);
        const difference = deltaE2000(hit.swatch.lab, lab);
        // sRGB cannot hold cyan's negative red: it is read as the nearest that a camera wrote.
        if (name === OUT_OF_SRGB) expect(difference).toBeLessThan(3.5);
        else expect(difference, name).toBeLessThan(1.5);
        expect(Math.abs(hit.swatch.lab[0] - lab[0]), name).toBeLessThan(1);
        // And it says so, as of no patch whose published colour lies well inside: each channel with 3 % of the strongest one's light.
        const told = (hit.swatch.reasons ?? []).map(({ code }) => code);
        const channels = linearOf(lab);
        if (name === OUT_OF_SRGB) expect(told, name).toEqual(['dab.gamut']);
        else if (Math.min(...channels) > 0.03 * Math.max(...channels))
          expect(told, name).toEqual([]);
        if (name === OUT_OF_SRGB)
          expect(Math.abs(hit.swatch.lab[0] - lab[0])).toBeLessThan(hit.swatch.uncertainty);
      }
    });
  }
});
