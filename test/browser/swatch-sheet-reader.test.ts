/** The sheet reader: a photographed sheet of known lightness read, put right, sent, paired wet and dry, fitted, remembered. */
import { expect } from 'chai';
import { sendKeys, sendMouse, resetMouse, setViewport } from '@web/test-runner-commands';
import type { DabForgetEvent } from '../../components/shared/events/dab-forget.js';
import type { KitErrorEvent } from '../../components/shared/events/kit-error.js';
import type { SheetChangeEvent } from '../../components/shared/events/sheet-change.js';
import type { SheetSendEvent } from '../../components/shared/events/sheet-send.js';
import {
  CARD_CODES,
  dryingPairs,
  HABIT_CODES,
  mixOnPaper,
  newPlan,
  parsePlan,
  serialisePlan,
  SHEET_CODES,
  SHEET_LIMITS,
  type Dab,
} from '../../components/shared/core.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import { ENGLISH } from '../../components/shared/words/index.js';
import { button, clear, faultsOf, inside, place, until } from './access-helpers.js';
import { pasteOf } from './picture-files-host.js';
import {
  after,
  choose,
  onPicture,
  opened,
  pick,
  read,
  reader,
  settled,
  sheetPhoto,
  spotOf,
  text,
  type,
  values,
} from './swatch-sheet-reader-helpers.js';

/** What a sheet is read to when its corners are found, L*. */
const FOUND = 1.2;
const THREE = [
  [22, 28, 33],
  [50, 55, 60],
  [76, 82, 88],
];
const all = (columns: number[][]): number[] => columns.flat();

function near(read: number[][], meant: number[][], within = FOUND): void {
  expect(read.map((column) => column.length)).to.eql(meant.map((column) => column.length));
  read.forEach((column, i) =>
    column.forEach((lightness, j) =>
      expect(Math.abs(lightness - meant[i][j]), `column ${i}, dab ${j}`).to.be.below(within),
    ),
  );
}

