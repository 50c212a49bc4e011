/** Accents on the printed plan: told with figures that are worked by hand beside each check, marked where they are. */
import { describe, expect, it } from 'vitest';
import type { Lab } from '../../core/base/types.js';
import type { AccentsFound } from '../../core/mass/index.js';
import { planSheet, planSheets, SHEET_STRINGS, type Plan } from '../../core/plan/index.js';
import type { BoardSwatch } from '../../core/swatch/index.js';
import { Service } from '../../core/worker/service.js';
import { massesFrom, planOf } from './order-masses.js';

// 10 x 4 pixels on a paper of 150 x 60 mm: 15 mm a pixel, and true size on A4, its corner 10, 28 mm from the page's.
const masses = massesFrom(['1112221112', '1012231012', '1112221113', '1112221113']);
const RED: Lab = [46.46, 55.74, 33.13];

const swatch = (
  id: string,
  bucket: number,
  lab: Lab,
  more: Partial<BoardSwatch> = {},
): BoardSwatch => ({
  id,
  bucket,
  lightness: lab[0],
  lab,
  ...more,
});

const POPPY = swatch('p', 2, RED, { name: 'poppy', accent: true });
const WALLS = [swatch('wall', 2, [80, 2, 4]), swatch('cloth', 2, [84, -2, 0])];

function planWith(swatches: BoardSwatch[], part: Partial<Plan> = {}): Plan {
  return planOf(3, true, {
    paper: { widthMm: 150, heightMm: 60, lightness: 95 },
    // 15 mm are one pixel: places keep three of them from the uses.
    brushes: [{ name: 'round', tipMm: 2, pressedMm: 15 }],
    board: {
      bands: [
        { name: 'dark', floor: 0, ceiling: 39 },
        { name: 'middle', floor: 39, ceiling: 71 },
        { name: 'light', floor: 71, ceiling: 95 },
      ],
      swatches,
    },
    ...part,
  });
}

/** A red spot of the photo, and two places that hint at its hue: one of its own band, one light. */
const found: AccentsFound = {
  accents: [
    {
      id: 0,
      at: [2.5, 1.5],
      area: 1,
      bounds: [2, 1, 1, 1],
      lab: RED,
      region: 0,
      band: 1,
      vividness: { chroma: 64.84, surround: 3, deltaE: 50 },
      valueCost: -10,
      repeats: [],
      mightRepeat: [],
    },
  ],
  places: [
    { at: [8.5, 2.5], lab: [55, 12, 7], band: 1, region: 0 },
    { at: [5.5, 3.5], lab: [80, 12, 7], band: 2, region: 0 },
  ],
};

/** What stands between the tags of texts, as one line. */
const words = (page: string): string =>
  [...page.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, each]) => each).join(' ');

