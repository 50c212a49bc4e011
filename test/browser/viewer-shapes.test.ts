/** Shapes changed by hand: each change is one step of undo, and the masses follow. */
import { resetMouse, sendKeys, sendMouse, setViewport } from '@web/test-runner-commands';
import { expect } from 'chai';
import type { MassWork } from '../../components/shared/masses-in-hand.js';
import {
  button,
  clear,
  coloured,
  faultsOf,
  massesOf,
  onScreen,
  shown,
  textOf,
  until,
  WIDTH,
  type Shown,
} from './viewer-masses-helpers.js';

const DARK: [number, number] = [30, 100];
const MIDDLE: [number, number] = [120, 60];
const LIGHT: [number, number] = [165, 80];
const DISC: [number, number] = [200, 45];
const STRIP: [number, number] = [200, 115];

const regionAt = ({ masses }: MassWork, [x, y]: [number, number]): number =>
  masses.labels[y * WIDTH + x];
const panel = ({ root }: Shown): HTMLElement => root.querySelector('.panel')!;
const kinds = ({ store }: Shown): string[] => store.plan.overrules.map(({ kind }) => kind);

async function inHand(partial = {}, picture?: () => Promise<Blob>): Promise<Shown> {
  const page = await shown({ controls: 'tools', view: 'masses' }, partial, { picture });
  page.viewer.takeUp('shapes');
  await until(() => page.root.querySelector('.tool-bar'), 'the tools');
  page.viewer.takeUp('shapes');
  await massesOf(page.store);
  await until(() => panel(page)?.querySelector('fieldset'), 'the panel');
  return page;
}

async function point(page: Shown, place: [number, number]): Promise<void> {
  button(panel(page), /^Point$/).click();
  const before = page.root.querySelector('.tool-mass path')?.getAttribute('d');
  await sendMouse({ type: 'click', position: onScreen(page, ...place) });
  await until(() => {
    const now = page.root.querySelector('.tool-mass path')?.getAttribute('d');
    return now !== undefined && now !== before;
  }, 'the shape in hand');
  await page.viewer.updateComplete;
}

async function draw(page: Shown, ...places: [number, number][]): Promise<void> {
  await sendMouse({ type: 'move', position: onScreen(page, ...places[0]) });
  await sendMouse({ type: 'down' });
  for (const place of places.slice(1))
    await sendMouse({ type: 'move', position: onScreen(page, ...place) });
  await sendMouse({ type: 'up' });
  await page.viewer.updateComplete;
}

function choose(page: Shown, label: RegExp, value: string): void {
  const found = [...panel(page).querySelectorAll('select')].find((each) =>
    label.test(each.getAttribute('aria-label') ?? textOf(each.closest('label'))),
  );
  if (!found) throw new Error(`nothing to choose: ${label.source}`);
  found.value = value;
  found.dispatchEvent(new Event('change', { bubbles: true }));
}

/** Does something that must be one step of undo; gives the masses that follow, and those after it was taken back and made again. */
async function oneStep(page: Shown, act: () => void | Promise<void>): Promise<MassWork> {
  const { store } = page;
  const before = store.plan;
  await act();
  await until(() => store.plan !== before, 'the change');
  const after = store.plan;
  store.undo();
  expect(store.plan, 'one step').to.equal(before);
  store.redo();
  expect(store.plan).to.equal(after);
  const work = await massesOf(store);
  await page.viewer.updateComplete;
  return work;
}

