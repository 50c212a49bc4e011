/**
 * The table of error against each fault of a camera, one at a time and all together, with fixed seeds: at the usual level dabs are read
 * within what the table says, at the break point the reader says so.
 */
import { describe, expect, it } from 'vitest';
import { deltaE2000 } from '../../core/index.js';
import { readSheet, type SheetReading, type SheetSwatch } from '../../core/swatch/index.js';
import { onQuad, photograph, type CameraOptions } from '../synthetic/camera.js';
import { paintedSheet, type PaintedDab } from '../synthetic/sheet.js';
import { STANDARD_DABS, standardSheet, usualCamera } from '../synthetic/standard-sheet.js';

const SIZE = [1000, 750] as const;
const sheet = paintedSheet(standardSheet(7, 1000, 714));
const usual = usualCamera(11, ...SIZE);
/** The same place and table, and no other fault. */
const plain: CameraOptions = {
  seed: 5,
  width: SIZE[0],
  height: SIZE[1],
  corners: usual.corners,
  table: usual.table,
  exposure: 0.9,
};

interface Row {
  fault: string;
  camera: Partial<CameraOptions>;
  /** Starts from all usual faults instead of from none. */
  from?: CameraOptions;
  /** The largest errors allowed over all dabs that are read: L* and dE00. */
  lightness: number;
  colour: number;
  /** Dabs that are read, of twenty. */
  read?: number;
  /** Shapes that may be taken for dabs. */
  extra?: number;
  /** How far a found corner may be off, pixels. */
  corner?: number;
  /** The warnings beside the one about the tape. */
  warnings?: string[];
}

const glare = (light: number, radius: number): Partial<CameraOptions> => ({
  glares: [{ at: [0.6, 0.4], radius: [radius, radius], softness: 1, light }],
});
const shadow = (softness: number): Partial<CameraOptions> => ({
  shadows: [{ at: [0.1, 0.5], radius: [0.3, 0.4], softness, depth: 0.35 }],
});
const steep = [
  [200, 120],
  [810, 160],
  [980, 720],
  [40, 690],
] as CameraOptions['corners'];

/** Turned by 30 degrees. */
const turned = [
  [347.2, 39.7],
  [866.8, 339.7],
  [652.8, 710.3],
  [133.2, 410.3],
] as CameraOptions['corners'];

const USUAL: Row[] = [
  { fault: 'none', camera: {}, lightness: 0.4, colour: 0.6 },
  { fault: 'vignette', camera: { vignette: 0.35 }, lightness: 0.4, colour: 0.6 },
  { fault: 'window light', camera: { falloff: [0.4, 0.2] }, lightness: 0.4, colour: 0.6 },
  { fault: 'warm light', camera: { cast: [1, 0.9, 0.7] }, lightness: 0.4, colour: 0.6 },
  { fault: 'tilt', camera: { corners: steep }, lightness: 0.4, colour: 0.6 },
  { fault: 'turned', camera: { corners: turned }, lightness: 0.5, colour: 0.8 },
  { fault: 'noise', camera: { noise: { electrons: 2000, read: 6 } }, lightness: 0.5, colour: 1 },
  { fault: 'JPEG 85', camera: { jpeg: 85 }, lightness: 0.6, colour: 1 },
  { fault: 'soft focus', camera: { blurPx: 1 }, lightness: 0.5, colour: 0.8 },
  { fault: 'all together', from: usual, camera: {}, lightness: 0.7, colour: 1.2 },
  {
    fault: 'all together, light table',
    from: usual,
    camera: { table: [0.6, 0.56, 0.5] },
    lightness: 0.7,
    colour: 1.2,
  },
];