describe('accents on the page', () => {
  it('are told: band, vividness, cost in value, repeats, and where they might come again', () => {
    const brick = swatch('b', 0, [30, 30, 20], { name: 'brick' });
    const told = words(planSheet(planWith([...WALLS, POPPY, brick]), masses, { accents: found }));
    expect(told).toContain('Accents 1 poppy');
    // L* 46.46 lies from 39 to 71; it is laid in the bucket from 71 up.
    expect(told).toContain('band middle by its value, in the bucket light');
    // C*ab = sqrt(55.74² + 33.13²) = sqrt(4204.5) = 64.8; the mean of the walls is 82, 0, 2: sqrt(0 + 4) = 2.
    expect(told).toContain('chroma 65 among 2');
    // 46.46 - 82 = -35.54.
    expect(told).toContain('pure colour for a neutral: 36 L* darker');
    // Fairchild & Pirrotta 1991, worked in planned-accents.test.ts: 12.35.
    expect(told).toContain('looks 12 L* lighter than it is');
    expect(told).toContain('places of its hue in the photo: 1');
    // The brick: C*ab = sqrt(900 + 400) = 36, hue atan2(20, 30) = 33.7 degrees; the poppy's is atan2(33.13, 55.74) = 30.7.
    expect(told).toContain('its hue again on the board: brick');
    expect(told).toContain('places where it might come again: 2, of its own value: 1');
  });

  it('say what they lack: no neutrals, no use, no echo, no place', () => {
    const alone = planWith([swatch('leaf', 1, [50, -40, 30], { accent: true })]);
    const told = words(planSheet(alone, masses, { accents: { accents: [], places: [] } }));
    // Without a name or a recipe a swatch is called by its value: Y of L* 50 is 18.42, Munsell 4.95 (ASTM D1535; CIE 15 for L*).
    expect(told).toMatch(/Accents 1 value (4\.9|5)/);
    for (const each of [
      'band middle ·',
      'no neutral in its bucket to compare it with',
      'no accent of the photo has its hue',
      'its hue nowhere else on the board',
      'no other place of the photo carries its hue',
    ])
      expect(told).toContain(each);
    expect(told).not.toContain('by its value, in the bucket');
  });

  it('say what a swap costs: lighter, darker, or nothing', () => {
    const cost = (lightness: number): string =>
      words(
        planSheet(
          planWith([
            swatch('n', 1, [50, 0, 0]),
            swatch('a', 1, [lightness, 40, 20], { accent: true }),
          ]),
          masses,
          { accents: found },
        ),
      );
    expect(cost(56)).toContain('pure colour for a neutral: 6 L* lighter');
    expect(cost(44)).toContain('pure colour for a neutral: 6 L* darker');
    expect(cost(50.9)).toContain('pure colour for a neutral: the same value');
  });

  it('are marked where they are: full signs of the photo, open ones where they might come again', () => {
    const plan = planWith([...WALLS, POPPY]);
    const signs = (page: string): string[] =>
      [...page.matchAll(/<path d="M([\d.]+ [\d.]+)l1\.04[^"]*z" fill="(#\w+)"/g)].map(
        ([, at, fill]) => `${at} ${fill}`,
      );
    const inPicture = (page: string): string =>
      page.slice(
        page.indexOf('id="page-1-picture"'),
        page.indexOf('</g>', page.indexOf('page-1-frame')),
      );
    const page = planSheet(plan, masses, { accents: found, show: { hatching: false } });
    // Tops of the signs, 1.3 mm above their middles: 10 + 15 x 2.5, 28 + 15 x 1.5 and so on.
    expect(signs(inPicture(page)).sort()).toEqual(
      ['47.50 49.20 #000', '137.50 64.20 #fff', '92.50 79.20 #fff'].sort(),
    );
    const mirrored = planSheet(plan, masses, {
      accents: found,
      mirrored: true,
      show: { hatching: false },
    });
    // 10 + 15 x (10 - 2.5).
    expect(signs(inPicture(mirrored))).toContain('122.50 49.20 #000');
    expect(words(page)).toContain(SHEET_STRINGS['page.key-accent']);
    expect(words(page)).toContain(SHEET_STRINGS['page.key-accent-again']);
    const without = planSheet(plan, masses, { accents: found, show: { accents: false } });
    expect(signs(without)).toEqual([]);
    expect(words(without)).toContain('Accents 1 poppy');
  });

  it('are left out where the photo’s are not known, or where the board has none', () => {
    const plain = planSheets(planWith([...WALLS, POPPY]), masses)
      .map(words)
      .join(' ');
    expect(plain).not.toContain('Accents 1');
    const none = planSheets(planWith(WALLS), masses, { accents: found }).map(words).join(' ');
    expect(none).not.toContain(SHEET_STRINGS['page.key-accent']);
    expect(none).not.toMatch(/\bAccents\b/);
  });

  it('come with the job when they are asked for, and are the same from what was kept', async () => {
    const [width, height] = [120, 80];
    const data = new Uint8ClampedArray(4 * width * height);
    for (let i = 0; i < width * height; i++) {
      const spot = Math.hypot((i % width) - 30, Math.floor(i / width) - 40) < 4;
      data.set(spot ? [200, 58, 58, 255] : [128, 128, 128, 255], 4 * i);
    }
    const service = new Service();
    await service.open('1', 'p', { width, height, data }, {});
    const input = {
      picture: 'p',
      thresholds: [60],
      brushMm: 10,
      paperWidthMm: 120,
      plan: planWith([...WALLS, POPPY], { paper: { widthMm: 120, heightMm: 80, lightness: 95 } }),
      options: { strings: SHEET_STRINGS },
      strokes: false,
    };
    const plain = await service.run('2', 'pages', input);
    if (!plain.ok) throw new Error(plain.error.message);
    expect(words(plain.value.pages[0])).not.toContain('1 poppy');
    const told = await service.run('3', 'pages', { ...input, accents: true });
    if (!told.ok) throw new Error(told.error.message);
    expect(words(told.value.pages[0])).toContain('places of its hue in the photo: 1');
    expect(await service.run('4', 'pages', { ...input, accents: true })).toEqual(told);
    expect(await service.run('5', 'pages', input)).toEqual(plain);
  });
});
