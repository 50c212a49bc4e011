/** Recipes on the board, and mixes for the leans that a bucket lacks. */
import { expect } from 'chai';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import type { BoardChangeEvent } from '../../components/shared/events/board-change.js';
import {
  leanOf,
  mixOnPaper,
  paperReflectance,
  parsePlan,
  serialisePlan,
  type Plan,
} from '../../components/shared/core.js';
import { clear, faultsOf, inside, place, until } from './access-helpers.js';

const RECIPE = {
  parts: [
    { tube: 'yellow-ochre', parts: 3 },
    { tube: 'ultramarine', parts: 2 },
  ],
  strength: 0.2,
};
const SHELF = ['hansa-yellow', 'yellow-ochre', 'burnt-sienna', 'quinacridone-rose', 'ultramarine'];

async function board(change: (plan: Plan) => Plan): Promise<SwatchBucketBoard> {
  const element = place('<swatch-bucket-board></swatch-bucket-board>').querySelector(
    'swatch-bucket-board',
  )!;
  await element.updateComplete;
  element.store.change('test', change);
  await element.updateComplete;
  return element;
}

const withRecipe = (plan: Plan): Plan => ({
  ...plan,
  board: {
    ...plan.board,
    swatches: [{ id: 'a', bucket: 1, lightness: 49, lab: [49, 1, 9], from: 'mix', recipe: RECIPE }],
  },
});

const withShelf = (plan: Plan): Plan => ({
  ...withRecipe(plan),
  shelf: [...SHELF, 'viridian'].map((tube) => ({ tube })),
});

