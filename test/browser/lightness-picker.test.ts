/** The hole card in a real browser, on a picture of known patches; their L* come from culori. */
import { expect } from 'chai';
import { resetMouse, sendKeys, sendMouse, setViewport } from '@web/test-runner-commands';
import type Axe from 'axe-core';
import 'axe-core';
import { converter } from 'culori';
import { LightnessPicker } from '../../components/lightness-picker/lightness-picker.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import type {
  KitErrorEvent,
  PictureChangeEvent,
  ReadingEvent,
  ReadingSendEvent,
} from '../../components/shared/events/index.js';
import { newPlan, parsePlan, serialisePlan } from '../../core/index.js';

LightnessPicker.define();

/** As a plain script axe puts itself on the page. */
const { axe } = globalThis as unknown as { axe: typeof Axe };

const toLab = converter('lab65');
const lightnessBy = (css: string): number => toLab(css)!.l;

/** Four patches across, two down. */
const PATCHES = [
  ['#000000', '#555555', '#999999', '#ffffff'],
  ['#c0281e', '#2a4b9b', '#e8c93a', '#4f7a3a'],
];
const WIDTH = 400;
const HEIGHT = 200;

async function patches(scale = 1): Promise<Blob> {
  const canvas = new OffscreenCanvas(WIDTH * scale, HEIGHT * scale);
  const context = canvas.getContext('2d')!;
  PATCHES.forEach((row, y) =>
    row.forEach((css, x) => {
      context.fillStyle = css;
      context.fillRect(x * 100 * scale, y * 100 * scale, 100 * scale, 100 * scale);
    }),
  );
  return canvas.convertToBlob({ type: 'image/png' });
}

/** The middle of a patch, in fractions of the picture. */
const middle = (x: number, y: number): [number, number] => [(x + 0.5) / 4, (y + 0.5) / 2];

const happened = <T extends Event>(target: EventTarget, type: string): Promise<T> =>
  new Promise((resolve) =>
    target.addEventListener(type, (event) => resolve(event as T), { once: true }),
  );

const frames = async (count = 2): Promise<void> => {
  for (let i = 0; i < count; i++) await new Promise((resolve) => requestAnimationFrame(resolve));
};

function place(html: string): HTMLElement {
  const host = document.createElement('main');
  host.innerHTML = html;
  document.body.append(host);
  return host;
}

/** A picker that shows the patches. */
async function ready(
  html = '<lightness-picker></lightness-picker>',
  store?: PlanStore,
): Promise<LightnessPicker> {
  const picker = place(html).querySelector('lightness-picker')!;
  if (store) picker.plan = store;
  const shown = happened(picker, 'ready');
  picker.picture = await patches();
  await shown;
  await picker.read();
  await picker.updateComplete;
  await frames();
  return picker;
}

const inside = <T extends HTMLElement = HTMLElement>(
  picker: LightnessPicker,
  selector: string,
): T => picker.shadowRoot!.querySelector<T>(selector)!;
const bandShown = (picker: LightnessPicker): string => inside(picker, '.band').textContent!.trim();
const valueShown = (picker: LightnessPicker): string =>
  inside(picker, '.value').textContent!.trim();

async function readAt(picker: LightnessPicker, x: number, y: number) {
  picker.moveTo(middle(x, y));
  const reading = await picker.read();
  await picker.updateComplete;
  return reading!;
}

async function pressWithShift(key: string): Promise<void> {
  await sendKeys({ down: 'Shift' });
  await sendKeys({ press: key });
  await sendKeys({ up: 'Shift' });
}

/** Where a place of the picture is on the screen. */
function onScreen(picker: LightnessPicker, [x, y]: [number, number]): [number, number] {
  const box = inside(picker, '.stage').getBoundingClientRect();
  return [Math.round(box.left + x * box.width), Math.round(box.top + y * box.height)];
}

/** Events of the picker, in order. */
function recorded(picker: LightnessPicker): string[] {
  const types: string[] = [];
  for (const type of ['input', 'change', 'reading', 'reading-send'])
    picker.addEventListener(type, () => types.push(type));
  return types;
}