describe('swatch-sheet-reader', () => {
  before(async () => {
    await setViewport({ width: 1100, height: 900 });
    document.documentElement.lang = 'en';
  });
  afterEach(async () => {
    clear();
    await resetMouse();
  });

  it('teaches how to paint and photograph a sheet while there is no photo', async () => {
    const element = await settled(reader('', '<p>Sheets are read here.</p>'));
    expect(text(element, '[part=empty]')).to.match(/bare paper.*window.*No flash.*whole sheet/s);
    expect(element.querySelector('p')!.checkVisibility()).to.equal(false);
    expect(button(element, 'Paste')).to.be.instanceOf(HTMLButtonElement);
    expect(await faultsOf(element)).to.eql([]);
  });

  it('shows its content while the photo that the page gives is on its way', async () => {
    const element = reader('', '<p>Sheets are read here.</p>');
    element.sheet.core = () => new Promise(() => undefined);
    element.picture = sheetPhoto(THREE);
    await until(() => element.sheet.picture.status === 'opening', 'the opening');
    await settled(element);
    expect(element.querySelector('p')!.checkVisibility()).to.equal(true);
    expect(element.shadowRoot!.querySelector('[part=empty]')).to.equal(null);
    button(element, 'Stop').click();
    await settled(element);
    expect(element.shadowRoot!.querySelector('progress')).to.equal(null);
  });

  it('teaches again when the photo that the page gives cannot be opened', async () => {
    const element = reader('src="/no/such/sheet.jpg"');
    await until(() => element.shadowRoot!.querySelector('[role=alert]'), 'the fault');
    await until(() => element.shadowRoot!.querySelector('[part=empty]'), 'the way on');
    expect(text(element, '[role=alert]')).to.contain('no picture at this address');
  });

  it('takes a pasted photo as its sheet, and says so', async () => {
    const element = reader();
    const canvas = new OffscreenCanvas(800, 600);
    canvas.getContext('2d')!.putImageData(sheetPhoto(THREE), 0, 0);
    const file = new File([await canvas.convertToBlob()], 'sheet.png', { type: 'image/png' });
    const clipboardData = new DataTransfer();
    clipboardData.items.add(file);
    const names: string[] = [];
    element.addEventListener('picture-change', ({ name }) => names.push(name));
    element.dispatchEvent(pasteOf(clipboardData));
    await until(() => element.reading, 'the reading');
    await settled(element);
    near(values(element), THREE);
    expect(names).to.eql(['sheet.png']);
    expect(element.store.picture.status).to.equal('empty');
  });

  it('has words for every finding of the core', () => {
    for (const code of [...SHEET_CODES, ...SHEET_LIMITS, ...CARD_CODES, ...HABIT_CODES])
      expect(ENGLISH, code).to.have.property(code);
  });

  describe('reading', () => {
    it('reads a sheet of known lightness under warm, uneven light, and says it is ready', async () => {
      const element = reader();
      let ready = 0;
      element.addEventListener('ready', () => ready++);
      await opened(element, sheetPhoto(THREE));
      near(values(element), THREE);
      await until(() => ready === 1, 'ready');
      const { corners } = element.reading!;
      const meant = [
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ].map(([u, v]) => onPicture(u, v));
      corners.forEach(([x, y], i) => {
        expect(Math.hypot(x - 800 * meant[i][0], y - 600 * meant[i][1])).to.be.below(6);
      });
      expect(element.shadowRoot!.querySelectorAll('.row')).to.have.length(9);
      expect(text(element, '.label')).to.match(/^1 · 2\.\d$/);
      expect(await faultsOf(element)).to.eql([]);
    });

    it('leaves the plan’s own photo alone', async () => {
      const store = new PlanStore();
      const element = reader();
      element.plan = store;
      await opened(element, sheetPhoto(THREE));
      expect(store.picture.status).to.equal('empty');
      expect(store.plan.photo).to.equal(undefined);
      expect(store.canUndo).to.equal(false);
    });

    it('reads again when the plan’s paper is another', async () => {
      const element = await read(THREE);
      // CIE 15: Y of L* 50 is 0.18419, of L* 95 0.87617, of L* 90 0.76303; on the darker paper the dab has Y 0.16041, L* 47.0.
      await after(element, 'sheet-read', () =>
        element.store.change('paper', (plan) => ({
          ...plan,
          paper: { ...plan.paper, lightness: 90 },
        })),
      );
      expect(values(element)[1][0]).to.be.closeTo(47, FOUND);
    });

    it('reads again when a corner is moved by keys, and goes back to the corners found', async () => {
      const element = await read(THREE);
      const before = element.reading!;
      const move = async (corner: number): Promise<void> => {
        inside(element, `[data-corner="${corner}"]`).focus();
        await sendKeys({ down: 'Shift' });
        for (let i = 0; i < 31; i++) await sendKeys({ press: 'ArrowLeft' });
        await sendKeys({ up: 'Shift' });
      };
      // The right side is brought in past the third column.
      await after(element, 'sheet-read', async () => {
        await move(1);
        await move(2);
      });
      expect(element.reading!.corners[1][0]).to.be.closeTo(before.corners[1][0] - 248, 4);
      near(values(element), THREE.slice(0, 2), 1.5);
      expect(inside(element, '[data-corner="2"]').getAttribute('aria-label')).to.match(
        /^Bottom right corner of the sheet, \d+/,
      );
      await after(element, 'sheet-read', () => button(element, 'Corners as found').click());
      near(values(element), THREE);
      button(element, 'Undo').click();
      await settled(element);
      expect(values(element)).to.have.length(2);
    });

    it('drags a corner with the mouse and tells of crossed ones without reading', async () => {
      const element = await read(THREE);
      const at = (corner: number): [number, number] => {
        const { x, y, width, height } = inside(
          element,
          `[data-corner="${corner}"]`,
        ).getBoundingClientRect();
        return [Math.round(x + width / 2), Math.round(y + height / 2)];
      };
      inside(element, '.stage').scrollIntoView({ block: 'center' });
      const [x, y] = at(0);
      const [fx, fy] = at(2);
      await sendMouse({ type: 'move', position: [x, y] });
      await sendMouse({ type: 'down' });
      await sendMouse({ type: 'move', position: [x + 40, y + 30] });
      await sendMouse({ type: 'move', position: [fx + 20, fy + 20] });
      await sendMouse({ type: 'up' });
      await settled(element);
      expect(text(element, '[role=alert]')).to.contain('crossed');
      expect(values(element)).to.have.length(3);
    });

    it('stops when asked, with nothing lost', async () => {
      const element = await read(THREE);
      const before = element.reading!;
      void element.read();
      await settled(element);
      button(element, 'Stop').click();
      await settled(element);
      expect(element.shadowRoot!.querySelector('progress')).to.equal(null);
      expect(element.reading!.swatches).to.eql(before.swatches);
    });
  });

  describe('putting right', () => {
    it('drops, and undoes and redoes within the element', async () => {
      const element = await read(THREE);
      const told: string[] = [];
      element.addEventListener('sheet-change', (event: SheetChangeEvent) => told.push(event.what));
      await pick(element, 5);
      button(element, 'Drop').click();
      await settled(element);
      expect(all(values(element))).to.have.length(8);
      button(element, 'Undo').click();
      await settled(element);
      near(values(element), THREE);
      button(element, 'Redo').click();
      await settled(element);
      expect(all(values(element))).to.have.length(8);
      // A dropped dab stays away when the sheet is read again.
      await after(element, 'sheet-read', () => element.read());
      expect(all(values(element))).to.have.length(8);
      expect(told).to.eql(['drop', 'undo', 'redo']);
      expect(element.store.canUndo).to.equal(false);
    });

    it('puts a dab in another column, or in one of its own', async () => {
      const element = await read(THREE);
      await pick(element, 4);
      await after(element, 'sheet-change', () => choose(element, '[data-column]', '0'));
      expect(values(element).map(({ length }) => length)).to.eql([4, 2, 3]);
      await after(element, 'sheet-change', () => choose(element, '[data-column]', '3'));
      expect(values(element).map(({ length }) => length)).to.eql([3, 2, 3, 1]);
    });

    it('moves a dab by keys onto bare paper and reads it there', async () => {
      const element = await read([
        [30, 30],
        [60, null],
        [80, 80],
      ]);
      await pick(element, 3);
      await after(element, 'sheet-change', async () => {
        inside(element, '[data-box]').focus();
        await sendKeys({ down: 'Shift' });
        for (let i = 0; i < 40; i++) await sendKeys({ press: 'ArrowDown' });
        await sendKeys({ up: 'Shift' });
      });
      const moved = element.reading!.swatches.filter(({ column }) => column === 1);
      expect(moved).to.have.length(1);
      expect(moved[0].lab[0]).to.be.closeTo(95, FOUND);
    });

    it('moves a dab with the mouse, and picks another by a click on the photo', async () => {
      const element = await read([
        [30, 30],
        [60, null],
        [80, 80],
      ]);
      inside(element, '.stage').scrollIntoView({ block: 'center' });
      const at = (column: number, row: number): [number, number] => {
        const box = inside(element, '.stage').getBoundingClientRect();
        const [x, y] = onPicture(...spotOf(column, row, 3, 2));
        return [Math.round(box.x + x * box.width), Math.round(box.y + y * box.height)];
      };
      await sendMouse({ type: 'click', position: at(1, 0) });
      await settled(element);
      expect(text(element, '#picked-title')).to.equal('Dab 3');
      inside(element, '.stage').scrollIntoView({ block: 'center' });
      await after(element, 'sheet-change', async () => {
        await sendMouse({ type: 'move', position: at(1, 0) });
        await sendMouse({ type: 'down' });
        await sendMouse({ type: 'move', position: at(1, 0.5) });
        await sendMouse({ type: 'move', position: at(1, 1) });
        await sendMouse({ type: 'up' });
      });
      const moved = element.reading!.swatches.find(({ column }) => column === 1)!;
      expect(moved.lab[0]).to.be.closeTo(95, FOUND);
      button(element, 'Undo').click();
      await settled(element);
      expect(element.reading!.swatches[2].lab[0]).to.be.closeTo(60, FOUND);
      await sendMouse({ type: 'click', position: at(2, 1) });
      await settled(element);
      expect(text(element, '#picked-title')).to.equal('Dab 5');
    });

    it('joins two dabs and parts one along a line', async () => {
      const element = await read([
        [40, 41],
        [70, 80],
      ]);
      await pick(element, 1);
      const other = element.shadowRoot!.querySelectorAll<HTMLElement>('.row')[1].dataset.dab!;
      await after(element, 'sheet-change', () => choose(element, '[data-join]', other));
      expect(values(element).map(({ length }) => length)).to.eql([1, 2]);
      expect(values(element)[0][0]).to.be.closeTo(40.5, FOUND);
      button(element, 'Part in two').click();
      await settled(element);
      // The two lie one above the other, so the line lies across.
      const ends = [...element.shadowRoot!.querySelectorAll<HTMLElement>('[data-end]')];
      expect(ends).to.have.length(2);
      await after(element, 'sheet-change', () => button(element, 'Part along the line').click());
      expect(values(element).map(({ length }) => length)).to.eql([2, 2]);
      expect(values(element)[0][0]).to.be.closeTo(40, FOUND);
      expect(values(element)[0][1]).to.be.closeTo(41, FOUND);
    });

    it('adds one by drawing, and one laid in the middle', async () => {
      const element = await read([
        [30, 40, 50],
        [60, null, 70],
        [75, 80, 85],
      ]);
      const drop = (): Promise<void> =>
        after(element, 'sheet-change', () => button(element, 'Drop').click());
      await pick(element, 1);
      await drop();
      button(element, 'Add a dab').click();
      await settled(element);
      inside(element, '.stage').scrollIntoView({ block: 'center' });
      const box = inside(element, '.stage').getBoundingClientRect();
      const [x, y] = onPicture(...spotOf(0, 0, 3, 3));
      const at = (dx: number, dy: number): [number, number] => [
        Math.round(box.x + (x + dx) * box.width),
        Math.round(box.y + (y + dy) * box.height),
      ];
      await after(element, 'sheet-change', async () => {
        await sendMouse({ type: 'move', position: at(-0.03, -0.04) });
        await sendMouse({ type: 'down' });
        await sendMouse({ type: 'move', position: at(0, 0) });
        await sendMouse({ type: 'move', position: at(0.03, 0.04) });
        await sendMouse({ type: 'up' });
      });
      expect(values(element)[0][0]).to.be.closeTo(30, FOUND);
      button(element, 'Add a dab').click();
      await settled(element);
      await after(element, 'sheet-change', () => button(element, 'Lay one in the middle').click());
      // The middle of the sheet is the free place: bare paper.
      expect(values(element)[1][1]).to.be.closeTo(95, FOUND);
      expect(await faultsOf(element)).to.eql([]);
    });
  });

  describe('to the board', () => {
    it('sends values, names and recipes as one step of undo, and remembers the dabs with the date', async () => {
      const store = new PlanStore(newPlan());
      const element = reader();
      element.plan = store;
      await opened(element, sheetPhoto(THREE));
      await pick(element, 1);
      type(element, '[data-name]', 'deep shade');
      await settled(element);
      choose(element, '[data-recipe]', 'type');
      await settled(element);
      choose(element, '.typed select', 'ultramarine');
      type(element, '.typed input', '3');
      await settled(element);
      inside<HTMLFormElement>(element, '.typed').requestSubmit();
      await settled(element);
      choose(element, '[data-map="1"]', '');
      await settled(element);
      const before = store.plan;
      let sent: SheetSendEvent | undefined;
      element.addEventListener('sheet-send', (event) => (sent = event));
      button(element, 'Send 6 swatches').click();
      await settled(element);
      const { board, dabs } = parsePlan(serialisePlan(store.plan));
      expect(board.swatches).to.have.length(6);
      expect(dabs).to.have.length(9);
      expect(sent!.swatches).to.eql(board.swatches);
      expect(board.swatches.map(({ bucket }) => bucket)).to.eql([0, 0, 0, 2, 2, 2]);
      [...THREE[0], ...THREE[2]].forEach((lightness, i) => {
        const swatch = board.swatches[i];
        expect(Math.abs(swatch.lightness - lightness)).to.be.below(FOUND);
        expect(swatch.from).to.equal('sheet');
        expect(swatch.uncertainty).to.be.above(0).and.below(2);
        expect(swatch.css).to.match(/^#[0-9a-f]{6}$/);
      });
      expect(board.swatches[0].name).to.equal('deep shade');
      expect(board.swatches[0].recipe).to.eql({
        parts: [{ tube: 'ultramarine', parts: 3 }],
        strength: 1,
      });
      const now = new Date();
      expect(dabs![0].date).to.equal(
        [now.getFullYear(), now.getMonth() + 1, now.getDate()]
          .map((part) => String(part).padStart(2, '0'))
          .join('-'),
      );
      expect(text(element, '.done')).to.contain('6 swatches are on the board');
      // Sending again replaces.
      button(element, 'Send 6 swatches anew').click();
      await settled(element);
      expect(store.plan.board.swatches).to.have.length(6);
      expect(store.plan.dabs).to.have.length(9);
      store.undo();
      store.undo();
      expect(store.plan).to.eql(before);
      expect(store.canUndo).to.equal(false);
      store.redo();
      expect(store.plan.board.swatches).to.have.length(6);
    });
  });

  describe('wet and dry', () => {
    it('pairs the dry sheet with the wet one and tells how the paint dries', async () => {
      const wet = [
        [20, 30, 40],
        [45, 55, 65],
      ];
      const dry = wet.map((column) => column.map((lightness) => lightness + 3));
      const element = await read(wet);
      button(element, 'satin').click();
      await settled(element);
      element.send();
      expect(element.store.plan.board.swatches.every((swatch) => swatch.wet)).to.equal(true);
      await opened(element, sheetPhoto(dry));
      element.panel = 'drying';
      await settled(element);
      const sheets = inside<HTMLSelectElement>(element, '[data-pair-sheet]');
      expect(sheets.options[1].textContent).to.contain('satin, 6 dabs');
      choose(element, '[data-pair-sheet]', sheets.options[1].value);
      await settled(element);
      const [, by, count] = /dries ([\d.]+) L\* lighter, from (\d) pairs/.exec(
        text(element, '[data-drying=satin]'),
      )!;
      expect(Number(by)).to.be.closeTo(3, 0.7);
      expect(count).to.equal('6');
      // A pair that is wrong is taken apart by hand.
      const first = inside<HTMLSelectElement>(element, '[data-pair]');
      first.value = '';
      first.dispatchEvent(new Event('change'));
      await settled(element);
      expect(text(element, '[data-drying=satin]')).to.contain('from 5 pairs');
      expect(await faultsOf(element)).to.eql([]);
      element.send();
      const pairs = dryingPairs(element.store.plan.dabs!);
      expect(pairs).to.have.length(5);
      pairs.forEach((pair) => expect(pair.dry - pair.wet).to.be.closeTo(3, 1.5));
    });
  });

  describe('one tube', () => {
    it('fits how strong the painter’s own tube is and puts it on the shelf', async () => {
      // A tube one and a half times as strong as the data, painted by the model and photographed.
      const strengths = [1, 0.5, 0.25, 0.125];
      const washes = strengths.map(
        (strength) =>
          mixOnPaper([{ tube: 'burnt-umber', parts: 1 }], {
            strength,
            loads: { 'burnt-umber': 1.5 },
          }).lab,
      );
      const element = await read([washes], 'panel="tube"');
      choose(element, '[data-tube]', 'burnt-umber');
      await settled(element);
      button(element, 'How strong is it?').click();
      await until(() => element.shadowRoot!.querySelector('[data-keep-fit]'), 'the fit');
      expect(text(element, '[part=fit-result]')).to.match(/Your tube is .* times/);
      button(element, 'Use this strength').click();
      await settled(element);
      const [own] = element.store.plan.shelf!;
      expect(own.tube).to.equal('burnt-umber');
      expect(own.loadLow!).to.be.below(1.5);
      expect(own.loadHigh!).to.be.above(1.5);
      expect(own.load!).to.be.closeTo(1.5, 0.3);
      expect(await faultsOf(element)).to.eql([]);
    });

    it('wants dry dabs and a tube', async () => {
      const element = await read(THREE, 'panel="tube"');
      button(element, 'How strong is it?').click();
      await settled(element);
      expect(text(element, '.panel [role=alert]')).to.contain('Choose the tube');
      choose(element, '[data-tube]', 'ultramarine');
      button(element, 'damp').click();
      await settled(element);
      button(element, 'How strong is it?').click();
      await settled(element);
      expect(text(element, '.panel [role=alert]')).to.contain('dry dabs only');
    });
  });

  describe('the value card', () => {
    it('certifies a strip that has the plan’s limits, and says what to paint anew on another', async () => {
      const limits = newPlan().paintLimits;
      const element = reader('panel="card"');
      element.plan = new PlanStore(newPlan());
      await opened(element, sheetPhoto([[limits[0]], [limits[1]]]));
      expect(inside(element, '.verdict').dataset.certified).to.equal('yes');
      expect(text(element, '[part=card-holes]')).to.contain('Punch a hole');
      expect(await faultsOf(element)).to.eql([]);
      await opened(element, sheetPhoto([[limits[0] - 6], [limits[1]]]));
      expect(inside(element, '.verdict').dataset.certified).to.equal('no');
      expect(text(element, '[data-verdict=too-dark]')).to.match(/too dark by [56]/);
      expect(element.shadowRoot!.querySelector('[part=card-holes]')).to.equal(null);
    });
  });

  describe('dab memory', () => {
    const dab = (number: number, lightness: number, about: Partial<Dab> = {}): Dab => ({
      id: `kept-${number}`,
      date: `2026-03-0${number}`,
      lab: [lightness, 0, 0],
      spread: 0.5,
      uncertainty: 0.6,
      ...about,
    });

    it('is looked through without a photo, forgets, and takes that back', async () => {
      const recipe = { parts: [{ tube: 'ultramarine', parts: 1 }], strength: 0.5 };
      const store = new PlanStore({
        ...newPlan(),
        dabs: [
          dab(1, 30, { note: 'shade under the chin', band: 0, recipe }),
          dab(2, 60, { band: 1 }),
          dab(3, 85, { note: 'cheek', band: 2 }),
        ],
      });
      const element = reader();
      element.plan = store;
      await settled(element);
      button(element, 'Look through the 3 dabs').click();
      await until(() => element.shadowRoot!.querySelector('[data-kept]'), 'the memory');
      const kept = (): string[] =>
        [...element.shadowRoot!.querySelectorAll<HTMLElement>('[data-kept]')].map(
          (each) => each.dataset.kept!,
        );
      expect(kept()).to.eql(['kept-3', 'kept-2', 'kept-1']);
      type(element, '[data-text]', 'chin ultramarine');
      await settled(element);
      expect(kept()).to.eql(['kept-1']);
      type(element, '[data-text]', '');
      choose(element, '[data-band]', '1');
      await settled(element);
      expect(kept()).to.eql(['kept-2']);
      choose(element, '[data-band]', '-1');
      type(element, '[data-bound=from]', '7');
      await settled(element);
      expect(kept()).to.eql(['kept-3']);
      type(element, '[data-bound=from]', '');
      await settled(element);
      expect(text(element, '[part=proven]')).to.contain('ultramarine');
      expect(await faultsOf(element)).to.eql([]);
      let forgotten: DabForgetEvent | undefined;
      element.addEventListener('dab-forget', (event) => (forgotten = event));
      inside(element, '[data-forget="kept-2"]').click();
      await settled(element);
      expect(forgotten!.dab.id).to.equal('kept-2');
      expect(store.plan.dabs!.map(({ id }) => id)).to.eql(['kept-1', 'kept-3']);
      inside(element, '[data-undo-plan]').click();
      await settled(element);
      expect(store.plan.dabs).to.have.length(3);
    });
  });

  it('tells habits: darks that end lighter than their recipes predict', async () => {
    const recipe = { parts: [{ tube: 'ivory-black', parts: 1 }], strength: 0.8 };
    const { lab } = mixOnPaper(recipe.parts, { strength: recipe.strength });
    const store = new PlanStore({
      ...newPlan(),
      dabs: [1, 2, 3, 4].map((number) => ({
        id: `kept-${number}`,
        date: '2026-03-01',
        lab: [lab[0] + 4, lab[1], lab[2]],
        spread: 0.5,
        uncertainty: 0.6,
        recipe,
      })),
    });
    const element = reader('panel="memory"');
    element.plan = store;
    await until(() => element.shadowRoot!.querySelector('[part=habits]'), 'the habits');
    expect(text(element, '[data-code="habit.lighter"]')).to.equal(
      'Your darks end 4 L* lighter than meant (4 dabs).',
    );
    expect(text(element, '[data-code="habit.tube-weaker"]')).to.contain('ivory black');
  });

  describe('faults', () => {
    it('tells a file that is no picture and leaves board, dabs and the earlier reading as they were', async () => {
      const element = await read(THREE);
      element.send();
      const { plan } = element.store;
      const before = element.reading!;
      const faults: KitErrorEvent[] = [];
      element.addEventListener('error', (event) => faults.push(event as unknown as KitErrorEvent));
      element.picture = new File(['no picture'], 'sheet.jpg', { type: 'image/jpeg' });
      await until(() => faults.length > 0, 'the fault');
      await settled(element);
      expect(text(element, '[role=alert]')).to.equal(`${faults[0].message} Put aside`);
      expect(element.store.plan).to.equal(plan);
      expect(element.reading!.swatches).to.eql(before.swatches);
    });

    it('tells a reading that failed and leaves everything as it was', async () => {
      const element = await read(THREE);
      element.send();
      const { plan } = element.store;
      const before = element.reading!;
      const core = await element.store.core();
      element.store.core = async () =>
        Object.assign(Object.create(core) as typeof core, {
          run: () => Promise.reject(new Error('broken')),
        });
      const faults: string[] = [];
      element.addEventListener('error', (event) =>
        faults.push((event as unknown as KitErrorEvent).message),
      );
      await element.read();
      await settled(element);
      expect(faults).to.have.length(1);
      expect(text(element, '[role=alert]')).to.contain('could not be read');
      expect(element.store.plan).to.equal(plan);
      expect(element.reading!.swatches).to.eql(before.swatches);
    });

    it('says what to do when there is no bare paper, and offers nothing to send', async () => {
      const dark = new ImageData(300, 200);
      for (let i = 3; i < dark.data.length; i += 4) dark.data[i] = 255;
      const element = await opened(reader(), dark);
      const codes = [...element.shadowRoot!.querySelectorAll<HTMLElement>('.warnings li')].map(
        (each) => each.dataset.code,
      );
      expect(codes).to.contain('sheet.no-paper');
      expect(text(element, '[data-code="sheet.no-paper"]')).to.match(
        /bare paper.*so nothing was read/s,
      );
      expect(element.shadowRoot!.querySelector('[data-send]')).to.equal(null);
      expect(element.store.plan.board.swatches).to.eql([]);
      expect(await faultsOf(element)).to.eql([]);
    });
  });

  it('speaks the language about it, and lies still in a page from right to left', async () => {
    const host = place(
      '<div dir="rtl" lang="de"><swatch-sheet-reader></swatch-sheet-reader></div>',
    );
    const { setWords } = await import('../../components/shared/strings.js');
    const { GERMAN } = await import('../../components/shared/words/de/index.js');
    setWords(GERMAN, 'de');
    const element = await opened(host.querySelector('swatch-sheet-reader')!, sheetPhoto(THREE));
    expect(text(element, '#list-title')).to.equal('9 Proben');
    // The photo is not mirrored: the first column's labels stand on its left.
    const [first, , , fourth] = element.shadowRoot!.querySelectorAll('.label');
    expect(first.getBoundingClientRect().x).to.be.below(fourth.getBoundingClientRect().x);
    expect(host.scrollWidth).to.be.at.most(host.clientWidth);
  });

  it('fits a narrow phone', async () => {
    await setViewport({ width: 360, height: 740 });
    const element = await read(THREE);
    await pick(element, 2);
    for (const panel of ['board', 'drying', 'tube', 'card', 'memory']) {
      element.panel = panel;
      await settled(element);
      expect(document.documentElement.scrollWidth, panel).to.be.at.most(360);
    }
    await setViewport({ width: 1100, height: 900 });
  });
});
