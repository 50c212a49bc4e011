/** The tools in the viewer itself, by a real mouse and real keys. */
import { resetMouse, sendKeys, sendMouse } from '@web/test-runner-commands';
import { expect } from 'chai';
import { newPlan } from '../../core/index.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import { ValueBandViewer } from '../../components/value-band-viewer/value-band-viewer.js';

ValueBandViewer.define();

/** A photo of 400 x 400 pixels: a fall of greys from the left to the right. */
async function photo(): Promise<Blob> {
  const canvas = new OffscreenCanvas(400, 400);
  const context = canvas.getContext('2d')!;
  const fall = context.createLinearGradient(0, 0, 400, 0);
  fall.addColorStop(0, '#111');
  fall.addColorStop(1, '#eee');
  context.fillStyle = fall;
  context.fillRect(0, 0, 400, 400);
  return canvas.convertToBlob({ type: 'image/png' });
}

async function until<T>(found: () => T | null | undefined | false, what: string): Promise<T> {
  for (let i = 0; i < 400; i++) {
    const value = found();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

describe('the tools in the viewer', () => {
  let viewer: ValueBandViewer;
  const root = (): ShadowRoot => viewer.shadowRoot!;
  const middleOf = (selector: string): [number, number] => {
    const element = root().querySelector(selector)!;
    element.scrollIntoView({ block: 'center' });
    const { x, y, width, height } = element.getBoundingClientRect();
    return [Math.round(x + width / 2), Math.round(y + height / 2)];
  };

  beforeEach(async () => {
    viewer = new ValueBandViewer();
    viewer.style.inlineSize = '600px';
    viewer.setAttribute('controls', 'tools');
    const plan = newPlan({ paper: { widthMm: 300, heightMm: 200, lightness: 95 } });
    viewer.plan = new PlanStore(plan);
    document.body.prepend(viewer);
    await viewer.store.open(await photo());
    await until(() => root().querySelector('[part="tools"] button'), 'the tools');
    scrollTo(0, 0);
  });
  afterEach(async () => {
    await resetMouse();
    viewer.remove();
  });

  it('crop: the grips of a frame that fills the photo can be taken hold of by the mouse', async () => {
    viewer.takeUp('crop');
    const largest = await until(
      () =>
        [...root().querySelectorAll('button')].find((each) => /Largest/.test(each.textContent!)),
      'the button',
    );
    largest.click();
    await until(() => viewer.store.plan.crop, 'the crop');
    await viewer.updateComplete;
    expect(viewer.store.plan.crop!.width).to.equal(1);
    const [x, y] = middleOf('.tool-grip-se .tool-grip-mark');
    await sendMouse({ type: 'move', position: [x, y] });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: [x - 90, y - 60] });
    await sendMouse({ type: 'up' });
    const { width, height } = viewer.store.plan.crop!;
    expect(width).to.be.within(0.6, 0.95);
    // the paper's 3 : 2 on a square photo
    expect(width / height).to.be.closeTo(1.5, 1e-6);
  });

  it('sitter: by keys alone, on the part that is painted, and Escape lays the tool down', async () => {
    viewer.store.change('crop', (plan) => ({
      ...plan,
      crop: { x: 0.5, y: 0.25, width: 0.5, height: 1 / 3 },
    }));
    viewer.takeUp('sitter');
    const stage = await until(
      () => root().querySelector<HTMLElement>('.stage[tabindex]'),
      'the stage',
    );
    stage.focus();
    await sendKeys({ press: 'Enter' });
    await sendKeys({ press: 'ArrowRight' });
    const xs = viewer.store.plan.sitter!.map(([x]) => x);
    // the middle half of the part, 0.625..0.875, moved by a hundredth of the photo
    expect(Math.min(...xs)).to.be.closeTo(0.635, 1e-9);
    expect(Math.max(...xs)).to.be.closeTo(0.885, 1e-9);
    await sendKeys({ press: 'Escape' });
    await viewer.updateComplete;
    expect(root().querySelector('.tool')).to.equal(null);
    expect(viewer.store.plan.sitter).to.not.equal(undefined);
  });

  it('limits to choose from: a click sets them and the viewer tells it', async () => {
    viewer.takeUp('proposals');
    await until(() => root().querySelectorAll('[role="radio"]').length > 1, 'the choices');
    const told: (readonly number[])[] = [];
    viewer.addEventListener('limits-change', ({ limits }) => told.push(limits));
    await sendMouse({ type: 'click', position: middleOf('[role="radio"]:nth-of-type(2)') });
    expect(told).to.eql([viewer.store.plan.photoLimits]);
  });
});
