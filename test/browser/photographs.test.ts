/**
 * Three public-domain photographs, decoded by the browser, against counts, exact limits and shares that were computed in
 * float64 with numpy and checked with scikit-image (test/reference/photographs.json). Those were decoded by libjpeg; another
 * decoder may differ by one code, so counts are compared by how far they would have to be moved.
 */
import { expect } from 'chai';
import { startCore, type Core } from '../../core/worker/client.js';
import { bandsOf, sharesOf, suggestThresholds } from '../../core/index.js';

interface Photograph {
  package: string;
  size: [number, number];
  meanL: number;
  histogram: number[];
  multiotsu: Record<string, { thresholds: number[]; shares: number[] }>;
}

/** Mean distance, in codes, by which the counts of one histogram have to move to become the other (both of n pixels). */
function movedBy(a: ArrayLike<number>, b: ArrayLike<number>, pixels: number): number {
  let surplus = 0;
  let moved = 0;
  for (let code = 0; code < 256; code++) {
    surplus += a[code] - b[code];
    moved += Math.abs(surplus);
  }
  return moved / pixels;
}

describe('photographs', () => {
  let core: Core;
  let images: Record<string, Photograph>;

  before(async () => {
    core = await startCore();
    ({ images } = (await (await fetch('/test/reference/photographs.json')).json()) as {
      images: Record<string, Photograph>;
    });
  });
  after(() => core.dispose());

  for (const name of ['black-canyon', 'march-pastoral', 'nagasaki-boats']) {
    it(`${name}: size, counts, limits and shares`, async () => {
      const expected = images[name];
      const file = await (await fetch(`/node_modules/${expected.package}/data/image.jpg`)).blob();
      const picture = await core.open(file);
      expect([picture.width, picture.height]).to.eql(expected.size);
      const { plane, histogram } = await core.run('working', { picture: picture.id });
      const pixels = plane.data.length;
      expect(histogram.reduce((sum, count) => sum + count, 0)).to.equal(pixels);
      expect(movedBy(histogram, expected.histogram, pixels)).to.be.below(0.1);
      const mean = histogram.reduce((sum, count, code) => sum + count * code, 0) / pixels / 2.55;
      expect(mean).to.be.closeTo(expected.meanL, 0.1);
      for (const [bands, { thresholds, shares }] of Object.entries(expected.multiotsu)) {
        const found = suggestThresholds(histogram, Number(bands));
        found.forEach((threshold, i) => expect(threshold).to.be.closeTo(thresholds[i], 1));
        sharesOf(bandsOf(plane, thresholds)).forEach((share, i) =>
          expect(share).to.be.closeTo(shares[i], 0.005),
        );
      }
      picture.close();
    });
  }
});
