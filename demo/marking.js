/**
 * Marks a folder of boards that were handed in. The arithmetic is the kit's (`markSubmission`, `classReport`); this page reads files
 * and puts the findings in words. Text from files only ever becomes text.
 */
import {
  classReport,
  cssOfLab,
  labOf,
  markSubmission,
  munsellValue,
  parseLesson,
} from '../dist/tonewell.whole.min.js';

const MOST_BYTES = 4_000_000;
const MOST_REMARKS = 30;
const EXAMPLE = ['1-1', '1-2', '2-1', '2-2', '3-1', '4-1', '5-1', '6-1'];

const report = document.querySelector('#report');
const status = document.querySelector('#status');
const drop = document.querySelector('#drop');

// Where files come from

for (const input of document.querySelectorAll('input[type=file]'))
  input.addEventListener('change', async () => {
    await mark([...input.files].map(asSource));
    input.value = ''; // the same choice may be made again
  });

document.querySelector('#example').addEventListener('click', () => {
  const names = ['lesson.json', ...EXAMPLE.map((each) => `student-${each}.json`)];
  return mark(
    names.map((name) => ({
      name,
      text: async () => {
        const answer = await fetch(`submissions/${name}`);
        if (!answer.ok) throw new Error('it could not be fetched');
        return answer.text();
      },
    })),
  );
});

for (const type of ['dragover', 'dragleave', 'drop'])
  drop.addEventListener(type, (event) => {
    event.preventDefault();
    drop.classList.toggle('over', type === 'dragover');
  });
drop.addEventListener('drop', async (event) => {
  const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry?.());
  const files = entries.every(Boolean)
    ? (await Promise.all(entries.map(filesIn))).flat()
    : [...event.dataTransfer.files];
  await mark(files.map(asSource));
});

/** The files of a dropped file or folder, with all that lies in it. */
async function filesIn(entry) {
  if (entry.isFile) return [await new Promise((give, fail) => entry.file(give, fail))];
  const reader = entry.createReader();
  const found = [];
  for (;;) {
    const some = await new Promise((give, fail) => reader.readEntries(give, fail));
    if (some.length === 0) return (await Promise.all(found.map(filesIn))).flat();
    found.push(...some); // a folder is told in portions
  }
}

function asSource(file) {
  return {
    name: file.webkitRelativePath || file.name,
    text: () => {
      if (file.size > MOST_BYTES) throw new Error('it is larger than 4 MB');
      return file.text();
    },
  };
}

// Marking

async function mark(sources) {
  const read = [];
  const bad = [];
  let lesson;
  for (const { name, text } of sources) {
    if (name.split('/').pop().startsWith('.')) continue; // a system's own hidden files
    try {
      if (!/\.json$/i.test(name)) throw new Error('it is no JSON file');
      const content = await text();
      if (isLesson(content)) lesson = parseLesson(content);
      else read.push({ name, content });
    } catch (error) {
      bad.push({ name, reasons: reasonsOf(error) });
    }
  }
  const marked = [];
  for (const { name, content } of read) {
    try {
      const result = markSubmission(content, { lesson });
      if (result.student === '') result.student = name.split('/').pop(); // a board without a name
      marked.push(result);
    } catch (error) {
      bad.push({ name, reasons: reasonsOf(error) });
    }
  }
  show(classReport(marked), { lesson, bad });
}

function isLesson(text) {
  try {
    const { board, task } = JSON.parse(text);
    return board === undefined && task !== undefined;
  } catch {
    return false;
  }
}

// Words

const one = new Intl.NumberFormat('en', { maximumFractionDigits: 1 });
const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
const count = (number, word, words = `${word}s`) => `${number} ${number === 1 ? word : words}`;
const KIND = {
  fits: 'fits',
  'too-dark': 'too dark',
  'too-light': 'too light',
  between: 'at the edge',
  unsure: 'not sure',
};
const leaning = (lean) =>
  lean === 'neutral'
    ? 'neutral swatches'
    : lean === 'unknown'
      ? 'swatches of unknown colour'
      : `swatches that lean ${lean}`;

