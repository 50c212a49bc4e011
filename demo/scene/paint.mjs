/**
 * Paints the demo's picture: three stages of an invented watercolour of the clay dog, and a sheet of test dabs, all photographed by an
 * invented camera. Nothing in them was painted or photographed: the washes are predicted by this project's own model of paint
 * (core/paint), the photographs by the camera of its tests (test/synthetic/camera.ts). They show what a check and a sheet reader do; they
 * prove nothing about real paint.
 *
 *   node demo/scene/paint.mjs [folder]
 *
 * Writes painting-1.jpg to painting-3.jpg, test-sheet.jpg, test-sheet-wet.jpg and painted.json (where the painted part lies in each photograph, what was laid
 * and what is wrong) to demo/pictures, or to the folder. Random numbers are seeded: every run gives the same pictures.
 */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import jpeg from 'jpeg-js';
import { format } from 'prettier';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = process.argv[2] ?? join(root, 'demo', 'pictures');

/** The core and the tests' camera, from their sources. */
async function toolsOf() {
  const { outputFiles } = await build({
    stdin: {
      contents: `export * from './core/index.ts';
        export { onQuad, photograph } from './test/synthetic/camera.ts';
        export { linearOf, paintedSheet, scribble } from './test/synthetic/sheet.ts';`,
      resolveDir: root,
      loader: 'ts',
    },
    bundle: true,
    format: 'esm',
    platform: 'node',
    external: ['jpeg-js'],
    write: false,
    logLevel: 'error',
  });
  const file = join(root, 'node_modules', '.cache-demo-paint.mjs');
  writeFileSync(file, outputFiles[0].text);
  const made = await import(file);
  rmSync(file);
  return made;
}

const tools = await toolsOf();

const TUBES = [
  'ultramarine',
  'burnt-sienna',
  'raw-sienna',
  'hansa-yellow-medium',
  'quinacridone-rose',
  'pyrrole-red',
  'phthalo-green',
];
const PAPER_MM = { width: 280, height: 373 };
const BRUSH_MM = 14;
const MARGIN_MM = 22;
const TARGETS = [30, 58, 88];
const PAPER = [95, 0.2, 1.2];