describe('a board with mixes', () => {
  before(() => (document.documentElement.lang = 'en'));
  afterEach(clear);

  it('tells the recipe of a swatch in words, and offers nothing more without a shelf', async () => {
    const element = await board(withRecipe);
    await until(() => element.shadowRoot!.querySelector('.recipe'), 'the recipe');
    // A fifth of the heaviest wash, which is as much water as paint (common practice, no source): of that one spoonful in five.
    expect(inside(element, '.recipe').textContent!.trim()).to.equal(
      'Mix 3 yellow ochre, 2 ultramarine, 5 water; then 1 of it in 4 water',
    );
    expect(element.shadowRoot!.querySelector('[data-complete]')).to.equal(null);
  });

  it('keeps a recipe whose tube is not known', async () => {
    const element = await board((plan) => {
      const made = withRecipe(plan);
      const [swatch] = made.board.swatches;
      const recipe = { parts: [{ tube: 'tube-of-tomorrow', parts: 1 }], strength: 1 };
      return { ...made, board: { ...made.board, swatches: [{ ...swatch, recipe }] } };
    });
    await until(() => element.shadowRoot!.querySelector('.recipe'), 'the recipe');
    expect(inside(element, '.recipe').textContent).to.contain('“tube-of-tomorrow”');
  });

  it('lays in the leans that a bucket lacks, in one step, with their recipes', async function () {
    this.timeout(30000);
    const element = await board(withShelf);
    const told: BoardChangeEvent[] = [];
    element.addEventListener('board-change', (event) => told.push(event));
    await until(() => element.shadowRoot!.querySelector('[data-complete="1"]'), 'the offer');
    inside(element, '[data-complete="1"]').click();
    await until(() => element.shadowRoot!.querySelector('[data-lay-all]'), 'the leans');
    expect(await faultsOf(element)).to.eql([]);
    inside(element, '[data-lay-all]').click();
    await element.updateComplete;
    const { swatches } = element.store.plan.board;
    expect(swatches.length).to.be.above(2);
    expect(told.map(({ what }) => what)).to.eql(['add']);
    const added = swatches.slice(1);
    for (const swatch of added) {
      expect(swatch).to.include({ bucket: 1, from: 'mix' });
      // Of the value of those that are there: half a unit of L*.
      expect(swatch.lightness).to.be.closeTo(49, 0.6);
      expect(swatch.recipe!.parts.every(({ tube }) => SHELF.includes(tube))).to.equal(true);
      // Another lean than the ochre grey that was there.
      expect(leanOf(swatch.lab!).name).not.to.equal(leanOf([49, 1, 9]).name);
    }
    expect(parsePlan(serialisePlan(element.store.plan)).board.swatches).to.have.length(
      swatches.length,
    );
    element.store.undo();
    expect(element.store.plan.board.swatches).to.have.length(1);
  });

  // The forward model on that paper decides, at the strength that the search found (four decimals in a recipe).
  it('looks for mixes on the plan’s paper', async function () {
    this.timeout(30000);
    const element = await board((plan) => ({
      ...withShelf(plan),
      paper: { ...plan.paper, lightness: 82 },
    }));
    await until(() => element.shadowRoot!.querySelector('[data-complete="1"]'), 'the offer');
    inside(element, '[data-complete="1"]').click();
    await until(() => element.shadowRoot!.querySelector('[data-lay-all]'), 'the leans');
    inside(element, '[data-lay-all]').click();
    await element.updateComplete;
    const added = element.store.plan.board.swatches.slice(1);
    expect(added.length).to.be.above(1);
    const paper = paperReflectance({ lightness: 82 });
    for (const { lightness, recipe } of added) {
      expect(lightness).to.be.closeTo(49, 0.01);
      const { parts, strength } = recipe!;
      expect(mixOnPaper(parts, { strength, paper }).lab[0]).to.be.closeTo(49, 0.05);
      expect(mixOnPaper(parts, { strength }).lab[0]).to.be.above(49.2);
    }
  });

  it('can be stopped, and gives the focus back', async () => {
    const element = await board(withShelf);
    await until(() => element.shadowRoot!.querySelector('[data-complete="2"]'), 'the offer');
    element.store.core = () => new Promise(() => undefined);
    inside(element, '[data-complete="2"]').click();
    await element.updateComplete;
    expect(element.shadowRoot!.activeElement).to.equal(inside(element, '[data-shut]'));
    inside(element, '[data-shut]').click();
    await element.updateComplete;
    expect(element.shadowRoot!.activeElement).to.equal(inside(element, '[data-complete="2"]'));
  });

  it('mixes from lasting tubes alone where the work will be sold, and names what it leaves out', async function () {
    this.timeout(30000);
    // Alizarin crimson (PR83) fades: ASTM D4302 lightfastness III or IV, from memory.
    const sold = (plan: Plan): Plan => {
      const made = withShelf(plan);
      return { ...made, sold: true, shelf: [...made.shelf!, { tube: 'alizarin-crimson' }] };
    };
    const element = await board(sold);
    await until(() => element.shadowRoot!.querySelector('[data-complete="1"]'), 'the offer');
    inside(element, '[data-complete="1"]').click();
    await until(() => element.shadowRoot!.querySelector('[data-lay-all]'), 'the leans');
    expect(inside(element, '.completing').textContent).to.match(
      /Left out, since the work will be sold: alizarin crimson/i,
    );
    inside(element, '[data-lay-all]').click();
    await element.updateComplete;
    const recipes = element.store.plan.board.swatches.slice(1).map(({ recipe }) => recipe!);
    expect(recipes.length).to.be.above(0);
    for (const { parts } of recipes)
      expect(parts.map(({ tube }) => tube)).not.to.include('alizarin-crimson');
  });

  it('says when none of the tubes lasts in light and the work will be sold', async () => {
    const shelf = [{ tube: 'alizarin-crimson' }];
    const element = await board((plan) => ({ ...plan, sold: true, shelf }));
    await until(() => element.shadowRoot!.querySelector('[data-complete="0"]'), 'the offer');
    inside(element, '[data-complete="0"]').click();
    await until(() => element.shadowRoot!.querySelector('.completing .fault'), 'the sentence');
    expect(inside(element, '.completing .fault').textContent).to.contain('lasts in light');
  });

  it('says when none of the tubes can be predicted', async () => {
    const element = await board((plan) => ({ ...plan, shelf: [{ tube: 'viridian' }] }));
    await until(() => element.shadowRoot!.querySelector('[data-complete="0"]'), 'the offer');
    inside(element, '[data-complete="0"]').click();
    await element.updateComplete;
    await until(() => element.shadowRoot!.querySelector('.completing .fault'), 'the sentence');
    expect(inside(element, '.completing .fault').textContent).to.contain('can be predicted');
  });
});
