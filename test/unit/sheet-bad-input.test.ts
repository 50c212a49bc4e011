import { describe, expect, it } from 'vitest';
import { readSheet, readSwatch, SHEET_CODES, sheetKernel } from '../../core/swatch/index.js';
import type { Corners, Pixels } from '../../core/base/types.js';
import { onQuad, photograph, pixelsOfScene, type CameraOptions } from '../synthetic/camera.js';
import { linearOf, paintedSheet, type PaintedDab } from '../synthetic/sheet.js';

const blank = (width: number, height: number, rgb: [number, number, number]): Pixels => {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let i = 0; i < data.length; i += 4) data.set([...rgb, 255], i);
  return { width, height, data };
};
const codes = (pixels: Pixels, corners?: Corners): string[] =>
  readSheet(pixels, { corners }).warnings.map(({ code }) => code);

const dabs: PaintedDab[] = [30, 50, 70, 85].map((L, i) => ({
  at: [0.2 + 0.2 * i, 0.5],
  radius: [0.07, 0.15],
  lab: [L, 0, 0],
}));
const four = paintedSheet({ width: 600, height: 400, paper: [95, 0, 0], dabs, seed: 1 });
const camera: CameraOptions = {
  seed: 1,
  width: 600,
  height: 450,
  exposure: 0.9,
  table: [0.1, 0.08, 0.06],
  corners: [
    [60, 50],
    [540, 50],
    [540, 390],
    [60, 390],
  ],
};

describe('wrong arguments', () => {
  const sheet = blank(60, 40, [230, 230, 230]);

  it('name the argument', () => {
    expect(() => readSheet(undefined as never)).toThrow(TypeError);
    expect(() => readSheet({ width: 2, height: 2, data: new Uint8Array(3) })).toThrow(RangeError);
    expect(() => readSheet({ ...sheet, colorSpace: 'display-p3' })).toThrow(/colorSpace/);
    expect(() => readSheet(sheet, { paperLightness: 20 })).toThrow(/paperLightness is 20/);
    expect(() => readSheet(sheet, { paperLightness: '95' as never })).toThrow(TypeError);
    expect(() => readSheet(sheet, { corners: [[0, 0]] as never })).toThrow(/options\.corners/);
  });

  it('refuse corners that are crossed, on a line, dented, or away from the picture', () => {
    const wrong: Corners[] = [
      [
        [5, 5],
        [50, 35],
        [50, 5],
        [5, 35],
      ],
      [
        [5, 5],
        [25, 5],
        [50, 5],
        [5, 35],
      ],
      [
        [5, 5],
        [50, 5],
        [20, 15],
        [5, 35],
      ],
      [
        [100, 5],
        [150, 5],
        [150, 35],
        [100, 35],
      ],
      [
        [5, 5],
        [NaN, 5],
        [50, 35],
        [5, 35],
      ],
    ];
    for (const corners of wrong) expect(() => readSheet(sheet, { corners })).toThrow(RangeError);
  });

  it('are told before any work is done', () => {
    expect(() => sheetKernel(sheet, { paperLightness: 1000 })).toThrow(RangeError);
  });
});

describe('photos that show no sheet', () => {
  it('are read without a throw at any size', () => {
    for (const [width, height] of [
      [1, 1],
      [1, 50],
      [7, 3],
      [17, 16],
      [300, 2],
    ]) {
      const { swatches, corners, limits } = readSheet(blank(width, height, [200, 190, 180]));
      expect(swatches).toEqual([]);
      expect(corners).toHaveLength(4);
      expect(limits.length).toBeGreaterThan(3);
    }
  });

  it('one even tone has no dabs', () => {
    expect(codes(blank(300, 200, [235, 235, 235]))).toContain('sheet.no-dabs');
    expect(codes(blank(300, 200, [0, 0, 0]))).toContain('sheet.no-paper');
    expect(codes(blank(300, 200, [255, 255, 255]))).toContain('sheet.clipping');
  });

  it('a picture without anything even has no paper or no dabs, and says so', () => {
    const noise = blank(300, 200, [0, 0, 0]);
    let state = 1;
    for (let i = 0; i < noise.data.length; i++) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      if (i % 4 < 3) noise.data[i] = state >>> 24;
    }
    const said = codes(noise);
    expect(said).toContain('sheet.not-found');
    expect(said.some((code) => code === 'sheet.no-paper' || code === 'sheet.noise')).toBe(true);
  });

  it('painted all over, there is no paper to go by', () => {
    const all = paintedSheet({
      width: 400,
      height: 300,
      paper: [95, 0, 0],
      seed: 1,
      dabs: Array.from({ length: 192 }, (_, i) => ({
        at: [(i % 16) / 16 + 1 / 32, Math.floor(i / 16) / 12 + 1 / 24],
        radius: [0.04, 0.05],
        lab: [20 + ((i * 37) % 60), ((i * 53) % 41) - 20, ((i * 71) % 41) - 20],
        rectangle: true,
      })),
    });
    const { warnings } = readSheet(pixelsOfScene(all));
    expect(warnings.map(({ code }) => code)).toContain('sheet.no-paper');
  });
});

