/** The board as a form's field. */
import { expect } from 'chai';
import { sendKeys } from '@web/test-runner-commands';
import {
  all,
  clearPlaces,
  FAULTY,
  find,
  ORDERED,
  placed,
  settled,
  shown,
  text,
  withBoard,
} from './swatch-bucket-board-helpers.js';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';

async function inForm(
  attributes = '',
  data: unknown = ORDERED,
): Promise<{ board: SwatchBucketBoard; form: HTMLFormElement }> {
  const board = await placed(
    `<form><fieldset><swatch-bucket-board name="test" board='${JSON.stringify(data)}' ${attributes}></swatch-bucket-board></fieldset></form>`,
  );
  const { form } = board;
  form!.addEventListener('submit', (event) => event.preventDefault());
  return { board, form: form! };
}

const sent = (
  form: HTMLFormElement,
): {
  board: typeof ORDERED;
  verdict: { swatches: { id: string; verdict: string }[]; overlaps: string[][] };
} | null => {
  const value = new FormData(form).get('test');
  return typeof value === 'string' ? JSON.parse(value) : null;
};

describe('swatch-bucket-board in a form', () => {
  afterEach(clearPlaces);

  it('sends the board with its verdicts, as it is at once', async () => {
    const { board, form } = await inForm();
    expect(sent(form)!.board).to.eql(ORDERED);
    board.board = FAULTY;
    const { verdict } = sent(form)!;
    expect(verdict.swatches.find(({ id }) => id === 'b')!.verdict).to.equal('too-light');
    expect(verdict.overlaps).to.eql([['b', 'c']]);
    expect(board.value).to.equal(new FormData(form).get('test'));
    board.value = JSON.stringify({ board: ORDERED, verdict });
    expect(sent(form)!.board).to.eql(ORDERED);
    expect(sent(form)!.verdict.overlaps).to.eql([]);
  });

  it('an incomplete board is invalid, a faulty one is not, by default', async () => {
    const { board, form } = await inForm('', FAULTY);
    expect(board.validate).to.equal('report');
    expect(form.checkValidity()).to.equal(true);
    clearPlaces(); // a board below the window has not come yet
    const empty = await inForm('', { ...ORDERED, swatches: [] });
    expect(empty.form.checkValidity()).to.equal(false);
    expect(empty.board.validity.valueMissing).to.equal(true);
    expect(empty.board.validationMessage).to.equal('dark needs one more swatch.');
    expect(empty.board.matches(':invalid')).to.equal(true);
    empty.board.required = '0';
    await settled(empty.board);
    expect(empty.form.checkValidity()).to.equal(true);
  });

  it('required asks for a number of swatches in all buckets or in each', async () => {
    const { board } = await inForm('required="2"');
    expect(board.validationMessage).to.equal('light needs one more swatch.');
    expect(all(board, '.lack').map(({ textContent }) => textContent)).to.eql([
      'One more is asked for here.',
    ]);
    board.required = '2 2 1';
    await settled(board);
    expect(board.checkValidity()).to.equal(true);
    board.required = '4 0 0';
    await settled(board);
    expect(board.validationMessage).to.equal('dark needs 2 more swatches.');
  });

  it('validate="require": a fault makes it invalid and is named', async () => {
    const { board } = await inForm('validate="require"', FAULTY);
    expect(board.checkValidity()).to.equal(false);
    expect(board.validity.customError).to.equal(true);
    expect(board.validationMessage).to.equal('“slate” is too light.');
    board.board = ORDERED;
    expect(board.checkValidity()).to.equal(true);
  });

  it('reset comes back to the board the page gave, and can be undone', async () => {
    const { board, form } = await inForm();
    find(board, '[data-dab="a"]').focus();
    await sendKeys({ press: 'Delete' });
    await settled(board);
    expect(shown(board)).to.equal('b|cd|e');
    form.reset();
    await settled(board);
    expect(shown(board)).to.equal('ab|cd|e');
    expect(sent(form)!.board).to.eql(ORDERED);
    find(board, '[data-undo]').click();
    await settled(board);
    expect(shown(board)).to.equal('b|cd|e');
  });

  it('reset without a board to start with empties it', async () => {
    const board = await placed(
      '<form><swatch-bucket-board name="test"></swatch-bucket-board></form>',
    );
    board.board = FAULTY;
    board.form!.reset();
    await settled(board);
    expect(shown(board)).to.equal('||');
  });

  it('a kept state is restored; a broken one changes nothing and is told', async () => {
    const { board, form } = await inForm();
    board.formStateRestoreCallback(JSON.stringify(FAULTY));
    await settled(board);
    expect(sent(form)!.board).to.eql(FAULTY);
    board.formStateRestoreCallback('{');
    await settled(board);
    expect(sent(form)!.board).to.eql(FAULTY);
    expect(text(board, '.trouble')).to.contain('cannot be used');
  });

  it('a disabled fieldset takes it out of the form and off the hands', async () => {
    const { board, form } = await inForm();
    form.querySelector('fieldset')!.disabled = true;
    await settled(board);
    expect(sent(form)).to.equal(null);
    expect(board.willValidate).to.equal(false);
    expect(all(board, 'button.dab, .add')).to.have.length(0);
    form.querySelector('fieldset')!.disabled = false;
    await settled(board);
    expect(all(board, 'button.dab')).to.have.length(5);
  });

  it('readonly is sent, never invalid, and cannot be changed', async () => {
    const { board, form } = await inForm('readonly validate="require" required="9"', FAULTY);
    expect(sent(form)!.board.swatches).to.have.length(5);
    expect(board.checkValidity()).to.equal(true);
    expect(all(board, 'button.dab')).to.have.length(0);
  });

  it('reveal="submit": the verdict comes with the submit and goes with the next change', async () => {
    const { board, form } = await inForm('reveal="submit"', FAULTY);
    expect(all(board, '.verdict')).to.have.length(0);
    expect(text(board, '.sum')).to.contain('when you hand the board in');
    form.requestSubmit();
    await settled(board);
    expect(text(board, '[data-id="b"] .verdict')).to.equal('too light');
    find(board, '[data-dab="b"]').focus();
    await sendKeys({ press: 'Delete' });
    await settled(board);
    expect(all(board, '.verdict')).to.have.length(0);
  });

  it('reveal="submit" with faults required right: a refused submit shows them', async () => {
    const { board, form } = await inForm('reveal="submit" validate="require"', FAULTY);
    form.requestSubmit();
    await settled(board);
    expect(text(board, '[data-id="b"] .verdict')).to.equal('too light');
  });

  it('reveal="submit" without a form: a button asks for the verdict', async () => {
    const board = await withBoard(FAULTY, 'reveal="submit"');
    const button = all(board, '.head button').find(({ textContent }) =>
      textContent!.includes('Judge the board'),
    )!;
    button.click();
    await settled(board);
    expect(text(board, '[data-id="b"] .verdict')).to.equal('too light');
  });

  it('Enter in its own fields does not submit the page’s form', async () => {
    const { board, form } = await inForm();
    let submits = 0;
    form.addEventListener('submit', () => submits++);
    find(board, '[data-add="0"]').click();
    await settled(board);
    await sendKeys({ type: 'tan' });
    await sendKeys({ press: 'Enter' });
    await settled(board);
    expect(submits).to.equal(0);
    expect(board.board.swatches).to.have.length(6);
  });

  it('states of its own for the page’s styles', async () => {
    const { board } = await inForm('', FAULTY);
    expect(board.matches(':state(faults):state(told):state(complete)')).to.equal(true);
    expect(board.matches(':state(empty)')).to.equal(false);
  });
});
