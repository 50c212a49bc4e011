/**
 * Paper white, by photographs of a painting whose tones are known, through the tests' camera (test/synthetic/camera.ts, which shares
 * no code with the package): warm and uneven light, vignette, tilt, noise, JPEG. The sheet has a bare margin of L* 95.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { whiteBalanced, paperWhite, rectify } from '../../core/check/index.js';
import { lightnessPlane } from '../../core/picture/index.js';
import type { Corners, Pixels } from '../../core/base/types.js';
import {
  blankScene,
  onQuad,
  photograph,
  type CameraOptions,
  type Photograph,
  type Quad,
  type Scene,
} from '../synthetic/camera.js';

/** Luminance of L* (CIE 15). */
const yOf = (lightness: number): number =>
  lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / (24389 / 27);

const MARGIN = 0.08;
const TONES = [20, 35, 50, 65, 80, 92];

/** A sheet of L* 95 with six painted fields that fill all but the margin. */
function sheet(width: number, height: number): Scene {
  const scene = blankScene(width, height, [yOf(95), yOf(95), yOf(95)]);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const u = (x / width - MARGIN) / (1 - 2 * MARGIN);
      const v = (y / height - MARGIN) / (1 - 2 * MARGIN);
      if (u < 0 || u >= 1 || v < 0 || v >= 1) continue;
      const tone = TONES[3 * Math.floor(2 * v) + Math.floor(3 * u)];
      scene.light.fill(yOf(tone), 3 * (y * width + x), 3 * (y * width + x) + 3);
    }
  return scene;
}

const QUAD: Quad = [
  [70, 52],
  [548, 78],
  [526, 430],
  [48, 398],
];
const PAINTING = [
  [MARGIN, MARGIN],
  [1 - MARGIN, MARGIN],
  [1 - MARGIN, 1 - MARGIN],
  [MARGIN, 1 - MARGIN],
].map(([u, v]) => onQuad(QUAD, u, v)) as Corners;

let scene: Scene;
beforeAll(() => {
  scene = sheet(800, 600);
});

const shot = (options: Partial<CameraOptions>): Photograph =>
  photograph(scene, {
    seed: 11,
    width: 620,
    height: 480,
    corners: QUAD,
    table: [0.12, 0.09, 0.07],
    exposure: 0.85,
    ...options,
  });

/** Median L* of the inner part of each field, after balancing and bringing upright. */
function readTones(photo: Pixels, white: ReturnType<typeof paperWhite>): number[] {
  const upright = rectify(whiteBalanced(photo, white, 95), PAINTING, { width: 300, height: 200 });
  const plane = lightnessPlane(upright);
  return TONES.map((_, i) => {
    const values: number[] = [];
    for (let y = 30; y < 70; y++)
      for (let x = 30; x < 70; x++)
        values.push(plane.data[(100 * Math.floor(i / 3) + y) * 300 + 100 * (i % 3) + x] / 2.55);
    return values.sort((a, b) => a - b)[values.length >> 1];
  });
}

const worst = (read: number[]): number =>
  Math.max(...read.map((tone, i) => Math.abs(tone - TONES[i])));

