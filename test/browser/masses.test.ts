/** Masses through the real worker: what comes back, that a second question is answered from the kept tree, and that it can be given up. */
import { expect } from 'chai';
import { startCore, type Core } from '../../core/worker/client.js';

describe('masses in the worker', () => {
  let core: Core;
  before(async () => {
    core = await startCore();
  });
  after(() => core.dispose());

  const open = async () => core.open(await (await fetch('/demo/pictures/clay-dog-900.jpg')).blob());

  it('come with outlines and edges, and fit together', async () => {
    const picture = await open();
    const input = {
      picture: picture.id,
      thresholds: [84, 155],
      brushMm: 15,
      paperWidthMm: 380,
    };
    const { masses, outlines, edges } = await core.run('masses', input);
    const { map, labels, regions } = masses;
    expect([map.width, map.height, map.bands]).to.eql([900, 1200, 3]);
    expect(labels)
      .to.be.instanceOf(Int32Array)
      .with.length(900 * 1200);
    const least = Math.floor((Math.PI / 4) * ((15 / 380) * 900) ** 2);
    regions.forEach((region, id) => {
      expect(region.id).to.equal(id);
      expect(region.area).to.be.at.least(least);
    });
    expect(outlines.map(({ region }) => region)).to.eql(regions.map(({ id }) => id));
    expect(outlines[0].rings[0]).to.be.instanceOf(Float32Array);
    expect(edges.length).to.be.above(0);
    const again = await core.run('masses', { ...input, thresholds: [90, 160] });
    expect(again.masses.labels).to.have.length(labels.length);
    const same = await core.run('masses', input);
    expect(same.masses.labels).to.eql(labels);
    picture.close();
  });

  it('can be given up', async () => {
    const picture = await open();
    const stop = new AbortController();
    const asked = core.run(
      'masses',
      { picture: picture.id, thresholds: [84, 155], brushMm: 3, paperWidthMm: 380 },
      { signal: stop.signal },
    );
    stop.abort();
    const name = await asked.then(
      () => 'answered',
      (error: Error) => error.name,
    );
    expect(name).to.equal('AbortError');
    picture.close();
  });
});