/** What a file's faults say to a teacher. */
function reasonsOf(error) {
  if (!error.faults) return [`${error.message}.`];
  return error.faults.map(({ code, values: { path, found, expected, limit, bands } }) => {
    const kind = code.slice(code.indexOf('.') + 1);
    const words = {
      'not-json-text': 'The file is no JSON text; it may be cut short.',
      missing: `${path} is missing.`,
      'wrong-type': `${path} should be ${expected}, not ${found}.`,
      'out-of-range': `${path} is ${found}; it should be ${expected}.`,
      'not-allowed': `${path} is ${found}; it should be ${expected}.`,
      'wrong-form': `${path} should be ${expected}, not ${found}.`,
      'too-long': `${path} is longer than ${limit} letters.`,
      'too-many': `${path} has ${found} parts; ${limit} are allowed.`,
      'unknown-key': `${path} is not known here.`,
      'no-such-bucket': `${path} is ${found}, but there are ${bands} buckets, counted from 0.`,
      'duplicate-id': `${path} is used twice.`,
      'no-bands': 'The board has no bands.',
    };
    return words[kind] ?? `${path}: ${kind.replaceAll('-', ' ')}.`;
  });
}

const nameOf = ({ name, css, id }) => name || css || id;

function findingWords({ code, values }, board) {
  const named = board.swatches.find(({ id }) => id === values.swatch);
  const swatch = named ? `“${nameOf(named)}”` : '';
  const { said, found } = values;
  switch (code) {
    case 'marking.verdict-differs':
      return `The file says of ${swatch} “${KIND[said] ?? said}”; judged here it is ${KIND[found]}.`;
    case 'marking.verdict-missing':
      return `The file brings no verdict for ${count(values.count, 'swatch', 'swatches')}.`;
    case 'marking.verdict-of-none':
      return `The file judges ${count(values.count, 'swatch', 'swatches')} that the board does not have.`;
    case 'marking.lacks-differ':
      return `The file says that ${count(said, 'thing is', 'things are')} lacking; counted here it is ${found}.`;
    case 'marking.colour-differs':
      return `${swatch} is given as value ${one.format(munsellValue(values.lightness))}, but its colour has ${one.format(munsellValue(values.shown))}.`;
    case 'marking.other-lesson':
      return `Handed in for ${said ? `“${said}”` : 'no lesson'}.`;
    case 'marking.other-bands':
      return values.found === values.expected
        ? 'The bands were changed; it is judged by the lesson’s.'
        : `It has ${count(values.found, 'bucket')} where the lesson has ${values.expected}; it is judged by its own.`;
  }
}

/** What a bucket lacks. */
function lackWords({ bucket, lean, found, required }, board) {
  const band = board.bands[bucket].name;
  if (lean)
    return `${band}: ${lean === 'neutral' ? 'a neutral swatch' : `one that leans ${lean}`} is missing.`;
  return `${band}: ${found} of ${required} swatches.`;
}

/** How far a swatch has to move, in steps of value. */
function offInValue({ lightness, off }, verdict) {
  const target = Math.min(100, Math.max(0, lightness + (verdict === 'too-dark' ? off : -off)));
  return { target, by: Math.abs(munsellValue(target) - munsellValue(lightness)) };
}

// Showing

