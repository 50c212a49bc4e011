/**
 * What must come out alike in every engine, from the pictures of `pictures.ts`: digests of whatever is made of pixels, and the figures of
 * mixes. It runs in Node and in each engine of the same run (`test/browser/engines-alike.test.ts`);
 * no result is kept in a file.
 */
import {
  bandsOf,
  deltaE2000,
  driedLightness,
  edgesOf,
  findMixes,
  histogramOf,
  lightnessPlane,
  massesOf,
  mixFamily,
  mixOnPaper,
  munsellValue,
  outlinesOf,
  passagesOf,
  pathOf,
  reservesOf,
  squint,
  stepBack,
  suggestThresholds,
  TUBES,
  wetLightness,
  type Lab,
  type Lightness,
  type MassOverrule,
  type Masses,
  type Mix,
  type Pixels,
} from '../../core/index.js';
import { PICTURES } from './pictures.js';

export interface Works {
  /** SHA-256, hexadecimal, of each work by its name. */
  digests: Record<string, string>;
  /** Figures, by name. */
  figures: Record<string, number[]>;
}

/** How many bands, and the brush in pixels that states their masses. */
const BANDS: [bands: number, brushPx: number][] = [
  [2, 5],
  [3, 9.5],
  [4, 7],
  [5, 12],
];

/** What a painter changed. */
const CHANGES: MassOverrule[] = [
  { kind: 'split', line: [[0.1, 0.2], [0.5, 0.5], [0.9, 0.6]] }, // prettier-ignore
  { kind: 'band', at: [0.7, 0.7], band: 0 },
  { kind: 'join', from: [0.3, 0.3], to: [0.5, 0.3] },
];

async function digestOf(content: ArrayBufferView<ArrayBuffer> | string): Promise<string> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Everything that is made of pixels, by name. */
function* picturesWorked(): Generator<[string, ArrayBufferView<ArrayBuffer> | string]> {
  for (const [name, make] of Object.entries(PICTURES)) {
    const pixels = make();
    yield [`${name}: pixels`, pixels.data as Uint8ClampedArray<ArrayBuffer>];
    const plane = lightnessPlane(pixels);
    yield [`${name}: plane`, bytes(plane.data)];
    for (const amount of [0.4, 1])
      yield [`${name}: squint ${amount}`, bytes(squint(plane, { amount, brushPx: 9 }).data)];
    yield [`${name}: step back`, bytes(stepBack(plane, { pxPerMm: 0.6, distance: 3 }).data)];
    const histogram = histogramOf(plane);
    for (const [bands, brushPx] of BANDS) {
      const thresholds = suggestThresholds(histogram, bands);
      yield [`${name}: ${bands} bands, thresholds`, JSON.stringify(thresholds)];
      yield [`${name}: ${bands} bands`, bytes(bandsOf(plane, thresholds).data)];
      yield* massesWorked(`${name}: ${bands} bands`, pixels, plane, { thresholds, brushPx });
    }
    yield* massesWorked(`${name}: focus and overrules`, pixels, plane, {
      thresholds: suggestThresholds(histogram, 3),
      brushPx: 12,
      focus: { mask: upperLeft(plane), brushPx: 4 },
      overrules: CHANGES,
    });
  }
}

function* massesWorked(
  name: string,
  pixels: Pixels,
  plane: Lightness,
  options: Parameters<typeof massesOf>[1],
): Generator<[string, ArrayBufferView<ArrayBuffer> | string]> {
  const masses: Masses = massesOf(plane, options);
  const { brushPx } = options;
  yield [`${name}: labels`, masses.labels as Int32Array<ArrayBuffer>];
  yield [`${name}: map`, bytes(masses.map.data)];
  yield [`${name}: regions`, JSON.stringify(masses.regions)];
  yield [`${name}: marks`, JSON.stringify(masses.marks)];
  yield [`${name}: unmet`, JSON.stringify(masses.unmet ?? [])];
  const outlines = outlinesOf(masses);
  yield [
    `${name}: outlines`,
    JSON.stringify(outlines.map(({ region, rings }) => [region, rings.map((ring) => [...ring])])),
  ];
  yield [`${name}: paths`, outlines.map(pathOf).join('\n')];
  yield [`${name}: reserves`, JSON.stringify(reservesOf(masses, { brushPx }))];
  yield [
    `${name}: edges`,
    JSON.stringify(edgesOf(masses, plane).map(({ regions, kind }) => [regions, kind])),
  ];
  const passages = passagesOf(pixels, masses, { brushPx });
  yield [`${name}: passages`, passages.labels as Int32Array<ArrayBuffer>];
}

