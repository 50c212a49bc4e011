/** The printed plan in a real browser: pages, choices, printing, files; the order of work by buttons, keys and drag; access. */
import { expect } from 'chai';
import fc from 'fast-check';
import {
  emulateMedia,
  resetMouse,
  sendKeys,
  sendMouse,
  setViewport,
} from '@web/test-runner-commands';
import { drawingOf } from '../../components/shared/page-drawing.js';
import { PlanSheet } from '../../components/plan-sheet/plan-sheet.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import { setWords } from '../../components/shared/strings.js';
import type { StepChangeEvent } from '../../components/shared/events/step-change.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { newPlan, planSheet, planSheets, type Masses } from '../../core/index.js';
import { massesFrom, planOf } from '../unit/order-masses.js';
import {
  areaOf,
  clear,
  faultsOf,
  frames,
  inside,
  photo,
  place,
  targetsOf,
  until,
} from './access-helpers.js';

PlanSheet.define();

const made: Masses = massesFrom(['111222', '101223', '111222']);

async function settled(element: PlanSheet): Promise<void> {
  do await element.updateComplete;
  while (element.isUpdatePending);
  await frames();
}

async function empty(attributes = ''): Promise<PlanSheet> {
  const element = place(`<plan-sheet ${attributes}></plan-sheet>`).querySelector('plan-sheet')!;
  await settled(element);
  return element;
}

/** An element with its pages made, of a picture with shapes. */
async function ready(attributes = ''): Promise<PlanSheet> {
  const element = await empty(attributes);
  const store = element.store;
  // A small brush, so that there are some masses.
  store.change('brush', (plan) => ({
    ...plan,
    title: 'Clay <dog> & cup',
    photoLimits: [30, 60],
    brushes: [{ name: 'round 4', tipMm: 0.5, pressedMm: 12 }],
  }));
  element.picture = await photo();
  await until(() => element.pages.length > 0, 'the pages');
  await idle(element);
  return element;
}

/** Waits until no page is being made. */
async function idle(element: PlanSheet): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 50));
  await until(() => !element.shadowRoot!.querySelector('progress'), 'the work');
  await settled(element);
}

const ids = (element: PlanSheet): string[] =>
  [...element.shadowRoot!.querySelectorAll<HTMLElement>('[data-step]')].map(
    (each) => each.dataset.step!,
  );
const heard = (element: PlanSheet): StepChangeEvent[] => {
  const events: StepChangeEvent[] = [];
  element.addEventListener('step-change', (event) => events.push(event));
  return events;
};
const press = async (element: PlanSheet, selector: string): Promise<void> => {
  inside<HTMLButtonElement>(element, selector).click();
  await settled(element);
};
const active = (element: PlanSheet): Element | null => element.shadowRoot!.activeElement;

describe('pages as XML', () => {
  const parsed = (page: string): Element => {
    const read = new DOMParser().parseFromString(page, 'image/svg+xml');
    expect(read.querySelector('parsererror')?.textContent).to.equal(undefined);
    return read.documentElement;
  };

  it('are well-formed whatever the texts are, and our own reader makes the nodes that the platform makes', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 40 }),
        fc.string({ unit: 'grapheme', maxLength: 40 }),
        (title, name) => {
          const plan = planOf(3, true, { title });
          plan.board.bands[0].name = name;
          for (const page of planSheets(plan, made, { squaresMm: 50, mirrored: true })) {
            const root = document.importNode(parsed(page), true);
            root.removeAttribute('xmlns');
            expect(drawingOf(page, document).isEqualNode(root)).to.equal(true);
          }
        },
      ),
      { numRuns: 30 },
    );
  });

  it('say title and size to the platform', () => {
    const svg = drawingOf(planSheet(newPlan({ title: 'a <b> & "c"' }), made), document);
    document.body.append(svg);
    // 210 mm are 793.7 CSS pixels: CSS takes an inch as 96 of them.
    expect(svg.getBoundingClientRect().width).to.be.closeTo((210 / 25.4) * 96, 0.05);
    expect(svg.querySelector('title')!.textContent).to.equal('a <b> & "c"');
    svg.remove();
  });
});

