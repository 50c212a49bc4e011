/** The viewer's tools on a bare host: pointer, keys and figures change the plan, in steps of undo. */
import 'axe-core';
import type * as Axe from 'axe-core';
import { expect } from 'chai';
import { newPlan, type Plan } from '../../core/index.js';
import type { LimitsChangeEvent } from '../../components/shared/events/limits-change.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import { setWords } from '../../components/shared/strings.js';
import { ToolsHost } from './viewer-tools-host.js';

/** A photo of 600 x 400 pixels in three steps of grey with a clipped corner on either side. */
async function photo(): Promise<Blob> {
  const canvas = new OffscreenCanvas(600, 400);
  const context = canvas.getContext('2d')!;
  ['rgb(60 60 60)', 'rgb(130 130 130)', 'rgb(210 210 210)'].forEach((grey, i) => {
    context.fillStyle = grey;
    context.fillRect(200 * i, 0, 200, 400);
  });
  context.fillStyle = '#000';
  context.fillRect(0, 0, 100, 100);
  context.fillStyle = '#fff';
  context.fillRect(500, 300, 100, 100);
  return canvas.convertToBlob({ type: 'image/png' });
}

/** Loaded as a plain script, axe puts itself on the window. */
const { axe } = window as unknown as { axe: typeof Axe };

