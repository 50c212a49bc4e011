/**
 * Measures the core's kernels in a classic worker: the built `dist/core/index.js`, bundled with this file, against
 * general-purpose libraries. A message { row } is answered with { times, checks } or { failed }.
 */
import {
  bandsOf,
  componentsOf,
  findMixes,
  directionField,
  edgesOf,
  histogramOf,
  lightnessPlane,
  massesFromTree,
  massesOf,
  massTreeKernel,
  outlinesOf,
  readSheet,
  reduceKernel,
  reservesOf,
  squaredDistances,
  rectify,
  squint,
  startCore,
  structureTensor,
  suggestThresholds,
  TUBES,
  paperReflectance,
} from 'tonewell/core';
import { Distance, FlatMixer } from '../../core/paint/flat.ts';
import { lab65 } from 'culori';
import { Pica } from 'pica';
import { copying, interleaved } from './interleaved.js';
import { scene } from './scene.js';

/** OpenCV.js; its module object has a `then` of its own, so it must not go through a promise: awaiting it never ends. */
let cv;

function loadOpenCv() {
  return new Promise((resolve, reject) => {
    try {
      importScripts('/node_modules/@techstark/opencv-js/dist/opencv.js');
      cv = self.cv;
      if (cv.Mat) resolve();
      else cv.onRuntimeInitialized = () => resolve();
    } catch (thrown) {
      reject(thrown);
    }
  });
}

function matOf(rows, columns, type, bytes) {
  const mat = new cv.Mat(rows, columns, type);
  mat.data.set(bytes);
  return mat;
}

function expectEqual(a, b, what) {
  if (a.length !== b.length || a.some((v, i) => v !== b[i]))
    throw new Error(`${what}: ${a} and ${b} differ`);
}

function finished(kernel) {
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
  }
}

const MP12 = { width: 4000, height: 3000 };

