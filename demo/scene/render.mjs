/**
 * Renders the picture of the demo: an invented clay figure of a small dog beside a pear and a jug,
 * in the light of one window. Nothing in it is photographed or taken from elsewhere.
 *
 *   node demo/scene/render.mjs [width] [out] [--samples 9] [--threads 2] [--coarse 1]
 *
 * Without `width` and `out` it writes demo/pictures/clay-dog.jpg (1800 x 2400) and the smaller
 * clay-dog-900.jpg beside it. `samples` is a square number, the most rays a pixel gets; `coarse`
 * enlarges the cells of the distance grids for a quick look. The picture depends on these numbers
 * only: random numbers come from hashes of pixel and sample, so every run gives the same picture.
 *
 *   sdf.mjs      distances of solids         sitter.mjs, props.mjs  the things
 *   field.mjs    distances baked in grids    scene.mjs              places and surfaces
 *   light.mjs    window, room, bounces       sampler.mjs            seeded random numbers
 *   tone.mjs     smoothing, film, sRGB       render.mjs             camera, threads, files
 */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker, isMainThread, parentPort, workerData } from 'node:worker_threads';
import jpeg from 'jpeg-js';
import { Tracer } from './light.mjs';
import { Sampler } from './sampler.mjs';
import { KIND, Scene } from './scene.mjs';
import { PLANES, compose, develop, reduce, smoothPlanes } from './tone.mjs';

const ASPECT = 4 / 3;
const EXPOSURE = 1.06;
const BAND_ROWS = 8;
/** Rays that are enough for a pixel that sees nothing but wall or nothing but cloth. */
const ENOUGH = 4;
/** Soft light, which is smoothed afterwards, is worked out for one ray in so many. */
const BOUNCE_EVERY = 2;

/** The camera: a short telephoto, focused on the sitter's face. */
const CAMERA = {
  eye: [0.0, 2.65, 6.1],
  at: [0.05, 0.88, 0],
  tall: 3.02,
  lens: 0.022,
  focus: 5.75,
};

/** Renders rows `from` to `to` into the shared light buffer. */
function renderRows(tracer, sampler, light, width, height, from, to) {
  const { eye, at, tall, lens, focus } = CAMERA;
  const f = [at[0] - eye[0], at[1] - eye[1], at[2] - eye[2]];
  const far = Math.hypot(...f);
  for (let i = 0; i < 3; i++) f[i] /= far;
  const level = Math.hypot(f[0], f[2]);
  const right = [-f[2] / level, 0, f[0] / level];
  const up = [-right[2] * f[1], right[2] * f[0] - right[0] * f[2], right[0] * f[1]];
  const scale = tall / far;
  const pixel = {
    open: new Float64Array(3),
    mirror: new Float64Array(3),
    soft: new Float64Array(3),
    paint: new Float64Array(3),
    normal: new Float64Array(3),
    depth: 0,
    kind: KIND.none,
    reached: 0,
    whole: 0,
  };
  const o = new Float64Array(3);
  const d = new Float64Array(3);
  const K = PLANES.count;
  const sum = new Float64Array(K);
  const aim = (sampler, x, y) => {
    sampler.draw(0);
    const px = ((x + sampler.a - width / 2) / height) * scale;
    const py = -((y + sampler.b) / height - 0.5) * scale;
    sampler.draw(1);
    const r = lens * Math.sqrt(sampler.a);
    const lx = r * Math.cos(2 * Math.PI * sampler.b);
    const ly = r * Math.sin(2 * Math.PI * sampler.b);
    let n = 0;
    for (let i = 0; i < 3; i++) {
      const shift = right[i] * lx + up[i] * ly;
      o[i] = eye[i] + shift;
      d[i] = (f[i] + right[i] * px + up[i] * py) * focus - shift;
      n += d[i] * d[i];
    }
    n = 1 / Math.sqrt(n);
    for (let i = 0; i < 3; i++) d[i] *= n;
  };
  for (let y = from; y < to; y++) {
    for (let x = 0; x < width; x++) {
      sum.fill(0);
      let bounces = 0;
      let taken = 0;
      let quiet = true;
      let first = KIND.none;
      while (taken < sampler.count && !(quiet && taken === ENOUGH)) {
        sampler.start(x, y, taken);
        aim(sampler, x, y);
        const indirect = taken % BOUNCE_EVERY === 0;
        tracer.look(o, d, pixel, indirect);
        if (taken === 0) first = pixel.kind;
        quiet &&= pixel.kind === first && (first === KIND.wall || first === KIND.cloth);
        for (let i = 0; i < 3; i++) {
          // A single very bright reflection must not leave a white dot.
          const open = Math.min(pixel.open[i], 4);
          sum[PLANES.open + i] += open;
          sum[PLANES.shut + i] += pixel.reached > 0 ? open : 0;
          sum[PLANES.mirror + i] += Math.min(pixel.mirror[i], 4);
          sum[PLANES.paint + i] += pixel.paint[i];
          sum[PLANES.normal + i] += pixel.normal[i];
          sum[PLANES.soft + i] += pixel.soft[i];
        }
        sum[PLANES.depth] += pixel.depth;
        sum[PLANES.reached] += pixel.reached;
        sum[PLANES.whole] += pixel.whole;
        if (indirect) bounces++;
        taken++;
      }
      const at0 = (y * width + x) * K;
      for (let i = 0; i < K; i++) light[at0 + i] = sum[i] / taken;
      for (let c = 0; c < 3; c++) light[at0 + PLANES.soft + c] *= taken / bounces;
    }
  }
}

