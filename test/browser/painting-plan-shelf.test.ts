/** The plans on this device: the list, deleting and taking it back, two tabs, files, photos of one sitter, the brief. */
import { expect } from 'chai';
import type Axe from 'axe-core';
import 'axe-core';
import { PaintingPlan } from '../../components/painting-plan/painting-plan.js';
import { PlanStorage } from '../../components/painting-plan/storage.js';
import { newPlan, photosOf, serialisePlan, withLimits } from '../../core/index.js';

/** As a plain script axe puts itself on the page. */
const { axe } = globalThis as unknown as { axe: typeof Axe };

PaintingPlan.define();

let number = 0;
const freshName = (): string => `shelf ${Date.now()} ${++number}`;
const storage = new PlanStorage();

async function photo(shade = 128): Promise<File> {
  const canvas = new OffscreenCanvas(60, 40);
  const context = canvas.getContext('2d')!;
  context.fillStyle = `rgb(${shade} ${shade} ${shade})`;
  context.fillRect(0, 0, 60, 40);
  context.fillStyle = '#000';
  context.fillRect(0, 0, 20, 40);
  return new File([await canvas.convertToBlob()], `grey ${shade}.png`, { type: 'image/png' });
}

async function until<T>(holds: () => T, what = 'it'): Promise<NonNullable<T>> {
  for (let i = 0; i < 400; i++) {
    const held = holds();
    if (held) return held;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

async function plan(name: string): Promise<PaintingPlan> {
  const host = document.createElement('div');
  host.innerHTML = `<painting-plan></painting-plan>`;
  const element = host.querySelector('painting-plan')!;
  element.name = name;
  document.body.append(host);
  await element.store.settled;
  await element.updateComplete;
  return element;
}

async function titled(element: PaintingPlan, title: string): Promise<void> {
  element.store.change('title', (now) => ({ ...now, title }));
  await element.save();
}

const inside = <E extends HTMLElement>(element: PaintingPlan, selector: string): E[] => [
  ...element.shadowRoot!.querySelectorAll<E>(selector),
];

/** A button inside by the words that are read out. */
const button = (element: PaintingPlan, words: string | RegExp): HTMLButtonElement | undefined =>
  inside<HTMLButtonElement>(element, 'button').find((each) => {
    const said = each.getAttribute('aria-label') ?? each.textContent!.replace(/\s+/g, ' ').trim();
    return typeof words === 'string' ? said === words : words.test(said);
  });

async function press(element: PaintingPlan, words: string | RegExp): Promise<void> {
  const found = await until(() => button(element, words), `the button ${String(words)}`);
  found.click();
  await element.updateComplete;
}

async function open(element: PaintingPlan, panel: string): Promise<void> {
  inside(element, `#tab-${panel}`)[0].click();
  await until(() => inside(element, '.panel').length, 'the panel');
  await new Promise((resolve) => setTimeout(resolve, 100));
}

function give(input: HTMLInputElement, file: File): void {
  const transfer = new DataTransfer();
  transfer.items.add(file);
  input.files = transfer.files;
  input.dispatchEvent(new Event('change'));
}

/** Drops a file on the bar. */
function drop(element: PaintingPlan, file: File): void {
  const dataTransfer = new DataTransfer();
  dataTransfer.items.add(file);
  inside(element, '[part=bar]')[0].dispatchEvent(
    new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }),
  );
}

async function expectNoFaults(element: PaintingPlan, state: string): Promise<void> {
  const { violations } = await axe.run(element, { rules: { region: { enabled: false } } });
  expect(
    violations.map(({ id, nodes }) => `${state}: ${id} ${nodes[0].html.slice(0, 160)}`),
  ).to.eql([]);
}