describe('paperWhite from a margin', { timeout: 60_000 }, () => {
  it.each<[string, Partial<CameraOptions>, number]>([
    ['plain', {}, 0.5],
    ['warm light', { cast: [1, 0.82, 0.6] }, 0.5],
    ['light from one side', { falloff: [0.3, 0.1] }, 0.6],
    ['vignette', { vignette: 0.3 }, 0.6],
    ['noise', { noise: { electrons: 4000, read: 5 } }, 0.6],
    ['JPEG 80', { jpeg: 80 }, 0.7],
    [
      'all of them',
      {
        cast: [1, 0.85, 0.66],
        falloff: [0.25, 0.1],
        vignette: 0.2,
        blurPx: 0.8,
        noise: { electrons: 4000, read: 5 },
        jpeg: 85,
      },
      1,
    ],
  ])('%s: tones within the stated L*', (_, camera, most) => {
    const photo = shot(camera);
    const white = paperWhite(photo, { painting: PAINTING, margin: 0.07 });
    expect(white.warnings).toEqual([]);
    expect(white.share).toBeGreaterThan(0.6);
    expect(worst(readTones(photo, white))).toBeLessThan(most);
  });

  it('is not led astray by tape on one side, nor by a cast shadow in a corner of the margin', () => {
    const taped = sheet(800, 600);
    for (let y = 100; y < 260; y++)
      for (let x = 0; x < 50; x++) taped.light.set([0.5, 0.42, 0.2], 3 * (y * 800 + x));
    const photo = photograph(taped, {
      seed: 2,
      width: 620,
      height: 480,
      corners: QUAD,
      table: [0.12, 0.09, 0.07],
      exposure: 0.85,
      shadows: [{ at: [0.86, 0.13], radius: [0.07, 0.07], softness: 0.5, depth: 0.5 }],
    });
    const white = paperWhite(photo, { painting: PAINTING, margin: 0.07 });
    expect(worst(readTones(photo, white))).toBeLessThan(1);
  });

  it('tells a cast shadow on the margin, and no table for one', () => {
    const found = (camera: Partial<CameraOptions>, margin = 0.07): string[] =>
      paperWhite(shot(camera), { painting: PAINTING, margin }).warnings.map(({ code }) => code);
    for (const depth of [0.3, 0.5]) {
      expect(
        found({ shadows: [{ at: [0.15, 0.5], radius: [0.3, 0.8], softness: 0.3, depth }] }),
      ).toContain('check.shadow');
    }
    for (const table of [
      [0.12, 0.09, 0.07],
      [0.35, 0.35, 0.35],
    ] as [number, number, number][])
      expect(found({ table }, 0.14)).not.toContain('check.shadow');
    expect(found({ falloff: [0.3, 0.2], vignette: 0.3 })).not.toContain('check.shadow');
  });

  it('says that there is no margin on a dark table, and when paper is clipped or dark', () => {
    const codes = (photo: Pixels, margin = 0.07): string[] =>
      paperWhite(photo, { painting: PAINTING, margin }).warnings.map(({ code }) => code);
    const table = paperWhite(
      photograph(scene, {
        seed: 1,
        width: 620,
        height: 480,
        corners: [
          [5, 4],
          [615, 4],
          [615, 476],
          [5, 476],
        ],
      }),
      {
        painting: [
          [5, 4],
          [615, 4],
          [615, 476],
          [5, 476],
        ],
        margin: 0.07,
      },
    );
    expect(table.warnings.map(({ code }) => code)).toContain('check.no-margin');
    expect(codes(shot({ exposure: 1.6 }))).toContain('check.white-clipped');
    expect(codes(shot({ exposure: 0.12 }))).toContain('check.white-dark');
  });
});

describe('paperWhite from a spot', { timeout: 60_000 }, () => {
  it('takes the tone of the spot as white everywhere', () => {
    const photo = shot({ cast: [1, 0.82, 0.6] });
    const [x, y] = onQuad(QUAD, 0.5, 0.04);
    const white = paperWhite(photo, { spot: [x, y], radius: 5 });
    expect(worst(readTones(photo, white))).toBeLessThan(0.5);
    expect(white.warnings).toEqual([]);
  });

  it('reads one pixel, and refuses a spot outside', () => {
    const dot = { width: 1, height: 1, data: Uint8ClampedArray.of(188, 188, 188, 255) };
    const white = paperWhite(dot, { spot: [0.5, 0.5], radius: 1 });
    // Paper of L* 95 is luminance 0.876; its byte is 241.
    expect([...whiteBalanced(dot, white, 95).data.subarray(0, 3)]).toEqual([241, 241, 241]);
    expect(() => paperWhite(dot, { spot: [3, 0], radius: 1 })).toThrow(/^place\.spot\[0\]/);
  });
});