/** Repeatable chance at a lattice point, 0..1. */
function chance(x, y, seed) {
  let h = (Math.imul(x, 374761393) + Math.imul(y, 668265263) + Math.imul(seed, 2246822519)) | 0;
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

/** Smooth noise -1..1 with cells of so many pixels. */
function noise(x, y, cell, seed) {
  const u = x / cell;
  const v = y / cell;
  const i = Math.floor(u);
  const j = Math.floor(v);
  const s = u - i;
  const t = v - j;
  const p = s * s * (3 - 2 * s);
  const q = t * t * (3 - 2 * t);
  const top = chance(i, j, seed) * (1 - p) + chance(i + 1, j, seed) * p;
  const low = chance(i, j + 1, seed) * (1 - p) + chance(i + 1, j + 1, seed) * p;
  return 2 * (top * (1 - q) + low * q) - 1;
}

/** Three box means in a row, in place: nearly a Gaussian of so many pixels. */
function blurred(values, width, height, sigma) {
  const radius = Math.max(1, Math.round(sigma));
  const pass = (count, length, step, stride) => {
    const line = new Float32Array(length);
    for (let i = 0; i < count; i++) {
      let sum = 0;
      const at = (j) => values[i * stride + Math.min(length - 1, Math.max(0, j)) * step];
      for (let j = -radius; j <= radius; j++) sum += at(j);
      for (let j = 0; j < length; j++) {
        line[j] = sum / (2 * radius + 1);
        sum += at(j + radius + 1) - at(j - radius);
      }
      for (let j = 0; j < length; j++) values[i * stride + j * step] = line[j];
    }
  };
  for (let round = 0; round < 2; round++) {
    pass(height, width, 1, width);
    pass(width, height, width, 1);
  }
  return values;
}

/** The logarithm of what a mix lets through, by strength 0..2 in 128 steps, for each channel. */
function washOf(parts) {
  const bare = tools.paperReflectance({ lightness: PAPER[0] });
  const white = tools.linearOf(tools.spectrumToLab(bare));
  const table = new Float32Array(3 * 129);
  for (let i = 1; i <= 128; i++) {
    const { lab } = tools.mixOnPaper(parts, { strength: i / 64, paper: bare });
    const light = tools.linearOf(lab);
    for (let c = 0; c < 3; c++) table[3 * i + c] = Math.log(Math.max(0.003, light[c]) / white[c]);
  }
  return table;
}

/** Lays the mixes of a band on linear light, each by its weight, at a share of their strengths. */
function lay(light, at, band, weights, share) {
  for (let c = 0; c < 3; c++) {
    let sum = 0;
    for (let n = 0; n < LEANS.length; n++) {
      if (weights[n] < 0.01) continue;
      const { strength, wash } = mixes[band][n];
      const place = Math.min(127.999, Math.max(0, share * strength) * 64);
      const i = Math.floor(place);
      const f = place - i;
      sum += weights[n] * ((1 - f) * wash[3 * i + c] + f * wash[3 * i + 3 + c]);
    }
    light[at + c] *= Math.exp(sum);
  }
}

const photo = jpeg.decode(readFileSync(join(root, 'demo', 'pictures', 'clay-dog-900.jpg')), {
  useTArray: true,
});
const { width, height } = photo;
const plane = tools.lightnessPlane({ width, height, data: photo.data });
const thresholds = tools.suggestThresholds(tools.histogramOf(plane), 3);
const pxPerMm = width / PAPER_MM.width;
const masses = tools.massesOf(plane, { thresholds, brushPx: BRUSH_MM * pxPerMm });
const { labels, regions, marks } = masses;

/** Leans (a, b) that the mixes of a band have at its one value; how far they go there. */
const LEANS = [
  [0, 2],
  [-2, -12],
  [14, 24],
  [2, 52],
  [52, 26],
];
const FAR = [0.7, 0.9, 0.4];

/** For each band a mix a lean, all of the strength that dries to its target. */
const mixes = TARGETS.map((lightness, band) =>
  LEANS.map(([a, b]) => {
    const lab = [lightness, FAR[band] * a, FAR[band] * b];
    const [{ parts }] = tools.findMixes({ lab }, { tubes: TUBES, count: 1, maxStrength: 1.6 });
    let low = 0;
    let high = 2;
    for (let i = 0; i < 24; i++) {
      const strength = (low + high) / 2;
      if (tools.mixOnPaper(parts, { strength }).lab[0] > lightness) low = strength;
      else high = strength;
    }
    return { parts, strength: high, wash: washOf(parts) };
  }),
);
/** Noted for each band: the near-neutral one. */
const recipes = mixes.map(([{ parts, strength }]) => ({ parts, strength }));

/** The photo's own a and b, softly: where which lean is laid, wet beside wet. */
const leanOf = (() => {
  const a = new Float32Array(width * height);
  const b = new Float32Array(width * height);
  for (let k = 0; k < a.length; k++) {
    const lab = tools.labOfSrgb(...photo.data.subarray(4 * k, 4 * k + 3));
    a[k] = lab[1];
    b[k] = lab[2];
  }
  blurred(a, width, height, 7);
  blurred(b, width, height, 7);
  const weights = new Float64Array(LEANS.length);
  return (k, x, y) => {
    let sum = 0;
    const da = 4 * noise(x, y, 60, 50);
    const db = 6 * noise(x, y, 80, 51);
    for (let n = 0; n < LEANS.length; n++) {
      const d2 = (a[k] + da - LEANS[n][0]) ** 2 + (b[k] + db - LEANS[n][1]) ** 2;
      sum += weights[n] = Math.exp(-d2 / 200) + (n === 0 ? 1e-4 : 0);
    }
    for (let n = 0; n < LEANS.length; n++) weights[n] /= sum;
    return weights;
  };
})();

const byArea = (band) =>
  regions.filter((region) => region.band === band).sort((a, b) => b.area - a.area);
const [lights, middles, darks] = [byArea(2), byArea(1), byArea(0)];
/** What goes wrong on the way: strengths as shares of the right one. */
const tooPale = { region: (darks[1] ?? darks[0]).id, share: 0.62 };
const tooHeavy = { region: (middles[1] ?? middles[0]).id, share: 1.5 };
const lost = { region: (lights[1] ?? lights[0]).id, share: 0.5 };
const bloomIn = middles[0];
const bloom = placeInside(bloomIn.id);

/** The place in a region farthest from its border. */
function placeInside(region) {
  const mask = Uint8Array.from(labels, (label) => (label === region ? 1 : 0));
  const far = tools.squaredDistances(mask, width, height);
  let best = 0;
  for (let k = 0; k < far.length; k++) if (far[k] > far[best]) best = k;
  return { x: best % width, y: Math.floor(best / width), depth: Math.sqrt(far[best]) };
}

/** The region under a pixel, as a hand draws it: lines waver by a millimetre, one ear sits two millimetres too high. */
function drawnLabels() {
  const out = new Int32Array(width * height);
  const slip = (x, y) =>
    2.4 * pxPerMm * Math.exp(-(((x / width - 0.36) / 0.1) ** 2) - ((y / height - 0.2) / 0.08) ** 2);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const dx = 2.2 * noise(x, y, 90, 1) + 1.1 * noise(x, y, 31, 2);
      const dy = 2.2 * noise(x, y, 90, 3) + 1.1 * noise(x, y, 31, 4) + slip(x, y);
      const u = Math.min(width - 1, Math.max(0, Math.round(x + dx)));
      const v = Math.min(height - 1, Math.max(0, Math.round(y + dy)));
      out[y * width + x] = labels[v * width + u];
    }
  return out;
}