const rows = {
  async plane() {
    const { width, height } = MP12;
    const data = scene(width, height);
    const pixels = { width, height, data };
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC4, data);
    const lab = new cv.Mat();
    const planes = new cv.MatVector();
    const light = new cv.Mat();
    const sample = 60_000;
    const stride = Math.floor((width * height) / sample);
    let sum = 0;
    const times = await interleaved(
      {
        ours: () => void lightnessPlane(pixels),
        M: copying(data.length),
        opencv: () => {
          cv.cvtColor(source, lab, cv.COLOR_RGB2Lab);
          cv.extractChannel?.(lab, light, 0);
        },
        culori: () => {
          const start = performance.now();
          for (let i = 0, at = 0; i < sample; i++, at += 4 * stride) {
            sum += lab65({
              mode: 'rgb',
              r: data[at] / 255,
              g: data[at + 1] / 255,
              b: data[at + 2] / 255,
            }).l;
          }
          return { ms: ((performance.now() - start) * width * height) / sample };
        },
      },
      7,
    );
    if (!(sum > 0)) throw new Error('The sample has no lightness');
    // The same picture to both: OpenCV's own codes may miss by rounding, but not by more.
    const codes = lightnessPlane(pixels).data;
    const theirs = lab.data;
    let furthest = 0;
    for (let i = 0; i < codes.length; i += 997)
      furthest = Math.max(furthest, Math.abs(codes[i] - theirs[3 * i]));
    if (furthest > 3)
      throw new Error(`OpenCV's lightness is ${furthest} codes off: not the same work`);
    for (const mat of [source, lab, planes, light]) mat.delete();
    return { times };
  },

  async histogram() {
    const { width, height } = MP12;
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    await loadOpenCv();
    const mats = new cv.MatVector();
    const source = matOf(height, width, cv.CV_8UC1, plane.data);
    mats.push_back(source);
    const none = new cv.Mat();
    const counts = new cv.Mat();
    const times = await interleaved(
      {
        ours: () => void histogramOf(plane),
        M: copying(plane.data.length),
        opencv: () => cv.calcHist(mats, [0], none, counts, [256], [0, 256]),
      },
      11,
      3,
    );
    expectEqual([...histogramOf(plane)], [...counts.data32F], 'Counts');
    return { times };
  },

  async otsu() {
    const { width, height } = MP12;
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const histogram = histogramOf(plane);
    const works = { M: copying(histogram.byteLength) };
    for (let k = 2; k <= 7; k++) {
      works[k] = () => {
        const start = performance.now();
        for (let i = 0; i < 20; i++) suggestThresholds(histogram, k);
        return { ms: (performance.now() - start) / 20 };
      };
    }
    works.exhaustive = () => void exhaustive3(histogram);
    const times = await interleaved(works, 9, 3);
    expectEqual(suggestThresholds(histogram, 3), exhaustive3(histogram), 'Limits of three bands');
    return { times };
  },

  async bands() {
    const { width, height } = MP12;
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const thresholds = suggestThresholds(histogramOf(plane), 5);
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC1, plane.data);
    const table = matOf(
      1,
      256,
      cv.CV_8UC1,
      Uint8Array.from({ length: 256 }, (_, code) => thresholds.filter((t) => code > t).length),
    );
    const target = new cv.Mat();
    const works = { ours: () => void bandsOf(plane, thresholds), M: copying(plane.data.length) };
    if (cv.LUT) works.opencv = () => cv.LUT(source, table, target);
    const times = await interleaved(works, 11, 3);
    if (cv.LUT && bandsOf(plane, thresholds).data.some((band, i) => band !== target.data[i]))
      throw new Error('Bands differ');
    return { times };
  },

  async reduce() {
    const [width, height] = [6000, 4000];
    const target = { width: 1732, height: 1155 };
    const data = scene(width, height);
    const rowsOf = {
      width,
      height,
      rows: (y0, y1) => data.subarray(4 * width * y0, 4 * width * y1),
    };
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC4, data);
    const small = new cv.Mat();
    const size = new cv.Size(target.width, target.height);
    const pica = new Pica({ features: ['js', 'wasm'] });
    const options = { src: data, width, height, toWidth: target.width, toHeight: target.height };
    const times = await interleaved(
      {
        ours: () => void finished(reduceKernel(rowsOf, target)),
        M: copying(data.length),
        opencv: () => cv.resize(source, small, size, 0, 0, cv.INTER_AREA),
        pica: async () => void (await pica.resizeBuffer({ ...options, filter: 'box' })),
        picaUsual: async () => void (await pica.resizeBuffer({ ...options })),
      },
      5,
    );
    return { times };
  },

  async mixes() {
    const own = TUBES.filter(({ standIn }) => standIn === undefined);
    const mixer = new FlatMixer(own, paperReflectance(), [], 3);
    const distance = new Distance({ lab: [50, 10, 20] });
    const tubes = Int32Array.of(3, 8, 16);
    const amounts = Float64Array.of(0.1, 0.2, 0.05);
    let sum = 0;
    const targets = [
      [50, 10, 20],
      [30, 0, 0],
      [70, -30, 20],
      [85, 5, 60],
      [60, 0, -3],
    ];
    const search = (shelf, lab) => () => sum + findMixes({ lab }, { tubes: shelf })[0].deltaE;
    const works = {
      evaluations() {
        const start = performance.now();
        for (let i = 0; i < 200_000; i++) {
          amounts[0] = 0.1 + i * 1e-7;
          mixer.evaluate(tubes, amounts, 3);
          sum += distance.of(mixer.L, mixer.a, mixer.b);
        }
        return { ms: 5 * (performance.now() - start) };
      },
    };
    const everySecond = own.filter((_, i) => i % 2 === 0).slice(0, 12);
    for (const [name, shelf] of [
      ['of12', everySecond],
      ['of24', own.slice(0, 24)],
    ]) {
      const ids = shelf.map(({ id }) => id);
      if (ids.length !== Number(name.slice(2))) throw new Error(`${ids.length} tubes, not ${name}`);
      targets.forEach((lab, i) => (works[`${name} ${i}`] = search(ids, lab)));
      works[`${name} far`] = search(ids, [10, 0, 0]);
    }
    const times = await interleaved(works, 5, 2);
    if (!(sum > 0)) throw new Error('No mix was computed');
    const inReach = (name) => targets.map((_, i) => times[`${name} ${i}`]);
    return {
      times: {
        evaluations: times.evaluations,
        of12: Math.max(...inReach('of12')),
        of24: Math.max(...inReach('of24')),
        far12: times['of12 far'],
        far24: times['of24 far'],
      },
    };
  },

  async components() {
    const { width, height } = MP12;
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const map = bandsOf(plane, suggestThresholds(histogramOf(plane), 5));
    await loadOpenCv();
    // OpenCV labels what is not 0: one mask a band, made beforehand.
    const masks = Array.from({ length: 5 }, (_, band) =>
      matOf(
        height,
        width,
        cv.CV_8UC1,
        map.data.map((value) => (value === band ? 255 : 0)),
      ),
    );
    const labels = new cv.Mat();
    let theirs = 0;
    let ours = 0;
    const times = await interleaved(
      {
        ours: () => void (ours = componentsOf(map.data, width, height).count),
        M: copying(map.data.length),
        opencv: () => {
          theirs = 0;
          for (const mask of masks)
            theirs += cv.connectedComponents(mask, labels, 4, cv.CV_32S) - 1;
        },
      },
      7,
    );
    expectEqual([ours], [theirs], 'Counts of components');
    for (const mat of [...masks, labels]) mat.delete();
    return { times };
  },

  async masses() {
    const [width, height] = [2310, 1732];
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const thresholds = suggestThresholds(histogramOf(plane), 5);
    // A brush of 15 mm on a quarter sheet, 380 mm wide.
    const brushPx = (15 / 380) * width;
    const tree = finished(massTreeKernel(plane, { brushPx }));
    let turn = 0;
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC1, plane.data);
    const target = new cv.Mat();
    const times = await interleaved(
      {
        ours: () => void massesOf(plane, { thresholds, brushPx }),
        limits: () =>
          void massesFromTree(
            tree,
            thresholds.map((t) => t + (++turn % 3)),
          ),
        M: copying(plane.data.length),
      },
      9,
      3,
    );
    const slow = await interleaved(
      { bilateral: () => cv.bilateralFilter(source, target, 33, 32, 16) },
      1,
      0,
    );
    return { times: { ...times, ...slow } };
  },

  async sheet() {
    const { width, height } = MP12;
    const data = sheetPhoto(width, height);
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC4, data);
    const lab = new cv.Mat();
    let reading;
    const times = await interleaved(
      {
        ours: () => void (reading = readSheet({ width, height, data })),
        M: copying(data.length),
        opencv: () => cv.cvtColor(source, lab, cv.COLOR_RGB2Lab),
      },
      5,
      2,
    );
    source.delete();
    lab.delete();
    if (reading.swatches.length !== 30)
      throw new Error(`${reading.swatches.length} of 30 dabs were found`);
    return { times };
  },

  async squint() {
    const [width, height] = [1732, 1155];
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC1, plane.data);
    const target = new cv.Mat();
    const times = await interleaved(
      {
        ours: () => void squint(plane, { amount: 1, brushPx: 32 }),
        M: copying(plane.data.length),
        median: () => cv.medianBlur(source, target, 33),
      },
      5,
    );
    const slow = await interleaved(
      { bilateral: () => cv.bilateralFilter(source, target, 33, 32, 16) },
      1,
      0,
    );
    return { times: { ...times, ...slow } };
  },

  async structure() {
    const [width, height] = [1732, 1155];
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC1, plane.data);
    const [dx, dy, xx, xy, yy] = Array.from({ length: 5 }, () => new cv.Mat());
    // Products of Sobel derivatives, averaged by a Gaussian as broad as ours: half the scale.
    const theirs = (sigma) => () => {
      cv.Sobel(source, dx, cv.CV_32F, 1, 0);
      cv.Sobel(source, dy, cv.CV_32F, 0, 1);
      cv.multiply(dx, dx, xx);
      cv.multiply(dx, dy, xy);
      cv.multiply(dy, dy, yy);
      for (const mat of [xx, xy, yy]) cv.GaussianBlur(mat, mat, new cv.Size(0, 0), sigma);
    };
    const times = await interleaved(
      {
        tensor: () => void structureTensor(plane, { scalePx: 32 }),
        field: () => void directionField(plane, { scalePx: 32 }),
        fine: () => void structureTensor(plane, { scalePx: 8 }),
        M: copying(plane.data.length),
        opencv: theirs(16),
        opencvFine: theirs(4),
      },
      5,
    );
    // The same directions: the doubled angle of both where OpenCV finds one direction.
    theirs(16)();
    const { angle } = directionField(plane, { scalePx: 32 });
    let off = 0;
    let count = 0;
    for (let i = 0; i < angle.length; i += 997) {
      const [a, b, c] = [xx.data32F[i], xy.data32F[i], yy.data32F[i]];
      if (Math.hypot(a - c, 2 * b) < 0.5 * (a + c)) continue;
      const theirAngle = (90 * Math.atan2(-2 * b, c - a)) / Math.PI;
      const turn = Math.abs(angle[i] - theirAngle) % 180;
      off += Math.min(turn, 180 - turn);
      count++;
    }
    return { times, off: count > 0 ? off / count : undefined, count };
  },

  async distance() {
    const [width, height] = [2309, 1732];
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const [threshold] = suggestThresholds(histogramOf(plane), 2);
    const mask = plane.data.map((code) => (code > threshold ? 1 : 0));
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC1, mask);
    const target = new cv.Mat();
    const times = await interleaved(
      {
        ours: () => void squaredDistances(mask, width, height),
        M: copying(mask.length),
        opencv: () => cv.distanceTransform(source, target, cv.DIST_L2, cv.DIST_MASK_PRECISE),
      },
      7,
    );
    const squared = squaredDistances(mask, width, height);
    for (let i = 0; i < mask.length; i += 211) {
      if (Math.abs(Math.sqrt(squared[i]) - target.data32F[i]) > 0.01)
        throw new Error(`Distance ${Math.sqrt(squared[i])} and ${target.data32F[i]} differ`);
    }
    return { times };
  },

  async outlines() {
    const [width, height] = [2309, 1732];
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const thresholds = suggestThresholds(histogramOf(plane), 5);
    const masses = massesOf(plane, { thresholds, brushPx: 48 });
    await loadOpenCv();
    // Each region's own contours, then Douglas-Peucker on each: borders are cut twice and neighbours do not meet.
    const source = new cv.Mat(height, width, cv.CV_32SC1);
    source.data32S.set(masses.labels.map((label) => label + 1));
    const theirs = () => {
      const contours = new cv.MatVector();
      const hierarchy = new cv.Mat();
      const around = source.clone();
      cv.findContours(around, contours, hierarchy, cv.RETR_CCOMP, cv.CHAIN_APPROX_SIMPLE);
      const simple = new cv.Mat();
      for (let i = 0; i < contours.size(); i++) {
        const contour = contours.get(i);
        cv.approxPolyDP(contour, simple, 1.5, true);
        contour.delete();
      }
      const count = contours.size();
      for (const made of [contours, hierarchy, around, simple]) made.delete();
      return count;
    };
    if (theirs() < masses.regions.length / 2) throw new Error('OpenCV finds other regions');
    const times = await interleaved(
      {
        ours: () => void outlinesOf(masses),
        M: copying(masses.labels.byteLength),
        opencv: () => void theirs(),
        edges: () => void edgesOf(masses, plane),
        reserves: () => void reservesOf(masses, { brushPx: 48 }),
      },
      7,
    );
    return { times, regions: masses.regions.length };
  },

  async check() {
    const { width, height } = MP12;
    const data = scene(width, height);
    const pixels = { width, height, data };
    const corners = [
      [0.05, 0.06],
      [0.95, 0.05],
      [0.94, 0.95],
      [0.06, 0.94],
    ];
    const core = await startCore({ modes: ['page'] });
    const photo = await core.open(pixels);
    const plan = { picture: photo.id, thresholds: [90, 150], brushMm: 12, paperWidthMm: 380 };
    const tubes = ['ultramarine', 'burnt-sienna', 'raw-sienna', 'quinacridone-rose'];
    const check = async () => {
      // A new photo each time, as each check has; opening it is not the check's time.
      const painting = await core.open(pixels);
      const start = performance.now();
      const report = await core.run('check', {
        picture: painting.id,
        corners,
        plan,
        targets: [25, 55, 90],
        tubes,
      });
      const ms = performance.now() - start;
      report.rectified.bitmap?.close();
      painting.close();
      return { ms, report };
    };
    const { report } = await check();
    await loadOpenCv();
    const source = matOf(height, width, cv.CV_8UC4, data);
    const upright = new cv.Mat();
    const from = cv.matFromArray(
      4,
      1,
      cv.CV_32FC2,
      corners.flatMap(([x, y]) => [x * width, y * height]),
    );
    const size = { width: 2309, height: 1731 };
    const to = cv.matFromArray(4, 1, cv.CV_32FC2, [
      0,
      0,
      size.width,
      0,
      size.width,
      size.height,
      0,
      size.height,
    ]);
    const map = cv.getPerspectiveTransform(from, to);
    const pixelCorners = corners.map(([x, y]) => [x * width, y * height]);
    const times = await interleaved(
      {
        ours: check,
        rectify: () => void rectify(pixels, pixelCorners, size),
        M: copying(data.length),
        opencv: () =>
          cv.warpPerspective(
            source,
            upright,
            map,
            new cv.Size(size.width, size.height),
            cv.INTER_LINEAR,
          ),
      },
      5,
    );
    for (const mat of [source, upright, from, to, map]) mat.delete();
    core.dispose();
    return { times, regions: report.comparison.corrections.length };
  },
};

