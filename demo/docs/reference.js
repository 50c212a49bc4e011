/** Draws the element reference from the kit's manifest, and ties each example's text to the frame that shows it. */
import { exampleOf } from './examples.js';

const main = document.querySelector('#reference');
const contents = document.querySelector('#contents');
const waiting = document.querySelector('#waiting');

/** An element with properties and children. */
function make(name, properties = {}, ...children) {
  const element = Object.assign(document.createElement(name), properties);
  element.append(...children.filter((child) => child !== undefined));
  return element;
}

/** Words in which `back ticks` are code. */
const worded = (text = '') =>
  text
    .replace(/\s+/g, ' ')
    .trim()
    .split('`')
    .map((part, i) => (i % 2 ? make('code', { textContent: part }) : part));

/** Paragraphs parted by empty lines. */
const paragraphs = (text = '') =>
  text
    .trim()
    .split(/\n\s*\n/)
    .filter(Boolean)
    .map((part) => make('p', {}, ...worded(part)));

const typeOf = (type) => type?.text?.replace(/\s*\|\s*/g, ' | ') ?? '';
const isShared = ({ inheritedFrom }) => inheritedFrom?.name === 'TonewellElement';

/** A named list: a term with its type, and what it is. */
function list(title, rows, { open = true } = {}) {
  if (!rows.length) return undefined;
  const terms = rows.flatMap(({ name, type, note, text }) => [
    make(
      'dt',
      {},
      make('code', { className: 'name', textContent: name }),
      type ? make('code', { className: 'type', textContent: type }) : undefined,
      note ? make('span', { className: 'kind', textContent: note }) : undefined,
    ),
    make('dd', {}, ...worded(text || 'No more is to be said of it.')),
  ]);
  const summary = make('summary', {}, make('h3', { textContent: title }), ` ${rows.length}`);
  return make('details', { open, className: 'facts' }, summary, make('dl', {}, ...terms));
}

/** Attributes with their properties, then the properties that have no attribute. */
function settings({ attributes = [], members }) {
  const fields = members.filter(({ kind }) => kind === 'field');
  const named = new Map(attributes.map((attribute) => [attribute.fieldName, attribute]));
  const byAttribute = attributes.map(({ name, fieldName, type, description, ...rest }) => ({
    name,
    type: typeOf(type),
    note: fieldName === name ? 'attribute, property' : `attribute, property ${fieldName}`,
    text: description,
    inheritedFrom: rest.inheritedFrom,
  }));
  const others = fields
    .filter(({ name }) => !named.has(name))
    .map(({ name, type, readonly, description, inheritedFrom }) => ({
      name,
      type: typeOf(type),
      note: readonly ? 'property, to be read' : 'property',
      text: description,
      inheritedFrom,
    }));
  return [...byAttribute, ...others];
}

const methods = ({ members }) =>
  members
    .filter(({ kind }) => kind === 'method')
    .map(({ name, parameters = [], return: returns, description, inheritedFrom }) => ({
      name: `${name}(${parameters.map((each) => each.name + (each.optional ? '?' : '')).join(', ')})`,
      type: typeOf(returns?.type),
      text: description,
      inheritedFrom,
    }));

const plainRows = (rows = [], ofName = (name) => name) =>
  rows.map(({ name, type, description, default: begins }) => ({
    name: ofName(name),
    type: typeOf(type),
    note: begins ? `${begins} at first` : '',
    text: description,
  }));

/** The example of an element: its text, the frame, and what the frame tells. */
function example(element, manifest) {
  const box = document.querySelector('#example').content.cloneNode(true).firstElementChild;
  const [label, text, frame] = ['label', 'textarea', 'iframe'].map((name) =>
    box.querySelector(name),
  );
  const [state, heard, output] = ['.state', '.heard', 'output'].map((name) =>
    box.querySelector(name),
  );
  const { tagName: tag } = element;
  const first = exampleOf(element);
  label.textContent = `Markup of the example of ${tag}`;
  label.htmlFor = text.id = `markup-${tag}`;
  state.id = `state-${tag}`;
  text.setAttribute('aria-describedby', state.id);
  text.value = first;
  text.rows = Math.min(18, first.split('\n').length + 1);
  frame.title = `Example of ${tag}`;
  frame.loading = 'lazy';
  frame.src = 'example.html';

  const say = (words, fault = false) => {
    state.textContent = words;
    box.classList.toggle('faulty', fault);
    if (fault) text.setAttribute('aria-invalid', 'true');
    else text.removeAttribute('aria-invalid');
  };
  const show = () => {
    box.dataset.state = 'waiting';
    frame.contentWindow.postMessage({ markup: text.value, ...manifest }, location.origin);
  };
  let due = 0;
  text.addEventListener('input', () => {
    clearTimeout(due);
    due = setTimeout(show, 500);
  });
  box.querySelector('[data-act=again]').addEventListener('click', () => {
    text.value = first;
    show();
  });

  let events = [];
  const answers = {
    open: show,
    shown: (tags) => {
      box.dataset.state = 'shown';
      events = [];
      heard.hidden = true;
      say(
        tags.some((name) => name.includes('-'))
          ? 'The example shows this markup.'
          : `The markup is in order, but there is no element of the kit in it. Write <${tag}></${tag}>.`,
      );
    },
    fault: (words) => {
      box.dataset.state = 'fault';
      say(`${words} The example still shows what stood here before.`, true);
    },
    height: (height) => {
      frame.style.setProperty('block-size', `${Math.min(1600, Math.max(120, height))}px`);
    },
    sent: (fields) => {
      const told = fields.map(([name, value]) => `${name} = ${value}`).join('; ');
      say(told ? `The form would send: ${told}.` : 'The form has nothing to send yet.');
    },
    event: (name, { of, text: message }) => {
      if (name === 'ready' && of === tag) box.dataset.state = 'ready';
      if (name === 'error') say(`${of}: ${message}`, true);
      events = [name, ...events.filter((other) => other !== name)].slice(0, 6);
      heard.hidden = false;
      output.replaceChildren(
        ...events.flatMap((each, i) => [i ? ', ' : '', make('code', { textContent: each })]),
      );
    },
  };
  addEventListener('message', ({ data, origin, source }) => {
    if (source !== frame.contentWindow || origin !== location.origin || !data?.example) return;
    for (const [name, answer] of Object.entries(answers))
      if (data[name] !== undefined) answer(data[name], data);
  });
  return box;
}