const NEUTRAL = LEANS.map((_, n) => (n === 0 ? 1 : 0));
const marksSet = marks.filter(({ contrast }) => contrast < -18).slice(0, 6);
const drawn = drawnLabels();

/** How full each pixel is of the wash of a band (0..1), and its dried rim. */
function coverOf(band) {
  const full = Float32Array.from(drawn, (label) => (regions[label].band === band ? 1 : 0));
  const soft = blurred(full.slice(), width, height, 3);
  return { full: blurred(full, width, height, 1), rim: soft.map((m) => 4 * m * (1 - m)) };
}

const covers = [0, 1, 2].map(coverOf);

/** The sheet after a stage, in linear light: 1 lights and middles, 2 darks, 3 corrected and finished. */
function sheetAfter(stage) {
  const margin = Math.round(MARGIN_MM * pxPerMm);
  const across = width + 2 * margin;
  const down = height + 2 * margin;
  const light = new Float32Array(3 * across * down);
  const paper = tools.linearOf(PAPER);
  for (let y = 0; y < down; y++)
    for (let x = 0; x < across; x++) {
      const at = 3 * (y * across + x);
      const tooth = 1 + 0.012 * noise(x, y, 3, 9) + 0.006 * (chance(x, y, 10) - 0.5);
      for (let c = 0; c < 3; c++) light[at + c] = paper[c] * tooth;
      const u = x - margin;
      const v = y - margin;
      if (u >= 0 && v >= 0 && u < width && v < height) paint(light, at, u, v, stage);
    }
  return { width: across, height: down, light };
}