describe('lightness-picker', () => {
  before(() => setViewport({ width: 1000, height: 800 }));
  afterEach(async () => {
    await resetMouse();
    document.querySelectorAll('main').forEach((host) => host.remove());
  });

  describe('reading', () => {
    it('gives each patch its lightness and its colour', async () => {
      const picker = await ready();
      for (const [y, row] of PATCHES.entries()) {
        for (const [x, css] of row.entries()) {
          const reading = await readAt(picker, x, y);
          expect(reading.lightness, css).to.be.closeTo(lightnessBy(css), 1e-3);
          expect(reading.css).to.equal(css);
        }
      }
    });

    it('shows the Munsell value with one decimal, and the band in words', async () => {
      const picker = await ready();
      await readAt(picker, 3, 0);
      expect(valueShown(picker)).to.equal('10.0');
      await readAt(picker, 0, 0);
      expect(valueShown(picker)).to.equal('0.0');
      expect(bandShown(picker)).to.equal('dark');
      // L* of #555555 is 36.15; ASTM D1535 has value 3.5 at 35.55 and 4 at 40.74: 3.56
      await readAt(picker, 1, 0);
      expect(lightnessBy('#555555')).to.be.closeTo(36.15, 0.01);
      expect(valueShown(picker)).to.equal('3.6');
    });

    it('follows the limits of the plan', async () => {
      const store = new PlanStore(newPlan({ photoLimits: [40, 80] }));
      const picker = await ready(undefined, store);
      await readAt(picker, 2, 0);
      expect(bandShown(picker)).to.equal('middle');
      store.fixLimits([10, 20], 30);
      await picker.updateComplete;
      expect(bandShown(picker)).to.equal('bare paper');
      expect(inside<HTMLButtonElement>(picker, 'button.send').disabled).to.equal(true);
    });

    it('says when a strong colour may be taken for lighter, and tells its lean on demand', async () => {
      const picker = await ready();
      await readAt(picker, 0, 1);
      expect(inside(picker, '.remarks').textContent).to.contain('red');
      expect(inside<HTMLDetailsElement>(picker, 'details').open).to.equal(false);
      picker.details = true;
      await picker.updateComplete;
      const facts = inside(picker, 'dl').textContent!;
      expect(facts).to.contain('strongly red').and.to.contain('even').and.to.contain('#c0281e');
      await readAt(picker, 1, 0);
      expect(inside(picker, '.remarks')).to.equal(null);
    });

    it('says when the hole lies over lights and darks, and when a light is burnt out', async () => {
      const picker = await ready();
      picker.moveTo([0.75, 0.25]); // the border of #999999 and #ffffff
      await picker.read();
      await picker.updateComplete;
      expect(inside(picker, '.remarks').textContent).to.contain('mean').and.to.contain('burnt out');
    });

    it('lets the painter’s own value stand on a distrusted spot, with the note', async () => {
      const store = new PlanStore();
      const picker = await ready(undefined, store);
      store.change('distrust', (plan) => ({
        ...plan,
        distrusted: [{ id: 'a', at: middle(1, 0), radius: 0.1, lightness: 70, note: 'glare' }],
      }));
      const reading = await readAt(picker, 1, 0);
      expect(reading.lightness).to.equal(70);
      expect(reading.distrusted).to.include({ id: 'a', note: 'glare' });
      expect(reading.distrusted!.measured).to.be.closeTo(lightnessBy('#555555'), 1e-3);
      expect(inside(picker, '.remarks').textContent).to.contain('glare');
      expect((await readAt(picker, 2, 0)).distrusted).to.equal(undefined);
    });

    it('reads inside the painted part, with the hole’s size on the paper', async () => {
      const store = new PlanStore();
      const picker = await ready(undefined, store);
      picker.hole = 38.1; // a tenth of the paper's 381 mm: 40 of 400 px
      await picker.updateComplete;
      const whole = await readAt(picker, 1, 0);
      expect(whole.count).to.be.closeTo(Math.PI * 20 * 20, 30);
      store.change('crop', (plan) => ({ ...plan, crop: { x: 0.25, y: 0, width: 0.5, height: 1 } }));
      const part = await readAt(picker, 1, 0);
      expect(part.count).to.be.closeTo(Math.PI * 10 * 10, 15); // half the photo fills the paper
      picker.moveTo([0, 0.25]);
      expect(picker.at).to.eql([0.25, 0.25]);
    });
  });

  describe('moving the hole', () => {
    it('goes where the mouse is pressed, follows the drag, and takes the reading at its end', async () => {
      const picker = await ready();
      await readAt(picker, 0, 0);
      const events = recorded(picker);
      const taken = happened<ReadingEvent>(picker, 'reading');
      await sendMouse({ type: 'move', position: onScreen(picker, middle(2, 0)) });
      await sendMouse({ type: 'down' });
      await sendMouse({ type: 'move', position: onScreen(picker, [0.6, 0.6]) });
      expect(events).not.to.include('change');
      await sendMouse({ type: 'move', position: onScreen(picker, middle(2, 1)) });
      await sendMouse({ type: 'up' });
      const { reading, at, band, value } = await taken;
      expect(reading.css).to.equal('#e8c93a');
      expect(at[0]).to.be.closeTo(middle(2, 1)[0], 0.01);
      expect(at[1]).to.be.closeTo(middle(2, 1)[1], 0.01);
      expect(band).to.equal(
        picker.store.plan.photoLimits.filter((limit) => reading.lightness >= limit).length,
      );
      expect(value.toFixed(1)).to.equal(valueShown(picker));
      expect(events.at(-2)).to.equal('change');
      expect(events[0]).to.equal('input');
      expect(picker.value).to.equal('#e8c93a');
    });

    it('drags the card without a jump when the card itself is taken', async () => {
      const picker = await ready();
      await readAt(picker, 1, 0);
      const [x, y] = onScreen(picker, middle(1, 0));
      await sendMouse({ type: 'move', position: [x + 40, y + 40] });
      await sendMouse({ type: 'down' });
      await sendMouse({ type: 'move', position: [x + 140, y + 40] });
      await sendMouse({ type: 'up' });
      await picker.read();
      const [nx, ny] = onScreen(picker, picker.at);
      expect(nx).to.be.closeTo(x + 100, 1.5);
      expect(ny).to.be.closeTo(y, 1.5);
    });

    it('moves by keys: arrows, with Shift in larger steps, and [ ] for its size', async () => {
      const picker = await ready();
      await readAt(picker, 1, 0);
      picker.focus();
      expect(picker.shadowRoot!.activeElement).to.equal(inside(picker, '.hole'));
      const [x, y] = picker.at;
      await sendKeys({ press: 'ArrowRight' });
      expect(picker.at[0]).to.be.closeTo(x + 1 / 200, 1e-9);
      await pressWithShift('ArrowDown');
      expect(picker.at[1]).to.be.closeTo(y + (10 * 2) / 200, 1e-9); // twice as wide as high
      await sendKeys({ press: ']' });
      expect(picker.hole).to.equal(15);
      await sendKeys({ press: '[' });
      await sendKeys({ press: '[' });
      expect(picker.hole).to.equal(10);
      for (let i = 0; i < 8; i++) await pressWithShift('ArrowDown');
      for (let i = 0; i < 8; i++) await pressWithShift('ArrowUp');
      expect(picker.at[1]).to.be.closeTo(0.2, 1e-9); // stopped at the lower edge, then eight steps of 0.1 up
      const reading = await picker.read();
      expect(reading!.css).to.equal('#555555');
      expect(picker.value).to.equal('#555555');
    });

    it('tells place and reading to screen readers', async () => {
      const picker = await ready();
      await readAt(picker, 0, 1);
      const hole = inside(picker, '.hole');
      expect(hole.getAttribute('role')).to.equal('slider');
      expect(hole.getAttribute('aria-valuenow')).to.equal('13');
      expect(hole.getAttribute('aria-valuetext')).to.match(
        /13 % across, 75 % down: value \d\.\d, \w+, strongly red/,
      );
    });

    it('enlarges the hole beside a finger that covers it', async () => {
      const picker = await ready();
      await readAt(picker, 0, 0);
      const stage = inside(picker, '.stage');
      stage.setPointerCapture = () => undefined; // no real finger is there to be captured
      const touch = (type: string, target: Element, [clientX, clientY]: [number, number]) =>
        target.dispatchEvent(
          new PointerEvent(type, {
            pointerId: 7,
            pointerType: 'touch',
            button: 0,
            clientX,
            clientY,
            bubbles: true,
            composed: true,
          }),
        );
      touch('pointerdown', inside(picker, '.hole'), onScreen(picker, middle(0, 0)));
      await picker.updateComplete;
      expect(inside(picker, '.loupe').classList.contains('right')).to.equal(true);
      touch('pointermove', stage, onScreen(picker, middle(3, 1)));
      await picker.updateComplete;
      expect(inside(picker, '.loupe').classList.contains('left')).to.equal(true);
      const taken = happened<ReadingEvent>(picker, 'reading');
      touch('pointerup', stage, onScreen(picker, middle(3, 1)));
      expect((await taken).reading.css).to.equal('#4f7a3a');
      await picker.updateComplete;
      expect(inside(picker, '.loupe')).to.equal(null);
    });

    it('goes where a finger taps, but lets a swipe beside the card scroll the page', async () => {
      const picker = await ready();
      await readAt(picker, 0, 0);
      const stage = inside(picker, '.stage');
      const touch = (type: string, [clientX, clientY]: [number, number]) =>
        stage.dispatchEvent(
          new PointerEvent(type, {
            pointerId: 7,
            pointerType: 'touch',
            button: 0,
            clientX,
            clientY,
            bubbles: true,
            composed: true,
          }),
        );
      touch('pointerdown', onScreen(picker, middle(3, 1)));
      touch('pointercancel', onScreen(picker, middle(3, 0)));
      expect(picker.at).to.eql(middle(0, 0));
      touch('pointerdown', onScreen(picker, middle(3, 1)));
      touch('pointerup', onScreen(picker, middle(3, 1)));
      expect(picker.at[0]).to.be.closeTo(middle(3, 1)[0], 0.01);
      await picker.read();
      expect(picker.value).to.equal('#4f7a3a');
    });

    it('makes no event of what a script does', async () => {
      const picker = await ready();
      const events = recorded(picker);
      await readAt(picker, 2, 1);
      picker.value = 'rebeccapurple';
      expect(events).to.eql([]);
      expect(picker.valueAsLightness).to.be.closeTo(lightnessBy('rebeccapurple'), 1e-3);
      picker.value = 'no colour';
      expect(picker.value).to.equal('');
      expect(picker.valueAsLightness).to.satisfy(Number.isNaN);
    });

    it('shows the card in its greys and the whole picture with the card turned away', async () => {
      const picker = await ready();
      await readAt(picker, 1, 0);
      const cornerOf = (): number[] => {
        const canvas = inside<HTMLCanvasElement>(picker, '.card > canvas');
        return [...canvas.getContext('2d')!.getImageData(6, 6, 1, 1).data];
      };
      const middleAlpha = (): number => {
        const canvas = inside<HTMLCanvasElement>(picker, '.card > canvas');
        return canvas.getContext('2d')!.getImageData(canvas.width / 2, canvas.height / 2, 1, 1)
          .data[3];
      };
      expect(cornerOf()).to.eql([0x77, 0x77, 0x77, 255]); // sRGB grey 119 is L* 50
      expect(middleAlpha()).to.equal(0);
      picker.card = 'same';
      await picker.updateComplete;
      expect(cornerOf()).to.eql([0x55, 0x55, 0x55, 255]);
      picker.card = 'away';
      await picker.updateComplete;
      expect(cornerOf()[3]).to.equal(0);
      const { width, height } = inside(picker, '.card').getBoundingClientRect();
      expect(width).to.be.greaterThan(100);
      expect(height).to.equal(width);
      // The rim alone is left: what a pointer finds beside it is the picture.
      const [x, y] = onScreen(picker, picker.at);
      expect(picker.shadowRoot!.elementFromPoint(x + 30, y + 30)!.className).to.equal('photo');
      expect(picker.shadowRoot!.elementFromPoint(x, y)!.className).to.equal('hole');
    });
  });

  describe('readings', () => {
    it('are kept in the plan with notes, gone back to, deleted, and undone', async () => {
      const picker = await ready();
      const { store } = picker;
      await readAt(picker, 1, 1);
      inside(picker, 'button.keep').click();
      await readAt(picker, 2, 0);
      picker.keep();
      await picker.updateComplete;
      expect(store.plan.readings!.map(({ css }) => css)).to.eql(['#2a4b9b', '#999999']);
      expect(store.plan.readings![0].lightness).to.be.closeTo(lightnessBy('#2a4b9b'), 1e-3);
      const note = inside<HTMLInputElement>(picker, '.reading .note');
      note.value = 'jug';
      note.dispatchEvent(new Event('change'));
      expect(store.plan.readings![0].note).to.equal('jug');
      expect(parsePlan(serialisePlan(store.plan)).readings).to.eql(store.plan.readings);
      const [goTo, , remove] =
        picker.shadowRoot!.querySelectorAll<HTMLButtonElement>('.reading .acts button');
      goTo.click();
      expect((await picker.read())!.css).to.equal('#2a4b9b');
      remove.click();
      expect(store.plan.readings!).to.have.length(1);
      store.undo();
      expect(store.plan.readings!).to.have.length(2);
    });

    it('go to the board, to the bucket of their band', async () => {
      // Paint that reaches black and white shows the photo as it is.
      const paper = { widthMm: 381, heightMm: 279.4, lightness: 100 };
      const range = { low: 0, high: 100, holding: 0, darkest: 0 };
      const plan = newPlan({ photoLimits: [40, 80], paper, range });
      const picker = await ready(undefined, new PlanStore(plan));
      await readAt(picker, 2, 0);
      const sent = happened<ReadingSendEvent>(picker, 'reading-send');
      inside(picker, 'button.send').click();
      const { swatch } = await sent;
      expect(swatch).to.include({ bucket: 1, css: '#999999', from: 'reading' });
      expect(swatch.lightness).to.be.closeTo(lightnessBy('#999999'), 1e-3);
      await readAt(picker, 0, 0);
      picker.sendToBoard();
      const { swatches } = picker.store.plan.board;
      expect(swatches.map(({ bucket }) => bucket)).to.eql([1, 0]);
      expect(new Set(swatches.map(({ id }) => id)).size).to.equal(2);
    });
  });

  describe('guess first', () => {
    it('hides the value until one is stated, then shows both', async () => {
      const picker = await ready('<lightness-picker guess details></lightness-picker>');
      picker.moveTo(middle(2, 1));
      await picker.read();
      await picker.updateComplete;
      expect(picker.reading).to.equal(undefined);
      expect(picker.keep()).to.equal(undefined);
      expect(picker.shadowRoot!.textContent).not.to.contain('#e8c93a');
      expect(inside(picker, '.hole').getAttribute('aria-valuetext')).not.to.contain('value 8');
      const events = recorded(picker);
      picker.shadowRoot!.querySelectorAll<HTMLButtonElement>('button.dab')[6].click();
      await picker.updateComplete;
      expect(valueShown(picker)).to.equal('6.0');
      inside(picker, 'button.state').click();
      await picker.updateComplete;
      expect(events).to.eql(['change', 'reading']);
      expect(picker.value).to.equal('#e8c93a');
      // L* of #e8c93a is 81.3; ASTM D1535 puts it at value 8.1: 2.1 darker than it is
      expect(lightnessBy('#e8c93a')).to.be.closeTo(81.3, 0.3);
      expect(valueShown(picker)).to.equal('8.1');
      expect(picker.shadowRoot!.textContent).to.contain('you took it 2.1 too dark');
      picker.moveTo(middle(0, 0));
      await picker.updateComplete;
      expect(picker.reading).to.equal(undefined);
    });

    it('does not give the value away by the card of the same value', async () => {
      const picker = await ready('<lightness-picker guess card="same"></lightness-picker>');
      await readAt(picker, 1, 0);
      const canvas = inside<HTMLCanvasElement>(picker, '.card > canvas');
      expect([...canvas.getContext('2d')!.getImageData(6, 6, 1, 1).data]).to.eql([
        0x77, 0x77, 0x77, 255,
      ]);
    });

    it('shows the errors by hue and keeps them with the plan', async () => {
      const picker = await ready('<lightness-picker guess></lightness-picker>');
      for (const dab of [6, 7, 8]) {
        await readAt(picker, 0, 1);
        picker.shadowRoot!.querySelectorAll<HTMLButtonElement>('button.dab')[dab].click();
        await picker.updateComplete;
        inside(picker, 'button.state').click();
        await picker.updateComplete;
      }
      picker.keep();
      await picker.updateComplete;
      // L* of #c0281e is 41.9, value 4.1: the guesses 6, 7 and 8 lie 2.9 above on average
      expect(lightnessBy('#c0281e')).to.be.closeTo(41.9, 0.6);
      expect(inside(picker, '.training p').textContent).to.match(
        /^Reds: you take them 2\.[89] too light \(3 guesses\)/,
      );
      const cells = [...picker.shadowRoot!.querySelectorAll('.training tbody tr > *')].map((cell) =>
        cell.textContent!.trim(),
      );
      expect(cells[0]).to.equal('Reds');
      expect(cells[2]).to.equal('3');
      expect(picker.store.plan.readings![0].guess).to.be.closeTo(80, 1.5); // ASTM D1535: value 8 is L* 80.5
    });
  });

  describe('by keyboard alone', () => {
    it('goes from the hole to the guess, states it, and comes back', async () => {
      const picker = await ready('<lightness-picker guess></lightness-picker>');
      await readAt(picker, 2, 0);
      picker.focus();
      await sendKeys({ press: 'Enter' });
      expect(picker.shadowRoot!.activeElement).to.equal(inside(picker, '.ladder input'));
      await sendKeys({ press: 'ArrowRight' }); // from 5 by half a step
      const taken = happened<ReadingEvent>(picker, 'reading');
      await sendKeys({ press: 'Enter' });
      expect((await taken).guess).to.equal(5.5);
      expect(picker.shadowRoot!.activeElement).to.equal(inside(picker, '.hole'));
      await sendKeys({ press: 'ArrowRight' });
      expect(picker.reading).to.equal(undefined);
    });

    it('keeps the focus in the list when a reading is deleted', async () => {
      const picker = await ready();
      for (const x of [0, 1]) {
        await readAt(picker, x, 0);
        picker.keep();
      }
      await picker.updateComplete;
      inside(picker, '.reading .acts button:last-child').focus();
      await sendKeys({ press: 'Enter' });
      await frames();
      expect(picker.store.plan.readings!.map(({ css }) => css)).to.eql(['#555555']);
      expect(picker.shadowRoot!.activeElement).to.equal(
        inside(picker, '.reading .acts button:last-child'),
      );
      await sendKeys({ press: 'Enter' });
      await frames();
      expect(picker.store.plan.readings).to.equal(undefined);
      expect(picker.shadowRoot!.activeElement).to.equal(inside(picker, '.hole'));
    });
  });

  describe('in a form', () => {
    it('gives its colour, misses it when required, and goes back on reset', async () => {
      const picker = await ready(
        '<form><lightness-picker name="spot" required></lightness-picker></form>',
      );
      const form = picker.form!;
      expect(new FormData(form).get('spot')).to.equal(null);
      expect(form.checkValidity()).to.equal(false);
      expect(picker.validity.valueMissing).to.equal(true);
      expect(picker.validationMessage).to.contain('Take a reading');
      picker.focus();
      await sendKeys({ press: 'Enter' });
      await picker.read();
      expect(picker.value).to.match(/^#[0-9a-f]{6}$/);
      expect(new FormData(form).get('spot')).to.equal(picker.value);
      expect(form.checkValidity()).to.equal(true);
      form.reset();
      expect(picker.value).to.equal('');
      expect(picker.validity.valueMissing).to.equal(true);
    });

    it('starts from its attribute and goes back to it', async () => {
      const picker = place(
        '<form><lightness-picker name="spot" value="#336699"></lightness-picker></form>',
      ).querySelector('lightness-picker')!;
      await picker.updateComplete;
      expect(new FormData(picker.form!).get('spot')).to.equal('#336699');
      picker.value = 'tomato';
      expect(new FormData(picker.form!).get('spot')).to.equal('tomato');
      picker.form!.reset();
      expect(picker.value).to.equal('#336699');
      picker.formStateRestoreCallback('gold');
      expect(picker.value).to.equal('gold');
      picker.setCustomValidity('another one');
      expect(picker.checkValidity()).to.equal(false);
      expect(picker.validationMessage).to.equal('another one');
    });

    it('stands still in a disabled fieldset', async () => {
      const picker = await ready(
        '<form><fieldset disabled><lightness-picker name="spot" value="#336699"></lightness-picker></fieldset></form>',
      );
      const { at } = picker;
      expect(inside(picker, '.hole').tabIndex).to.equal(-1);
      expect(new FormData(picker.form!).get('spot')).to.equal(null);
      await sendMouse({ type: 'click', position: onScreen(picker, middle(0, 0)) });
      expect(picker.at).to.eql(at);
      expect(
        [...picker.shadowRoot!.querySelectorAll<HTMLButtonElement>('.panel button')].every(
          ({ disabled }) => disabled,
        ),
      ).to.equal(true);
      picker.closest('fieldset')!.disabled = false;
      await picker.updateComplete;
      await sendMouse({ type: 'click', position: onScreen(picker, middle(0, 0)) });
      await picker.read();
      expect(picker.value).to.equal('#000000');
    });

    it('is focused by its label', async () => {
      const picker = await ready(
        '<label>Spot <lightness-picker name="spot"></lightness-picker></label>',
      );
      picker.closest('label')!.click();
      expect(picker.shadowRoot!.activeElement).to.equal(inside(picker, '.hole'));
    });

    it('keeps what its inner controls tell to itself', async () => {
      const picker = await ready();
      const events = recorded(picker);
      const box = inside<HTMLInputElement>(picker, '.check input');
      box.click();
      await picker.updateComplete;
      expect(picker.guess).to.equal(true);
      inside<HTMLInputElement>(picker, '.ladder input').dispatchEvent(
        new Event('input', { bubbles: true, composed: true }),
      );
      expect(events).to.eql([]);
    });
  });

  describe('pictures', () => {
    it('come from the plan it is tied to', async () => {
      const store = new PlanStore();
      const picker = place('<lightness-picker></lightness-picker>').querySelector(
        'lightness-picker',
      )!;
      picker.plan = store;
      const shown = happened(picker, 'ready');
      await store.open(await patches());
      await shown;
      expect((await readAt(picker, 3, 1)).css).to.equal('#4f7a3a');
    });

    it('come from the image between its tags, which is shown until then', async () => {
      const url = URL.createObjectURL(await patches());
      const picker = place(
        `<lightness-picker><img src="${url}" alt="Eight patches" /></lightness-picker>`,
      ).querySelector('lightness-picker')!;
      await happened(picker, 'ready');
      await picker.updateComplete;
      expect(picker.querySelector('img')!.checkVisibility()).to.equal(false);
      expect(inside(picker, '.photo').getAttribute('aria-label')).to.equal('Eight patches');
      URL.revokeObjectURL(url);
    });

    it('wait until the element is near the viewport', async () => {
      const url = URL.createObjectURL(await patches());
      const host = place(
        `<div class="far"></div><lightness-picker src="${url}"></lightness-picker>`,
      );
      host.querySelector<HTMLElement>('.far')!.style.height = '4000px';
      const picker = host.querySelector('lightness-picker')!;
      await new Promise((resolve) => setTimeout(resolve, 300));
      expect(picker.store.picture.status).to.equal('empty');
      const shown = happened(picker, 'ready');
      picker.scrollIntoView();
      await shown;
      window.scrollTo(0, 0);
      URL.revokeObjectURL(url);
    });

    it('that are broken are told in a sentence and an event; plan and picture stay', async () => {
      const picker = await ready();
      await readAt(picker, 1, 1);
      picker.keep();
      const { plan } = picker.store;
      const failed = happened<KitErrorEvent>(picker, 'error');
      picker.picture = new Blob([new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3])], {
        type: 'image/jpeg',
      });
      const { message, reason } = await failed;
      expect(reason.code).to.equal('PictureUnreadable');
      await picker.updateComplete;
      expect(inside(picker, '.trouble').textContent).to.contain(message);
      expect(picker.store.plan).to.equal(plan);
      expect((await readAt(picker, 3, 1)).css).to.equal('#4f7a3a');
    });

    it('can be dropped, which a person does, so it is told', async () => {
      const picker = await ready();
      const data = new DataTransfer();
      data.items.add(new File([await patches(2)], 'table.png', { type: 'image/png' }));
      const changed = happened<PictureChangeEvent>(picker, 'picture-change');
      picker.dispatchEvent(
        new DragEvent('drop', {
          dataTransfer: data,
          bubbles: true,
          cancelable: true,
          composed: true,
        }),
      );
      expect((await changed).name).to.equal('table.png');
      expect(picker.store.picture.handle!.width).to.equal(2 * WIDTH);
      expect((await readAt(picker, 1, 1)).css).to.equal('#2a4b9b');
    });

    it('that replace one another leave no fault behind', async () => {
      const picker = await ready();
      let faults = 0;
      picker.addEventListener('error', () => faults++);
      for (const scale of [2, 1, 3]) {
        picker.moveTo(middle(2, 1)); // a reading of the old picture is under way
        await frames(1);
        const shown = happened(picker, 'ready');
        picker.picture = await patches(scale);
        await shown;
      }
      expect((await readAt(picker, 1, 1)).css).to.equal('#2a4b9b');
      expect(faults).to.equal(0);
    });

    it('that are missing are told too', async () => {
      const picker = place(
        '<lightness-picker src="/no-such-picture.png"></lightness-picker>',
      ).querySelector('lightness-picker')!;
      const { reason } = await happened<KitErrorEvent>(picker, 'error');
      expect(reason.code).to.equal('PictureMissing');
    });
  });

  describe('for everybody', () => {
    const faults = async (): Promise<string[]> => {
      const { violations } = await axe.run(document.querySelector('main')!, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      });
      return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
    };

    it('has no faults that axe finds: empty, reading, guessing', async () => {
      const empty = place('<h2>A page</h2><lightness-picker></lightness-picker>').querySelector(
        'lightness-picker',
      )!;
      await empty.updateComplete;
      expect(await faults()).to.eql([]);
      empty.closest('main')!.remove();
      const picker = await ready('<h2>A page</h2><lightness-picker details></lightness-picker>');
      await readAt(picker, 0, 1);
      picker.keep();
      await picker.updateComplete;
      expect(await faults()).to.eql([]);
      picker.guess = true;
      await picker.updateComplete;
      expect(await faults()).to.eql([]);
      inside(picker, 'button.state').click();
      await picker.updateComplete;
      expect(await faults()).to.eql([]);
    });

    it('fits a phone 360 px wide', async () => {
      await setViewport({ width: 360, height: 740 });
      const picker = await ready();
      await readAt(picker, 0, 1);
      picker.keep();
      await picker.updateComplete;
      await frames();
      expect(document.documentElement.scrollWidth).to.be.at.most(360);
      await setViewport({ width: 1000, height: 800 });
    });
  });
});