function show({ perStudent, commonMistakes, improvement, repeated }, { lesson, bad }) {
  const boards = perStudent.reduce((sum, { attempts }) => sum + attempts.length, 0);
  const told = boards
    ? `${count(perStudent.length, 'student')} handed in ${count(boards, 'board')}.`
    : 'No board could be read.';
  status.textContent = `${told}${bad.length > 0 ? ` ${count(bad.length, 'file')} could not be read; see the end of the report.` : ''}`;
  report.replaceChildren(
    h(
      'section',
      { 'aria-labelledby': 'verdicts' },
      h(
        'div',
        { class: 'head' },
        h(
          'div',
          {},
          h('h2', { id: 'verdicts' }, lesson ? lesson.title : 'Boards without their lesson'),
          h(
            'p',
            { class: 'small' },
            lesson
              ? lesson.task
              : 'No lesson file was among them: each board is judged by its own bands, and nothing is said of what it lacks.',
          ),
        ),
        h('button', { type: 'button', class: 'no-print', onclick: () => print() }, 'Print'),
      ),
      h('p', { class: 'print-only' }, told),
      boards ? verdictTable(perStudent) : '',
      repeated.length
        ? h(
            'p',
            { class: 'small' },
            `Handed in twice under one number, the later counts: ${repeated.map(({ student, attempt }) => `${student}, attempt ${attempt}`).join('; ')}.`,
          )
        : '',
    ),
    boards ? mistakes(commonMistakes) : '',
    improvement.students ? attempts(perStudent, improvement) : '',
    bad.length ? unread(bad) : '',
  );
  report.hidden = false;
  report.focus({ preventScroll: true });
  report.scrollIntoView({ block: 'start' });
}

function verdictTable(perStudent) {
  const rows = perStudent.flatMap(({ student, attempts }, s) =>
    attempts.flatMap((marked, i) => boardRows(student, marked, i > 0, `board-${s}-${i}`)),
  );
  const heads = ['Student', 'Attempt', 'Out of place', 'Board, dark to light', 'Remarks'];
  return h(
    'div',
    { class: 'wide' },
    h(
      'table',
      { class: 'boards stacks' },
      h('thead', {}, h('tr', {}, ...heads.map((head) => h('th', { scope: 'col' }, head)))),
      h('tbody', {}, ...rows),
    ),
  );
}

function boardRows(student, marked, again, id) {
  const { attempt, made, faults, board, verdict, lacks, findings } = marked;
  const kindOf = new Map(verdict.swatches.map((each) => [each.id, each.verdict]));
  const remarks = [
    ...board.swatches
      .filter(({ id }) => kindOf.get(id) !== 'fits')
      .map((swatch) => [
        `“${nameOf(swatch)}” in ${board.bands[swatch.bucket].name}: ${KIND[kindOf.get(swatch.id)]}.`,
      ]),
    ...lacks.map((lack) => [lackWords(lack, board)]),
    ...findings.map((finding) => [findingWords(finding, board), 'odd']),
  ];
  const beyond = remarks.length - MOST_REMARKS;
  const shown = [
    ...remarks.slice(0, MOST_REMARKS),
    ...(beyond > 0 ? [[`And ${count(beyond, 'more remark')}.`]] : []),
    ...(remarks.length === 0 ? [['Every swatch belongs.']] : []),
  ];
  const trays = board.bands.map((band, bucket) => {
    const swatches = board.swatches.filter((swatch) => swatch.bucket === bucket);
    const words = swatches.map((each) => `${nameOf(each)} ${KIND[kindOf.get(each.id)]}`).join(', ');
    return h(
      'div',
      { class: 'tray', role: 'img', 'aria-label': `${band.name}: ${words || 'empty'}` },
      ...swatches.map((each) => dab(each, kindOf.get(each.id).startsWith('too-'))),
    );
  });
  const when = made && !Number.isNaN(Date.parse(made)) ? day.format(new Date(made)) : '';
  const [button, whole] = wholeBoard(student, marked, id);
  const row = h(
    'tr',
    { class: again ? 'again' : '' },
    h('th', { scope: 'row' }, student),
    h(
      'td',
      { class: 'when', 'data-word': 'Attempt' },
      String(attempt),
      when ? h('div', { class: 'small' }, when) : '',
    ),
    h(
      'td',
      { 'data-word': 'Out of place' },
      faults === 0 ? 'none' : `${faults} of ${board.swatches.length}`,
    ),
    h('td', {}, h('div', { class: 'trays' }, ...trays)),
    h(
      'td',
      {},
      h(
        'ul',
        { class: 'remarks' },
        ...shown.map(([text, kind = '']) => h('li', { class: kind }, text)),
      ),
      button,
    ),
  );
  return [row, whole];
}