/**
 * A cut along a line of whole-numbered length: where the length is rounded up or down, other pixels are cut. (V8's `Math.hypot` gives
 * 125.00000000000001 for 35, 120; other engines 125.)
 */
function* cutsWorked(): Generator<[string, ArrayBufferView<ArrayBuffer> | string]> {
  const [width, height] = [240, 180];
  const plane: Lightness = { width, height, data: new Uint8Array(width * height).fill(90) };
  for (const [dx, dy] of [
    [35, 120],
    [120, 35],
    [153, 104],
    [168, 95],
    [168, 99],
  ]) {
    // prettier-ignore
    const line = [
      [10 / width, 12 / height],
      [(10 + dx) / width, (12 + dy) / height],
    ];
    const overrules = [{ kind: 'split', line }];
    const { labels, regions } = massesOf(plane, { thresholds: [150], brushPx: 4, overrules });
    yield [`cut along ${dx}, ${dy}: regions`, JSON.stringify(regions)];
    yield [`cut along ${dx}, ${dy}: labels`, labels as Int32Array<ArrayBuffer>];
  }
}

const bytes = (data: Uint8Array): Uint8Array<ArrayBuffer> => data as Uint8Array<ArrayBuffer>;

/** The mask of the upper left quarter. */
function upperLeft({ width, height }: Lightness): Uint8Array {
  return Uint8Array.from({ length: width * height }, (_, i) =>
    Number(2 * (i % width) < width && 2 * Math.floor(i / width) < height),
  );
}

/** Every fourth tube: yellows, earths, reds, blues, greens, a black. */
const SHELF = TUBES.filter((_, i) => i % 4 === 0).map(({ id }) => id);

/** The figures of a mix: amounts, strength, L*, a*, b*, reflectance. */
export function figuresOf({ parts, strength, lab, reflectance }: Mix): number[] {
  const amounts = SHELF.map((id) => parts.find(({ tube }) => tube === id)?.parts ?? 0);
  return [...amounts, strength, ...lab, ...reflectance];
}

const LIGHTNESSES = [25, 47.5, 70];
const LABS: Lab[] = [
  [55, 12, -18],
  [40, -10, 20],
  [72, 5, 30],
];

/** Searches for mixes of a lightness, by the name of their figures. */
export const mixesOf = () =>
  LIGHTNESSES.map((lightness) => ({
    name: `mixes of L* ${lightness}`,
    target: { lightness },
    options: { tubes: SHELF, count: 6 },
  }));

function* figuresWorked(): Generator<[string, number[]]> {
  for (const [i, tube] of SHELF.entries()) {
    const under = mixOnPaper([{ tube, parts: 1 }], { strength: 0.3 });
    const parts = [
      { tube, parts: 2 },
      { tube: SHELF[(i + 4) % SHELF.length], parts: 1 + i },
    ];
    yield [`${tube} alone`, figuresOf(under)];
    yield [`${tube} mixed`, figuresOf(mixOnPaper(parts, { strength: 0.15 * (i + 1) }))];
    yield [`${tube} over itself`, figuresOf(mixOnPaper(parts, { strength: 0.5, over: [under] }))];
  }
  for (const { name, target, options } of mixesOf())
    yield [name, findMixes(target, options).flatMap(figuresOf)];
  for (const lightness of LIGHTNESSES) {
    const family = mixFamily({ tubes: SHELF, lightness, count: 5 });
    yield [`family of L* ${lightness}`, family.flatMap(figuresOf)];
  }
  for (const lab of LABS)
    for (const wholeParts of [12, false] as const) {
      const found = findMixes({ lab }, { tubes: SHELF, count: 4, wholeParts });
      yield [
        `mixes of Lab ${lab.join()} in ${wholeParts || 'free'} parts`,
        found.flatMap((mix) => [...figuresOf(mix), mix.deltaE, mix.steadiness]),
      ];
    }
  for (const at of [5, 23.4, 61, 88]) {
    const dried = driedLightness(at);
    const wet = wetLightness(at);
    yield [`L* ${at} dried`, [dried.lightness, dried.low, dried.high]];
    yield [`L* ${at} wet`, [wet.lightness, wet.low, wet.high]];
    yield [`L* ${at} told`, [munsellValue(at), deltaE2000([at, 30, -20], [50, at / 3, 7])]];
  }
}

/** Works everything out in the engine that this runs in. */
export async function works(): Promise<Works> {
  const digests: Record<string, string> = {};
  for (const [name, content] of [...picturesWorked(), ...cutsWorked()])
    digests[name] = await digestOf(content);
  return { digests, figures: Object.fromEntries(figuresWorked()) };
}
