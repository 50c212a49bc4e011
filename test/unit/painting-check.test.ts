/** The plain parts of the painting check: corners, the painted part of a sheet, targets, names of files. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  inOrder,
  inPainting,
  mirrored,
  onPhoto,
  paintedPart,
  placeIn,
  turned,
} from '../../components/painting-check/geometry.js';
import { nameOf } from '../../components/painting-check/delivering.js';
import { lastDone, reservesIn, targetsOf } from '../../components/painting-check/planned.js';
import { kappaWord } from '../../components/painting-check/sentences.js';
import { checkDeskWords } from '../../components/shared/words/check-desk.js';
import { passagesWorkWords } from '../../components/shared/words/passages-work.js';
import { startedPlan, type Corners, type WorkStep } from '../../core/index.js';
import { massesFrom } from './order-masses.js';

const QUAD: Corners = [
  [0.15, 0.1],
  [0.87, 0.12],
  [0.86, 0.9],
  [0.11, 0.87],
];

describe('corners', () => {
  it('are put in order from any order', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }), (order) => {
        expect(inOrder(order.map((i) => QUAD[i]) as Corners)).toEqual(QUAD);
      }),
    );
  });

  it('turn by quarters and mirror back', () => {
    expect(turned(turned(turned(turned(QUAD))))).toEqual(QUAD);
    expect(mirrored(mirrored(QUAD))).toEqual(QUAD);
    // After a quarter turn the left side of the photo is the top of the painting.
    expect(turned(QUAD)[0]).toEqual(QUAD[3]);
  });

  it('bring places there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (x, y) => {
          const [u, v] = inPainting(QUAD, onPhoto(QUAD, [x, y]));
          expect(u).toBeCloseTo(x, 9);
          expect(v).toBeCloseTo(y, 9);
        },
      ),
    );
    QUAD.forEach((corner, i) => {
      const at = onPhoto(
        QUAD,
        (
          [
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 1],
          ] as Corners
        )[i],
      );
      expect(at[0]).toBeCloseTo(corner[0], 9);
      expect(at[1]).toBeCloseTo(corner[1], 9);
    });
  });
});

describe('the painted part of a sheet', () => {
  const SIZE = { widthMm: 140, heightMm: 100 };

  /** A sheet whose paper gets darker to the right, with a painted rectangle. */
  function sheet(x0: number, y0: number, x1: number, y1: number, table = 0) {
    const [width, height] = [200, 160];
    const data = new Uint8Array(width * height);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const paper = 240 - Math.round((60 * x) / width);
        const painted = x >= x0 && x < x1 && y >= y0 && y < y1;
        data[y * width + x] = x < table ? 40 : painted ? paper - 80 : paper;
      }
    return { width, height, data };
  }

  it('is found under uneven light, with a sliver of table at the side', () => {
    for (const table of [0, 3]) {
      const [tl, , br] = paintedPart(sheet(30, 30, 170, 130, table), SIZE)!;
      expect(tl[0]).toBeCloseTo(30 / 200, 9);
      expect(tl[1]).toBeCloseTo(30 / 160, 9);
      expect(br[0]).toBeCloseTo(170 / 200, 9);
      expect(br[1]).toBeCloseTo(130 / 160, 9);
    }
  });

  it('is told by the narrowest margin while much of it is bare', () => {
    // The lower two thirds are painted, and of their width all but the right quarter; margins are 30 mm on a sheet of 200 x 160 mm.
    const [tl, , br] = paintedPart(sheet(30, 64, 135, 130), SIZE)!;
    expect(tl[0]).toBeCloseTo(30 / 200, 9);
    expect(tl[1]).toBeCloseTo(30 / 160, 9);
    expect(br[0]).toBeCloseTo(170 / 200, 9);
    expect(br[1]).toBeCloseTo(130 / 160, 9);
  });

  it('is not believed where nothing or little is painted', () => {
    expect(paintedPart(sheet(0, 0, 0, 0), SIZE)).toBeUndefined();
    expect(paintedPart(sheet(90, 70, 110, 90), SIZE)).toBeUndefined();
  });
});