/** A row of the table for the board itself, made when it is asked for, and the button that opens it. */
function wholeBoard(student, { board, attempt }, id) {
  const place = h('td', { colspan: 5 });
  const row = h('tr', { id, class: 'whole no-print', hidden: 'hidden' }, place);
  const button = h(
    'button',
    {
      type: 'button',
      class: 'quiet no-print',
      'aria-expanded': 'false',
      'aria-controls': id,
      'aria-label': `Look at the board of ${student}, attempt ${attempt}`,
      onclick: () => {
        row.hidden = !row.hidden;
        button.setAttribute('aria-expanded', String(!row.hidden));
        if (place.firstChild) return;
        const element = document.createElement('swatch-bucket-board');
        element.readonly = true;
        element.board = board;
        place.append(element);
      },
    },
    'Look at the board',
  );
  return [button, row];
}

function mistakes(list) {
  const section = h(
    'section',
    { 'aria-labelledby': 'mistakes', class: 'page-of-its-own' },
    h('h2', { id: 'mistakes' }, 'What went wrong, by band and lean'),
  );
  if (list.length === 0) {
    section.append(h('p', {}, 'Nothing: every swatch of the first attempts belongs.'));
    return section;
  }
  section.append(
    h(
      'p',
      { class: 'small' },
      'Counted over first attempts. The small dab in each swatch is the grey it would have to match to be just in order.',
    ),
    h('ol', { class: 'mistakes' }, ...list.map(mistake)),
  );
  return section;
}

function mistake({ band, lean, verdict, count: first, students, left, swatches }) {
  const mean =
    swatches.reduce((sum, each) => sum + offInValue(each, verdict).by, 0) / swatches.length;
  const howMany = first
    ? `${count(first, 'swatch', 'swatches')} of ${count(students, 'student')}, ${one.format(mean)} of value off on average.`
    : `Only in later attempts, ${one.format(mean)} of value off on average.`;
  const stands =
    left === 0
      ? 'None is left in the last attempts.'
      : `${left === 1 ? 'One is' : `${left} are`} left in the last attempts.`;
  return h(
    'li',
    {},
    h(
      'div',
      {},
      h('h3', {}, `In ${band}, ${leaning(lean)} are ${KIND[verdict]}`),
      h('p', {}, howMany),
      h('p', { class: 'small' }, stands),
    ),
    h(
      'ul',
      { class: 'lying' },
      ...swatches.map((swatch) => {
        const { target, by } = offInValue(swatch, verdict);
        return h(
          'li',
          {},
          dab(swatch, false, target),
          h('span', {}, h('b', {}, nameOf(swatch)), ` of ${swatch.student}`),
          h(
            'span',
            {},
            `value ${one.format(munsellValue(swatch.lightness))}, ${one.format(by)} ${KIND[verdict]}`,
          ),
        );
      }),
    ),
  );
}

