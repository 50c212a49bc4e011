/** The plan in hand follows its photo: range, paper, what was handed in before the first photo. */
import { expect } from 'chai';
import { newPlan, type Plan } from '../../core/index.js';
import { PlanStore, type StorePlanEvent } from '../../components/shared/plan-store.js';

/** A picture of two halves of grey, left and right. */
async function halves(dark: number, light: number, width = 80, height = 40): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  [dark, light].forEach((grey, i) => {
    context.fillStyle = `rgb(${grey} ${grey} ${grey})`;
    context.fillRect((i * width) / 2, 0, width / 2, height);
  });
  return canvas.convertToBlob({ type: 'image/png' });
}

async function until(holds: () => unknown, what: string): Promise<void> {
  for (let i = 0; i < 400; i++) {
    if (holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

/** CIE L* of an sRGB grey 0..255 (IEC 61966-2-1 and CIE 15). */
function lightnessOf(grey: number): number {
  const c = grey / 255;
  const y = c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  return y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (29 / 3) ** 3 * y;
}

let store: PlanStore;
let labels: string[];

function take(partial?: Partial<Plan>): PlanStore {
  store = new PlanStore(partial && newPlan(partial));
  labels = [];
  store.addEventListener('plan', (event) => labels.push((event as StorePlanEvent).label));
  return store;
}

describe('the plan in hand', () => {
  afterEach(() => store.dispose());

  describe('its range', () => {
    it('follows the photo without a step of undo; a code of lightness is 100/255 L* wide', async () => {
      take();
      expect(store.plan.range).to.equal(undefined);
      await store.open(await halves(20, 250));
      const { range, photoLimits, paintLimits, board } = store.plan;
      expect(range!.low).to.be.closeTo(lightnessOf(20), 0.25);
      expect(range!.high).to.be.closeTo(lightnessOf(250), 0.25);
      expect(range!.holding).to.equal(0);
      expect(store.canUndo).to.equal(false);
      expect(labels.filter((label) => label === 'range-proposed')).to.have.length(1);
      // A straight line from the photo's ends to L* 25 and 95 (the formula of a straight line, by hand).
      const onLine = (limit: number): number =>
        25 + (70 * (limit - range!.low)) / (range!.high - range!.low);
      photoLimits.forEach((limit, i) => expect(paintLimits[i]).to.be.closeTo(onLine(limit), 1e-6));
      expect(board.bands.slice(1).map(({ floor }) => floor)).to.eql(paintLimits);
    });

    it('keeps what is held and the darkest paint, and follows another photo and the sitter', async () => {
      take();
      await store.open(await halves(0, 255));
      store.change('range', (plan) => ({
        ...plan,
        range: { ...plan.range!, holding: -0.5, darkest: 28 },
      }));
      await store.open(await halves(60, 240));
      expect(store.plan.range).to.include({ holding: -0.5, darkest: 28 });
      expect(store.plan.range!.low).to.be.closeTo(lightnessOf(60), 0.25);
      // A loop about the dark half alone leaves one tone; a range is at least 1 L* wide.
      const [x, far] = [0.05, 0.45];
      store.change('sitter', (plan) => ({
        ...plan,
        sitter: [
          [x, x],
          [far, x],
          [far, 0.9],
          [x, 0.9],
        ],
      }));
      await until(() => store.plan.range!.high < 50, 'the range of the sitter');
      expect(store.plan.range!.high - store.plan.range!.low).to.be.closeTo(1, 1e-9);
      store.undo();
      await until(() => store.plan.range!.high > 90, 'the range of the whole');
      expect(store.plan.range!.holding).to.equal(-0.5);
    });

    it('comes back with undo to plans that had none', async () => {
      take();
      store.change('title', (plan) => ({ ...plan, title: 'Jug' }));
      await store.open(await halves(0, 255));
      const { range } = store.plan;
      store.undo();
      expect(store.plan.title).to.equal('');
      expect(store.plan.range).to.eql(range);
      expect(store.canRedo).to.equal(true);
      store.redo();
      expect(store.plan.title).to.equal('Jug');
      expect(store.plan.range).to.eql(range);
    });

    it('of a kept plan stays while the photo differs by less than half an L*', async () => {
      const range = { low: lightnessOf(30) + 0.2, high: lightnessOf(240) - 0.2, holding: 1 };
      take({ range });
      await store.open(await halves(30, 240), { keepPlan: true });
      expect(store.plan.range).to.eql(range);
      expect(labels).to.not.include('range-proposed');
      await store.open(await halves(30, 230), { keepPlan: true });
      expect(store.plan.range!.high).to.be.closeTo(lightnessOf(230), 0.25);
      expect(store.plan.range!.holding).to.equal(1);
    });

    it('follows the paper in the same step', async () => {
      take({ photoLimits: [40, 80] });
      await store.open(await halves(0, 255), { keepPlan: true });
      const before = store.plan;
      store.change('paper', (plan) => ({ ...plan, paper: { ...plan.paper, lightness: 85 } }));
      // 25 + 0.6 x 40, 25 + 0.6 x 80.
      expect(store.plan.paintLimits[0]).to.be.closeTo(49, 0.01);
      expect(store.plan.paintLimits[1]).to.be.closeTo(73, 0.01);
      expect(store.plan.board.bands.at(-1)!.ceiling).to.equal(85);
      store.undo();
      expect(store.plan).to.equal(before);
    });

    it('leaves limits that the page gives where they are in the photo', async () => {
      take();
      store.fixLimits([40, 80]);
      expect(store.plan.paintLimits).to.eql([40, 80]);
      await store.open(await halves(0, 255));
      expect(store.plan.photoLimits).to.eql([40, 80]);
      expect(store.plan.paintLimits[0]).to.be.closeTo(53, 0.01);
      expect(store.plan.board.bands[1].floor).to.equal(store.plan.paintLimits[0]);
    });
  });

  describe('the paper of an untouched plan', () => {
    const sheet = (): number[] => [store.plan.paper.widthMm, store.plan.paper.heightMm];

    it('is turned as the first photo is', async () => {
      take();
      await store.open(await halves(0, 255, 40, 80));
      expect(sheet()).to.eql([279.4, 381]);
      expect(store.canUndo).to.equal(false);
      await store.open(await halves(0, 255, 80, 40));
      expect(sheet(), 'a second photo does not turn it').to.eql([279.4, 381]);
    });

    it('lies as it is for a lying or a square photo, a sheet of one’s own, a crop, a change', async () => {
      for (const [width, height, partial, touch] of [
        [80, 40, {}, false],
        [40, 40, {}, false],
        [40, 80, { paper: { widthMm: 400, heightMm: 300, lightness: 95 } }, false],
        [40, 80, { crop: { x: 0, y: 0, width: 1, height: 0.5 } }, false],
        [40, 80, {}, true],
      ] as const) {
        take(partial);
        if (touch) store.change('title', (plan) => ({ ...plan, title: 'Jug' }));
        const before = sheet();
        await store.open(await halves(0, 255, width, height));
        expect(sheet()).to.eql(before);
        store.dispose();
      }
    });
  });

  it('handed in with crop and sitter keeps them for its first photo, not for the next', async () => {
    const crop = { x: 0.25, y: 0, width: 0.5, height: 1 };
    const sitter: [number, number][] = [
      [0.3, 0.1],
      [0.7, 0.1],
      [0.5, 0.9],
    ];
    take({ crop, sitter });
    await store.open(await halves(0, 255));
    expect(store.plan.crop).to.eql(crop);
    expect(store.plan.sitter).to.eql(sitter);
    expect(store.picture.plane!.width).to.equal(40);
    await store.open(await halves(0, 255));
    expect(store.plan.crop).to.equal(undefined);
    expect(store.plan.sitter).to.equal(undefined);
  });
});
