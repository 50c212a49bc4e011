/**
 * Given equal pixels every engine makes of them what Node makes of them: planes, limits, bands, masses, outlines and reserves bit for bit,
 * figures of mixes within 1e-9. What is expected comes from Node in the same run (`test/engines/in-node.mjs`).
 */
import { expect } from 'chai';
import { works, type Works } from '../engines/works.js';

const WITHIN = 1e-9;

describe('this engine and Node', () => {
  let here: Works;
  let node: Works;
  before(async function () {
    this.timeout(120000);
    node = (await (await fetch('/works-in-node.json')).json()) as Works;
    here = await works();
  });

  it('make the same planes, limits, bands, masses, outlines, edges, passages and reserves of the same pixels', () => {
    expect(Object.keys(node.digests)).to.have.lengthOf.above(200);
    expect(Object.keys(here.digests)).to.eql(Object.keys(node.digests));
    const apart = Object.keys(node.digests).filter(
      (name) => here.digests[name] !== node.digests[name],
    );
    expect(apart).to.eql([]);
  });

  it('tell mixes, families and drying within 1e-9 of each other', () => {
    expect(Object.keys(here.figures)).to.eql(Object.keys(node.figures));
    const apart = Object.entries(node.figures).filter(
      ([name, figures]) =>
        figures.length === 0 ||
        here.figures[name].length !== figures.length ||
        !figures.every((figure, i) => Math.abs(figure - here.figures[name][i]) <= WITHIN),
    );
    expect(apart.map(([name]) => name)).to.eql([]);
  });
});