function attempts(perStudent, { students, before, after, better, same, worse }) {
  const rows = perStudent
    .filter(({ improvement }) => improvement)
    .map(({ student, attempts: all, improvement }) =>
      h(
        'tr',
        {},
        h('th', { scope: 'row' }, student),
        h('td', { 'data-word': 'First' }, String(improvement.before)),
        h(
          'td',
          { 'data-word': 'Last' },
          `${improvement.after}${all.length > 2 ? ` (attempt ${all.at(-1).attempt})` : ''}`,
        ),
        h('td', {}, changeWords(all[0], all.at(-1))),
      ),
    );
  const parts = [
    better && `${better} got better`,
    same && `${same} stayed as they were`,
    worse && `${worse} got worse`,
  ];
  return h(
    'section',
    { 'aria-labelledby': 'attempts' },
    h('h2', { id: 'attempts' }, 'Second attempts against first ones'),
    h(
      'p',
      {},
      `${count(students, 'student')} handed in again: ${parts.filter(Boolean).join(', ')}. ${count(before, 'swatch was', 'swatches were')} out of place at first, ${after} at last.`,
    ),
    h(
      'div',
      { class: 'wide' },
      h(
        'table',
        { class: 'stacks' },
        h(
          'thead',
          {},
          h(
            'tr',
            {},
            ...['Student', 'Out of place at first', 'At last', 'What changed'].map((head) =>
              h('th', { scope: 'col' }, head),
            ),
          ),
        ),
        h('tbody', {}, ...rows),
      ),
    ),
  );
}

/** Which swatches were put right, and which are wrong still or anew. */
function changeWords(first, last) {
  const wrong = ({ board, verdict }) =>
    board.swatches.filter((_, i) => verdict.swatches[i].verdict.startsWith('too-')).map(nameOf);
  const [before, after] = [wrong(first), wrong(last)];
  const parts = [
    ['put right: ', before.filter((name) => !after.includes(name))],
    ['wrong still: ', after.filter((name) => before.includes(name))],
    ['wrong anew: ', after.filter((name) => !before.includes(name))],
  ].filter(([, names]) => names.length > 0);
  const text = parts.map(([words, names]) => words + names.join(', ')).join('; ');
  return text ? `${text[0].toUpperCase()}${text.slice(1)}.` : 'Nothing was out of place in either.';
}

function unread(bad) {
  return h(
    'section',
    { 'aria-labelledby': 'unread' },
    h('h2', { id: 'unread' }, 'Files that could not be read'),
    h(
      'p',
      {},
      'They are left out of everything above. Ask for the file again, as the lesson page saved it.',
    ),
    h(
      'ul',
      { class: 'bad' },
      ...bad.map(({ name, reasons }) =>
        h(
          'li',
          {},
          h('b', {}, name),
          h(
            'ul',
            {},
            ...reasons.slice(0, 5).map((text) => h('li', {}, text)),
            reasons.length > 5 ? h('li', {}, `and ${reasons.length - 5} more`) : '',
          ),
        ),
      ),
    ),
  );
}

/** A dab in a swatch's colour; ringed when out of place; with the grey of `target` (L*) in it when that is given. */
function dab({ css, lab, lightness }, ringed, target) {
  let paint = lab ? cssOfLab(lab).css : cssOfLab([lightness, 0, 0]).css;
  try {
    if (css) paint = cssOfLab(labOf(css)).css;
  } catch {
    // no colour that CSS knows: its value is shown as a grey
  }
  const round = 'M30 8C60 3 95 4 108 10s9 45 1 54-70 10-92 6S4 20 12 13s10-4 18-5z';
  return h(
    'svg',
    { viewBox: '0 0 120 76', 'aria-hidden': 'true' },
    h('path', { class: 'paint', d: round, fill: paint }),
    target === undefined
      ? ''
      : h('ellipse', {
          class: 'paint',
          cx: 84,
          cy: 40,
          rx: 17,
          ry: 15,
          fill: cssOfLab([target, 0, 0]).css,
        }),
    ringed ? h('path', { class: 'off', d: round, 'vector-effect': 'non-scaling-stroke' }) : '',
  );
}

/** An element with attributes (`on…`: listeners) and children; text stays text. */
function h(tag, attributes, ...children) {
  const drawn = ['svg', 'path', 'ellipse'].includes(tag);
  const element = drawn
    ? document.createElementNS('http://www.w3.org/2000/svg', tag)
    : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (value !== '') element.setAttribute(name, value);
  }
  element.append(...children.filter((child) => child !== ''));
  return element;
}
