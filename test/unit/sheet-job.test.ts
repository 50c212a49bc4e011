import { afterAll, describe, expect, it } from 'vitest';
import { Service } from '../../core/worker/service.js';
import { readSheet } from '../../core/swatch/index.js';
import type { Corners } from '../../core/base/types.js';
import { onQuad, photograph, type CameraOptions } from '../synthetic/camera.js';
import { paintedSheet, type PaintedDab } from '../synthetic/sheet.js';

const dabs: PaintedDab[] = [30, 50, 70].map((L, i) => ({
  at: [0.25 + 0.25 * i, 0.5],
  radius: [0.08, 0.15],
  lab: [L, 0, 0],
}));
const camera: CameraOptions = {
  seed: 1,
  width: 640,
  height: 480,
  exposure: 0.9,
  falloff: [0.3, 0.1],
  table: [0.1, 0.08, 0.06],
  corners: [
    [60, 60],
    [580, 50],
    [590, 420],
    [50, 410],
  ],
};
const sheet = paintedSheet({ width: 600, height: 420, paper: [95, 0, 0], dabs, seed: 1 });
const shot = photograph(sheet, camera);
const fractions = camera.corners!.map(([x, y]) => [x / 640, y / 480]) as Corners;

describe('the jobs about sheets', () => {
  const service = new Service();
  const stages = new Set<string>();
  const opened = service.open('1', 'photo', shot, { maxPixels: 100_000 });
  afterAll(() => service.close('photo'));

  it('read the working copy and answer in pixels and fractions of the photo', async () => {
    expect((await opened).ok).toBe(true);
    const answer = await service.run('2', 'sheet', { picture: 'photo' }, (stage) =>
      stages.add(stage),
    );
    if (!answer.ok) throw new Error(answer.error.message);
    const { value } = answer;
    expect(value.swatches).toHaveLength(3);
    value.swatches.forEach(({ lab, at, quad, column }, i) => {
      expect(Math.abs(lab[0] - dabs[i].lab[0])).toBeLessThan(0.7);
      expect(column).toBe(i);
      const [x, y] = onQuad(camera.corners!, ...dabs[i].at);
      expect(Math.abs((quad[0][0] + quad[2][0]) / 2 - x)).toBeLessThan(4);
      expect(Math.abs((quad[0][1] + quad[2][1]) / 2 - y)).toBeLessThan(4);
      at.forEach(([u, v], k) => {
        expect(u * 640).toBeCloseTo(quad[k][0], 6);
        expect(v * 480).toBeCloseTo(quad[k][1], 6);
      });
    });
    value.at.forEach(([u, v], k) => {
      expect(Math.abs(u - fractions[k][0])).toBeLessThan(0.01);
      expect(Math.abs(v - fractions[k][1])).toBeLessThan(0.01);
    });
    expect(stages.has('reduce') || stages.has('sheet')).toBe(true);
    // What crosses to the page is plain data.
    expect(structuredClone(value)).toEqual(value);
  });

  it('take corners in fractions and read one dab more by the same light', async () => {
    const answer = await service.run('3', 'sheet', { picture: 'photo', corners: fractions });
    if (!answer.ok) throw new Error(answer.error.message);
    const { light, swatches } = answer.value;
    const again = await service.run('4', 'sheetDab', {
      picture: 'photo',
      light: light!,
      loops: [swatches[1].at],
    });
    if (!again.ok) throw new Error(again.error.message);
    expect(Math.abs(again.value.lab[0] - 50)).toBeLessThan(0.7);
    again.value.at.forEach(([u, v], k) => {
      expect(u).toBeCloseTo(swatches[1].at[k][0], 9);
      expect(v).toBeCloseTo(swatches[1].at[k][1], 9);
    });
  });

  it('answer wrong corners by an error that names them, and unknown pictures', async () => {
    const [tl, tr, br, bl] = fractions;
    const crossed = await service.run('5', 'sheet', {
      picture: 'photo',
      corners: [tl, br, tr, bl],
    });
    expect(crossed).toMatchObject({ ok: false, error: { name: 'RangeError' } });
    const lost = await service.run('6', 'sheet', { picture: 'none' });
    expect(lost).toMatchObject({ ok: false, error: { name: 'PictureLost' } });
  });

  it('a working copy reads as the photo does', () => {
    const { swatches } = readSheet(shot);
    expect(swatches.map(({ lab }) => Math.round(lab[0]))).toEqual([30, 50, 70]);
  });
});