function section(element, manifest) {
  const { tagName: tag, summary, description, events, slots, cssParts } = element;
  const own = (rows) => rows.filter((row) => !isShared(row));
  const shared = [...settings(element), ...methods(element)].filter(isShared);
  const link = make('a', { href: '#of-all' });
  link.textContent = 'what all elements take';
  return make(
    'section',
    { id: tag },
    make('h2', {}, make('code', { textContent: tag })),
    ...paragraphs(summary),
    ...paragraphs(description),
    example(element, manifest),
    ...[
      list('Attributes and properties', own(settings(element))),
      list('Events', plainRows(events)),
      list(
        'Slots',
        plainRows(slots, (name) => name || '(without a name)'),
      ),
      list('Methods', own(methods(element)), { open: false }),
      list('Parts', plainRows(cssParts), { open: false }),
      list('Custom properties', plainRows(element.cssProperties), { open: false }),
      list(
        'States',
        plainRows(element.cssStates, (name) => `:state(${name})`),
        { open: false },
      ),
    ].filter(Boolean),
    shared.length
      ? make('p', { className: 'also' }, 'And ', link, ': ', ...names(shared), '.')
      : undefined,
  );
}

const names = (rows) =>
  [...new Set(rows.map(({ name }) => name))].flatMap((name, i) => [
    i ? ', ' : '',
    make('code', { textContent: name }),
  ]);

/** What every element has from the class they share, told once. */
function common(elements) {
  const rows = new Map();
  for (const element of elements)
    for (const row of [...settings(element), ...methods(element)])
      if (isShared(row)) rows.set(`${row.name} ${row.note}`, row);
  return make(
    'section',
    { id: 'of-all' },
    make('h2', { textContent: 'All elements' }),
    ...paragraphs(
      'Elements inside a plan element, or tied to one by its id, work on one plan; every other has a plan of its own. Each tells `ready` when it can be worked with, and `error` with a sentence when the page gave it something that it cannot use.',
    ),
    list('Attributes, properties, methods', [...rows.values()]),
  );
}

async function draw() {
  const response = await fetch('../../dist/custom-elements.json');
  if (!response.ok) throw new Error(`the server says ${response.status}`);
  const { modules } = await response.json();
  const elements = modules
    .flatMap(({ declarations }) => declarations)
    .filter(({ tagName }) => tagName)
    .sort((a, b) => a.tagName.localeCompare(b.tagName));
  const manifest = {
    elements: Object.fromEntries(
      elements.map(({ tagName, attributes = [] }) => [tagName, attributes.map(({ name }) => name)]),
    ),
    events: [...new Set(elements.flatMap(({ events = [] }) => events.map(({ name }) => name)))],
  };
  main.append(...elements.map((element) => section(element, manifest)), common(elements));
  contents.append(
    ...elements.map(({ tagName }) =>
      make('li', {}, make('a', { href: `#${tagName}`, textContent: tagName })),
    ),
    make('li', {}, make('a', { href: '#of-all', textContent: 'All elements' })),
  );
  waiting.textContent = '';
  main.dataset.drawn = '';
  if (location.hash) document.querySelector(location.hash)?.scrollIntoView();
}

// On paper nothing is folded away.
const folded = new Set();
addEventListener('beforeprint', () => {
  for (const each of document.querySelectorAll('details:not([open])')) {
    folded.add(each);
    each.open = true;
  }
});
addEventListener('afterprint', () => {
  for (const each of folded) each.open = false;
  folded.clear();
});

waiting.textContent = 'The manifest is being read.';
draw().catch((error) => {
  waiting.textContent = `The manifest could not be read (${error.message}). Build the kit with “npm run build”, then open this page again.`;
});