describe('painting-plan: plans on this device', () => {
  beforeEach(async () => {
    // English without a region: lengths in centimetres.
    document.documentElement.lang = 'en';
    for (const { key } of await storage.list()) await storage.forget(key);
  });
  afterEach(() => document.querySelectorAll('body > div').forEach((host) => host.remove()));

  it('lists the plans, begins a new one, opens another and tells the page', async () => {
    const name = freshName();
    const element = await plan(name);
    await titled(element, 'Clay dog');
    const heard: string[] = [];
    element.addEventListener('plan-open', ({ key }) => heard.push(key));
    await open(element, 'shelf');
    await press(element, 'New plan');
    await until(() => element.name === `${name} (2)`, 'the new plan');
    expect(element.document.title).to.equal('');
    expect(element.getAttribute('name')).to.equal(`${name} (2)`);
    await titled(element, 'Jug');
    await press(element, /^Clay dog/);
    await until(() => element.name === name, 'the first plan');
    expect(element.document.title).to.equal('Clay dog');
    expect(heard).to.eql([`${name} (2)`, name]);
    expect(element.store.canUndo).to.equal(false);
  });

  it('takes up what was last in hand under the name that the page begins with', async () => {
    const name = freshName();
    const first = await plan(name);
    await titled(first, 'Clay dog');
    await open(first, 'shelf');
    await press(first, 'New plan');
    await until(() => first.name !== name, 'the new plan');
    await titled(first, 'Jug');
    first.parentElement!.remove();
    const again = await plan(name);
    expect(again.document.title).to.equal('Jug');
    expect(again.name).to.equal(`${name} (2)`);
  });

  it('takes up the plan that a page has remembered, whatever was in hand elsewhere', async () => {
    const name = freshName();
    const first = await plan(name);
    await titled(first, 'Clay dog');
    expect(await first.newPlan()).to.equal(true);
    await titled(first, 'Jug');
    const remembered = first.name;
    first.parentElement!.remove();
    const second = await plan(remembered);
    expect(second.document.title).to.equal('Jug');
    expect(await second.openPlan(name)).to.equal(true);
    second.parentElement!.remove();
    const third = await plan(name);
    expect(third.document.title).to.equal('Clay dog');
  });

  it('opens the plan that the page names', async () => {
    const [one, two] = [freshName(), freshName()];
    await storage.save(two, newPlan({ title: 'Second' }), 0);
    const element = await plan(one);
    await titled(element, 'First');
    element.name = two;
    await until(() => element.document.title === 'Second', 'the plan');
    const early = document.createElement('painting-plan');
    early.name = one;
    element.parentElement!.append(early);
    early.name = two;
    await until(() => early.document.title === 'Second', 'the plan named last');
    expect(early.name).to.equal(two);
    expect((await storage.load(one))!.plan.title).to.equal('First');
  });

  it('shows a small picture of each plan', async () => {
    const element = await plan(freshName());
    await element.store.open(await photo(), { name: 'grey.png' });
    await until(() => element.document.photo, 'the photo');
    await titled(element, 'With a picture');
    await new Promise((resolve) => setTimeout(resolve, 300));
    await open(element, 'shelf');
    const canvas = await until(() => inside<HTMLCanvasElement>(element, '.plan canvas')[0]);
    await until(() => canvas.width > 1, 'the drawing');
    expect(canvas.width / canvas.height).to.be.closeTo(60 / 40, 0.02);
    const [red] = canvas.getContext('2d')!.getImageData(2, 10, 1, 1).data;
    expect(red).to.be.lessThan(20);
  });

  it('duplicates a plan, photo and all, and leaves the one in hand in hand', async () => {
    const name = freshName();
    const element = await plan(name);
    await titled(element, 'Clay dog');
    await open(element, 'shelf');
    await press(element, 'Duplicate “Clay dog”');
    await until(() => button(element, /^Clay dog \(copy\)/), 'the copy');
    expect(element.name).to.equal(name);
    expect((await storage.load(`${name} (2)`))!.plan.title).to.equal('Clay dog (copy)');
  });

  it('begins a new plan where the browser keeps nothing, says so, and has the one before at hand', async () => {
    // As a browser does whose person forbids sites to keep anything (HTML: IDBFactory.open throws a SecurityError).
    const { open: opening } = IDBFactory.prototype;
    IDBFactory.prototype.open = () => {
      throw new DOMException('denied', 'SecurityError');
    };
    try {
      const element = await plan(freshName());
      await element.store.open(await photo(), { name: 'grey 128.png' });
      await titled(element, 'Clay dog');
      await open(element, 'shelf');
      const troubles = (): string[] =>
        inside(element, '[part=trouble]').map((each) =>
          each.textContent!.replace(/\s+/g, ' ').trim(),
        );
      await until(() => troubles().some((each) => /does not let the page keep/.test(each)));
      expect(inside(element, '.panel')[0].textContent).to.match(/Nothing can be kept/);
      await press(element, 'New plan');
      await until(() => element.document.title === '', 'the new plan');
      expect(element.store.picture.handle).to.equal(undefined);
      await until(() => inside(element, '[data-before]').length, 'the sentence');
      expect(troubles()).to.have.length(1);
      expect(troubles()[0]).to.match(
        /^Neither this plan nor the one before is kept here: save each/,
      );
      await expectNoFaults(element, 'nothing kept');
      await titled(element, 'Jug');
      expect(element.document.title).to.equal('Jug');
      expect(troubles()).to.have.length(1);
      // Back to the first with its photo, and to the second.
      await press(element, 'Take up the one before');
      await until(() => element.document.title === 'Clay dog', 'the first plan');
      await until(() => element.store.picture.exact, 'its photo');
      expect(element.store.picture.name).to.equal('grey 128.png');
      await press(element, 'Take up the one before');
      await until(() => element.document.title === 'Jug', 'the second plan');
      expect(element.store.picture.handle).to.equal(undefined);
      // What the browser keeps after all lies under a key of its own, and nothing false is said of it.
      IDBFactory.prototype.open = opening;
      await titled(element, 'Jug, kept');
      await until(() => /^Kept here/.test(inside(element, '.standing .soft')[0].textContent!));
      expect((await storage.list()).map(({ title }) => title)).to.eql(['Jug, kept']);
      expect(troubles().join()).not.to.match(/Another page/);
    } finally {
      IDBFactory.prototype.open = opening;
    }
  });

  it('deletes a plan, takes that back, and forgets it with its photo once the list is closed', async () => {
    const name = freshName();
    const element = await plan(name);
    await element.store.open(await photo(77), { name: 'grey.png' });
    const { sha256 } = await until(() => element.document.photo, 'the photo');
    await titled(element, 'Clay dog');
    await open(element, 'shelf');
    await press(element, 'New plan');
    await until(() => element.name !== name, 'the new plan');
    expect(element.store.picture.status).to.equal('empty');
    await press(element, 'Delete “Clay dog”');
    const undo = await until(() => inside<HTMLButtonElement>(element, '[data-back]')[0], 'Undo');
    await until(() => element.shadowRoot!.activeElement === undo, 'the focus on Undo');
    expect(await storage.load(name)).to.equal(undefined);
    undo.click();
    await until(() => button(element, /^Clay dog/), 'the plan to be back');
    expect((await storage.load(name))!.plan.title).to.equal('Clay dog');

    await press(element, 'Delete “Clay dog”');
    await until(() => inside(element, '[data-back]').length, 'Undo');
    await press(element, 'Close');
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(await storage.revision(name)).to.equal(0);
    expect(await storage.photo(sha256)).to.equal(undefined);
  });

  it('puts another plan in hand when the one in hand is deleted', async () => {
    const name = freshName();
    const element = await plan(name);
    await titled(element, 'Only one');
    await open(element, 'shelf');
    await press(element, 'Delete “Only one”');
    await until(() => inside(element, '[data-back]').length, 'Undo');
    expect(element.document.title).to.equal('');
    expect(element.name).not.to.equal(name);
  });

  it('keeps a plan that was deleted in one tab while it is changed in another', async () => {
    const name = freshName();
    const one = await plan(name);
    await titled(one, 'Shared');
    const two = await plan(name);
    await storage.putAside(name);
    await titled(two, 'Still painted on');
    expect(two.name).not.to.equal(name);
    expect((await storage.load(two.name))!.plan.title).to.equal('Still painted on');
  });

  it('lists a plan that cannot be read, says so when it is opened, and leaves it', async () => {
    const name = freshName();
    const element = await plan(name);
    await titled(element, 'Mine');
    const broken = `${name} broken`;
    await storage.save(broken, newPlan({ title: 'Broken' }), 0);
    const database = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('tonewell');
      opening.onsuccess = () => resolve(opening.result);
    });
    await new Promise((resolve) => {
      const work = database.transaction('plans', 'readwrite');
      work.objectStore('plans').put({ key: broken, text: 12, revision: 1, saved: 'x', title: {} });
      work.objectStore('plans').put({ key: `${name} odd` });
      work.oncomplete = resolve;
    });
    database.close();
    await open(element, 'shelf');
    const odd = inside<HTMLButtonElement>(element, '.face').find(
      ({ dataset }) => dataset.key === broken,
    )!;
    odd.click();
    const alert = await until(() => inside(element, '[role=alert]')[0], 'the sentence');
    expect(alert.textContent).to.match(/could not be read. It is left as it is/);
    expect(element.document.title).to.equal('Mine');
    expect(element.name).to.equal(name);
  });
});