describe('what was planned', () => {
  const masses = massesFrom(['111222', '101223', '111222']);

  it('has targets that rise from band to band and stay on the paper, whatever the board holds', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ bucket: fc.nat(2), lightness: fc.double({ min: 0, max: 100, noNaN: true }) }),
          {
            maxLength: 6,
          },
        ),
        fc.double({ min: 60, max: 100, noNaN: true }),
        (swatches, lightness) => {
          const plan = startedPlan();
          const targets = targetsOf(
            {
              ...plan,
              paperLimit: 93,
              paper: { ...plan.paper, lightness },
              board: {
                ...plan.board,
                swatches: swatches.map((swatch, i) => ({ ...swatch, id: String(i) })),
              },
            },
            masses,
          );
          expect(targets).toHaveLength(masses.map.bands);
          targets.forEach((target, i) => {
            expect(target).toBeGreaterThanOrEqual(0);
            expect(target).toBeLessThanOrEqual(lightness + 1e-9);
            if (i > 0) expect(target).toBeGreaterThan(targets[i - 1]);
          });
        },
      ),
    );
  });

  it('takes the board’s own swatches where they rise: the middle one, no accents, none that are wet', () => {
    const plan = startedPlan();
    const swatch = (bucket: number, lightness: number, more = {}) => ({
      id: `${bucket} ${lightness}`,
      bucket,
      lightness,
      ...more,
    });
    const targets = targetsOf(
      {
        ...plan,
        paperLimit: 93,
        board: {
          ...plan.board,
          swatches: [
            swatch(0, 28),
            swatch(0, 30),
            swatch(0, 36),
            swatch(1, 55),
            swatch(1, 90, { accent: true }),
            swatch(2, 80),
            swatch(2, 60, { wet: true }),
          ],
        },
      },
      masses,
    );
    expect(targets.slice(0, 3)).toEqual([30, 55, 80]);
    expect(targets[3]).toBe(plan.paper.lightness);
  });

  it('keeps white what no step lays and what steps keep; counts the last tick', () => {
    const step = (regions: number[], keeps: number[] = [], done = false) =>
      ({ regions, keeps, done }) as unknown as WorkStep;
    const count = masses.regions.length;
    const laid = masses.regions.map(({ id }) => id).slice(0, count - 1);
    expect(reservesIn(masses, [step(laid, [0])])).toEqual([0, count - 1]);
    expect(lastDone([step([0], [], true), step([1]), step([2], [], true), step([3])])).toBe(2);
    expect(lastDone([step([0]), step([1])])).toBe(1);
  });

  it('has a place inside each mass', () => {
    for (const { id } of masses.regions) {
      const [x, y] = placeIn(masses, id);
      expect(masses.labels[Math.floor(y) * masses.map.width + Math.floor(x)]).toBe(id);
    }
  });
});

describe('words and names', () => {
  it('has a sentence for every code that the check can give', () => {
    const root = new URL('../../core/', import.meta.url);
    const files = readdirSync(new URL('check/', root)).map((name) => `check/${name}`);
    const source = [...files, 'worker/check-jobs.ts'].map((name) =>
      readFileSync(new URL(name, root), 'utf8'),
    );
    const codes = new Set(source.join(' ').match(/(?<=')check\.[a-z-]+(?=')/g));
    expect(codes.size).toBeGreaterThan(35);
    for (const code of codes)
      expect({ ...checkDeskWords, ...passagesWorkWords }, code).toHaveProperty([code]);
  });

  it('kappa by Landis and Koch 1977, table on p. 165', () => {
    const rows: [number, string][] = [
      [-0.1, 'poor'],
      [0.1, 'slight'],
      [0.3, 'fair'],
      [0.5, 'moderate'],
      [0.7, 'substantial'],
      [0.9, 'perfect'],
    ];
    for (const [kappa, word] of rows) expect(kappaWord(kappa)).toBe(word);
  });

  it('names of files hold no sign that a file system refuses', () => {
    expect(nameOf('a/b: "c"? <d>|*\\e\u0007', 'image/png')).toBe('a b c d e.png');
    expect(nameOf('', 'image/jpeg')).toBe('painting.jpg');
    expect(nameOf('dog.jpeg', 'image/png')).toBe('dog.png');
  });
});
