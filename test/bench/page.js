/** Measures what only a page can: a picture on the screen. The runner calls what stands on `globalThis.bench`. */
import { crossed, OwnChannel } from './messages.js';
import {
  bandPalette,
  defaultTones,
  histogramOf,
  lightnessPlane,
  recolour,
  suggestThresholds,
} from 'tonewell/core';
import { copying, interleaved, median } from './interleaved.js';
import { scene, scenePhoto } from './scene.js';

const longTasks = [];
new PerformanceObserver((list) => {
  for (const { startTime, duration } of list.getEntries()) longTasks.push({ startTime, duration });
}).observe({ type: 'longtask' });

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
/** The next task: after the frame, when asked for in an animation frame. */
const nextTask = () =>
  new Promise((resolve) => {
    const { port1, port2 } = new OwnChannel();
    port1.onmessage = () => (port1.close(), resolve(performance.now()));
    port2.postMessage(0);
  });
const nextFrame = () =>
  new Promise((resolve) => requestAnimationFrame(() => void nextTask().then(resolve)));

/** Told when band colours are put on a canvas that stands in the page. */
let onPainted = () => {};
const put = CanvasRenderingContext2D.prototype.putImageData;
CanvasRenderingContext2D.prototype.putImageData = function (...of) {
  put.apply(this, of);
  if (this.canvas.isConnected) onPainted();
};

const bytes = {};
async function photo(width, height) {
  bytes[width] ??= await (await scenePhoto(width, height)).arrayBuffer();
  // A new file each time, so that nothing is had from a cache.
  return new File([bytes[width]], 'photo.jpg', { type: 'image/jpeg' });
}

function newViewer() {
  const viewer = document.createElement('value-band-viewer');
  viewer.loading = 'eager';
  viewer.view = 'bands';
  document.body.append(viewer);
  return viewer;
}

const canvasOf = (viewer) => viewer.shadowRoot.querySelector('canvas.top');

/** Different colours on a canvas. */
function coloursOn(canvas) {
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  return new Set(new Uint32Array(data.buffer)).size;
}

function inTime(promise, what) {
  const late = pause(15_000).then(() => Promise.reject(new Error(`No ${what} in 15 s`)));
  return Promise.race([promise, late]);
}

function ready(viewer) {
  return new Promise((resolve, reject) => {
    viewer.addEventListener('ready', resolve, { once: true });
    viewer.addEventListener(
      'error',
      (event) => reject(new Error(event.reason?.code ?? event.message ?? 'error')),
      { once: true },
    );
  });
}

/** Opens a file in a fresh viewer: when its first bands were in a frame, and when the exact ones were. */
async function opened(file) {
  const viewer = newViewer();
  await viewer.updateComplete;
  await nextFrame();
  const done = ready(viewer);
  const start = performance.now();
  let put;
  const bands = new Promise((resolve) => {
    onPainted = () => {
      onPainted = () => {};
      put = performance.now() - start;
      void nextTask().then((at) => resolve(at - start));
    };
  });
  viewer.picture = file;
  const ms = await inTime(bands, 'bands');
  const first = { width: canvasOf(viewer).width, height: canvasOf(viewer).height };
  await inTime(done, 'exact bands');
  const exact = performance.now() - start;
  return { viewer, ms, put, exact, first };
}

const since = (before) => ({
  calls: crossed.calls - before.calls,
  answers: crossed.answers - before.answers,
  progress: crossed.progress - before.progress,
});

/** Starts the core that all elements share. */
async function warm() {
  const { viewer } = await opened(await photo(640, 480));
  viewer.remove();
}

globalThis.bench = {
  /** 4 MP of codes through a palette and onto a canvas, as at every move of a limit. */
  async recolour() {
    const [width, height] = [2449, 1633];
    const plane = lightnessPlane({ width, height, data: scene(width, height) });
    const thresholds = suggestThresholds(histogramOf(plane), 5);
    const canvas = document.createElement('canvas');
    Object.assign(canvas, { width, height });
    document.body.append(canvas);
    const context = canvas.getContext('2d', { alpha: false });
    const image = new ImageData(width, height);
    const words = new Uint32Array(image.data.buffer);
    let move = 0;
    const paint = (onto) => {
      const moved = thresholds.map((t) => t + (move++ % 2));
      recolour(plane.data, bandPalette(moved, defaultTones(moved)), words);
      if (onto) context.putImageData(image, 0, 0);
    };
    const times = await interleaved(
      { ours: () => paint(true), pass: () => paint(false), M: copying(4 * width * height) },
      15,
      3,
    );
    canvas.remove();
    return { times };
  },

  /** A photo file to its first bands in a frame, beside decoding it alone. */
  async first(rounds) {
    await warm();
    const file = await photo(4000, 3000);
    const puts = [];
    const exacts = [];
    let size;
    const times = await interleaved(
      {
        ours: async () => {
          const { viewer, ms, put, exact, first } = await opened(await photo(4000, 3000));
          const colours = coloursOn(canvasOf(viewer));
          if (colours < 2 || colours > 6)
            throw new Error(`${colours} colours on the canvas: no bands`);
          puts.push(put);
          exacts.push(exact);
          size = first;
          viewer.remove();
          viewer.picture = null;
          await pause(150);
          return { ms };
        },
        alone: async () => {
          const own = await photo(4000, 3000);
          const start = performance.now();
          const bitmap = await createImageBitmap(own);
          const ms = performance.now() - start;
          bitmap.close();
          await pause(50);
          return { ms };
        },
        M: copying(4 * 4000 * 3000),
      },
      rounds,
      2,
    );
    return { times, put: median(puts), exact: median(exacts), size, fileBytes: file.size };
  },

  /** Opens a 24 MP photo and leaves the viewer: tasks of 50 ms and more meanwhile, and what crossed to the worker. */
  async open24() {
    globalThis.viewer?.remove();
    await warm();
    const file = await photo(6000, 4000);
    await pause(300);
    longTasks.length = 0;
    const before = { ...crossed };
    const { viewer, ms, exact } = await opened(file);
    await pause(400);
    globalThis.viewer = viewer;
    return {
      ms,
      exact,
      tasks: longTasks.map(({ duration }) => Math.round(duration)),
      messages: since(before),
    };
  },

  /** Where the middle peg of the viewer that was left is. */
  peg() {
    const pegs = [...globalThis.viewer.shadowRoot.querySelectorAll('[part~="peg"]')];
    const peg = pegs[pegs.length >> 1];
    peg.scrollIntoView({ block: 'center' });
    const { x, y, width, height } = peg.getBoundingClientRect();
    longTasks.length = 0;
    const from = { ...crossed, limits: globalThis.viewer.limits.join(), paints: 0 };
    onPainted = () => from.paints++;
    globalThis.dragFrom = from;
    return { x: x + width / 2, y: y + height / 2 };
  },

  /** What the drag since `peg()` did. */
  async dragged() {
    await nextFrame();
    const from = globalThis.dragFrom;
    return {
      moved: from.limits !== globalThis.viewer.limits.join(),
      paints: from.paints,
      tasks: longTasks.map(({ duration }) => Math.round(duration)),
      messages: since(from),
    };
  },
};