describe('painting-plan: two tabs', () => {
  afterEach(() => document.querySelectorAll('body > div').forEach((host) => host.remove()));

  async function both(): Promise<[PaintingPlan, PaintingPlan, string]> {
    const name = freshName();
    const one = await plan(name);
    await titled(one, 'begun');
    const two = await plan(name);
    await titled(one, 'of the first tab');
    await until(() => button(two, 'Take up the other'), 'the offer');
    return [one, two, name];
  }

  it('offers at once what the other has kept, and takes it up', async () => {
    const [, two, name] = await both();
    await press(two, 'Take up the other');
    await until(() => two.document.title === 'of the first tab', 'the title');
    expect(two.name).to.equal(name);
    expect(button(two, 'Take up the other')).to.equal(undefined);
    await titled(two, 'further');
    expect(two.name, 'no copy is needed now').to.equal(name);
  });

  it('keeps what is in hand as a copy when that is chosen', async () => {
    const [, two, name] = await both();
    await press(two, 'Keep mine as a copy');
    await until(() => two.name === `${name} (2)`, 'the copy');
    expect((await storage.load(name))!.plan.title).to.equal('of the first tab');
    expect((await storage.load(`${name} (2)`))!.plan.title).to.equal('begun');
  });

  it('makes a copy by itself when neither was chosen and painting goes on', async () => {
    const [, two, name] = await both();
    await titled(two, 'went on');
    expect(two.name).to.equal(`${name} (2)`);
    expect((await storage.load(name))!.plan.title).to.equal('of the first tab');
    await expectNoFaults(two, 'copy');
  });
});