describe('sheets in a bad way', () => {
  it('all is well with the plain one', () => {
    const { swatches, warnings } = readSheet(photograph(four, camera));
    expect(warnings).toEqual([]);
    expect(swatches.map(({ lab }) => Math.round(lab[0]))).toEqual([30, 50, 70, 85]);
    expect(swatches.map(({ column }) => column)).toEqual([0, 1, 2, 3]);
  });

  it('half a sheet: cut off, and what is left is read', () => {
    const corners: CameraOptions['corners'] = [
      [200, 50],
      [840, 50],
      [840, 390],
      [200, 390],
    ];
    const { swatches, warnings } = readSheet(photograph(four, { ...camera, corners }));
    expect(warnings.map(({ code }) => code)).toContain('sheet.cut-off');
    expect(swatches.map(({ lab }) => Math.round(lab[0]))).toEqual([30, 50]);
  });

  it('a mirrored photo, or corners the wrong way round', () => {
    const shot = photograph(four, camera);
    const [tl, tr, br, bl] = camera.corners!;
    const reading = readSheet(shot, { corners: [tr, tl, bl, br] });
    expect(reading.warnings.map(({ code }) => code)).toContain('sheet.mirrored');
    // Read as mirrored: from the other side.
    expect(reading.swatches.map(({ lab }) => Math.round(lab[0]))).toEqual([85, 70, 50, 30]);
  });

  it('coloured paper cannot be told from coloured light, and is said', () => {
    const toned = paintedSheet({ width: 600, height: 400, paper: [80, 4, 26], dabs, seed: 1 });
    expect(codes(photograph(toned, camera))).toContain('sheet.coloured-paper');
  });

  it('a wet reflection in a dab is left out of the reading and told', () => {
    const glares = [
      {
        at: [0.5, 0.49] as [number, number],
        radius: [0.012, 0.012] as [number, number],
        softness: 0.3,
        light: 0.6,
      },
    ];
    const wet: PaintedDab[] = [{ at: [0.5, 0.5], radius: [0.14, 0.2], lab: [35, 0, 0] }];
    const sheet = paintedSheet({ width: 600, height: 400, paper: [95, 0, 0], dabs: wet, seed: 1 });
    const { swatches, warnings } = readSheet(photograph(sheet, { ...camera, glares }));
    expect(swatches).toHaveLength(1);
    expect(Math.abs(swatches[0].lab[0] - 35)).toBeLessThan(0.5);
    expect(warnings).toContainEqual({ code: 'sheet.wet-glare', values: { count: 1 } });
  });

  it('a small photo says so', () => {
    const tiny = photograph(four, {
      ...camera,
      width: 120,
      height: 90,
      corners: camera.corners!.map(([x, y]) => [x / 5, y / 5]) as CameraOptions['corners'],
    });
    expect(codes(tiny)).toContain('sheet.small');
  });

  it('only published codes are used, and inputs stay as they were', () => {
    const shot = photograph(four, { ...camera, exposure: 1.4 });
    const before = shot.data.slice();
    const corners = camera.corners!.map(([x, y]) => [x, y]) as Corners;
    for (const { code } of readSheet(shot, { corners }).warnings)
      expect(SHEET_CODES).toContain(code);
    expect(Buffer.from(shot.data).equals(Buffer.from(before))).toBe(true);
    expect(corners).toEqual(camera.corners);
  });
});

describe('a dab read again', () => {
  const shot = photograph(four, { ...camera, falloff: [0.4, 0.1], cast: [1, 0.9, 0.75] });
  let light = sheetKernel(shot).next();
  const kernel = sheetKernel(shot);
  for (light = kernel.next(); !light.done;) light = kernel.next();
  const known = light.value.light!;
  const around = (u: number, v: number, w: number, h: number): Corners =>
    [
      [u - w, v - h],
      [u + w, v - h],
      [u + w, v + h],
      [u - w, v + h],
    ].map(([x, y]) => onQuad(camera.corners!, x, y)) as Corners;

  it('gives what the sheet gives, with some paper in the loop too', () => {
    for (const [i, { at, lab }] of dabs.entries()) {
      const again = readSwatch(shot, known, [around(at[0], at[1], 0.075, 0.16)]);
      expect(Math.abs(again.lab[0] - lab[0]), String(i)).toBeLessThan(0.7);
      expect(again.uncertainty).toBeLessThan(1);
    }
  });

  it('joins loops, and reads bare paper as bare paper', () => {
    const { at } = dabs[1];
    const joined = readSwatch(shot, known, [
      around(at[0] - 0.02, at[1], 0.02, 0.05),
      around(at[0] + 0.02, at[1], 0.02, 0.05),
    ]);
    expect(Math.abs(joined.lab[0] - 50)).toBeLessThan(0.7);
    const paper = readSwatch(shot, known, [around(0.5, 0.15, 0.05, 0.05)], { paperLightness: 95 });
    expect(Math.abs(paper.lab[0] - 95)).toBeLessThan(0.3);
    expect(linearOf(paper.lab).every((c) => c > 0.8)).toBe(true);
  });

  it('refuses loops away from the picture', () => {
    expect(() =>
      readSwatch(shot, known, [
        [
          [900, 900],
          [950, 900],
          [950, 950],
        ],
      ]),
    ).toThrow(RangeError);
    expect(() => readSwatch(shot, known, [])).toThrow(RangeError);
    expect(() => readSwatch(shot, known, 'x' as never)).toThrow(TypeError);
  });
});