const BREAK: Row[] = [
  {
    fault: 'light lost to a fifth',
    camera: { falloff: [0.7, 0.2] },
    lightness: 0.6,
    colour: 0.8,
    warnings: ['sheet.falls-off'],
  },
  {
    fault: 'lamp light',
    camera: { cast: [1, 0.7, 0.35] },
    lightness: 0.6,
    colour: 1,
    warnings: ['sheet.coloured-paper'],
  },
  {
    fault: 'grain',
    camera: { noise: { electrons: 250, read: 8 } },
    lightness: 4,
    colour: 4,
    warnings: ['sheet.noise'],
  },
  {
    fault: 'overexposed',
    camera: { exposure: 1.35 },
    lightness: 9,
    colour: 9,
    read: 17,
    warnings: ['sheet.clipping'],
  },
  {
    fault: 'underexposed',
    camera: { exposure: 0.1 },
    lightness: 1.5,
    colour: 2.5,
    warnings: ['sheet.dark'],
  },
  {
    fault: 'out of focus',
    camera: { blurPx: 5 },
    lightness: 3,
    colour: 3,
    extra: 20,
    corner: 6,
    warnings: ['sheet.blur'],
  },
  {
    fault: 'a cast shadow',
    camera: shadow(0.1),
    lightness: 0.6,
    colour: 0.8,
    read: 8,
    warnings: ['sheet.shadow'],
  },
  {
    fault: 'a soft shadow',
    camera: shadow(0.8),
    lightness: 0.8,
    colour: 1,
    read: 8,
    warnings: ['sheet.shadow'],
  },
  {
    fault: 'a reflection',
    camera: glare(0.3, 0.15),
    lightness: 0.6,
    colour: 0.8,
    read: 10,
    warnings: ['sheet.glare'],
  },
];

/** JPEG files at low quality lose colour before they lose value; nothing in the pixels says so for certain. */
const UNTOLD: Row[] = [
  { fault: 'JPEG 40', camera: { jpeg: 40 }, lightness: 1.5, colour: 3 },
  { fault: 'JPEG 20', camera: { jpeg: 20 }, lightness: 3, colour: 6 },
];

function hitOf(reading: SheetReading, camera: CameraOptions, dab: PaintedDab): SheetSwatch[] {
  const [x, y] = onQuad(camera.corners!, ...dab.at);
  return reading.swatches.filter(({ quad }) => {
    const [xs, ys] = [0, 1].map((axis) => quad.map((corner) => corner[axis]));
    return x > Math.min(...xs) && x < Math.max(...xs) && y > Math.min(...ys) && y < Math.max(...ys);
  });
}

function check({
  fault,
  camera,
  from,
  lightness,
  colour,
  read,
  extra,
  corner = 2,
  warnings = [],
}: Row): void {
  const taken = { ...(from ?? plain), ...camera };
  const reading = readSheet(photograph(sheet, taken));
  const hits = STANDARD_DABS.map((dab) => ({ dab, hit: hitOf(reading, taken, dab) }));
  const found = hits.filter(({ hit }) => hit.length === 1);
  expect(found.length, 'dabs read').toBeGreaterThanOrEqual(read ?? STANDARD_DABS.length);
  expect(reading.swatches.length - found.length, 'no dabs').toBeLessThanOrEqual(extra ?? 0);
  for (const { dab, hit } of found) {
    expect(Math.abs(hit[0].lab[0] - dab.lab[0]), `${fault}: L* ${dab.lab[0]}`).toBeLessThan(
      lightness,
    );
    expect(deltaE2000(hit[0].lab, dab.lab), `${fault}: L* ${dab.lab[0]}`).toBeLessThan(colour);
  }
  const told = reading.warnings.map(({ code }) => code);
  expect(told.filter((code) => code !== 'sheet.at-edge')).toEqual(expect.arrayContaining(warnings));
  if (warnings.length === 0) expect(told.filter((code) => code !== 'sheet.at-edge')).toEqual([]);
  for (const [i, [x, y]] of reading.corners.entries())
    expect(Math.hypot(x - taken.corners![i][0], y - taken.corners![i][1]), 'corner').toBeLessThan(
      corner,
    );
  if (process.env.SHEET_TABLE) {
    const worst = (of: (dab: PaintedDab, hit: SheetSwatch) => number): string =>
      Math.max(...found.map(({ dab, hit }) => of(dab, hit[0]))).toFixed(2);
    const inRange = found.filter(
      ({ dab, hit }) => Math.abs(hit[0].lab[0] - dab.lab[0]) <= hit[0].uncertainty,
    ).length;
    console.log(
      `| ${fault} | ${found.length} | ${worst((dab, hit) => Math.abs(hit.lab[0] - dab.lab[0]))} | ${worst((dab, hit) => deltaE2000(hit.lab, dab.lab))} | ${inRange} | ${told.join(' ')} |`,
    );
  }
}

describe('usual faults', () => {
  for (const row of USUAL) it(row.fault, { timeout: 60_000 }, () => check(row));
});

describe('break points', () => {
  for (const row of BREAK) it(row.fault, { timeout: 60_000 }, () => check(row));
});

describe('what is not told', () => {
  for (const row of UNTOLD) it(row.fault, { timeout: 60_000 }, () => check(row));
});