describe('painting-plan: files', () => {
  afterEach(() => document.querySelectorAll('body > div').forEach((host) => host.remove()));

  const fileOf = (text: string, name = 'a.json'): File => new File([text], name);

  it('takes a plan file up beside the plan in hand', async () => {
    const name = freshName();
    const element = await plan(name);
    await titled(element, 'Mine');
    drop(element, fileOf(serialisePlan(newPlan({ title: 'From a file' }))));
    await until(() => element.document.title === 'From a file', 'the plan');
    expect(element.name).to.equal(`${name} (2)`);
    expect((await storage.load(name))!.plan.title).to.equal('Mine');
    await expectNoFaults(element, 'taken up');
  });

  it('brings back a plan with its photo through one file', async () => {
    const element = await plan(freshName());
    await element.store.open(await photo(50), { name: 'grey 50.png' });
    await until(() => element.document.photo, 'the photo');
    await titled(element, 'Round trip');
    element.store.change('limits', (now) => withLimits(now, [12, 34]));
    await open(element, 'file');
    // The link that is clicked is caught before the browser downloads anything.
    const links: HTMLAnchorElement[] = [];
    const { createElement } = document;
    document.createElement = (tag: string) => {
      const made = createElement.call(document, tag);
      if (made instanceof HTMLAnchorElement) {
        links.push(made);
        made.addEventListener('click', (event) => event.preventDefault());
      }
      return made;
    };
    try {
      await press(element, 'Save the file');
      await until(() => links[0]?.download, 'the file');
    } finally {
      document.createElement = createElement;
    }
    const [{ download, href }] = links;
    expect(download).to.equal('Round trip.tonewell.zip');
    const file = new File([await (await fetch(href)).blob()], download);
    element.parentElement!.remove();
    for (const { key } of await storage.list()) await storage.forget(key);

    const other = await plan(freshName());
    await open(other, 'shelf');
    give(inside<HTMLInputElement>(other, '.panel input[type=file]')[0], file);
    await until(() => other.document.title === 'Round trip', 'the plan');
    await until(() => other.store.picture.status === 'ready', 'the photo');
    expect(other.document.photoLimits).to.eql([12, 34]);
    expect(other.store.picture.name).to.equal('grey 50.png');
  });

  it('refuses a hostile file with its faults, five at most, and leaves the plan in hand', async () => {
    const name = freshName();
    const element = await plan(name);
    await titled(element, 'Mine');
    const markup = '<img src=x onerror="window.hurt = true">';
    const hostile = { ...newPlan(), title: 5, notes: 5, paper: {}, brushes: 5, [markup]: 1 };
    drop(element, fileOf(JSON.stringify(hostile)));
    const alert = await until(() => inside(element, '[role=alert]')[0], 'the sentence');
    expect(alert.textContent).to.match(/was not taken up; the plan in hand is as it was/);
    expect(alert.querySelectorAll('li').length).to.equal(6);
    expect(alert.querySelector('li:last-child')!.textContent).to.match(/more fault/);
    expect(alert.querySelector('img')).to.equal(null);
    expect(element.document.title).to.equal('Mine');
    expect(element.name).to.equal(name);
    await expectNoFaults(element, 'refused');
  });

  it('shows markup in titles as text', async () => {
    const element = await plan(freshName());
    const title = '<img src=x onerror="window.hurt = true">';
    drop(element, fileOf(serialisePlan(newPlan({ title }))));
    await until(() => element.document.title === title, 'the plan');
    await open(element, 'shelf');
    await until(() => inside(element, '.plan').length, 'the list');
    expect(inside(element, 'img')).to.eql([]);
    expect((globalThis as { hurt?: boolean }).hurt).to.equal(undefined);
  });

  it('takes a file up in place, as a step of undo, where nothing is kept', async () => {
    const element = await plan('');
    await titled(element, 'Mine');
    drop(element, fileOf(serialisePlan(newPlan({ title: 'From a file' }))));
    await until(() => element.document.title === 'From a file', 'the plan');
    element.undo();
    expect(element.document.title).to.equal('Mine');
  });

  it('stays with the plan in hand, and lets it be saved as a file, when there is no room', async () => {
    const element = await plan(freshName());
    await titled(element, 'Mine');
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
    try {
      drop(element, fileOf(serialisePlan(newPlan({ title: 'From a file' }))));
      const alert = await until(() => inside(element, '[role=alert]')[0], 'the sentence');
      // WebKit does not tell a page in a private window how much room there is.
      const told =
        'estimate' in (navigator.storage ?? {}) ? / \(\d[\d,]* MB of [\d,]+ MB are used\)/ : /,/;
      expect(alert.textContent).to.match(new RegExp(`no room left${told.source}`));
      expect(button(element, 'Save the plan as a file')).not.to.equal(undefined);
      await expectNoFaults(element, 'no room');
    } finally {
      IDBObjectStore.prototype.put = put;
    }
    expect(element.document.title).to.equal('Mine');
  });

  it('says so, and changes nothing, when the plans were kept by a later edition', async () => {
    const { open: openDatabase } = IDBFactory.prototype;
    IDBFactory.prototype.open = () => {
      throw new DOMException('newer', 'VersionError');
    };
    try {
      const element = await plan(freshName());
      const alert = await until(() => inside(element, '[role=alert]')[0], 'the sentence');
      expect(alert.textContent).to.match(/kept by a later edition/);
      await titled(element, 'Usable');
      expect(element.document.title).to.equal('Usable');
    } finally {
      IDBFactory.prototype.open = openDatabase;
    }
  });
});

