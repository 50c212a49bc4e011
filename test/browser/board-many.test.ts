/** A board of hundreds: a change touches the cards that it changes and leaves the others as they are. */
import { expect } from 'chai';
import { setWords } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { withBoard as boardInPlan } from '../../core/index.js';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import {
  all,
  BANDS,
  clearPlaces,
  FAULTY,
  find,
  ORDERED,
  press,
  settled,
  withBoard,
} from './swatch-bucket-board-helpers.js';

const MANY = {
  bands: BANDS,
  swatches: Array.from({ length: 300 }, (_, i) => {
    const lightness = (95 * i) / 300;
    const bucket = lightness < 36 ? 0 : lightness < 66 ? 1 : 2;
    return { id: `s${i}`, bucket, lightness, name: `n${i}` };
  }),
};

/** Ids of the cards that change while something is done. */
async function touched(board: SwatchBucketBoard, act: () => unknown): Promise<string[]> {
  const ids = new Set<string>();
  const observer = new MutationObserver((changes) => {
    for (const { target } of changes) {
      const element = target instanceof Element ? target : target.parentElement;
      const card = element?.closest<HTMLElement>('[data-id]');
      if (card) ids.add(card.dataset.id!);
    }
  });
  const watched = { subtree: true, childList: true, attributes: true, characterData: true };
  observer.observe(board.shadowRoot!, watched);
  await act();
  await settled(board);
  await new Promise((done) => setTimeout(done)); // the observer is told after the change
  observer.disconnect();
  return [...ids];
}

const rename = (board: SwatchBucketBoard, id: string, name: string): void =>
  board.store.change('test', (plan) =>
    boardInPlan(plan, {
      ...plan.board,
      swatches: plan.board.swatches.map((each) => (each.id === id ? { ...each, name } : each)),
    }),
  );
async function until(seen: () => boolean): Promise<void> {
  for (let i = 0; i < 100 && !seen(); i++) await new Promise((done) => setTimeout(done, 20));
  expect(seen()).to.equal(true);
}

const cardOf = (board: SwatchBucketBoard, id: string): string =>
  find(board, `[data-id="${id}"]`).textContent!.replace(/\s+/g, ' ').trim();

describe('a board of hundreds', () => {
  afterEach(() => clearPlaces());

  it('changes the card of a swatch that was renamed, and no other', async () => {
    const board = await withBoard(MANY);
    expect(await touched(board, () => rename(board, 's7', 'other'))).to.eql(['s7']);
    expect(cardOf(board, 's7')).to.contain('other');
  });

  it('changes the card that is pointed at, and none when nothing changed', async () => {
    const board = await withBoard(MANY);
    const point = (): boolean =>
      find(board, '[data-id="s9"]').dispatchEvent(new PointerEvent('pointerenter'));
    expect(await touched(board, point)).to.eql(['s9']);
    expect(await touched(board, () => board.requestUpdate())).to.eql([]);
  });

  it('changes every card when they are seen as greys', async () => {
    const tan = MANY.swatches.slice(0, 40).map((each) => ({ ...each, css: 'tan' }));
    const board = await withBoard({ ...MANY, swatches: tan });
    expect(await touched(board, () => press(board, '[data-greys]'))).to.have.length(40);
  });

  it('says every card anew in the language that the page gives it', async () => {
    const board = await withBoard(ORDERED, 'lang="en"');
    expect(cardOf(board, 'a')).to.contain('Change');
    setWords(GERMAN, 'de');
    try {
      board.lang = 'de';
      await until(() => cardOf(board, 'a').includes('Ändern'));
      for (const { id } of ORDERED.swatches) expect(cardOf(board, id)).not.to.contain('Change');
    } finally {
      setWords({}, 'de');
    }
  });

  it('tells the new name of a swatch that another one crosses', async () => {
    const board = await withBoard(FAULTY);
    const naming = all(board, '[data-id] .why')
      .filter(({ textContent }) => textContent!.includes('“stone”'))
      .map((why) => why.closest<HTMLElement>('[data-id]')!.dataset.id!);
    expect(naming).to.include('b');
    await touched(board, () => rename(board, 'c', 'pebble'));
    for (const id of naming) expect(cardOf(board, id)).to.contain('“pebble”');
  });
});
