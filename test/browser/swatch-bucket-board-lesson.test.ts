/** Lessons on the board: by JSON and by attributes, what is lacking, and a wrong board that may be handed in. */
import { expect } from 'chai';
import { sendKeys } from '@web/test-runner-commands';
import { markSubmission, parseSubmission, type Lesson } from '../../core/entry.js';
import {
  accessibilityFaults,
  all,
  BANDS,
  clearPlaces,
  find,
  heard,
  placed,
  press,
  settled,
  shown,
  text,
  type,
} from './swatch-bucket-board-helpers.js';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';

const LESSON: Lesson = {
  schema: 1,
  title: 'Greys <b>one</b>',
  task: 'Mix one for each band.\nThe middle leans blue.',
  bands: BANDS,
  required: [1, 2, 0],
  leans: [[], ['blue', 'orange'], []],
  tolerance: 20,
  reveal: 'submit',
};

/** A board in a form that counts its submits and goes nowhere. */
async function inForm(
  board: string,
): Promise<{ board: SwatchBucketBoard; form: HTMLFormElement; submits: () => number }> {
  const element = await placed(`<form>${board}</form>`);
  const form = element.form!;
  let count = 0;
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    count++;
  });
  return { board: element, form, submits: () => count };
}

const written = (lesson: unknown): string =>
  JSON.stringify(lesson).replaceAll('&', '&amp;').replaceAll('"', '&quot;');
const byJson = (rest = '', content = ''): Promise<Awaited<ReturnType<typeof inForm>>> =>
  inForm(
    `<swatch-bucket-board name="board" lesson="${written(LESSON)}" ${rest}>${content}</swatch-bucket-board>`,
  );
const lacking = (board: SwatchBucketBoard): string[] =>
  all(board, '.lack').map(({ textContent }) => textContent!);

async function add(board: SwatchBucketBoard, bucket: number, css: string): Promise<void> {
  if (all(board, '.small-form').length === 0) await press(board, `[data-add="${bucket}"]`);
  await type(board, find<HTMLInputElement>(board, '.small-form [data-first]'), css);
  await press(board, '.small-form button[type="submit"]');
}