function paint(light, at, x, y, stage) {
  const k = y * width + x;
  const label = drawn[k];
  // A faint pencil line where masses meet.
  if (x > 0 && drawn[k - 1] !== label) for (let c = 0; c < 3; c++) light[at + c] *= 0.93;
  const weights = leanOf(k, x, y);
  const flow = 0.14 * noise(x, y, 160, 20) + 0.07 * noise(x, y, 47, 21);
  const grain = 0.06 * noise(x, y, 3, 9) + 0.05 * (chance(x, y, 22) - 0.5);
  for (const band of [2, 1, 0]) {
    if (band === 0 && stage < 2) continue;
    const { full, rim } = covers[band];
    if (full[k] < 0.002) continue;
    let share = 1 + flow + grain * (band === 2 ? 0.4 : 1) + 0.16 * rim[k];
    if (label === tooHeavy.region) share *= tooHeavy.share;
    if (label === tooPale.region && stage === 2) share *= tooPale.share;
    if (band === 1) share *= bloomAt(x, y, stage);
    lay(light, at, band, weights, full[k] * Math.max(0.05, share));
  }
  if (stage >= 2 && label === lost.region)
    lay(light, at, 1, weights, lost.share * covers[2].full[k]);
  if (stage === 3) setMarks(light, at, x, y);
}

/** A bloom pushes paint out to a dark seam; a unifying glaze takes most of it back. */
function bloomAt(x, y, stage) {
  if (stage < 2) return 1;
  const reach = Math.min(bloom.depth * 0.8, BRUSH_MM * pxPerMm * 0.9);
  const wavering = 1 + 0.18 * noise(x, y, 24, 40) + 0.08 * noise(x, y, 9, 41);
  const r = Math.hypot(x - bloom.x, y - bloom.y) / (reach * wavering);
  const left = stage === 3 ? 0.3 : 1;
  const inside = r < 1 ? 0.78 * (1 - r ** 4) : 0;
  const seam = 0.3 * Math.exp(-(((r - 1.02) / 0.06) ** 2));
  return 1 - left * (inside - seam);
}

/** The darkest of the marks that the masses leave out, set last. */
function setMarks(light, at, x, y) {
  for (const mark of marksSet) {
    const radius = Math.min(9, Math.sqrt(mark.area / Math.PI));
    const wavering = 1 + 0.2 * noise(x, y, 11, 60);
    const r = Math.hypot(x - mark.x, y - mark.y) / (radius * wavering);
    if (r < 1.1) lay(light, at, 0, NEUTRAL, 1.1 * Math.min(1, (1.1 - r) / 0.3));
  }
}

/** Photographs a sheet and writes the file. */
function shoot(name, scene, camera, quality) {
  const shot = tools.photograph(scene, camera);
  const file = jpeg.encode({ ...shot, data: Buffer.from(shot.data.buffer) }, quality).data;
  writeFileSync(join(folder, name), file);
  console.log(`${name}: ${shot.width} x ${shot.height}, ${Math.round(file.length / 1000)} kB`);
}

/** A phone held over a table beside a window; each stage a little differently. */
function cameraOf(seed, size, lean) {
  const [w, h] = size;
  return {
    seed,
    width: w,
    height: h,
    corners: [
      [(0.07 + lean) * w, 0.06 * h],
      [0.93 * w, (0.05 + lean) * h],
      [(0.955 - lean) * w, 0.95 * h],
      [0.045 * w, (0.94 - lean) * h],
    ],
    table: [0.1, 0.075, 0.055],
    grain: 0.2,
    exposure: 0.88,
    cast: [1, 0.9, 0.76],
    falloff: [0.2, 0.08],
    vignette: 0.18,
    blurPx: 0.7,
    noise: { electrons: 9000, read: 5 },
  };
}

const SIZE = [1050, 1400];
const stages = [1, 2, 3].map((stage) => {
  const camera = cameraOf(100 + stage, SIZE, [0.012, 0.03, 0.0][stage - 1]);
  shoot(`painting-${stage}.jpg`, sheetAfter(stage), camera, 80);
  const u = MARGIN_MM / (PAPER_MM.width + 2 * MARGIN_MM);
  const v = (MARGIN_MM * pxPerMm) / (height + 2 * MARGIN_MM * pxPerMm);
  const corners = [
    [u, v],
    [1 - u, v],
    [1 - u, 1 - v],
    [u, 1 - v],
  ].map((place) => {
    const [x, y] = tools.onQuad(camera.corners, ...place);
    return [Number((x / SIZE[0]).toFixed(5)), Number((y / SIZE[1]).toFixed(5))];
  });
  return { file: `painting-${stage}.jpg`, corners, upToStep: stage === 1 ? 1 : stage };
});