describe('shapes changed by hand', () => {
  before(async () => {
    document.documentElement.lang = 'en';
    await setViewport({ width: 1000, height: 900 });
  });
  afterEach(async () => {
    await resetMouse();
    clear();
  });

  it('a mass goes to another band, and one is joined with its neighbour', async () => {
    const page = await inHand();
    const first = await massesOf(page.store);
    const [dark, middle] = [DARK, MIDDLE].map((at) => first.masses.regions[regionAt(first, at)]);
    expect([dark.band, middle.band]).to.eql([0, 1]);
    await point(page, DARK);
    const moved = await oneStep(page, () => button(panel(page), /^middle$/).click());
    expect(kinds(page)).to.eql(['band']);
    // Two neighbours of one band are one mass.
    expect(moved.masses.regions[regionAt(moved, DARK)].band).to.equal(1);
    expect(regionAt(moved, DARK)).to.equal(regionAt(moved, MIDDLE));
    await oneStep(page, () => button(panel(page), /^dark$/).click());
    expect(kinds(page), 'the second word takes the place of the first').to.eql(['band']);
    page.store.undo();
    page.store.undo();
    await massesOf(page.store);
    await point(page, LIGHT);
    const join = /^Join with shape \d+, middle$/;
    const joined = await oneStep(page, () => button(panel(page), join).click());
    expect(kinds(page)).to.eql(['join']);
    expect(joined.masses.regions.length).to.equal(first.masses.regions.length - 1);
    expect(regionAt(joined, LIGHT)).to.equal(regionAt(joined, MIDDLE));
    expect(joined.masses.regions[regionAt(joined, MIDDLE)].band).to.equal(2);
  });

  it('a mass is cut across by a button, and along a line that is drawn', async () => {
    const page = await inHand();
    const first = await massesOf(page.store);
    await point(page, DARK);
    const cut = await oneStep(page, () => button(panel(page), /^Cut across$/).click());
    expect(cut.masses.regions.length).to.equal(first.masses.regions.length + 1);
    // 80 x 160 cut across its longer axis: the upper and the lower half.
    expect(regionAt(cut, [30, 20])).not.to.equal(regionAt(cut, [30, 140]));
    expect(regionAt(cut, [10, 20])).to.equal(regionAt(cut, [60, 20]));
    button(panel(page), /^Cut$/).click();
    await page.viewer.updateComplete;
    const twice = await oneStep(page, () => draw(page, [100, 20], [120, 21], [155, 20]));
    expect(kinds(page)).to.eql(['split', 'split']);
    expect(regionAt(twice, [130, 8])).not.to.equal(regionAt(twice, [130, 60]));
    expect(page.root.querySelectorAll('.stage .tool-line').length).to.be.greaterThan(0);
  });

  it('a line that is too short is refused in words', async () => {
    const page = await inHand();
    button(panel(page), /^Cut$/).click();
    const before = page.store.plan;
    await sendMouse({ type: 'click', position: onScreen(page, ...MIDDLE) });
    await until(() => textOf(panel(page)).includes('too short'), 'the word');
    expect(page.store.plan).to.equal(before);
    expect(await faultsOf(page)).to.eql([]);
  });

  it('a locked mass keeps its shape when limits move, an unlocked one does not', async () => {
    const page = await inHand();
    const first = await massesOf(page.store);
    const area = first.masses.regions[regionAt(first, MIDDLE)].area;
    await point(page, MIDDLE);
    await oneStep(page, () => button(panel(page), /^Keep as it is$/).click());
    page.store.change('limits', (now) => ({ ...now, photoLimits: [15, 86] }));
    const moved = await massesOf(page.store);
    const kept = moved.masses.regions[regionAt(moved, MIDDLE)];
    expect(kept.band).to.equal(1);
    expect(Math.abs(kept.area - area) / area).to.be.lessThan(0.03);
    await until(
      () => button(panel(page), /^Keep as it is$/).getAttribute('aria-pressed') === 'true',
      'the lock',
    );
    await oneStep(page, () => button(panel(page), /^Keep as it is$/).click());
    expect(kinds(page)).to.eql([]);
  });

  it('an edge is what the painter says', async () => {
    const page = await inHand();
    await point(page, LIGHT);
    const first = await massesOf(page.store);
    const pair = [MIDDLE, LIGHT].map((at) => regionAt(first, at));
    const kindOf = ({ edges }: MassWork): string =>
      edges.find(({ regions }) => pair.every((id) => regions.includes(id)))!.kind;
    expect(kindOf(first)).to.equal('hard');
    const lost = await oneStep(page, () => choose(page, /^Edge to shape \d+, middle$/, 'lost'));
    expect(kindOf(lost)).to.equal('lost');
    const soft = await oneStep(page, () => choose(page, /^Edge to shape \d+, middle$/, 'soft'));
    expect(kindOf(soft)).to.equal('soft');
    // The second word took the place of the first.
    expect(kinds(page)).to.eql(['edge']);
  });

  it('a light is left bare, tinted, masked or given up, and the sums follow', async () => {
    const page = await inHand();
    const first = await massesOf(page.store);
    const [disc, strip] = [DISC, STRIP].map((at) => regionAt(first, at));
    const methodOf = (work: MassWork, region: number): string | undefined =>
      work.advice.lights.find((each) => each.region === region && each.mark === undefined)?.method;
    // A disc 40 mm across is painted around with a stroke of 12 mm, a strip of 10 mm is not.
    expect([methodOf(first, disc), methodOf(first, strip)]).to.eql(['bare', 'mask']);
    const kept = first.masses.regions[disc].area + first.masses.regions[strip].area;
    const dot = first.marks.find(({ light }) => light)!;
    const whole = 240 * 160;
    expect(first.advice.bareShare).to.be.closeTo((kept + dot.area) / whole, 1e-9);
    await point(page, DISC);
    const tinted = await oneStep(page, () => choose(page, /^How its light is kept/, 'tint'));
    expect(methodOf(tinted, disc)).to.equal('tint');
    expect(tinted.advice.tintedShare).to.be.closeTo(first.masses.regions[disc].area / whole, 1e-9);
    const given = await oneStep(page, () => choose(page, /^How its light is kept/, 'paint'));
    expect(methodOf(given, disc)).to.equal('paint');
    expect(given.advice.tintedShare).to.equal(0);
    expect(kinds(page)).to.eql(['reserve']);
    // A middle is no light by itself; the painter may keep it all the same.
    await point(page, MIDDLE);
    const middle = await oneStep(page, () => choose(page, /^How its light is kept/, 'bare'));
    expect(methodOf(middle, regionAt(middle, MIDDLE))).to.equal('bare');
    expect(middle.masses.unmet ?? []).to.eql([]);
  });

  it('a mark is dropped and kept, and another is pinned', async () => {
    const page = await inHand();
    const first = await massesOf(page.store);
    expect(first.marks.map(({ light }) => light).sort()).to.eql([false, true]);
    const box = (): HTMLInputElement =>
      [...panel(page).querySelectorAll<HTMLInputElement>('input[type=checkbox]')].find((each) =>
        /^Light/.test(textOf(each.closest('label'))),
      )!;
    // 8 mm across, as it was drawn.
    expect(textOf(box().closest('label'))).to.match(/Light \d, (7\.\d|8|8\.\d) mm across/);
    const dropped = await oneStep(page, () => box().click());
    expect(dropped.marks.map(({ light }) => light)).to.eql([false]);
    const again = await oneStep(page, () => box().click());
    expect(again.marks.length).to.equal(2);
    expect(kinds(page)).to.eql(['mark']);
    button(panel(page), /^Mark$/).click();
    await page.viewer.updateComplete;
    const pinned = await oneStep(page, async () => {
      await sendMouse({ type: 'click', position: onScreen(page, 140, 30) });
    });
    expect(pinned.marks.length).to.equal(3);
    const pin = pinned.marks.find(({ x }) => Math.abs(x - 140) < 2)!;
    expect(pin.y).to.be.closeTo(30, 2);
  });

  it('a stroke is drawn from root to tip, and given by a button', async () => {
    const page = await inHand();
    button(panel(page), /^Stroke$/).click();
    await page.viewer.updateComplete;
    await oneStep(page, () => draw(page, [20, 120], [30, 100], [40, 80]));
    const [stroke] = page.store.plan.overrules as unknown as { from: number[]; to: number[] }[];
    expect(stroke.from[0] * 240).to.be.closeTo(20, 2);
    expect(stroke.to[1] * 160).to.be.closeTo(80, 2);
    await point(page, MIDDLE);
    await oneStep(page, () => button(panel(page), /^up$/).click());
    const up = page.store.plan.overrules[1] as unknown as { from: number[]; to: number[] };
    expect(up.from[0]).to.be.closeTo(up.to[0], 1e-9);
    expect(up.from[1]).to.be.greaterThan(up.to[1]);
  });

  it('a part is kept finer, by another brush, and taken out again', async () => {
    const page = await inHand();
    const first = await massesOf(page.store);
    expect(first.masses.regions[regionAt(first, [40, 40])].band).to.equal(0);
    button(panel(page), /^Finer part$/).click();
    await page.viewer.updateComplete;
    const finer = await oneStep(page, () =>
      draw(page, [20, 20], [60, 20], [60, 60], [20, 60], [20, 22]),
    );
    // Inside the loop the white dot of 8 mm is a shape of its own for the brush of 4 mm.
    expect(finer.masses.regions[regionAt(finer, [40, 40])].band).to.equal(3);
    expect(page.store.plan.focus![0].brush).to.equal(1);
    await oneStep(page, () => choose(page, /^Part 1, with/, '0'));
    const out = await oneStep(page, () => button(panel(page), /^Take out finer part 1$/).click());
    expect(out.masses.regions.length).to.equal(first.masses.regions.length);
    expect(page.store.plan.focus).to.equal(undefined);
  });

  it('the ground becomes paper, a wash or a dark, once there is a loop about the sitter', async () => {
    const page = await inHand();
    expect(textOf(panel(page))).to.contain('Draw a loop about the sitter first');
    page.store.change('sitter', (now) => ({
      ...now,
      sitter: [
        [0.02, 0.02],
        [0.66, 0.02],
        [0.66, 0.98],
        [0.02, 0.98],
      ],
    }));
    await massesOf(page.store);
    const radio = (word: RegExp): HTMLInputElement =>
      [...panel(page).querySelectorAll<HTMLInputElement>('input[type=radio]')].find((each) =>
        word.test(textOf(each.closest('label'))),
      )!;
    await until(() => radio(/^dark/), 'the choice');
    const dark = await oneStep(page, () => radio(/^dark/).click());
    expect(page.store.plan.background).to.equal('dark');
    expect(dark.masses.regions[regionAt(dark, LIGHT)].band).to.equal(0);
    await until(
      () => /L\* along the silhouette/.test(textOf(radio(/^dark/).closest('label'))),
      'its contrast',
    );
    const paper = await oneStep(page, () => radio(/^bare paper/).click());
    expect(paper.masses.regions[regionAt(paper, LIGHT)].band).to.equal(3);
    await oneStep(page, () => radio(/^as in the photo/).click());
    expect('background' in page.store.plan).to.equal(false);
    expect(await faultsOf(page)).to.eql([]);
  });

  it('changes that no longer fit are told in words, and can be taken out', async () => {
    const page = await inHand();
    await point(page, DISC);
    await oneStep(page, () => button(panel(page), /^light$/).click());
    page.store.change('limits', (now) => ({
      ...now,
      photoLimits: [36, 66],
      paperLimit: undefined,
    }));
    const moved = await massesOf(page.store);
    expect(moved.masses.unmet?.length).to.equal(1);
    await until(() => textOf(panel(page)).includes('It no longer fits here:'), 'the words');
    expect(textOf(panel(page))).not.to.match(/mass\.[a-z-]+|undefined|\{/);
    expect(await faultsOf(page)).to.eql([]);
    await oneStep(page, () => button(panel(page), /^Take out change 1$/).click());
    expect(kinds(page)).to.eql([]);
    expect(textOf(panel(page))).not.to.contain('It no longer fits');
  });

  it('goes through the shapes by keys, and Escape lets go', async () => {
    const page = await inHand();
    const { masses } = await massesOf(page.store);
    page.root.querySelector<HTMLElement>('.stage')!.focus();
    await sendKeys({ press: 'ArrowRight' });
    await until(
      () => textOf(panel(page)).includes(`Shape 1 of ${masses.regions.length}`),
      'the largest',
    );
    await sendKeys({ press: 'ArrowRight' });
    await until(() => textOf(panel(page)).includes('Shape 2 of'), 'the next');
    await sendKeys({ press: 'ArrowLeft' });
    await until(() => textOf(panel(page)).includes('Shape 1 of'), 'the largest again');
    expect(await faultsOf(page)).to.eql([]);
    await sendKeys({ press: 'Escape' });
    await until(() => textOf(panel(page)).includes('None yet'), 'letting go');
  });

  it('how two passages of a mass meet is what the painter says', async () => {
    const page = await inHand({}, coloured);
    await point(page, DARK);
    const details = (): HTMLDetailsElement => panel(page).querySelector('details')!;
    details().open = true;
    await until(() => /one lean throughout/.test(textOf(details())), 'the passages');
    await point(page, MIDDLE);
    await until(() => /beside/.test(textOf(details())), 'the border');
    const select = (): HTMLSelectElement => details().querySelector('select')!;
    // Green beside red, 80 mm of border: kept apart unless the painter lets them run.
    expect(textOf(details())).to.match(/(7\d|8\d)(\.\d)? mm of border/);
    expect(select().value).to.equal('keep-apart');
    expect(await faultsOf(page)).to.eql([]);
    await oneStep(page, () => choose(page, /^How .* meets/, 'let-run'));
    await until(() => select()?.value === 'let-run', 'the border as it was said');
    await oneStep(page, () => choose(page, /^How .* meets/, 'keep-apart'));
    await until(() => select()?.value === 'keep-apart', 'the second word');
    expect(kinds(page)).to.eql(['passage']);
    expect(textOf(panel(page))).to.contain('two passages: keep apart');
  });
});