describe('plan-sheet', () => {
  before(() => {
    document.documentElement.lang = 'en';
    document.documentElement.style.setProperty('color-scheme', 'light dark');
    document.body.style.setProperty('background', 'light-dark(#f5f5f5, #1b1b1b)');
    document.body.style.setProperty('color', 'light-dark(#1c1c1c, #ececec)');
    document.title = 'Printed plan';
  });
  beforeEach(() => setViewport({ width: 1200, height: 1000 }));
  afterEach(async () => {
    clear();
    await resetMouse();
  });
  after(() => emulateMedia({ colorScheme: 'light' }));

  it('teaches while there is no photo', async () => {
    const element = await empty();
    expect(inside(element, '.empty').textContent).to.contain('Open the photo that you paint from');
    expect(inside(element, '[part=open-button]').textContent).to.contain('Open a photo');
    expect(element.pages).to.eql([]);
  });

  it('makes the pages of a photo, with its order of work', async function () {
    this.timeout(40000);
    const element = await ready();
    expect(element.pages.length).to.be.greaterThan(1);
    const svg = inside(element, '.page svg');
    expect(svg.querySelector('title')!.textContent).to.equal('Clay <dog> & cup');
    expect(ids(element).length).to.be.greaterThan(1);
    const laid = element.steps.flatMap(({ regions }) => regions);
    expect(new Set(laid).size).to.equal(laid.length);
    await press(element, '[data-next]');
    expect(inside(element, '.of').textContent).to.equal(`Page 2 of ${element.pages.length}`);
    for (let i = 2; i < element.pages.length; i++) await press(element, '[data-next]');
    expect(inside<HTMLButtonElement>(element, '[data-next]').disabled).to.equal(true);
    expect(active(element)).to.equal(inside(element, '[data-before]'));
  });

  it('is made anew when the plan changes, with the title of then', async function () {
    this.timeout(40000);
    const element = await ready();
    element.store.change('title', (plan) => ({ ...plan, title: 'Another' }));
    await until(() => element.pages[0].includes('>Another<'), 'the page');
  });

  it('prints what is chosen', async function () {
    this.timeout(40000);
    const element = await ready('paper="letter"');
    expect(element.pages[0]).to.contain('width="215.9mm" height="279.4mm"');
    await press(element, '[data-paper="A4"]');
    await until(() => element.pages[0].includes('width="210mm"'), 'A4');
    await press(element, '[data-mirrored]');
    await until(() => element.pages[0].includes('mirrored'), 'the mirror');
    expect(element.mirrored).to.equal(true);
    const select = inside<HTMLSelectElement>(element, '[data-squares]');
    select.value = '50';
    select.dispatchEvent(new Event('change'));
    await until(() => element.pages[0].includes('squares of 50 mm'), 'squares');
    expect(element.pages[0]).to.contain('page-1-band-0');
    await press(element, '[data-show=hatching]');
    await until(() => !element.pages[0].includes('page-1-band-0'), 'no hatching');
    expect(element.show).to.equal('outlines reserves strokes marks accents numbers');
    await press(element, '[data-show=hatching]');
    expect(element.show).to.equal(null);
  });

  it('has the value card as its last page once that is chosen, and follows the plan’s limits', async function () {
    this.timeout(60000);
    const element = await ready();
    const before = element.pages;
    const limits = element.store.plan.paintLimits;
    inside<HTMLInputElement>(element, '[data-card]').click();
    await settled(element);
    expect(element.card).to.equal(true);
    expect(element.pages.slice(0, -1)).to.eql(before);
    const fields = (): number[] =>
      [...element.pages.at(-1)!.matchAll(/data-limit="([\d.]+)"/g)].map(([, limit]) =>
        Number(limit),
      );
    limits.forEach((limit, i) => expect(fields()[i]).to.be.closeTo(limit, 0.001));
    expect(element.pages.at(-1)).to.contain('Value card: Clay &#60;dog&#62; &#38; cup');
    while (!inside<HTMLButtonElement>(element, '[data-next]').disabled)
      await press(element, '[data-next]');
    const page = inside(element, '[part="page"]');
    expect(page.querySelectorAll('[data-limit]')).to.have.length(limits.length);
    expect(page.getAttribute('aria-label')).to.match(/value card to paint/);
    expect(await faultsOf(element)).to.eql([]);
    // Its page is gone with the choice: the page before it is shown.
    inside<HTMLInputElement>(element, '[data-card]').click();
    await settled(element);
    expect(element.pages).to.eql(before);
    expect(inside(element, '.pager .of').textContent).to.equal(
      `Page ${before.length} of ${before.length}`,
    );
  });

  it('ticks off: one event, one step of undo, kept with the plan', async function () {
    this.timeout(40000);
    const element = await ready();
    const events = heard(element);
    const [first] = ids(element);
    await press(element, `[data-step="${first}"] input`);
    expect(events.map(({ what, step }) => [what, step])).to.eql([['done', first]]);
    expect(events[0].bubbles && events[0].composed).to.equal(true);
    expect(element.store.plan.steps[0]).to.include({ id: first, done: true });
    expect(element.store.plan.steps[0]).not.to.have.any.keys('waits', 'hints', 'warnings');
    await idle(element);
    expect(inside(element, `[data-step="${first}"]`).className).to.contain('done');
    expect(inside(element, '.order').textContent).to.contain('1 of');
    await press(element, '[data-undo]');
    await idle(element);
    expect(element.store.plan.steps).to.eql([]);
    await until(() => !element.steps[0].done, 'the tick taken back');
    expect(events[1].what).to.equal('undo');
  });

  it('moves by buttons and tells what goes wrong there; the focus goes with the step', async function () {
    this.timeout(40000);
    const element = await ready();
    const before = ids(element);
    // The masking (or the first lay) is put last: something must be told.
    element.store.change('overrules', (plan) => ({
      ...plan,
      overrules: [{ kind: 'reserve', at: [0.48, 0.5], method: 'mask' }],
    }));
    await until(() => ids(element).includes('mask'), 'the masking');
    await idle(element);
    const events = heard(element);
    const steps = ids(element);
    const start = steps.indexOf('mask');
    inside(element, '[data-later="mask"]').focus();
    for (let i = start; i < steps.length - 1; i++) {
      expect(active(element)).to.equal(inside(element, '[data-later="mask"]'));
      await sendKeys({ press: 'Enter' });
      await settled(element);
    }
    expect(ids(element).at(-1)).to.equal('mask');
    expect(active(element)).to.equal(inside(element, '[data-earlier="mask"]'));
    expect(events).to.have.length(steps.length - 1 - start);
    await idle(element);
    await until(() => element.shadowRoot!.querySelector('.warning'), 'a warning');
    expect(inside(element, '.steps').textContent).to.contain('Paints over what is masked later');
    expect(inside(element, '.order').textContent).to.match(/something goes wrong at this place/);
    await press(element, '[data-restore]');
    expect(events.at(-1)!.what).to.equal('order');
    await idle(element);
    await until(() => ids(element).join() === steps.join(), 'the proposed order');
    expect(element.shadowRoot!.querySelector('[data-restore]')).to.equal(null);
    expect(before.length).to.be.greaterThan(1);
  });

  it('is dragged by the number; Escape gives it up', async function () {
    this.timeout(40000);
    const element = await ready();
    const steps = ids(element);
    const events = heard(element);
    const grip = inside(element, `[data-step="${steps[0]}"] .number`);
    const target = inside(element, `[data-step="${steps[1]}"]`);
    grip.scrollIntoView({ block: 'center' });
    await frames();
    const at = (box: DOMRect, part: number): [number, number] => [
      Math.round(grip.getBoundingClientRect().left + 10),
      Math.round(box.top + part * box.height),
    ];
    await sendMouse({ type: 'move', position: at(grip.getBoundingClientRect(), 0.5) });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: at(target.getBoundingClientRect(), 0.8) });
    await settled(element);
    expect(inside(element, '.dragged').dataset.step).to.equal(steps[0]);
    await sendKeys({ press: 'Escape' });
    await settled(element);
    expect(element.shadowRoot!.querySelector('.dragged')).to.equal(null);
    await sendMouse({ type: 'up' });
    expect(ids(element)).to.eql(steps);
    expect(events).to.have.length(0);

    await sendMouse({ type: 'move', position: at(grip.getBoundingClientRect(), 0.5) });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: at(target.getBoundingClientRect(), 0.8) });
    await sendMouse({ type: 'up' });
    await settled(element);
    expect(ids(element).slice(0, 2)).to.eql([steps[1], steps[0]]);
    expect(events.map(({ what }) => what)).to.eql(['move']);
    expect(element.store.plan.steps.map(({ id }) => id)).to.eql(ids(element));
  });

  it('shows where the masses of a step are, on the screen alone', async function () {
    this.timeout(40000);
    const element = await ready();
    const step = element.steps.find(({ regions }) => regions.length > 0)!;
    inside(element, `[data-step="${step.id}"] input`).focus();
    const rings = (): SVGCircleElement[] => [
      ...element.shadowRoot!.querySelectorAll<SVGCircleElement>('[data-pointed] circle'),
    ];
    expect(rings()).to.have.length(2 * step.regions.length);
    const frame = inside(element, '#page-1-frame');
    const left = Number(frame.getAttribute('x'));
    const width = Number(frame.getAttribute('width'));
    expect(Number(rings()[0].getAttribute('cx'))).to.be.closeTo(left + width * step.at[0][0], 1e-6);
    (active(element) as HTMLElement).blur();
    expect(rings()).to.have.length(0);
    expect(element.pages.join('')).not.to.contain('data-pointed');
  });

  it('saves each page as a file that stands alone', async function () {
    this.timeout(40000);
    const element = await ready();
    const files: { name: string; href: string }[] = [];
    const click = HTMLAnchorElement.prototype.click;
    HTMLAnchorElement.prototype.click = function (this: HTMLAnchorElement) {
      files.push({ name: this.download, href: this.href });
    };
    try {
      await press(element, '[data-save]');
      await press(element, '[data-save-all]');
    } finally {
      HTMLAnchorElement.prototype.click = click;
    }
    expect(files).to.have.length(1 + element.pages.length);
    expect(files[0].name).to.equal('Clay dog & cup 1.svg');
    const answer = await fetch(files[0].href);
    expect(answer.headers.get('content-type')).to.equal('image/svg+xml');
    const read = new DOMParser().parseFromString(await answer.text(), 'image/svg+xml');
    expect(read.documentElement.getAttribute('width')).to.equal('210mm');
  });

  it('prints its pages alone and leaves the document as it was', async function () {
    this.timeout(40000);
    const element = await ready();
    const before = document.body.children.length;
    const sheets = document.adoptedStyleSheets.length;
    let seen: { pages: number; shown: string } | undefined;
    const print = window.print;
    window.print = () => {
      const holder = document.querySelector('[data-printed-plan]')!;
      seen = {
        pages: holder.shadowRoot!.querySelectorAll('svg').length,
        shown: getComputedStyle(holder).display,
      };
    };
    try {
      await press(element, '[data-print]');
    } finally {
      window.print = print;
    }
    // On the screen nothing of it is seen.
    expect(seen).to.eql({ pages: element.pages.length, shown: 'none' });
    window.dispatchEvent(new Event('afterprint'));
    expect(document.body.children.length).to.equal(before);
    expect(document.adoptedStyleSheets.length).to.equal(sheets);
  });

  it('shares a plan, and shows nothing of a photo that is gone', async function () {
    this.timeout(40000);
    const store = new PlanStore(newPlan({ title: 'Shared' }));
    const element = await empty();
    element.plan = store;
    await store.open(await photo(), { name: 'test.png' });
    await until(() => element.pages.length > 0, 'the pages');
    expect(element.pages[0]).to.contain('>Shared<');
    store.takeUp(newPlan({ title: 'Fresh' }));
    await settled(element);
    expect(element.pages).to.eql([]);
    expect(inside(element, '.empty')).not.to.equal(null);
  });

  it('can be stopped, says so, and goes on', async function () {
    this.timeout(40000);
    const element = await ready();
    element.store.change('limits', (plan) => ({
      ...plan,
      brushes: [{ name: 'fine', tipMm: 0.4, pressedMm: 6 }],
    }));
    await until(() => element.shadowRoot!.querySelector('[data-stop]'), 'the stop');
    await press(element, '[data-stop]');
    expect(inside(element, '.status').textContent).to.contain(
      'was stopped before your last change',
    );
    await press(element, '[data-again]');
    await until(() => element.pages[0].includes('fine'), 'the page');
  });

  it('tells a fault and offers to try again', async function () {
    this.timeout(40000);
    const element = await ready();
    const messages: string[] = [];
    element.addEventListener('error', (event) => messages.push((event as ErrorEvent).message));
    const run = element.store.run.bind(element.store);
    element.store.run = () => Promise.reject(new RangeError('the sheet is too small'));
    element.store.change('title', (plan) => ({ ...plan, title: 'Faulty' }));
    await until(() => element.shadowRoot!.querySelector('[role=alert]'), 'the fault');
    expect(inside(element, '[role=alert]').textContent).to.contain('the sheet is too small');
    expect(messages).to.have.length(1);
    element.store.run = run;
    await press(element, '[data-again]');
    await until(() => element.pages[0].includes('>Faulty<'), 'the page');
  });

  it('speaks the language of its page, on paper too', async function () {
    this.timeout(40000);
    setWords(GERMAN, 'de');
    try {
      const element = await ready('lang="de"');
      expect(inside(element, '#order-title').textContent).to.equal('Arbeitsfolge');
      expect(element.pages[0]).to.contain('>Arbeitsfolge<').and.to.contain('279,4 mm');
      expect(element.pages[0]).not.to.contain('Order of work');
    } finally {
      setWords({}, 'de');
    }
  });

  describe('access: nothing that axe finds, in light and dark; targets of 24 px or more', () => {
    const states: Record<string, () => Promise<PlanSheet>> = {
      empty: () => empty(),
      opening: async () => {
        const element = await empty();
        element.store.core = () => new Promise(() => undefined);
        void element.store.open(await photo());
        await settled(element);
        return element;
      },
      trouble: async () => {
        const element = await empty();
        element.store.fail({ code: 'PictureEmpty', values: {} });
        await settled(element);
        return element;
      },
      pages: () => ready(),
      'a warning and a tick': async () => {
        const element = await ready();
        const steps = ids(element);
        await press(element, `[data-step="${steps[0]}"] input`);
        await press(element, `[data-later="${steps[0]}"]`);
        await idle(element);
        return element;
      },
      stopped: async () => {
        const element = await ready();
        element.store.run = () => new Promise(() => undefined);
        element.store.change('title', (plan) => ({ ...plan, title: 'x' }));
        await until(() => element.shadowRoot!.querySelector('[data-stop]'), 'the stop');
        await press(element, '[data-stop]');
        return element;
      },
      failed: async () => {
        const element = await ready();
        element.store.run = () => Promise.reject(new RangeError('too small'));
        element.store.change('title', (plan) => ({ ...plan, title: 'y' }));
        await until(() => element.shadowRoot!.querySelector('[role=alert]'), 'the fault');
        return element;
      },
    };
    for (const [name, reach] of Object.entries(states))
      for (const width of [360, 1200])
        it(`${name}, ${width} px wide`, async function () {
          this.timeout(60000);
          await setViewport({ width, height: 900 });
          await emulateMedia({ colorScheme: 'light' });
          const element = await reach();
          expect(await faultsOf(element)).to.eql([]);
          await emulateMedia({ colorScheme: 'dark' });
          await frames();
          expect(await faultsOf(element)).to.eql([]);
          const small = targetsOf(element).filter((target) => {
            const box = areaOf(target);
            return box.width < 24 || box.height < 24;
          });
          expect(small.map(({ outerHTML }) => outerHTML.slice(0, 100))).to.eql([]);
          // Nothing reaches out of the window.
          expect(document.documentElement.scrollWidth).to.be.at.most(width);
        });
  });
});
