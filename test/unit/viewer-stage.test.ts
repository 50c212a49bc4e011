import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { stageViewOf } from '../../components/value-band-viewer/stage-view.js';
import {
  boxOf,
  fromPicture,
  NEAREST,
  panned,
  settled,
  stageRatio,
  toPicture,
  WHOLE_SIGHT,
  zoomedAt,
} from '../../components/value-band-viewer/stage.js';

const ratio = fc.double({ min: 0.02, max: 60, noNaN: true });
const part = fc.double({ min: 0, max: 1, noNaN: true });

describe('where the picture lies on the stage', () => {
  it('shows a picture whole, centred and in its own proportion', () => {
    expect(boxOf(2, 2)).toEqual({ x: 0, y: 0, width: 1, height: 1 });
    expect(boxOf(4, 2)).toEqual({ x: 0, y: 0.25, width: 1, height: 0.5 });
    expect(boxOf(1, 2)).toEqual({ x: 0.25, y: 0, width: 0.5, height: 1 });
    expect(stageRatio(2000)).toBe(3.2);
    expect(stageRatio(1.5)).toBe(1.5);
  });

  it('keeps the point under the hand where it is while nothing forces it elsewhere', () => {
    const box = boxOf(1.5, 1.5);
    const near = zoomedAt(WHOLE_SIGHT, 4, 0.3, 0.6, box);
    expect(near.zoom).toBe(4);
    expect(toPicture(near, box, 0.3, 0.6)[0]).toBeCloseTo(0.3, 12);
    expect(toPicture(near, box, 0.3, 0.6)[1]).toBeCloseTo(0.6, 12);
  });

  it('maps to the picture and back without loss', () => {
    fc.assert(
      fc.property(
        ratio,
        part,
        part,
        fc.double({ min: 1, max: 16, noNaN: true }),
        part,
        part,
        (r, px, py, zoom, u, v) => {
          const box = boxOf(r, stageRatio(r));
          const sight = zoomedAt(WHOLE_SIGHT, zoom, px, py, box);
          const [x, y] = fromPicture(sight, box, u, v);
          const [u2, v2] = toPicture(sight, box, x, y);
          expect(u2).toBeCloseTo(u, 8);
          expect(v2).toBeCloseTo(v, 8);
        },
      ),
    );
  });

  it('never leaves ground beside a picture that could cover it', () => {
    fc.assert(
      fc.property(
        ratio,
        fc.double({ min: 0.1, max: 40, noNaN: true }),
        fc.double({ min: -9, max: 9, noNaN: true }),
        fc.double({ min: -9, max: 9, noNaN: true }),
        (r, factor, dx, dy) => {
          const box = boxOf(r, stageRatio(r));
          const sight = panned(zoomedAt(WHOLE_SIGHT, factor, 0.5, 0.5, box), dx, dy, box);
          expect(sight.zoom).toBeGreaterThanOrEqual(1);
          expect(sight.zoom).toBeLessThanOrEqual(NEAREST);
          const [left, top] = fromPicture(sight, box, 0, 0);
          const [right, bottom] = fromPicture(sight, box, 1, 1);
          for (const [from, to] of [
            [left, right],
            [top, bottom],
          ]) {
            if (to - from > 1) {
              expect(from).toBeLessThanOrEqual(1e-9);
              expect(to).toBeGreaterThanOrEqual(1 - 1e-9);
            } else expect(from).toBeCloseTo(1 - to, 9);
          }
        },
      ),
    );
  });

  it('comes to rest when the whole picture shows', () => {
    expect(settled({ zoom: 0.4, x: 3, y: -2 }, boxOf(1, 1))).toEqual(WHOLE_SIGHT);
  });
});

describe('from places on the photo to places on the stage', () => {
  // The right half of a photo of 400 x 100, shown on a stage of 200 x 100 at (10, 20) of the screen: one CSS pixel a pixel.
  const state = {
    rect: { left: 10, top: 20, width: 200, height: 100 } as DOMRect,
    sight: WHOLE_SIGHT,
    box: boxOf(2, 2),
    crop: { x: 0.5, y: 0, width: 0.5, height: 1 },
    photo: { width: 400, height: 100 },
  };

  it('follows the crop', () => {
    const view = stageViewOf(state);
    expect(view.toPhoto(10, 20)).toEqual([0.5, 0]);
    expect(view.toPhoto(210, 120)).toEqual([1, 1]);
    expect(view.toStage([0.75, 0.5])).toEqual([100, 50]);
    expect(view.toStageLength(0.1)).toBeCloseTo(40, 12); // a tenth of 400 pixels
  });

  it('follows a nearer look', () => {
    const view = stageViewOf({ ...state, sight: zoomedAt(WHOLE_SIGHT, 2, 0.5, 0.5, state.box) });
    expect(view.toStage([0.75, 0.5])).toEqual([100, 50]);
    expect(view.toStage([0.5, 0])).toEqual([-100, -50]);
    expect(view.toStageLength(0.1)).toBeCloseTo(80, 12);
  });
});
