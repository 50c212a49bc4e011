/**
 * The panels of the studio. Every element with `data-panel` inside the given root is one; `data-columns` and `data-rows` say how
 * large it is at first, `data-away` that it is put away at first, `data-short` its name in the switch. A page gets another panel by
 * writing it down; nothing here names one.
 */
import * as arrangements from './arrangement.js';
import { keep, recall } from './memory.js';

const { COLUMNS, ROWS } = arrangements;
/** The grid's lines are finer than the rows that a painter counts: a panel as high as its content ends close below it. */
const LINES_IN_ROW = 4;
const copyOf = (id) => document.getElementById(id).content.firstElementChild.cloneNode(true);

export class Panels extends EventTarget {
  #root;
  #key;
  #panels;
  #arrangement;
  #arranging = false;
  #elements = new Map();
  #tools = new Map();
  #heights = new Map();

  /**
   * @param {HTMLElement} root the grid
   * @param {string} key what the arrangement is remembered under
   */
  constructor(root, key) {
    super();
    this.#root = root;
    this.#key = key;
    for (const element of root.querySelectorAll('[data-panel]')) {
      this.#elements.set(element.dataset.panel, element);
      this.#furnish(element);
    }
    this.#panels = [...this.#elements].map(([id, { dataset }]) => ({
      id,
      columns: Number(dataset.columns),
      rows: Number(dataset.rows),
      away: dataset.away !== undefined,
    }));
    this.#arrangement = arrangements.read(recall(key), this.#panels);
    this.#lay();
  }

  /** The panels on the page and those put away, in order: `{ id, name, short, away }`. */
  get list() {
    return this.#arrangement.map(({ id, away }) => ({
      id,
      name: this.name(id),
      short: this.#elements.get(id).dataset.short ?? this.name(id),
      away,
    }));
  }

  get arranging() {
    return this.#arranging;
  }
  set arranging(on) {
    this.#arranging = on;
    this.#root.toggleAttribute('data-arranging', on);
    for (const [id, { bar, corner }] of this.#tools) {
      bar.hidden = corner.hidden = !on;
      this.#fit(id);
    }
  }

  name(id) {
    return this.#elements.get(id).querySelector('h2').textContent;
  }

  /** Marks the panel that is seen where there is room for one only. */
  set current(current) {
    for (const [id, element] of this.#elements)
      element.toggleAttribute('data-current', id === current);
  }

  takeOut(id) {
    this.#change(arrangements.takenOut(this.#arrangement, id), `${this.name(id)} is on the page.`);
  }

  /** Comes back to the arrangement that the page proposes. */
  reset() {
    this.#change(arrangements.proposed(this.#panels), 'The panels lie as they did at first.');
    keep(this.#key, null);
  }

  #change(arrangement, words) {
    if (arrangement === this.#arrangement) return;
    this.#arrangement = arrangement;
    this.#lay();
    const kept = keep(this.#key, arrangements.write(arrangement));
    this.dispatchEvent(new CustomEvent('change', { detail: { words, kept } }));
  }

  #place(id) {
    return this.#arrangement.find((place) => place.id === id);
  }

  /** Brings the page in line with the arrangement; panels that lie right already are not touched. */
  #lay() {
    const halves = arrangements.halves(this.#arrangement);
    let before = null;
    for (const place of this.#arrangement) {
      const element = this.#elements.get(place.id);
      const next = before ? before.nextElementSibling : this.#root.firstElementChild;
      if (next !== element) this.#root.insertBefore(element, next);
      before = element;
      element.hidden = place.away;
      element.toggleAttribute('data-fixed', place.rows !== ROWS.asContent);
      element.toggleAttribute('data-half', halves.has(place.id));
      element.style.setProperty('--columns', place.columns);
      this.#fit(place.id);
    }
    const shown = this.#arrangement.filter(({ away }) => !away);
    for (const { id } of shown) {
      const { earlier, later, away } = this.#tools.get(id).acts;
      earlier.disabled = shown[0].id === id;
      later.disabled = shown.at(-1).id === id;
      away.disabled = shown.length === 1;
    }
  }

  /** Sets how many rows a panel takes, and says so in its tools. */
  #fit(id) {
    const place = this.#place(id);
    if (!place || place.away) return;
    const { style } = this.#elements.get(id);
    const lines = place.rows ? place.rows * LINES_IN_ROW : this.#linesOfContent(id);
    if (lines) style.setProperty('--lines', lines);
    else style.removeProperty('--lines');
    const rows = this.#rowsNow(id);
    const { sizes, acts, corner } = this.#tools.get(id);
    for (const [name, value] of Object.entries({ columns: place.columns, rows })) {
      if (document.activeElement !== sizes[name]) sizes[name].value = value;
    }
    acts.content.setAttribute('aria-pressed', place.rows === ROWS.asContent);
    corner.setAttribute('aria-label', `Size: ${this.#sizeInWords(id)}. Arrow keys change it.`);
  }

  #sizeInWords(id) {
    const { columns, rows } = this.#place(id);
    const high = rows === ROWS.asContent ? 'as high as its content' : `${rows} rows`;
    return `${this.name(id)}, ${columns} of ${COLUMNS.most} columns, ${high}`;
  }

  /** The grid's measures in CSS pixels: a column and a line, each with the gap behind it, and that gap. */
  #grid() {
    const { columnGap, gridAutoRows, width } = getComputedStyle(this.#root);
    const gap = parseFloat(columnGap);
    return {
      gap,
      column: (parseFloat(width) + gap) / COLUMNS.most,
      line: parseFloat(gridAutoRows),
    };
  }

  /** How many lines a panel as high as its content takes; `undefined` while nobody knows, or where there is no grid. */
  #linesOfContent(id) {
    const height = this.#heights.get(id);
    const { line, gap } = this.#grid();
    if (!height || !line) return undefined;
    const element = this.#elements.get(id);
    const around = element.offsetHeight - element.querySelector('.body').offsetHeight;
    return Math.ceil((height + around + gap) / line);
  }

  /** The rows that a panel takes now, as a painter counts them. */
  #rowsNow(id) {
    const { rows } = this.#place(id);
    if (rows !== ROWS.asContent) return rows;
    return Math.max(ROWS.least, Math.ceil((this.#linesOfContent(id) ?? 0) / LINES_IN_ROW));
  }

  #resize(id, size) {
    this.#change(arrangements.resized(this.#arrangement, id, size), undefined);
    this.dispatchEvent(new CustomEvent('size', { detail: { words: this.#sizeInWords(id) } }));
  }

  /** Gives a panel the tools by which it is moved, sized and put away. */
  #furnish(element) {
    const id = element.dataset.panel;
    const bar = copyOf('panel-tools');
    const corner = copyOf('panel-corner');
    bar.setAttribute('aria-label', `Place of ${this.name(id)}`);
    const byName = (attribute) =>
      Object.fromEntries(
        [...bar.querySelectorAll(`[data-${attribute}]`)].map((each) => [
          each.dataset[attribute],
          each,
        ]),
      );
    const acts = byName('act');
    const sizes = byName('size');
    this.#tools.set(id, { bar, corner, acts, sizes });
    bar.hidden = corner.hidden = true;
    element.querySelector('.head').after(bar);
    element.append(corner);

    for (const [act, way] of [
      ['earlier', -1],
      ['later', 1],
    ])
      acts[act].addEventListener('click', () => {
        const arrangement = arrangements.moved(this.#arrangement, id, way);
        this.#change(arrangement, `${this.name(id)} lies ${act}.`);
        // The element left the page for a moment: bring the focus back.
        (acts[act].disabled ? acts[act === 'later' ? 'earlier' : 'later'] : acts[act]).focus();
      });
    acts.content.addEventListener('click', () => {
      const fixed = this.#place(id).rows !== ROWS.asContent;
      this.#resize(id, { rows: fixed ? ROWS.asContent : this.#rowsNow(id) });
    });
    acts.away.addEventListener('click', () => {
      const arrangement = arrangements.putAway(this.#arrangement, id);
      this.#change(arrangement, `${this.name(id)} is put away; it keeps what it holds.`);
    });
    for (const [name, input] of Object.entries(sizes))
      input.addEventListener('change', () => {
        if (input.value !== '') this.#resize(id, { [name]: input.valueAsNumber });
        input.value = name === 'rows' ? this.#rowsNow(id) : this.#place(id).columns;
      });
    corner.addEventListener('keydown', (event) => this.#onKey(event, id));
    corner.addEventListener('pointerdown', (event) => this.#drag(event, id));

    new ResizeObserver(([{ contentRect }]) => {
      this.#heights.set(id, contentRect.height);
      if (this.#arrangement) this.#fit(id);
    }).observe(element.querySelector('.content'));
  }

  #onKey(event, id) {
    const forward = getComputedStyle(this.#root).direction === 'rtl' ? -1 : 1;
    const { columns } = this.#place(id);
    const rows = this.#rowsNow(id);
    const size = {
      ArrowLeft: { columns: columns - forward },
      ArrowRight: { columns: columns + forward },
      ArrowUp: { rows: rows - 1 },
      ArrowDown: { rows: rows + 1 },
    }[event.key];
    if (!size || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    if (size.rows < ROWS.least) return;
    this.#resize(id, size);
  }

  #drag(event, id) {
    if (event.button !== 0) return;
    const corner = event.currentTarget;
    const element = this.#elements.get(id);
    const { column, line, gap } = this.#grid();
    const row = line * LINES_IN_ROW;
    const before = this.#arrangement;
    const rtl = getComputedStyle(this.#root).direction === 'rtl';
    const ended = new AbortController();
    const { signal } = ended;
    /** How far a point lies from the panel's upper corner on the other side, CSS pixels. */
    const reach = ({ clientX, clientY }) => {
      const { left, right, top } = element.getBoundingClientRect();
      return { across: rtl ? right - clientX : clientX - left, down: clientY - top };
    };
    const start = reach(event);
    const beyond = {
      across: element.offsetWidth - start.across + gap,
      down: element.offsetHeight - start.down + gap,
    };
    corner.setPointerCapture(event.pointerId);
    const move = (moved) => {
      const { across, down } = reach(moved);
      const columns = Math.round((across + beyond.across) / column);
      // A drag straight to the side leaves a panel as high as its content.
      const level = Math.abs(moved.clientY - event.clientY) < row / 2;
      const rows = level
        ? before.find((place) => place.id === id).rows
        : Math.max(ROWS.least, Math.round((down + beyond.down) / row));
      this.#resize(id, { columns, rows });
    };
    corner.addEventListener('pointermove', move, { signal });
    for (const end of ['pointerup', 'pointercancel'])
      corner.addEventListener(end, () => ended.abort(), { signal });
    document.addEventListener(
      'keydown',
      (key) => {
        if (key.key !== 'Escape') return;
        key.preventDefault();
        ended.abort();
        this.#change(before, `${this.name(id)} is as large as it was.`);
      },
      { signal },
    );
  }
}
