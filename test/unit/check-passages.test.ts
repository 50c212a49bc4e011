/** Passages of a painting against their swatches, on made pictures whose answer is known. Colours and CIEDE2000: culori 4.0.2. */
import { converter, differenceCiede2000 } from 'culori';
import { describe, expect, it } from 'vitest';
import type { Lab, Pixels } from '../../core/base/types.js';
import { LEAN_SHOWS, passageFindings } from '../../core/check/index.js';
import type { Passages } from '../../core/mass/index.js';
import type { Masses } from '../../core/mass/types.js';
import { Service } from '../../core/worker/service.js';
import { massesFrom } from './order-masses.js';
import { numbers } from './check-synthetic.js';

type Rgb = [r: number, g: number, b: number];
const lab65 = converter('lab65');
const labOf = ([r, g, b]: Rgb): Lab => {
  const { l, a, b: yellow } = lab65({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
  return [l, a, yellow];
};
const difference = differenceCiede2000();
const apart = ([l, a, b]: Lab, [m, c, d]: Lab): number =>
  difference({ mode: 'lab65', l, a, b }, { mode: 'lab65', l: m, a: c, b: d });

const [WIDTH, HEIGHT] = [120, 80];
// Of one value, near L* 47.
const GREEN: Rgb = [60, 126, 60];
const RED: Rgb = [200, 58, 58];
const GREY: Rgb = [112, 112, 112];

/** A sleeve of one mass with a ribbon (x 50 to 62) across; beside it a light mass of one passage. */
const masses: Masses = massesFrom(
  Array.from({ length: HEIGHT }, () => '0'.repeat(90) + '1'.repeat(30)),
);
const partAt = (x: number): number => (x >= 90 ? 3 : x < 50 ? 0 : x < 62 ? 1 : 2);
const passages: Passages = {
  labels: Int32Array.from({ length: WIDTH * HEIGHT }, (_, k) => partAt(k % WIDTH)),
  passages: [
    [0, 50, GREEN],
    [0, 12, RED],
    [0, 28, GREEN],
    [1, 30, [200, 200, 190]],
  ].map(([region, wide, rgb], id) => ({
    id,
    region: region as number,
    area: (wide as number) * HEIGHT,
    lab: labOf(rgb as Rgb),
    bounds: [0, 0, 1, 1],
    at: [[25, 56, 75, 105][id], 40],
  })),
  borders: [
    { passages: [0, 1], run: 'keep-apart', deltaE: 60, lengthPx: HEIGHT },
    { passages: [1, 2], run: 'keep-apart', deltaE: 60, lengthPx: HEIGHT },
  ],
};
const plan = { masses, colours: passages.passages.map(({ lab }): Lab | undefined => lab) };

/** A painting with a colour for each passage, noise, and borders that stray by up to two pixels. */
function painted(colours: readonly Rgb[], seed = 3): Pixels {
  const random = numbers(seed);
  const data = new Uint8ClampedArray(4 * WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const stray = Math.round(2 * Math.sin(y / 7));
      const rgb = colours[partAt(Math.max(0, Math.min(WIDTH - 1, x + stray)))];
      const speck = random() < 0.03 ? 60 : 0;
      data.set([...rgb.map((v) => v + speck + 10 * (random() - 0.5)), 255], 4 * (y * WIDTH + x));
    }
  return { width: WIDTH, height: HEIGHT, data };
}
const LIGHT: Rgb = [200, 200, 190];
const codes = (found: { reason: { code: string } }[]): string[] =>
  found.map(({ reason }) => reason.code);

describe('passages of a painting', () => {
  it('as planned: nothing, through noise, specks and borders that stray', () => {
    expect(passageFindings(plan, passages, painted([GREEN, RED, GREEN, LIGHT]))).toEqual([]);
  });

  it('a passage of another value but the same lean is none of its business', () => {
    // The greens of a darker and of a lighter wash: linear light times 0.6 and 1.5.
    const scaled = (rgb: Rgb, by: number): Rgb =>
      rgb.map((v) => Math.round(255 * Math.min(1, (v / 255) ** 2.2 * by) ** (1 / 2.2))) as Rgb;
    const found = passageFindings(
      plan,
      passages,
      painted([scaled(GREEN, 0.7), RED, scaled(GREEN, 1.2), LIGHT]),
    );
    expect(found).toEqual([]);
  });

  it('a ribbon painted like the sleeve has vanished, and its lean is off', () => {
    const found = passageFindings(plan, passages, painted([GREEN, GREEN, GREEN, LIGHT]));
    const gone = found.filter(({ reason }) => reason.code === 'check.passage-vanished');
    expect(gone.map(({ passages: pair, region, at }) => [pair, region, at])).toEqual([
      [[1, 0], 0, [56, 40]],
      [[1, 2], 0, [56, 40]],
    ]);
    for (const { reason } of gone) {
      expect(reason.values.planned).toBeCloseTo(apart(labOf(RED), labOf(GREEN)), 3);
      expect(reason.values.deltaE).toBeLessThan(1);
    }
    const [lean] = found.filter(({ reason }) => reason.code === 'check.passage-lean');
    expect(lean.passages).toEqual([1]);
    // Hues of red and green by culori: atan2(b*, a*).
    const hue = ([, a, b]: Lab): number => ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
    expect(lean.reason.values.hue).toBeCloseTo(hue(labOf(RED)), 3);
    expect(Math.abs((lean.reason.values.painted as number) - hue(labOf(GREEN)))).toBeLessThan(2);
    const at50 = ([, a, b]: Lab): Lab => [50, a, b];
    expect(lean.reason.values.deltaE).toBeCloseTo(apart(at50(labOf(RED)), at50(labOf(GREEN))), 0);
    expect(found.map(({ effect }) => effect)).toEqual(
      found.map(({ effect }) => effect).sort((a, b) => b - a),
    );
  });

  it('tells greyer from purer', () => {
    const dull: Rgb = [97, 118, 97];
    const pure: Rgb = [0, 131, 0];
    const [greyer] = passageFindings(plan, passages, painted([dull, RED, GREEN, LIGHT]));
    expect(greyer).toMatchObject({ passages: [0], reason: { code: 'check.passage-greyer' } });
    const [, a, b] = labOf(dull);
    expect(Math.abs((greyer.reason.values.painted as number) - Math.hypot(a, b))).toBeLessThan(1.5);
    const toPure = {
      ...plan,
      colours: [labOf(dull), plan.colours[1], plan.colours[2], plan.colours[3]],
    };
    const found = passageFindings(toPure, passages, painted([pure, RED, GREEN, LIGHT]));
    expect(codes(found)).toEqual(['check.passage-purer']);
  });

  it('holds nothing against what is to come, has no swatch, or has no known white', () => {
    const bad = painted([GREY, GREY, GREY, GREY]);
    expect(passageFindings(plan, passages, bad).length).toBeGreaterThan(3);
    const order = [
      { id: 'light', regions: [1] },
      { id: 'dark', regions: [0] },
    ];
    expect(passageFindings(plan, passages, bad, { order, upToStep: 0 })).toEqual([]);
    const bare = { masses, colours: [undefined, undefined, undefined, undefined] };
    expect(codes(passageFindings(bare, passages, bad))).toEqual(
      Array(2).fill('check.passage-vanished'),
    );
    expect(codes(passageFindings(plan, passages, bad, { leans: false }))).toEqual(
      Array(2).fill('check.passage-vanished'),
    );
  });

  it('two that were planned alike cannot vanish into each other', () => {
    const alike = { masses, colours: [labOf(GREEN), labOf(GREEN), labOf(GREEN), undefined] };
    const found = passageFindings(alike, passages, painted([GREEN, GREEN, GREEN, LIGHT]));
    expect(found).toEqual([]);
  });

  it('names what is wrong with its arguments', () => {
    const good = painted([GREEN, RED, GREEN, LIGHT]);
    expect(() => passageFindings({ masses, colours: [] }, passages, good)).toThrow(
      /^plan\.colours/,
    );
    expect(() => passageFindings(plan, passages, { ...good, width: 60, height: 160 })).toThrow(
      /^painting is "60 x 160"/,
    );
    expect(() => passageFindings(plan, { ...passages, labels: new Int32Array(1) }, good)).toThrow(
      /^passages\.labels/,
    );
    expect(() => passageFindings(null as never, passages, good)).toThrow(/^plan is null/);
    expect(LEAN_SHOWS).toBeGreaterThan(5);
  });
});

describe('the job check with a board', () => {
  /** The sleeve with its ribbon, 240 x 160, and a light part; a photo of the plan or of the painting. */
  const scene = (ribbon: Rgb): Pixels => {
    const data = new Uint8ClampedArray(4 * 240 * 160);
    for (let k = 0; k < 240 * 160; k++) {
      const x = k % 240;
      data.set([...(x >= 180 ? LIGHT : x >= 100 && x < 124 ? ribbon : GREEN), 255], 4 * k);
    }
    return { width: 240, height: 160, data };
  };
  const board = {
    bands: [
      { name: 'dark', floor: 0, ceiling: 60 },
      { name: 'light', floor: 60, ceiling: 95 },
    ],
    swatches: [
      { id: 'green', bucket: 0, lightness: 47, lab: labOf(GREEN) },
      { id: 'red', bucket: 0, lightness: 47, lab: labOf(RED) },
      { id: 'pale', bucket: 1, lightness: 80, lab: labOf(LIGHT) },
    ],
  };
  const asked = {
    plan: { picture: 'plan', thresholds: [160], brushMm: 12, paperWidthMm: 240 },
    picture: 'painting',
    targets: [47, 80],
    white: { from: 'none' as const },
  };

  it('tells of the ribbon that vanished, and says nothing of passages without a board', async () => {
    const service = new Service();
    for (const [name, pixels] of [
      ['plan', scene(RED)],
      ['painting', scene(GREEN)],
      ['good', scene(RED)],
    ] as const) {
      const opened = await service.open(name, name, pixels, {});
      if (!opened.ok) throw new Error(opened.error.message);
    }
    const run = async (part: object) => {
      const answer = await service.run('check', 'check', { ...asked, ...part } as never);
      if (!answer.ok) throw new Error(answer.error.message);
      return answer.value;
    };
    const { passages: found } = await run({ board });
    const answer = await service.run('passages', 'passages', asked.plan);
    if (!answer.ok) throw new Error(answer.error.message);
    const { passages: list, labels } = answer.value;
    const ribbon = labels[80 * 240 + 112];
    expect(list[ribbon].area).toBeCloseTo(24 * 160, -3);
    expect(new Set(codes(found!))).toEqual(
      new Set(['check.passage-vanished', 'check.passage-lean']),
    );
    for (const { passages: pair } of found!) expect(pair[0]).toBe(ribbon);
    expect(await run({})).not.toHaveProperty('passages');
    expect((await run({ board, picture: 'good' })).passages).toEqual([]);
  });
});
