/** The package as it was built, in a page of its own: its worker, first bands, a mix, and a plan that is there again after the page was loaded anew. */
import { expect } from 'chai';
import type * as Kit from '../../components/index.js';
import type { PaintingPlan, ValueBandViewer } from '../../components/index.js';
import { figuresOf, mixesOf, type Works } from './works.js';

type Page = Window & typeof globalThis & { kit: typeof Kit };

const frame = Object.assign(document.createElement('iframe'), { width: '900', height: '700' });

async function until<T>(holds: () => T, what: string): Promise<NonNullable<T>> {
  for (let i = 0; i < 500; i++) {
    const held = holds();
    if (held) return held;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

/** Loads the page, a first time or anew, and waits until what is kept was taken up. */
async function load(): Promise<Page> {
  const loaded = new Promise((resolve) => frame.addEventListener('load', resolve, { once: true }));
  if (frame.isConnected) frame.contentWindow!.location.reload();
  else document.body.append(Object.assign(frame, { src: '/test/engines/built.html' }));
  await loaded;
  const page = frame.contentWindow as Page;
  await until(() => page.kit, 'the package');
  await until(() => planOf(page).store, 'the plan');
  return page;
}

const planOf = ({ document }: Page): PaintingPlan => document.querySelector('painting-plan')!;
const viewerOf = ({ document }: Page): ValueBandViewer =>
  document.querySelector('value-band-viewer')!;

/** Three stripes of 30 x 60: black, sRGB grey 119 and white. */
function stripes({ document }: Page): HTMLCanvasElement {
  const canvas = Object.assign(document.createElement('canvas'), { width: 90, height: 60 });
  const context = canvas.getContext('2d')!;
  ['#000', '#777', '#fff'].forEach((colour, i) => {
    context.fillStyle = colour;
    context.fillRect(30 * i, 0, 30, 60);
  });
  return canvas;
}

describe('the built package', function () {
  this.timeout(60000);
  let page: Page;
  before(async () => (page = await load()));
  after(() => frame.remove());

  it('starts in its worker', async () => {
    expect((await page.kit.sharedCore()).mode).to.equal('worker');
  });

  it('shows the bands of a drawn picture', async () => {
    const viewer = viewerOf(page);
    viewer.picture = stripes(page);
    const { store } = planOf(page);
    await until(() => store.picture.exact, 'the picture');
    // L* of sRGB grey 119 is 50.03 (IEC 61966-2-1, CIE 15): code 128.
    const { width, data } = store.picture.plane!;
    expect([data[10], data[width >> 1], data[width - 10]]).to.eql([0, 128, 255]);
    store.change('limits', (plan) => ({ ...plan, photoLimits: [30, 70] }));
    const shown = (): number[] => {
      const canvas = viewer.shadowRoot!.querySelector<HTMLCanvasElement>('canvas.top');
      const row = canvas?.getContext('2d')?.getImageData(0, 20, 90, 1).data ?? [];
      return [row[4 * 15], row[4 * 45], row[4 * 75]];
    };
    // A band is shown at the middle of its interval: L* 15 and 50 are sRGB 38 and 119.
    await until(() => Math.abs(shown()[0] - 38) <= 2 && Math.abs(shown()[1] - 119) <= 2, 'bands');
    expect(shown()[2]).to.be.above(shown()[1]);
  });

  it('finds the mixes that Node finds', async () => {
    const { figures } = (await (await fetch('/works-in-node.json')).json()) as Works;
    const core = await page.kit.sharedCore();
    for (const { name, target, options } of mixesOf()) {
      const { mixes } = await core.run('mixes', { target, options });
      const found = mixes.flatMap(figuresOf);
      expect(found).to.have.lengthOf(figures[name].length);
      found.forEach((figure, i) => expect(figure, name).to.be.closeTo(figures[name][i], 1e-9));
    }
  });

  it('keeps a plan and its photo, and takes them up when the page is loaded again', async () => {
    const plan = planOf(page);
    const kept = new Promise((resolve) => plan.addEventListener('plan-saved', resolve));
    plan.store.change('title', (before) => ({ ...before, title: 'Three stripes' }));
    await kept;
    await until(() => plan.document.photo, 'the photo in the plan');
    await new Promise((resolve) => setTimeout(resolve, 1500)); // what follows the first save
    page = await load();
    const again = planOf(page);
    await until(() => again.document.title === 'Three stripes', 'the plan');
    await until(() => again.store.picture.exact, 'the photo');
    expect(again.document.photoLimits).to.eql([30, 70]);
    expect([...new Set(again.store.picture.plane!.data)].sort((a, b) => a - b)).to.eql([
      0, 128, 255,
    ]);
  });
});