/** A sheet with thirty dabs on a dark table, under light that falls off to the right, with noise. */
function sheetPhoto(width, height) {
  const data = new Uint8ClampedArray(4 * width * height);
  let state = 1;
  for (let y = 0, k = 0; y < height; y++) {
    for (let x = 0; x < width; x++, k += 4) {
      const u = (x / width - 0.06 - (0.02 * y) / height) / 0.86;
      const v = (y / height - 0.07 + (0.02 * x) / width) / 0.86;
      let share = 0.1;
      if (u > 0 && u < 1 && v > 0 && v < 1) {
        const column = Math.floor(6 * u);
        const row = Math.floor(5 * v);
        const far = Math.hypot(6 * u - column - 0.5, 5 * v - row - 0.5);
        share = far < 0.34 ? 0.15 + 0.025 * (5 * column + row) : 1;
      }
      state = (Math.imul(state, 1664525) + 1013904223) | 0;
      const code = (235 - (60 * x) / width) * share + (state >>> 29) - 4;
      data[k] = code;
      data[k + 1] = code * 0.97;
      data[k + 2] = code * 0.9;
      data[k + 3] = 255;
    }
  }
  return data;
}

/** The two thresholds that leave the least variance inside three bands, by trying every pair; of equals the darkest. */
function exhaustive3(histogram) {
  const count = new Float64Array(257);
  const sum = new Float64Array(257);
  for (let code = 0; code < 256; code++) {
    count[code + 1] = count[code] + histogram[code];
    sum[code + 1] = sum[code] + histogram[code] * (code - 128);
  }
  const worth = (from, to) => {
    const n = count[to + 1] - count[from];
    return n > 0 ? (sum[to + 1] - sum[from]) ** 2 / n : 0;
  };
  let best = -1;
  let found;
  for (let s = 0; s < 254; s++) {
    for (let t = s + 1; t < 255; t++) {
      const value = worth(0, s) + worth(s + 1, t) + worth(t + 1, 255);
      if (value > best) {
        best = value;
        found = [s, t];
      }
    }
  }
  return found;
}

self.onmessage = async ({ data: { row } }) => {
  try {
    self.postMessage(await rows[row]());
  } catch (thrown) {
    self.postMessage({ failed: thrown?.stack ?? String(thrown) });
  }
};
