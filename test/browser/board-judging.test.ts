/** Judging that takes its time: the verdict is true as soon as it is known, nothing is sent without it, and the page goes on meanwhile. */
import { expect } from 'chai';
import { sendKeys } from '@web/test-runner-commands';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import {
  accessibilityFaults,
  all,
  BANDS,
  clearPlaces,
  FAULTY,
  find,
  heard,
  placed,
  settled,
  text,
  withBoard,
} from './swatch-bucket-board-helpers.js';

/** As many as a board holds, in order: 0.09 L* apart. */
const ORDERLY = Array.from({ length: 1000 }, (_, i) => {
  const lightness = (9 * i) / 100;
  const bucket = lightness < 36 ? 0 : lightness < 66 ? 1 : 2;
  return { id: `s${i}`, bucket, lightness, name: `n${i}` };
});

/** So many of them are below 36, 36 to below 66, and 66 and above: the 400th is the first of L* 36, the 734th the first above 66. */
const [DARK, MIDDLE, LIGHT] = [400, 334, 266];

/** The same laid the wrong way round: each of some three hundred thousand pairs crosses, so judging takes many slices. */
const CROSSED = {
  bands: BANDS,
  swatches: ORDERLY.map((each) => ({ ...each, bucket: 2 - each.bucket })),
};

const sent = (board: SwatchBucketBoard): { verdict: { swatches: unknown[] } } =>
  JSON.parse(new FormData(board.form!).get('test') as string);

const judging = (board: SwatchBucketBoard): boolean => text(board, '.sum').includes('being judged');

async function inForm(attributes = ''): Promise<SwatchBucketBoard> {
  return placed(
    `<form><swatch-bucket-board name="test" ${attributes}></swatch-bucket-board></form>`,
  );
}

/** Sets a board that takes long to judge and waits for what is seen of it first. */
async function begun(board: SwatchBucketBoard): Promise<void> {
  board.board = CROSSED;
  await new Promise((done) => setTimeout(done));
  expect(judging(board)).to.equal(true);
}

describe('a board that takes long to judge', () => {
  afterEach(clearPlaces);

  it('shows its swatches at once, and says of them and of the whole that they are being judged', async () => {
    const board = await inForm();
    await begun(board);
    const cards = all(board, '[data-id]');
    expect(cards.length).to.be.above(20);
    for (const card of cards)
      expect(card.querySelector('.verdict')!.textContent).to.equal('being judged');
    expect(await accessibilityFaults(board)).to.eql([]);
  }).timeout(30_000);

  it('goes on between the frames until all is judged and drawn, which updateComplete waits for', async () => {
    const board = await inForm();
    await begun(board);
    let frames = 0;
    const watch = (): void => {
      frames++;
      if (judging(board)) requestAnimationFrame(watch);
    };
    watch();
    await board.updateComplete;
    expect(all(board, '[data-id]')).to.have.length(1000);
    while (judging(board)) await new Promise((done) => setTimeout(done, 20));
    expect(frames).to.be.above(3);
    // By hand: the middle ones keep their limits, and all others lie beyond theirs.
    const kinds = all(board, '[data-id] .verdict b').map((each) => each.textContent);
    const count = (kind: string): number => kinds.filter((each) => each === kind).length;
    expect([count('too light'), count('fits'), count('too dark')]).to.eql([LIGHT, MIDDLE, DARK]);
  }).timeout(60_000);

  it('tells the verdict at once when it is asked for, and sends none but the whole one', async () => {
    const board = await inForm();
    await begun(board);
    const { verdict } = sent(board);
    expect(verdict.swatches).to.have.length(1000);
    expect(board.verdict.swatches).to.have.length(1000);
    // Each of one bucket crosses each of the two others.
    const pairs = DARK * MIDDLE + DARK * LIGHT + MIDDLE * LIGHT;
    expect(board.verdict.overlaps).to.have.length(pairs);
  }).timeout(60_000);

  it('is not valid before it is judged, where faults make it invalid', async () => {
    const board = await inForm('validate="require"');
    await begun(board);
    expect(board.checkValidity()).to.equal(false);
    expect(board.validationMessage).to.equal('The board is still being judged.');
    while (judging(board)) await new Promise((done) => setTimeout(done, 20));
    await settled(board);
    expect(board.validationMessage).to.contain(`“n0” is too dark, and ${DARK + LIGHT - 1} more`);
  }).timeout(60_000);

  it('tells what a person did once it is judged, with that verdict', async () => {
    const board = await inForm();
    const changes = heard(board, 'board-change');
    await begun(board);
    find(board, '[data-dab]').focus();
    await sendKeys({ press: 'Delete' });
    while (changes.length === 0) await new Promise((done) => setTimeout(done, 20));
    expect(changes[0].board.swatches).to.have.length(999);
    expect(changes[0].verdict.swatches).to.have.length(999);
  }).timeout(60_000);

  it('is not known before the judge has come, and the page may wait for it', async () => {
    const host = document.createElement('main');
    document.body.append(host);
    const board = document.createElement('swatch-bucket-board');
    host.append(board);
    board.board = FAULTY;
    expect(board.board).to.eql(FAULTY);
    await board.updateComplete;
    expect(board.verdict.swatches.map(({ verdict }) => verdict)).to.eql([
      'fits',
      'too-light',
      'fits',
      'fits',
      'fits',
    ]);
    host.remove();
  });
});

describe('a board of a thousand swatches', () => {
  afterEach(clearPlaces);

  it('draws the first of every bucket first, and then the others', async () => {
    const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
    board.board = { bands: BANDS, swatches: ORDERLY };
    await new Promise((done) => setTimeout(done));
    const trays = all(board, '[data-bucket]');
    const drawn = all(board, '[data-id]').length;
    expect(drawn).to.be.below(400);
    for (const [bucket, tray] of trays.entries()) {
      const first = ORDERLY.filter((each) => each.bucket === bucket).map(({ id }) => id);
      const ids = [...tray.querySelectorAll<HTMLElement>('[data-id]')].map(
        (each) => each.dataset.id,
      );
      expect(ids.length).to.be.above(5);
      expect(ids).to.eql(first.slice(0, ids.length));
    }
    await board.updateComplete;
    expect(all(board, '[data-id]')).to.have.length(1000);
    expect(text(board, '.sum')).to.equal('All 1,000 swatches belong.');
  }).timeout(30_000);

  it('keeps the focus ring of a card whole', async () => {
    const board = await withBoard({ bands: BANDS, swatches: ORDERLY.slice(0, 100) });
    const { contentVisibility, overflowClipMargin } = getComputedStyle(find(board, '.card'));
    const leavesRoom = CSS.supports('overflow-clip-margin', '16px');
    expect(contentVisibility === 'auto').to.equal(leavesRoom);
    if (leavesRoom) expect(parseFloat(overflowClipMargin)).to.be.at.least(8);
    else console.log('This engine cuts focus rings off: cards out of sight are laid out too.');
  });
});
