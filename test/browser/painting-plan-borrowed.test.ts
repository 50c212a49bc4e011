/** Details borrowed from photos that do not lead: written down, placed by pointer and by keys, deleted, taken back. */
import { expect } from 'chai';
import type Axe from 'axe-core';
import 'axe-core';
import { sendKeys } from '@web/test-runner-commands';
import { PaintingPlan } from '../../components/painting-plan/painting-plan.js';
import {
  parsePlan,
  serialisePlan,
  withPhotoRemoved,
  type BorrowedDetail,
} from '../../core/index.js';

/** As a plain script axe puts itself on the page. */
const { axe } = globalThis as unknown as { axe: typeof Axe };

PaintingPlan.define();

let number = 0;

/** A picture of 60 x 40, or of another size, darker on the left. */
async function photo(shade: number, width = 60, height = 40): Promise<File> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = `rgb(${shade} ${shade} ${shade})`;
  context.fillRect(0, 0, width, height);
  context.fillStyle = '#000';
  context.fillRect(0, 0, width / 3, height);
  return new File([await canvas.convertToBlob()], `grey ${shade}.png`, { type: 'image/png' });
}

async function until<T>(holds: () => T, what: string): Promise<NonNullable<T>> {
  for (let i = 0; i < 400; i++) {
    const held = holds();
    if (held) return held;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

const inside = <E extends Element = HTMLElement>(element: PaintingPlan, selector: string): E[] => [
  ...element.shadowRoot!.querySelectorAll<E>(selector),
];
const borrowed = (element: PaintingPlan): readonly BorrowedDetail[] =>
  element.document.borrowed ?? [];
const focused = (element: PaintingPlan): Element | null => element.shadowRoot!.activeElement;

/** A plan with a leading photo and another one of the same sitter, its photos shown. */
async function desk(): Promise<PaintingPlan> {
  const host = document.createElement('div');
  host.innerHTML = '<painting-plan></painting-plan>';
  const element = host.querySelector('painting-plan')!;
  element.name = `borrowed ${Date.now()} ${++number}`;
  document.body.append(host);
  await element.store.settled;
  await element.store.open(await photo(128), { name: 'first.png' });
  await until(() => element.document.photo, 'the photo');
  await element.updateComplete;
  inside(element, '#tab-photos')[0].click();
  const input = await until(
    () => inside<HTMLInputElement>(element, '.panel > .row input[type=file]')[0],
    'the field for a photo',
  );
  const transfer = new DataTransfer();
  transfer.items.add(await photo(30));
  input.files = transfer.files;
  input.dispatchEvent(new Event('change'));
  await until(() => element.document.photos?.length === 1, 'the second photo');
  // A detail can be placed once the photo's file is at hand.
  await until(() => inside(element, '.photo canvas').length === 2, 'both pictures');
  await until(() => inside(element, '.more input')[0], 'the field for a detail');
  return element;
}

async function borrow(element: PaintingPlan, note: string): Promise<BorrowedDetail> {
  const before = borrowed(element).length;
  const field = inside<HTMLInputElement>(element, '.more input')[0];
  field.value = note;
  field.dispatchEvent(new Event('input'));
  inside<HTMLFormElement>(element, '.more')[0].requestSubmit();
  await until(() => borrowed(element).length === before + 1, 'the detail');
  await until(() => inside(element, '.plate canvas')[0], 'the picture');
  await until(() => focused(element)?.matches('.place'), 'the focus on its place');
  return borrowed(element)[before];
}

/** Presses on the picture, moves, and lets go; places are fractions of it. */
function drag(element: PaintingPlan, ...way: readonly (readonly [number, number])[]): void {
  const [plate] = inside(element, '.plate');
  const { left, top, width, height } = plate.getBoundingClientRect();
  const fire = (type: string, [x, y]: readonly [number, number]): boolean => {
    const event = new PointerEvent(type, {
      pointerId: 7,
      pointerType: 'touch',
      bubbles: true,
      cancelable: true,
    });
    // As plain properties, since WebKit cuts what it is told to whole pixels.
    Object.defineProperty(event, 'clientX', { value: left + x * width });
    Object.defineProperty(event, 'clientY', { value: top + y * height });
    return plate.dispatchEvent(event);
  };
  fire('pointerdown', way[0]);
  for (const at of way.slice(1)) fire('pointermove', at);
  fire('pointerup', way[way.length - 1]);
}

const press = (target: Element, key: string, shiftKey = false): boolean =>
  target.dispatchEvent(
    new KeyboardEvent('keydown', {
      key,
      shiftKey,
      bubbles: true,
      composed: true,
      cancelable: true,
    }),
  );

function close(at: readonly number[], x: number, y: number): void {
  expect(at[0]).to.be.closeTo(x, 0.005);
  expect(at[1]).to.be.closeTo(y, 0.005);
}

async function undo(element: PaintingPlan, what: string): Promise<void> {
  await element.updateComplete;
  const button = inside(element, `[aria-label="Undo: ${what}"]`)[0];
  expect(button, what).not.to.equal(undefined);
  button.click();
  await element.updateComplete;
}

async function expectNoFaults(element: PaintingPlan, state: string): Promise<void> {
  const { violations } = await axe.run(element, {
    rules: { region: { enabled: false }, 'target-size': { enabled: true } },
  });
  expect(
    violations.map(({ id, nodes }) => `${state}: ${id} ${nodes[0].html.slice(0, 160)}`),
  ).to.eql([]);
}

describe('painting-plan: details borrowed from other photos', () => {
  beforeEach(() => (document.documentElement.lang = 'en'));
  afterEach(() => document.querySelectorAll('body > div').forEach((host) => host.remove()));

  it('are asked for under each photo that does not lead', async () => {
    const element = await desk();
    const photos = inside(element, '.photo');
    expect(photos.map((each) => each.querySelectorAll('.more').length)).to.eql([0, 1]);
    expect(photos[1].textContent).to.match(/Borrowed from this photo/);
    expect(inside(element, '.plate')).to.eql([]);
    await expectNoFaults(element, 'none borrowed');
  });

  it('are added in the middle with the focus on their place, in a plan that can be read again', async () => {
    const element = await desk();
    const detail = await borrow(element, '  The left ear ');
    expect(detail).to.deep.include({
      photo: element.document.photos![0].sha256,
      note: 'The left ear',
      at: [0.5, 0.5],
    });
    expect(inside<HTMLInputElement>(element, '.more input')[0].value).to.equal('');
    expect(inside<SVGElement>(element, '.rings circle.over')).to.have.length(1);
    expect(inside<SVGElement>(element, '.rings text')[0].textContent).to.equal('1');
    const read = parsePlan(serialisePlan(element.document));
    expect(read.borrowed).to.eql([detail]);
    await undo(element, 'detail borrowed');
    expect(element.document).not.to.have.property('borrowed');
  });

  it('are not added without words', async () => {
    const element = await desk();
    const plan = element.document;
    const field = inside<HTMLInputElement>(element, '.more input')[0];
    field.value = '   ';
    field.dispatchEvent(new Event('input'));
    inside<HTMLFormElement>(element, '.more')[0].requestSubmit();
    await element.updateComplete;
    expect(element.document).to.equal(plan);
    expect(focused(element)).to.equal(field);
  });

  it('are placed by a press, dragged as one step, and kept inside the picture', async () => {
    const element = await desk();
    await borrow(element, 'The left ear');
    drag(element, [0.2, 0.25]);
    close(borrowed(element)[0].at, 0.2, 0.25);
    await until(
      () => /The left ear: 20 % from the left, 25 % from the top/.test(spoken(element)),
      'the sentence',
    );
    // Taken a little beside its middle, it does not jump there.
    drag(element, [0.22, 0.25], [0.5, 0.5], [0.62, 0.75]);
    close(borrowed(element)[0].at, 0.6, 0.75);
    drag(element, [0.6, 0.75], [3, -2]);
    expect(borrowed(element)[0].at).to.eql([1, 0]);
    await undo(element, 'detail placed');
    close(borrowed(element)[0].at, 0.6, 0.75);
    await undo(element, 'detail placed');
    close(borrowed(element)[0].at, 0.2, 0.25);
    await undo(element, 'detail placed');
    expect(borrowed(element)[0].at).to.eql([0.5, 0.5]);
  });

  it('are chosen one of several: by its row, or by a press on its ring', async () => {
    const element = await desk();
    await borrow(element, 'The left ear');
    drag(element, [0.1, 0.2]);
    await borrow(element, 'The muzzle');
    drag(element, [0.9, 0.8]);
    close(borrowed(element)[0].at, 0.1, 0.2);
    close(borrowed(element)[1].at, 0.9, 0.8);
    drag(element, [0.1, 0.2], [0.1, 0.6]);
    close(borrowed(element)[0].at, 0.1, 0.6);
    expect(focused(element)).to.equal(inside(element, '.place')[0]);
    inside(element, '.place')[1].focus();
    drag(element, [0.5, 0.1]);
    close(borrowed(element)[1].at, 0.5, 0.1);
    await element.updateComplete;
    expect(inside(element, '.place').map((each) => each.className)).to.eql([
      'place',
      'place chosen',
    ]);
    expect(inside<SVGElement>(element, '.rings text').map((each) => each.textContent)).to.eql([
      '1',
      '2',
    ]);
    await expectNoFaults(element, 'two borrowed');
  });

  it('are placed by arrow keys, pressed in one go as one step', async () => {
    const element = await desk();
    await borrow(element, 'The left ear');
    const place = inside(element, '.place')[0];
    for (let i = 0; i < 3; i++) press(place, 'ArrowRight');
    press(place, 'ArrowUp', true);
    expect(borrowed(element)[0].at).to.eql([0.53, 0.4]);
    await element.updateComplete;
    expect(place.getAttribute('aria-valuetext')).to.equal('53 % from the left, 40 % from the top');
    for (let i = 0; i < 12; i++) press(place, 'ArrowLeft', true);
    expect(borrowed(element)[0].at).to.eql([0, 0.4]);
    await undo(element, 'detail placed');
    expect(borrowed(element)[0].at).to.eql([0.5, 0.5]);
  });

  it('have words that can be changed, but not emptied', async () => {
    const element = await desk();
    await borrow(element, 'The left ear');
    const field = inside<HTMLInputElement>(element, '.detail input')[0];
    const write = (words: string): void => {
      field.value = words;
      field.dispatchEvent(new Event('change'));
    };
    write('The right ear ');
    expect(borrowed(element)[0].note).to.equal('The right ear');
    write('  ');
    expect(borrowed(element)[0].note).to.equal('The right ear');
    expect(field.value).to.equal('The right ear');
    await undo(element, 'note on a detail');
    expect(borrowed(element)[0].note).to.equal('The left ear');
    expect(field.value).to.equal('The left ear');
  });

  it('are deleted one by one, the focus going on to the next, then to the field', async () => {
    const element = await desk();
    await borrow(element, 'The left ear');
    await borrow(element, 'The muzzle');
    inside(element, '[aria-label="Delete “The left ear”"]')[0].click();
    await until(
      () => focused(element)?.getAttribute('aria-label') === 'Delete “The muzzle”',
      'the focus on the next',
    );
    expect(borrowed(element).map(({ note }) => note)).to.eql(['The muzzle']);
    (focused(element) as HTMLElement).click();
    await until(() => focused(element)?.matches('.more input'), 'the focus on the field');
    expect(element.document).not.to.have.property('borrowed');
    await undo(element, 'detail deleted');
    await undo(element, 'detail deleted');
    expect(borrowed(element).map(({ note }) => note)).to.eql(['The left ear', 'The muzzle']);
  });

  it('go with their photo, and come back with it', async () => {
    const element = await desk();
    const detail = await borrow(element, 'The left ear');
    inside(element, '[aria-label="Take out “grey 30.png”"]')[0].click();
    await element.updateComplete;
    expect(element.document).not.to.have.property('borrowed');
    await undo(element, 'photo taken out');
    expect(borrowed(element)).to.eql([detail]);
    expect(withPhotoRemoved(element.document, detail.photo)).not.to.have.property('borrowed');
  });

  it('stay in sight when their photo comes to lead', async () => {
    const element = await desk();
    await borrow(element, 'The left ear');
    inside(element, '[aria-label="Let it lead: “grey 30.png”"]')[0].click();
    await until(() => inside(element, '.photo')[0]?.querySelector('.detail'), 'the detail');
    expect(inside(element, '.photo')[0].querySelector('.more')).to.equal(null);
    await until(() => element.store.picture.name === 'grey 30.png', 'the photo in hand');
  });

  it('can be noted where the file of their photo is not on this device, without a place', async () => {
    const element = await desk();
    const other = { sha256: 'ef'.repeat(32), name: 'away.png', width: 30, height: 90 };
    element.store.change('add-photo', (plan) => ({ ...plan, photos: [...plan.photos!, other] }));
    await element.updateComplete;
    const away = inside(element, `[data-of="${other.sha256}"]`)[0];
    const field = away.querySelector<HTMLInputElement>('.more input')!;
    field.value = 'The collar';
    field.dispatchEvent(new Event('input'));
    away.querySelector<HTMLFormElement>('.more')!.requestSubmit();
    await element.updateComplete;
    expect(borrowed(element)[0]).to.deep.include({ photo: other.sha256, note: 'The collar' });
    expect(away.querySelectorAll('.place, .plate')).to.have.length(0);
    await expectNoFaults(element, 'no file');
  });

  it('fit a phone, each target 44 px under a finger', async () => {
    const element = await desk();
    element.parentElement!.style.inlineSize = '344px';
    element.style.setProperty('--tonewell-target', '44px'); // as the kit sets it for coarse pointers
    await borrow(element, 'The left ear, with the light behind it, and all of its whiskers');
    const { right } = element.getBoundingClientRect();
    for (const each of inside(element, '.borrowed .place, .borrowed button, .borrowed input')) {
      const box = each.getBoundingClientRect();
      expect(Math.min(box.width, box.height), each.className).to.be.at.least(44);
      expect(box.right, each.className).to.be.at.most(right);
    }
    expect(element.scrollWidth).to.be.at.most(344);
    await expectNoFaults(element, 'phone');
  });

  it('are borrowed, placed, renamed and deleted by keyboard alone, markup in words being text', async () => {
    const element = await desk();
    inside(element, '.more input')[0].focus();
    await sendKeys({ type: '<img src=x>' });
    await sendKeys({ press: 'Enter' });
    await until(() => focused(element)?.matches('.place'), 'the focus on the place');
    await sendKeys({ press: 'ArrowDown' });
    await sendKeys({ down: 'Shift' });
    await sendKeys({ press: 'ArrowRight' });
    await sendKeys({ up: 'Shift' });
    expect(borrowed(element)[0].at).to.eql([0.6, 0.51]);
    expect(inside(element, '.borrowed img')).to.eql([]);
    await sendKeys({ press: 'Tab' });
    expect(focused(element)?.matches('.detail input')).to.equal(true);
    (focused(element) as HTMLInputElement).select();
    await sendKeys({ type: 'The nose' });
    await sendKeys({ press: 'Tab' });
    expect(borrowed(element)[0].note).to.equal('The nose');
    expect(focused(element)?.getAttribute('aria-label')).to.equal('Delete “The nose”');
    await sendKeys({ press: 'Enter' });
    await until(() => focused(element)?.matches('.more input'), 'the focus on the field');
    expect(element.document).not.to.have.property('borrowed');
  });
});

/** What the element said last to those who listen. */
function spoken(element: PaintingPlan): string {
  return [...document.querySelectorAll('[aria-live]'), ...inside(element, '[aria-live]')]
    .map((each) => each.textContent)
    .join(' ');
}