describe('painting-plan: undo, photos, brief', () => {
  afterEach(() => document.querySelectorAll('body > div').forEach((host) => host.remove()));

  it('says what undo and redo would take back or make again', async () => {
    const element = await plan('');
    expect(button(element, 'Undo')!.disabled).to.equal(true);
    element.store.change('limits', (now) => withLimits(now, [20, 70]));
    await element.updateComplete;
    await press(element, 'Undo: limits');
    expect(button(element, 'Redo: limits')!.disabled).to.equal(false);
    element.store.change('something of a page', (now) => ({ ...now, title: 'x' }));
    await element.updateComplete;
    expect(button(element, 'Undo: the last change')).not.to.equal(undefined);
  });

  it('undoes and redoes by keyboard, and leaves fields with text their own', async () => {
    const element = await plan('');
    await titled(element, 'a');
    const key = (init: KeyboardEventInit, target: Element = element): void => {
      target.dispatchEvent(
        new KeyboardEvent('keydown', { bubbles: true, composed: true, cancelable: true, ...init }),
      );
    };
    key({ key: 'z', ctrlKey: true });
    expect(element.document.title).to.equal('');
    key({ key: 'Z', metaKey: true, shiftKey: true });
    expect(element.document.title).to.equal('a');
    key({ key: 'z', metaKey: true });
    key({ key: 'y', ctrlKey: true });
    expect(element.document.title).to.equal('a');
    key({ key: 'z', ctrlKey: true }, inside(element, '.title')[0]);
    expect(element.document.title).to.equal('a');
  });

  it('keeps several photos of one sitter, lets another lead, and takes that back', async () => {
    const element = await plan(freshName());
    await element.store.open(await photo(128), { name: 'first.png' });
    const first = await until(() => element.document.photo, 'the photo');
    element.store.change('crop', (now) => ({
      ...now,
      crop: { x: 0, y: 0, width: 0.5, height: 1 },
    }));
    await open(element, 'photos');
    give(inside<HTMLInputElement>(element, '.panel input[type=file]')[0], await photo(30));
    await until(() => element.document.photos?.length === 1, 'the second photo');
    const [, second] = photosOf(element.document);
    await press(element, 'Let it lead: “grey 30.png”');
    await until(
      () => element.store.picture.name === 'grey 30.png' && element.store.picture.exact,
      'the second photo in hand',
    );
    expect(element.document.photo!.sha256).to.equal(second.sha256);
    expect(element.document.crop).to.equal(undefined);
    await expectNoFaults(element, 'photos');
    element.undo();
    expect(element.document.photo!.sha256).to.equal(first.sha256);
    expect(element.document.crop!.width).to.equal(0.5);
    await until(() => element.store.picture.name === 'first.png', 'the first photo in hand');
    await press(element, 'Take out “grey 30.png”');
    expect(photosOf(element.document).map(({ sha256 }) => sha256)).to.eql([first.sha256]);
    element.undo();
    expect(photosOf(element.document)).to.have.length(2);
  });

  it('says that a photo is not on this device, and takes its file', async () => {
    const name = freshName();
    const file = await photo(99);
    const element = await plan(name);
    await element.store.open(file, { name: 'lost.png' });
    const { sha256 } = await until(() => element.document.photo, 'the photo');
    await element.save();
    element.parentElement!.remove();
    const database = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('tonewell');
      opening.onsuccess = () => resolve(opening.result);
    });
    await new Promise((resolve) => {
      const work = database.transaction('photos', 'readwrite');
      work.objectStore('photos').delete(sha256);
      work.oncomplete = resolve;
    });
    database.close();

    const again = await plan(name);
    const alert = await until(() => inside(again, '[role=alert]')[0], 'the sentence');
    expect(alert.textContent).to.match(/“lost.png” is not on this device/);
    await open(again, 'photos');
    const input = (): HTMLInputElement =>
      inside<HTMLInputElement>(again, '.photo input[type=file]')[0];
    give(input(), await photo(98));
    await until(() => /another photo/.test(inside(again, '[role=alert]')[0]?.textContent ?? ''));
    give(input(), file);
    await until(() => again.store.picture.status === 'ready', 'the photo');
    expect(inside(again, '[role=alert]')).to.eql([]);
  });

  it('keeps the brief, each field one step', async () => {
    const element = await plan('');
    await open(element, 'brief');
    const set = (field: HTMLInputElement | HTMLSelectElement, value: string): void => {
      field.value = value;
      field.dispatchEvent(new Event('change'));
    };
    set(inside<HTMLInputElement>(element, '[aria-label="Width, cm"]')[0], '30.5');
    set(inside<HTMLInputElement>(element, 'input[type=date]')[0], '2026-12-20');
    set(inside<HTMLSelectElement>(element, 'select')[0], 'given');
    const text = inside<HTMLInputElement>(element, '.panel form input')[0];
    text.value = 'Nick in the right ear';
    text.dispatchEvent(new Event('input'));
    inside<HTMLFormElement>(element, '.panel form')[0].requestSubmit();
    await element.updateComplete;
    const { brief } = element.document;
    expect([brief!.widthMm, brief!.deadline, brief!.permission]).to.eql([
      305,
      '2026-12-20',
      'given',
    ]);
    expect(brief!.markings!.map((each) => each.text)).to.eql(['Nick in the right ear']);
    inside<HTMLInputElement>(element, '.marking input')[0].click();
    expect(element.document.brief!.markings![0].done).to.equal(true);
    await expectNoFaults(element, 'brief');
    for (let i = 0; i < 5; i++) element.undo();
    expect(element.document.brief).to.equal(undefined);
    expect(element.store.canUndo).to.equal(false);
  });

  it('is free of faults of access with each panel open, and closes one by Escape', async () => {
    const element = await plan(freshName());
    await titled(element, 'Clay dog');
    await expectNoFaults(element, 'closed');
    for (const panel of ['shelf', 'photos', 'brief', 'file']) {
      await open(element, panel);
      await expectNoFaults(element, panel);
      inside(element, '.panel')[0].dispatchEvent(
        new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }),
      );
      await until(() => !inside(element, '.panel').length, 'the panel to close');
      await until(() => element.shadowRoot!.activeElement?.id === `tab-${panel}`, 'the focus');
    }
  });
});