function work({ width, height, side, coarse, grids, buffer, next }) {
  const sampler = new Sampler(side);
  const tracer = new Tracer(new Scene(coarse, grids), sampler);
  const light = new Float32Array(buffer);
  const counter = new Int32Array(next);
  for (;;) {
    const from = Atomics.add(counter, 0, 1) * BAND_ROWS;
    if (from >= height) return;
    renderRows(tracer, sampler, light, width, height, from, Math.min(height, from + BAND_ROWS));
    parentPort.postMessage(from);
  }
}

function writeJpeg(path, linear, width, height, quality, grain) {
  const data = develop(linear, width, height, EXPOSURE, grain);
  const file = jpeg.encode({ data, width, height }, quality).data;
  writeFileSync(path, file);
  console.log(`${path}: ${width} x ${height}, ${Math.round(file.length / 1000)} kB`);
}

async function main() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      samples: { type: 'string', default: '9' },
      threads: { type: 'string', default: '2' },
      coarse: { type: 'string', default: '1' },
    },
  });
  const width = Number(positionals[0] ?? 1800);
  const side = Math.round(Math.sqrt(Number(values.samples)));
  const coarse = Number(values.coarse);
  if (!(width >= 16) || !(side >= 1) || !(coarse > 0)) {
    throw new Error('width must be 16 or more, samples 1 or more, coarse above 0');
  }
  const height = Math.round(width * ASPECT);
  const started = performance.now();
  const seconds = () => `${((performance.now() - started) / 1000).toFixed(0)} s`;

  const scene = new Scene(coarse);
  console.log(`grids baked, ${seconds()}`);
  const buffer = new SharedArrayBuffer(width * height * PLANES.count * 4);
  const next = new SharedArrayBuffer(4);
  const data = { width, height, side, coarse, grids: scene.grids, buffer, next };
  let told = 0;
  const threads = Array.from({ length: Number(values.threads) }, () => {
    const worker = new Worker(fileURLToPath(import.meta.url), { workerData: data });
    worker.on('message', (row) => {
      if (row / height >= told + 0.1) {
        told = row / height;
        console.log(`${Math.round(told * 100)} %, ${seconds()}`);
      }
    });
    return new Promise((resolve, reject) => {
      worker.once('error', reject);
      worker.once('exit', resolve);
    });
  });
  await Promise.all(threads);

  const light = new Float32Array(buffer);
  const passes = Math.max(1, Math.round(Math.log2(width / 60)));
  const soft = smoothPlanes(light, width, height, PLANES.soft, 3, passes);
  const reach = smoothPlanes(light, width, height, PLANES.reached, 2, Math.max(1, passes - 2));
  const linear = compose(light, soft, reach, width * height);
  console.log(`light done, ${seconds()}`);

  const pictures = join(dirname(fileURLToPath(import.meta.url)), '..', 'pictures');
  writeJpeg(positionals[1] ?? join(pictures, 'clay-dog.jpg'), linear, width, height, 88, 2.8);
  if (positionals.length === 0) {
    const small = reduce(linear, width, height, 900, 1200);
    writeJpeg(join(pictures, 'clay-dog-900.jpg'), small, 900, 1200, 84, 1.8);
  }
  console.log(seconds());
}

if (isMainThread) await main();
else work(workerData);
