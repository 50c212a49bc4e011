/** The plan element: ties elements, undo, and the keeping of plan and photo. */
import { expect } from 'chai';
import { PaintingPlan } from '../../components/painting-plan/painting-plan.js';
import { PlanStorage } from '../../components/painting-plan/storage.js';
import { TonewellElement } from '../../components/shared/tonewell-element.js';
import { newPlan, withLimits, type Plan } from '../../core/index.js';

PaintingPlan.define();

class Listener extends TonewellElement {
  static override readonly tag = 'test-listener';
}
Listener.define();

let number = 0;
const freshName = (): string => `test ${Date.now()} ${++number}`;

async function photo(shade = 128): Promise<Blob> {
  const canvas = new OffscreenCanvas(60, 40);
  const context = canvas.getContext('2d')!;
  context.fillStyle = `rgb(${shade} ${shade} ${shade})`;
  context.fillRect(0, 0, 60, 40);
  context.fillStyle = '#000';
  context.fillRect(0, 0, 20, 40);
  context.fillStyle = '#fff';
  context.fillRect(40, 0, 20, 40);
  return canvas.convertToBlob({ type: 'image/png' });
}

async function until(holds: () => unknown, what = 'it'): Promise<void> {
  for (let i = 0; i < 400; i++) {
    if (holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

async function plan(name = '', inner = ''): Promise<PaintingPlan> {
  const host = document.createElement('div');
  host.innerHTML = `<painting-plan>${inner}</painting-plan>`;
  const element = host.querySelector('painting-plan')!;
  element.name = name;
  document.body.append(host);
  await element.store.settled;
  await element.updateComplete;
  return element;
}

describe('painting-plan', () => {
  afterEach(() => document.querySelectorAll('body > div').forEach((host) => host.remove()));

  it('ties elements inside it, elements that name it, and elements that get it as a property', async () => {
    const element = await plan('', '<test-listener></test-listener>');
    expect(element.querySelector<Listener>('test-listener')!.store).to.equal(element.store);
    element.id = 'the-plan';
    const named = document.createElement('test-listener') as Listener;
    named.setAttribute('plan', 'the-plan');
    element.parentElement!.append(named);
    await named.updateComplete;
    expect(named.store).to.equal(element.store);
    const given = document.createElement('test-listener') as Listener;
    given.plan = element;
    element.parentElement!.append(given);
    expect(given.store).to.equal(element.store);
    const alone = document.createElement('test-listener') as Listener;
    element.parentElement!.append(alone);
    expect(alone.store).not.to.equal(element.store);
  });

  it('ties an element that was there before the plan was', async () => {
    const host = document.createElement('div');
    document.body.append(host);
    const late = document.createElement('div');
    host.append(late);
    late.innerHTML = '<late-plan><test-listener></test-listener></late-plan>';
    const listener = late.querySelector<Listener>('test-listener')!;
    expect(listener.tied).to.equal(false);
    PaintingPlan.define('late-plan');
    const element = late.querySelector('late-plan') as PaintingPlan;
    expect(listener.store).to.equal(element.store);
  });

  it('takes a plan and its photo up again on return', async () => {
    const name = freshName();
    const first = await plan(name);
    await first.store.open(await photo(), { name: 'sitter.png' });
    await until(() => first.store.plan.photo, 'the photo to be kept');
    first.store.change('limits', (now) => withLimits(now, [20, 70]));
    first.store.change('title', (now) => ({ ...now, title: 'A clay dog' }));
    await first.save();
    first.parentElement!.remove();

    const second = await plan(name);
    expect(second.document.title).to.equal('A clay dog');
    expect(second.document.photoLimits).to.eql([20, 70]);
    await until(() => second.store.picture.status === 'ready', 'the photo');
    expect(second.store.picture.name).to.equal('sitter.png');
    expect(second.store.picture.handle!.width).to.equal(60);
    expect(second.document.photoLimits).to.eql([20, 70]);
  });

  it('proposes limits for a new photo and leaves the painter’s own alone', async () => {
    const element = await plan();
    await element.store.open(await photo());
    const { photoLimits } = element.document;
    // Three flat tones: black, grey 128 (L* 53.59) and white; the exact optimum parts them.
    expect(photoLimits[0]).to.be.within(0, 53.5);
    expect(photoLimits[1]).to.be.within(53.5, 100);
    element.store.change('limits', (now) => withLimits(now, [10, 90]));
    element.store.change('sitter', (now) => ({
      ...now,
      sitter: [
        [0, 0],
        [1, 0],
        [1, 1],
      ],
    }));
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(element.document.photoLimits).to.eql([10, 90]);
  });

  it('undoes one gesture as one step, and redoes it', async () => {
    const element = await plan();
    const before = element.document.photoLimits;
    for (const limit of [21, 22, 23])
      element.store.change('limits', (now) => withLimits(now, [limit, 70]), 'drag 1');
    element.undo();
    expect(element.document.photoLimits).to.eql(before);
    element.redo();
    expect(element.document.photoLimits).to.eql([23, 70]);
  });

  it('never overwrites silently what another page kept: the later one becomes a copy', async () => {
    const name = freshName();
    const one = await plan(name);
    const two = await plan(name);
    one.store.change('title', (now) => ({ ...now, title: 'one' }));
    await one.save();
    two.store.change('title', (now) => ({ ...now, title: 'two' }));
    const saved = new Promise<Event>((resolve) =>
      two.addEventListener('plan-saved', resolve, { once: true }),
    );
    await two.save();
    await saved;
    expect(two.name).to.equal(`${name} (2)`);
    const storage = new PlanStorage();
    expect((await storage.load(name))!.plan.title).to.equal('one');
    expect((await storage.load(`${name} (2)`))!.plan.title).to.equal('two');
    await until(() => two.shadowRoot!.querySelector('[role=alert]'), 'the sentence');
  });

  it('leaves a kept plan that it cannot read as it is', async () => {
    const name = freshName();
    const storage = new PlanStorage();
    await storage.save(name, newPlan({ title: 'precious' }), 0);
    await storage.close();
    const database = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('tonewell');
      opening.onsuccess = () => resolve(opening.result);
    });
    await new Promise((resolve) => {
      const work = database.transaction('plans', 'readwrite');
      work.objectStore('plans').put({ key: name, text: '{"schema": 99}', revision: 4, saved: 0 });
      work.oncomplete = resolve;
    });
    database.close();
    const element = await plan(name);
    await until(() => element.shadowRoot!.querySelector('[role=alert]'), 'the sentence');
    element.store.change('title', (now: Plan) => ({ ...now, title: 'new' }));
    await element.save();
    expect(element.name).to.equal(`${name} (2)`);
  });

  it('keeps working and says so when the browser has no room', async () => {
    const element = await plan(freshName());
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
    try {
      const failed = new Promise<ErrorEvent>((resolve) =>
        element.addEventListener('error', (event) => resolve(event as ErrorEvent), { once: true }),
      );
      element.store.change('title', (now) => ({ ...now, title: 'kept in hand' }));
      await element.save();
      expect((await failed).message).to.match(/no room left/);
    } finally {
      IDBObjectStore.prototype.put = put;
    }
    expect(element.document.title).to.equal('kept in hand');
    element.store.change('title', (now) => ({ ...now, title: 'kept again' }));
    await element.save();
    await until(() => !element.shadowRoot!.querySelector('[role=alert]'), 'the sentence to go');
  });

  it('keeps the picture in hand when another one cannot be opened', async () => {
    const element = await plan();
    await element.store.open(await photo(), { name: 'good.png' });
    element.store.change('title', (now) => ({ ...now, title: 'mine' }));
    expect(await element.store.open(new Blob(['broken']))).to.equal(false);
    const { picture } = element.store;
    expect([picture.status, picture.name, picture.error?.code]).to.eql([
      'ready',
      'good.png',
      'PictureUnreadable',
    ]);
    expect(element.document.title).to.equal('mine');
    expect((await element.store.run('tones', {})).plane.width).to.equal(60);
  });

  it('fires plan-change for what a person does, not for what the photo proposes', async () => {
    const element = await plan();
    const heard: string[] = [];
    element.addEventListener('plan-change', (event) => heard.push(event.what));
    await element.store.open(await photo());
    expect(heard).to.eql([]);
    element.store.change('limits', (now) => withLimits(now, [30, 60]));
    element.undo();
    expect(heard).to.eql(['limits', 'undo']);
  });
});