async function until(holds: () => unknown, what: string): Promise<void> {
  for (let i = 0; i < 400; i++) {
    if (holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

let source: Blob;

/** A host 600 pixels wide, so that a pixel of the photo is a pixel of the stage. */
async function hostWith(
  tool: string,
  partial: Partial<Plan> = {},
  picture = true,
): Promise<ToolsHost> {
  const frame = document.createElement('div');
  frame.className = 'frame';
  frame.style.inlineSize = '600px';
  const host = new ToolsHost();
  host.plan = new PlanStore(
    newPlan({ paper: { widthMm: 300, heightMm: 200, lightness: 95 }, ...partial }),
  );
  frame.append(host);
  document.body.append(frame);
  if (picture) {
    await host.store.open(source, { keepPlan: true });
    await until(() => host.store.picture.exact, 'the working copy');
  }
  host.takeUp(tool);
  await host.updateComplete;
  await host.updateComplete;
  return host;
}

const panel = (host: ToolsHost): HTMLElement => host.renderRoot.querySelector('.panel')!;
const textOf = (host: ToolsHost): string => panel(host).textContent!.replace(/\s+/g, ' ');

function button(host: ToolsHost, word: string): HTMLButtonElement {
  const found = [...panel(host).querySelectorAll('button')].find((each) =>
    each.textContent!.includes(word),
  );
  if (!found) throw new Error(`no button ${word} in ${textOf(host)}`);
  return found;
}

function field(host: ToolsHost, word: string): HTMLInputElement {
  const found = [...panel(host).querySelectorAll('label')].find((each) =>
    each.textContent!.includes(word),
  );
  if (!found) throw new Error(`no field ${word} in ${textOf(host)}`);
  return found.querySelector('input, select')!;
}

async function enter(
  host: ToolsHost,
  word: string,
  value: string,
  event = 'change',
): Promise<void> {
  const input = field(host, word);
  input.value = value;
  input.dispatchEvent(new Event(event, { bubbles: true }));
  await host.updateComplete;
}

async function press(
  host: ToolsHost,
  key: string,
  options: KeyboardEventInit = {},
  target: Element = host.stage,
): Promise<boolean> {
  const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...options });
  target.dispatchEvent(event);
  await host.updateComplete;
  return event.defaultPrevented;
}

/** Drags over the stage through places in pixels of the photo (and of the stage). */
async function drag(host: ToolsHost, ...places: [x: number, y: number][]): Promise<void> {
  const { left, top } = host.stage.getBoundingClientRect();
  const at = (type: string, [x, y]: [number, number]): void => {
    host.stage.dispatchEvent(
      new PointerEvent(type, {
        clientX: left + x,
        clientY: top + y,
        pointerId: 7,
        button: 0,
        bubbles: true,
        pointerType: 'mouse',
      }),
    );
  };
  at('pointerdown', places[0]);
  for (const place of places.slice(1)) at('pointermove', place);
  at('pointerup', places.at(-1)!);
  await host.updateComplete;
}

/** The crop in pixels of the photo. */
function part(host: ToolsHost): number[] | undefined {
  const { crop } = host.store.plan;
  return (
    crop &&
    [crop.x * 600, crop.y * 400, crop.width * 600, crop.height * 400].map(
      (figure) => Math.round(figure * 1000) / 1000,
    )
  );
}

/** Steps that undo takes back. */
function stepsOf(host: ToolsHost): number {
  let steps = 0;
  for (; host.store.canUndo; steps++) host.store.undo();
  for (let i = 0; i < steps; i++) host.store.redo();
  return steps;
}

describe('the viewer’s tools', () => {
  before(async () => {
    // English without a region: lengths in millimetres.
    document.documentElement.lang = 'en';
    source = await photo();
  });
  afterEach(() => document.querySelectorAll('.frame').forEach((frame) => frame.remove()));

  it('have words for everything they show, with and without a photo, and no faults that axe finds', async () => {
    for (const picture of [false, true]) {
      const host = await hostWith('crop', {}, picture);
      for (const { name } of host.tools) {
        host.takeUp(name);
        await host.updateComplete;
        if (name === 'report' && picture)
          await until(() => panel(host).querySelector('dl'), 'the report');
        expect(textOf(host), name).to.not.match(
          /\b(tool|photo|sheet|unit|lean|progress)\.[a-z]|[{}]|undefined|NaN/,
        );
        expect(textOf(host).length, name).to.be.greaterThan(60);
        expect(panel(host).querySelector('[style]'), name).to.equal(null);
        const { violations } = await axe.run(host, { rules: { region: { enabled: false } } });
        expect(
          violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`),
          name,
        ).to.eql([]);
      }
      host.remove();
    }
  });

  it('speak the page’s language when words are replaced', async () => {
    const host = await hostWith('crop');
    setWords({ 'tool.crop.whole': 'Das ganze Foto' });
    await host.updateComplete;
    expect(textOf(host)).to.include('Das ganze Foto');
    setWords({});
  });

  describe('crop', () => {
    const crop = { x: 0.25, y: 0.25, width: 0.5, height: 0.5 }; // 300 x 200 of 600 x 400 at (150, 100): the paper's 3 : 2

    it('is moved by a drag inside it, one step of undo', async () => {
      const host = await hostWith('crop', { crop });
      await drag(host, [300, 200], [310, 220], [340, 230]);
      expect(part(host)).to.eql([190, 130, 300, 200]);
      expect(stepsOf(host)).to.equal(1);
      host.store.undo();
      expect(part(host)).to.eql([150, 100, 300, 200]);
    });

    it('is resized by a corner in the paper’s proportion, the opposite corner staying', async () => {
      const host = await hostWith('crop', { crop });
      await drag(host, [450, 300], [480, 320], [510, 340]);
      expect(part(host)).to.eql([150, 100, 360, 240]);
    });

    it('leaves a drag outside it and another pointer alone', async () => {
      const host = await hostWith('crop', { crop });
      await drag(host, [20, 20], [100, 100]);
      expect(part(host)).to.eql([150, 100, 300, 200]);
      expect(stepsOf(host)).to.equal(0);
    });

    it('lets a drag be given up', async () => {
      const host = await hostWith('crop', { crop });
      const { left, top } = host.stage.getBoundingClientRect();
      const init = {
        clientX: left + 300,
        clientY: top + 200,
        pointerId: 7,
        button: 0,
        bubbles: true,
      };
      host.stage.dispatchEvent(new PointerEvent('pointerdown', init));
      host.stage.dispatchEvent(new PointerEvent('pointermove', { ...init, clientX: left + 350 }));
      expect(await press(host, 'Escape')).to.equal(true);
      host.stage.dispatchEvent(new PointerEvent('pointerup', init));
      expect(stepsOf(host)).to.equal(0);
      expect(await press(host, 'Escape')).to.equal(false);
    });

    it('is moved and resized by keys; a quick series is one step', async () => {
      const host = await hostWith('crop', { crop });
      // a step is half a percent of the longer side: 3 pixels; with Shift 5 %: 30
      await press(host, 'ArrowRight');
      await press(host, 'ArrowRight');
      expect(part(host)).to.eql([156, 100, 300, 200]);
      await press(host, 'ArrowUp', { shiftKey: true });
      expect(part(host)).to.eql([156, 70, 300, 200]);
      expect(stepsOf(host)).to.equal(1);
      await press(host, '+');
      expect(part(host)).to.eql([153, 68, 306, 204]);
      expect(stepsOf(host)).to.equal(2);
      expect(await press(host, 'ArrowRight', { ctrlKey: true })).to.equal(false);
      expect(host.said.at(-1)).to.equal(
        'The part is 306 by 204 pixels, 153 from the left and 68 from the top.',
      );
    });

    it('has corners that take the focus and the arrows', async () => {
      const host = await hostWith('crop', { crop });
      const corner = host.renderRoot.querySelector<SVGElement>('.tool-grip-se')!;
      corner.focus();
      expect((host.renderRoot as ShadowRoot).activeElement).to.equal(corner);
      expect(corner.getAttribute('aria-label')).to.equal('Lower right corner');
      await press(host, 'ArrowRight', { shiftKey: true }, corner);
      expect(part(host)).to.eql([150, 100, 330, 220]);
      expect(corner.getAttribute('aria-valuetext')).to.equal('330 by 220 pixels');
      await press(host, 'ArrowUp', { shiftKey: true }, corner);
      expect(part(host)).to.eql([150, 100, 285, 190]);
    });

    it('is set by figures, in pixels of the photo', async () => {
      const host = await hostWith('crop', { crop });
      await enter(host, 'From the left edge', '12');
      await enter(host, 'From the top edge', '34');
      expect(part(host)).to.eql([12, 34, 300, 200]);
      const widths = [...panel(host).querySelectorAll('fieldset')][1];
      const width = [...widths.querySelectorAll('label')]
        .find((each) => each.textContent!.includes('Width'))!
        .querySelector('input')!;
      width.value = '450';
      width.dispatchEvent(new Event('change', { bubbles: true }));
      await host.updateComplete;
      expect(part(host)).to.eql([12, 34, 450, 300]);
      width.value = '5000';
      width.dispatchEvent(new Event('change', { bubbles: true }));
      await host.updateComplete;
      expect(part(host)).to.eql([12, 34, 450, 300]);
      expect(width.value).to.equal('450');
      expect(host.said.at(-1)).to.equal('Enter a figure from 1 to 600.');
    });

    it('begins with the largest part when the whole photo was used, and goes back to it', async () => {
      const host = await hostWith('crop', {
        paper: { widthMm: 200, heightMm: 200, lightness: 95 },
      });
      expect(textOf(host)).to.include('The photo has not the proportion of the paper');
      button(host, 'Largest part').click();
      await host.updateComplete;
      expect(part(host)).to.eql([100, 0, 400, 400]);
      expect(textOf(host)).to.include('One millimetre of paper shows 2 pixels of the photo.');
      button(host, 'Whole photo').click();
      await host.updateComplete;
      expect(host.store.plan).to.not.have.property('crop');
      expect(stepsOf(host)).to.equal(2);
    });

    it('follows the paper: by sheet, by figures, turned; in one step each', async () => {
      const host = await hostWith('crop', { crop });
      button(host, 'Turn').click();
      await host.updateComplete;
      // 300 x 200 of 60000 square pixels becomes 200 x 300 about the same middle (300, 200)
      expect(part(host)).to.eql([200, 50, 200, 300]);
      expect(host.store.plan.paper).to.include({ widthMm: 200, heightMm: 300 });
      expect(stepsOf(host)).to.equal(1);
      const sheets = field(host, 'Sheet') as unknown as HTMLSelectElement;
      sheets.value = 'a4';
      sheets.dispatchEvent(new Event('change', { bubbles: true }));
      await host.updateComplete;
      expect(host.store.plan.paper).to.include({ widthMm: 210, heightMm: 297 });
      const [, , width, height] = part(host)!;
      expect(width / height).to.be.closeTo(210 / 297, 1e-5);
      expect(host.store.plan.paper.lightness).to.equal(95);
      button(host, 'Inches').click();
      await host.updateComplete;
      expect(field(host, 'Width').value).to.equal('8.27');
      await enter(host, 'Height', '11');
      expect(host.store.plan.paper.heightMm).to.be.closeTo(279.4, 1e-9);
      await enter(host, 'Height', '-3');
      expect(host.store.plan.paper.heightMm).to.be.closeTo(279.4, 1e-9);
      expect(panel(host).querySelector('[role="alert"]')!.textContent).to.include(
        'Enter a width and a height',
      );
    });
  });

  describe('sitter', () => {
    it('is drawn by the pointer, closed and simplified, and drawn anew', async () => {
      const host = await hostWith('sitter');
      const ring = (radius: number): [number, number][] =>
        Array.from({ length: 200 }, (_, i) => [
          300 + radius * Math.cos((2 * Math.PI * i) / 200),
          200 + radius * Math.sin((2 * Math.PI * i) / 200),
        ]);
      await drag(host, ...ring(100));
      const loop = host.store.plan.sitter!;
      expect(loop.length).to.be.within(8, 60);
      // a circle of radius 100 in 600 x 400: pi 10000 / 240000 = 13.1 %
      expect(textOf(host)).to.include('The loop holds 13 % of the photo.');
      await drag(host, ...ring(50));
      expect(host.said.at(-1)).to.equal('The loop now holds 3\u00a0% of the photo.');
      expect(stepsOf(host)).to.equal(2);
      button(host, 'Remove').click();
      await host.updateComplete;
      expect(host.store.plan).to.not.have.property('sitter');
    });

    it('says when a line is no loop, and keeps the old one', async () => {
      const host = await hostWith('sitter');
      await drag(host, [300, 200], [302, 203]);
      expect(host.store.plan.sitter).to.equal(undefined);
      expect(panel(host).querySelector('[role="alert"]')!.textContent).to.include(
        'Draw once around',
      );
    });

    it('is placed, moved, sized and removed by keys alone', async () => {
      const host = await hostWith('sitter');
      await press(host, 'Enter');
      const box = (): number[] => {
        const loop = host.store.plan.sitter!;
        const [xs, ys] = [loop.map(([x]) => x), loop.map(([, y]) => y)];
        const figures = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
        return figures.map((figure) => Math.round(figure * 1e4) / 1e4);
      };
      expect(box()).to.eql([0.25, 0.25, 0.75, 0.75]);
      await press(host, 'ArrowLeft', { shiftKey: true });
      await press(host, 'ArrowDown');
      expect(box()).to.eql([0.2, 0.26, 0.7, 0.76]);
      await press(host, '-');
      expect(box()[2] - box()[0]).to.be.closeTo(0.5 / 1.05, 1e-3);
      await enter(host, 'Width of the loop', '30', 'input');
      expect(box()[2] - box()[0]).to.be.closeTo(0.3, 1e-3);
      await press(host, 'Delete');
      expect(host.store.plan.sitter).to.equal(undefined);
    });

    it('changes what is counted', async () => {
      const host = await hostWith('sitter');
      const whole = host.store.picture.histogram!.reduce((sum, count) => sum + count, 0);
      expect(whole).to.equal(240000);
      await press(host, 'Enter');
      await until(
        () => host.store.picture.histogram!.reduce((sum, count) => sum + count, 0) < 100000,
        'the counts',
      );
    });
  });

  describe('distrusted spots', () => {
    it('are placed by a tap with the value seen there, sized by drawing out, moved by a drag', async () => {
      const host = await hostWith('distrusted');
      await drag(host, [300, 200]);
      const [spot] = host.store.plan.distrusted!;
      expect(spot.at[0]).to.be.closeTo(0.5, 1e-9);
      expect(spot.at[1]).to.be.closeTo(0.5, 1e-9);
      // sRGB 130 is L* 54.4 (IEC 61966-2-1, CIE L*), Munsell value 5.3 (ASTM D1535): 5.5 to the nearest half, L* 56.0
      expect(spot.lightness).to.be.closeTo(56, 0.5);
      await drag(host, [100, 300], [130, 340]);
      // drawn out by 50 pixels of the longer side 600
      expect(host.store.plan.distrusted![1].radius).to.be.closeTo(50 / 600, 1e-9);
      await drag(host, [300, 200], [310, 200], [360, 240]);
      expect(host.store.plan.distrusted![0].at[0]).to.be.closeTo(0.6, 1e-9);
      expect(host.store.plan.distrusted![0].at[1]).to.be.closeTo(0.6, 1e-9);
      expect(stepsOf(host)).to.equal(3);
      expect(
        [...host.renderRoot.querySelectorAll('.tool-number')].map(({ textContent }) => textContent),
      ).to.eql(['1', '2']);
    });

    it('take a value on the Munsell scale, a size and a note, and are removed', async () => {
      const host = await hostWith('distrusted');
      await drag(host, [550, 350]);
      await enter(host, 'Your value', '8');
      // ASTM D1535: value 8 is Y 57.62 % of the perfect diffuser, CIE L* 80.5 (hand-worked from the quintic of D1535-08)
      expect(host.store.plan.distrusted![0].lightness).to.be.closeTo(80.5, 0.2);
      await enter(host, 'Your value', '12');
      expect(host.store.plan.distrusted![0].lightness).to.be.closeTo(80.5, 0.2);
      await enter(host, 'Note', 'glare on the nose');
      await enter(host, 'Size', '20', 'input');
      expect(host.store.plan.distrusted![0]).to.include({ note: 'glare on the nose', radius: 0.1 });
      expect(textOf(host)).to.include('Mark 1: value 8, glare on the nose');
      await until(
        () => textOf(host).includes('The photo itself says value 10 there.'),
        'the measured value',
      );
      await until(
        () =>
          host.store.picture.plane!.data[350 * 600 + 550] ===
          Math.floor(2.55 * host.store.plan.distrusted![0].lightness + 0.5),
        'the plane to honour it',
      );
      button(host, 'Remove').click();
      await host.updateComplete;
      expect(host.store.plan).to.not.have.property('distrusted');
    });

    it('are placed, sized and removed by keys alone', async () => {
      const host = await hostWith('distrusted');
      await press(host, 'ArrowRight', { shiftKey: true });
      await press(host, 'ArrowDown');
      await press(host, 'Enter');
      const [spot] = host.store.plan.distrusted!;
      // 5 % and 0.5 % of the longer side (600) from the middle
      expect(spot.at[0]).to.be.closeTo((300 + 30) / 600, 1e-9);
      expect(spot.at[1]).to.be.closeTo((200 + 3) / 400, 1e-9);
      await press(host, '+');
      expect(host.store.plan.distrusted![0].radius).to.be.closeTo(spot.radius * 1.1, 1e-9);
      await press(host, 'Delete');
      expect(host.store.plan.distrusted).to.equal(undefined);
    });

    it('are sized by the wheel over the chosen mark', async () => {
      const host = await hostWith('distrusted');
      await drag(host, [300, 200]);
      const before = host.store.plan.distrusted![0].radius;
      const hold = host.renderRoot.querySelector('.tool-chosen .tool-hold')!;
      const wheel = new WheelEvent('wheel', { deltaY: -100, bubbles: true, cancelable: true });
      hold.dispatchEvent(wheel);
      expect(wheel.defaultPrevented).to.equal(true);
      expect(host.store.plan.distrusted![0].radius).to.be.closeTo(before * 1.1, 1e-9);
    });
  });

  describe('limits to choose from', () => {
    it('are small pictures with shares in words; choosing sets the limits', async () => {
      const host = await hostWith('proposals');
      const radios = [...panel(host).querySelectorAll<HTMLButtonElement>('[role="radio"]')];
      expect(radios.length).to.be.within(2, 4);
      expect(radios[0].textContent).to.match(
        /As the photo falls\s+dark \d+\s%\s*middle \d+\s%\s*light \d+\s%/,
      );
      for (const radio of radios) {
        const canvas = radio.querySelector('canvas')!;
        expect([canvas.width, canvas.height]).to.eql([160, 107]);
        const { data } = canvas.getContext('2d')!.getImageData(0, 0, 160, 107);
        const tones = new Set(new Uint32Array(data.buffer));
        expect(tones.size).to.be.within(2, 4);
      }
      const before = host.store.plan.photoLimits;
      const heard: LimitsChangeEvent[] = [];
      host.addEventListener('limits-change', (event) => heard.push(event));
      radios[1].click();
      radios[1].click();
      await host.updateComplete;
      expect(heard.map(({ limits, settled }) => [limits, settled])).to.eql([
        [host.store.plan.photoLimits, true],
      ]);
      expect(host.store.plan.photoLimits).to.not.eql(before);
      expect(radios[1].getAttribute('aria-checked')).to.equal('true');
      expect(radios.map(({ tabIndex }) => tabIndex).filter((index) => index === 0)).to.have.length(
        1,
      );
      expect(host.said.at(-1)).to.match(/^Limits set, .+: dark \d+\s%/);
      host.store.undo();
      expect(host.store.plan.photoLimits).to.eql(before);
    });

    it('are walked through by arrows, as they lie in either direction of writing', async () => {
      const host = await hostWith('proposals');
      const radios = [...panel(host).querySelectorAll<HTMLButtonElement>('[role="radio"]')];
      const focused = (): number =>
        radios.indexOf((host.renderRoot as ShadowRoot).activeElement as HTMLButtonElement);
      radios[0].focus();
      await press(host, 'ArrowRight', {}, radios[0]);
      expect(focused()).to.equal(1);
      expect(radios[1].getAttribute('aria-checked')).to.equal('true');
      await press(host, 'ArrowUp', {}, radios[1]);
      expect(focused()).to.equal(0);
      host.dir = 'rtl';
      await press(host, 'ArrowLeft', {}, radios[0]);
      expect(focused()).to.equal(1);
    });

    it('follow the number of bands and say key and contrast', async () => {
      const host = await hostWith('proposals', { photoLimits: [50] });
      expect(textOf(host)).to.match(
        /in a (low|middle|high) key with (close|moderate|strong) contrast/,
      );
      expect(textOf(host)).to.match(/dark \d+ % ?light \d+ %/);
      expect(textOf(host)).to.not.include('Mostly middles');
    });
  });

  describe('what the photo can tell', () => {
    it('is told as sentences for the brush and paper in hand, and again when they change', async () => {
      const host = await hostWith('report');
      await until(() => panel(host).querySelector('dl'), 'the report');
      // 100 x 100 of 600 x 400 pixels are black, as many white: 4.2 %
      expect(textOf(host)).to.include('The darks are clipped over 4.2 % of the picture');
      expect(textOf(host)).to.include('are burnt out over 4.2 % of the picture');
      // 15 mm of 300 mm is a twentieth of 600 pixels
      expect(textOf(host)).to.include('One stroke of this brush covers 30 pixels of the photo');
      await enter(host, 'Width of its pressed stroke', '1');
      expect(host.store.plan.brushes[0]).to.include({ pressedMm: 1, tipMm: 1 });
      await until(() => textOf(host).includes('covers only 2 pixels'), 'the new report');
      expect(panel(host).querySelectorAll('dd')).to.have.length(6);
      const which = field(host, 'Brush') as unknown as HTMLSelectElement;
      which.value = '1';
      which.dispatchEvent(new Event('change', { bubbles: true }));
      await until(() => textOf(host).includes('covers 20 pixels'), 'the report of another brush');
    });

    it('is taken inside the sitter’s loop', async () => {
      const sitter: [number, number][] = [
        [0.4, 0.3],
        [0.6, 0.3],
        [0.6, 0.7],
        [0.4, 0.7],
      ];
      const host = await hostWith('report', { sitter });
      await until(() => panel(host).querySelector('dl'), 'the report');
      expect(textOf(host)).to.include('Inside the sitter’s loop.');
      expect(textOf(host)).to.include('The darks hold');
    });

    it('can be given up and asked for again; a fault is told with the way on', async () => {
      const host = await hostWith('crop');
      const { store } = host;
      const run = store.run.bind(store);
      let signal: AbortSignal | undefined;
      store.run = ((
        _job: string,
        _rest: unknown,
        options: { signal: AbortSignal; onProgress(p: unknown): void },
      ) => {
        signal = options.signal;
        options.onProgress({ stage: 'report', done: 0.4 });
        return new Promise(() => undefined);
      }) as unknown as typeof store.run;
      host.takeUp('report');
      await host.updateComplete;
      expect(textOf(host)).to.include('Looking over the photo, 40 % done');
      button(host, 'Stop').click();
      await host.updateComplete;
      expect(signal!.aborted).to.equal(true);
      expect(textOf(host)).to.include('Stopped before');
      store.run = (() =>
        Promise.reject(Object.assign(new Error('gone'), { name: 'CoreLost' }))) as typeof store.run;
      button(host, 'Look again').click();
      await until(() => panel(host).querySelector('[role="alert"]'), 'the fault');
      expect(textOf(host)).to.include(
        'The calculation stopped unexpectedly. Your plan is kept; open the photo again.',
      );
      store.run = run;
      button(host, 'Look again').click();
      await until(() => panel(host).querySelector('dl'), 'the report');
    });

    it('helps itself when the plan has no brush', async () => {
      const host = await hostWith('report', { brushes: [] });
      expect(textOf(host)).to.include('Your plan has no brush yet');
      button(host, 'Add a brush').click();
      await host.updateComplete;
      expect(host.store.plan.brushes).to.eql([{ name: 'round', tipMm: 1, pressedMm: 10 }]);
    });
  });
});
