import { describe, expect, it } from 'vitest';
import { histogramOf, massesOf, suggestThresholds } from '../../core/index.js';
import { absorbedTo, bandsOfCodes, qualityOf, strongEdges } from '../bench/quality.js';
import { photograph, PHOTOGRAPHS } from './mass-helper.js';

/**
 * Masses of a 15 mm brush on a quarter sheet (380 mm wide) beside the plain way at the same count of regions: threshold, and let
 * parts below some area go to the neighbour of the longest border. test/bench/quality.js says what is measured.
 */
describe('masses beside threshold and absorb, at equal count', () => {
  const total = { error: [0, 0], edges: [0, 0], roughness: [0, 0] };

  for (const name of Object.keys(PHOTOGRAPHS) as (keyof typeof PHOTOGRAPHS)[]) {
    it(
      name,
      () => {
        const plane = photograph(name);
        const { width, height, data } = plane;
        const brushPx = (15 / 380) * width;
        const edges = strongEdges(data, width, height);
        const thresholds = suggestThresholds(histogramOf(plane), 4);
        const { labels, regions } = massesOf(plane, { thresholds, brushPx });
        const plain = absorbedTo(bandsOfCodes(data, thresholds), width, regions.length);
        expect(Math.abs(plain.count - regions.length)).toBeLessThanOrEqual(1);
        const ours = qualityOf(data, edges, labels, regions.length, width, height, brushPx);
        const theirs = qualityOf(data, edges, plain.labels, plain.count, width, height, brushPx);
        expect(ours.error / theirs.error).toBeLessThan(1.03);
        expect(ours.roughness / theirs.roughness).toBeLessThan(1);
        for (const figure of ['error', 'edges', 'roughness'] as const) {
          total[figure][0] += ours[figure];
          total[figure][1] += theirs[figure];
        }
      },
      180_000,
    );
  }

  it('over all: nearer to the picture, more of its strong edges, smoother borders', () => {
    const ratio = ([ours, theirs]: number[]) => ours / theirs;
    expect(ratio(total.error)).toBeLessThan(1);
    expect(ratio(total.edges)).toBeGreaterThan(1);
    expect(ratio(total.roughness)).toBeLessThan(0.95);
  });
});