/** The test sheet: a column a band with leans of one value, and one mix from thin to full. */
const columns = [
  ...[30, 57, 82].map((lightness) =>
    tools.mixFamily({ tubes: TUBES, lightness, count: 4, maxChroma: 34, maxStrength: 1.4 }),
  ),
  [0.05, 0.13, 0.32, 0.9].map((strength) => tools.mixOnPaper(recipes[0].parts, { strength })),
];
const dabs = columns.flatMap((column, i) =>
  column.map((mix, j) => ({
    at: [0.14 + 0.24 * i, 0.16 + 0.22 * j],
    parts: mix.parts,
    strength: mix.strength,
    lab: mix.lab,
  })),
);

/** Laid a moment ago, with a satin sheen: darker by the usual drying, and as much fuller in colour as it is farther from the paper. No source for the colour. */
function wetLab([lightness, a, b]) {
  const wet = tools.wetLightness(lightness).lightness;
  const fuller = (95 - wet) / Math.max(1, 95 - lightness);
  return [wet, fuller * a, fuller * b];
}

/** The sheet with its dabs in these colours; what dries as a rim or a grain is not there while they are wet. */
function testSheet(labOf, wet) {
  return tools.paintedSheet({
    width: 1400,
    height: 1050,
    paper: [95, 0, 0],
    seed: 77,
    dabs: dabs.map(({ at, lab }, i) => ({
      at,
      radius: [0.07, 0.07],
      lab: labOf(lab),
      waver: [0.08, 0.16, 0.12][i % 3],
      soft: [0.03, 0.1][i % 2],
      rim: i % 3 === 0 && !wet ? 5 : 0,
      grain: i % 4 === 1 && !wet ? 0.06 : 0.015,
    })),
    lines: dabs.map(({ at }, i) => ({
      points: tools.scribble([at[0] - 0.05, at[1] + 0.092], 0.08, 0.02, () => chance(i, 5, 90)),
      width: 0.0016,
      lab: [45, 0, 0],
    })),
  });
}
shoot(
  'test-sheet.jpg',
  testSheet((lab) => lab, false),
  cameraOf(200, [1400, 1050], 0.01),
  84,
);
shoot('test-sheet-wet.jpg', testSheet(wetLab, true), cameraOf(201, [1400, 1050], 0.014), 84);

/** The middle of a region, in fractions of the painted part. */
function spotOf(region) {
  const { x, y } = placeInside(region);
  return [round((x + 0.5) / width), round((y + 0.5) / height)];
}

const round = (value) => Math.round(value * 1000) / 1000;
const facts = {
  about:
    'Invented: washes by the project’s own model of paint, photographs by the camera of its tests.',
  paper: { widthMm: PAPER_MM.width, heightMm: PAPER_MM.height, marginMm: MARGIN_MM },
  brushMm: BRUSH_MM,
  thresholds,
  targets: TARGETS,
  laid: recipes.map(({ parts, strength }) => ({ parts, strength: round(strength) })),
  steps: [
    { id: 'lights', band: 2 },
    { id: 'middles', band: 1 },
    { id: 'darks', band: 0 },
    { id: 'accents' },
  ],
  stages,
  // What was painted wrong, where, and in which stages it stands.
  faults: [
    { kind: 'too-dark', at: spotOf(tooHeavy.region), stages: [1, 2, 3] },
    { kind: 'lost-reserve', at: spotOf(lost.region), stages: [2, 3] },
    { kind: 'too-light', at: spotOf(tooPale.region), stages: [2] },
    { kind: 'island', at: spotOf(bloomIn.id), stages: [2] },
  ],
  dabs: dabs.map(({ at, parts, strength, lab }) => ({
    at: at.map(round),
    parts,
    strength: round(strength),
    lab: lab.map(round),
    wet: wetLab(lab).map(round),
  })),
};
writeFileSync(
  join(folder, 'painted.json'),
  await format(JSON.stringify(facts), { parser: 'json', printWidth: 100 }),
);