describe('a lesson on the board', () => {
  afterEach(clearPlaces);

  it('by JSON: title and task as text, bands fixed, lacks in number and lean, no verdict yet', async () => {
    const { board } = await byJson();
    expect(text(board, '.lesson-title')).to.equal('Greys <b>one</b>');
    expect(find(board, '.task').textContent).to.equal(LESSON.task);
    expect(all(board, '.lesson b')).to.have.length(0);
    expect(board.board.bands).to.eql(BANDS);
    expect(all(board, '[data-band]')).to.have.length(0);
    expect(lacking(board)).to.eql([
      'One more is asked for here.',
      '2 more are asked for here.',
      'One that leans blue is missing.',
      'One that leans orange is missing.',
    ]);
    expect(board.checkValidity()).to.equal(false);
    expect(board.validationMessage).to.equal('dark needs one more swatch.');
    expect(await accessibilityFaults(board)).to.eql([]);
  });

  it('by attributes: a title, bands, number, leans, tolerance', async () => {
    const { board } = await inForm(
      '<swatch-bucket-board name="board" lesson="Two greys" bands="low high" limits="50" required="1" leans="neutral | blue" tolerance="9"></swatch-bucket-board>',
    );
    expect(text(board, '.lesson-title')).to.equal('Two greys');
    expect(lacking(board)).to.eql([
      'One more is asked for here.',
      'A neutral one is missing.',
      'One more is asked for here.',
      'One that leans blue is missing.',
    ]);
    const { lesson, board: sent } = JSON.parse(board.value);
    expect(lesson).to.equal('Two greys');
    expect(sent.bands.map(({ spread }: { spread: number }) => spread)).to.eql([9, 9]);
  });

  it('a bucket with enough swatches may still lack a lean, and then is invalid with a sentence', async () => {
    const { board, form } = await byJson('', '<data value="#303030" data-bucket="dark">ink</data>');
    await add(board, 1, '#6b7885'); // leans blue
    await add(board, 1, '#5f6c78');
    expect(lacking(board)).to.eql(['One that leans orange is missing.']);
    expect(form.checkValidity()).to.equal(false);
    expect(board.validity.valueMissing).to.equal(true);
    expect(board.validationMessage).to.equal('middle lacks a swatch that leans orange.');
    expect(text(board, '.sum')).to.contain('One bucket needs more swatches.');
    expect(board.lacks).to.eql([{ bucket: 1, lean: 'orange', found: 0, required: 1 }]);
    await add(board, 1, 'tan');
    expect(lacking(board)).to.eql([]);
    expect(form.checkValidity()).to.equal(true);
  });

  it('a wrong board can be handed in; the verdict comes with it, and its value is a sound submission', async () => {
    const content = ['#909090', '#6b7885', '#8b796b']
      .map((css, i) => `<data value="${css}" data-bucket="${i === 0 ? 0 : 1}">mix ${i}</data>`)
      .join('');
    const { board, form, submits } = await byJson('attempt="2"', content);
    expect(all(board, '.verdict')).to.have.length(0);
    expect(text(board, '.lesson-title')).to.equal('Greys <b>one</b> attempt 2');
    const before = Date.now();
    form.requestSubmit();
    await settled(board);
    expect(submits()).to.equal(1);
    expect(text(board, '[data-id="swatch-1"] .verdict')).to.equal('too light'); // #909090 has L* 60, over the darker #6b7885
    const value = new FormData(form).get('board') as string;
    const submission = parseSubmission(value);
    expect(Object.keys(submission)).to.eql([
      'schema',
      'lesson',
      'board',
      'verdict',
      'lacks',
      'attempt',
      'made',
    ]);
    expect(submission).to.include({ schema: 1, lesson: LESSON.title, attempt: 2 });
    expect(submission.lacks).to.eql([]);
    expect(Date.parse(submission.made!)).to.be.within(before, Date.now());
    const marked = markSubmission(value, { lesson: LESSON });
    expect(marked.findings).to.eql([]);
    expect(marked.faults).to.equal(1);
    expect(board.value).to.equal(value);
  });

  it('validate="require" still keeps a wrong board back', async () => {
    const content =
      '<data value="#909090" data-bucket="0">a</data><data value="#6b7885" data-bucket="1">b</data><data value="#8b796b" data-bucket="1">c</data>';
    const { form, submits } = await byJson('validate="require"', content);
    form.requestSubmit();
    expect(submits()).to.equal(0);
  });

  it('a lesson set later lays its bands and keeps the swatches; taken away, attributes hold', async () => {
    const { board } = await inForm(
      '<swatch-bucket-board name="board" bands="a b c d" limits="20 40 60"><data value="#eee" data-bucket="d">pale</data></swatch-bucket-board>',
    );
    board.lesson = LESSON;
    await settled(board);
    expect(board.board.bands).to.eql(BANDS);
    expect(shown(board)).to.equal('||swatch-1');
    board.lesson = '';
    await settled(board);
    expect(all(board, '[data-band]').length).to.be.greaterThan(0);
    expect(all(board, '.verdict')).to.have.length(1);
  });

  it('a lesson that cannot be used is told with its place; the board stays', async () => {
    const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
    const errors = heard(board, 'error');
    board.lesson = JSON.stringify({ ...LESSON, leans: [['warm'], [], []] });
    await settled(board);
    expect(text(board, '.trouble')).to.contain(
      'This lesson cannot be used: $.leans[0][0] is "warm"',
    );
    expect(errors).to.have.length(1);
    expect(errors[0].reason.code).to.equal('LessonError');
    expect(shown(board)).to.equal('||');
    board.lesson = LESSON;
    await settled(board);
    expect(all(board, '.trouble')).to.have.length(0);
    board.lesson = '';
    board.leans = 'warm';
    await settled(board);
    expect(text(board, '.trouble')).to.contain('are not known and are left out: warm');
  });

  it('reset comes back to the lesson’s bands and the swatches of the page', async () => {
    const { board, form } = await byJson('', '<data value="#303030" data-bucket="dark">ink</data>');
    await add(board, 1, 'tan');
    form.reset();
    await settled(board);
    expect(shown(board)).to.equal('swatch-1||');
    expect(board.board.bands).to.eql(BANDS);
  });

  it('by keyboard alone: a swatch is moved to its bucket, one is mixed, the board is handed in', async () => {
    const { board, form, submits } = await byJson(
      '',
      '<data value="#6b7885" data-bucket="dark">slate</data><data value="#303030" data-bucket="middle">ink</data>',
    );
    const button = document.createElement('button');
    form.append(button);
    find(board, '[data-dab="swatch-1"]').focus();
    for (const key of ['Space', 'ArrowRight', 'Space']) {
      await sendKeys({ press: key });
      await settled(board);
    }
    find(board, '[data-dab="swatch-2"]').focus();
    for (const key of ['Space', 'ArrowLeft', 'Space']) {
      await sendKeys({ press: key });
      await settled(board);
    }
    expect(shown(board)).to.equal('swatch-2|swatch-1|');
    find(board, '[data-add="1"]').focus();
    await sendKeys({ press: 'Enter' });
    await settled(board);
    await sendKeys({ type: 'tan' });
    await sendKeys({ press: 'Enter' });
    await settled(board);
    expect(lacking(board)).to.eql([]);
    button.focus();
    await sendKeys({ press: 'Enter' });
    await settled(board);
    expect(submits()).to.equal(1);
    expect(all(board, '.verdict').length).to.equal(3);
  });
});
