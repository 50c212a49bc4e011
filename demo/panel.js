/**
 * The panel of an editor: takes its picture over the bridge (`tonewell/host`), lets a person set limits, read spots and fill the board, and
 * gives layers, readings and swatches back. Which pages may be its host stands in the page (`tonewell-hosts`).
 */
import { awaitHost, LIMITS } from '../dist/host/index.js';
import { cssOfLab, designTokensOf, labOf, planLayers } from '../dist/tonewell.whole.min.js';
import { ringsWithin, spotOf, swatchesOf } from './panel/place.js';
import { tabsIn } from './panel/tabs.js';
import * as words from './panel/words.js';

const at = (id) => document.getElementById(id);
const plan = document.querySelector('painting-plan');
const form = at('layers');
const laying = at('lay');
const { store } = plan;

/** The connection, the editor's name and what it takes, and what it has given. */
let session;
let host = { name: 'The editor', takes: [], limits: LIMITS };
let given;
/** The taking or laying under way. */
let work;

const NAMES = {
  bands: 'Bands',
  masses: 'Masses',
  outlines: 'Outlines',
  reserves: 'Reserves',
  strokes: 'Strokes',
};

/** Whether the sentence that stands offers to take the picture anew; one offer is enough. */
let offersAnew = false;

/** Shows a sentence, and a button with what can be done about it. */
function say(sentence = '', { tone = '', act, label } = {}) {
  const box = at('said');
  box.dataset.tone = tone;
  box.replaceChildren();
  offersAnew = act === takeAnew;
  showTake();
  if (!sentence) return;
  const line = document.createElement('p');
  line.textContent = sentence;
  box.append(line);
  if (!act) return;
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = label;
  button.addEventListener('click', act);
  box.append(button);
}

const trouble = (sentence, more) => say(sentence, { tone: 'trouble', ...more });

/** What could not be done, in words; what was given up needs none. */
function told(error, more) {
  if (error.name !== 'AbortError' && error.name !== 'Closed')
    trouble(words.sentenceFor(error, host.name, LIMITS), more);
}

/** Shows and tells the editor how far the work is. */
function progress(stage, done) {
  const bar = at('progress');
  bar.hidden = done >= 1;
  bar.value = done;
  session?.progress({ stage: words.STAGES[stage] ?? stage, done });
}

/** One piece of work at a time: what is begun ends what was under way. */
async function working(does) {
  work?.abort();
  const mine = (work = new AbortController());
  at('stop').hidden = false;
  laying.disabled = at('take').disabled = true;
  try {
    await does(mine.signal);
  } catch (error) {
    told(error);
  } finally {
    if (work === mine) {
      work = undefined;
      at('stop').hidden = true;
      at('take').disabled = false;
      progress('', 1);
      ready();
    }
  }
}

/** What can be pressed now. */
function ready() {
  const kinds = new FormData(form).getAll('kind');
  laying.disabled = !session || !given || work !== undefined || kinds.length === 0;
  laying.textContent =
    kinds.length === 1
      ? `Lay ${NAMES[kinds[0]].toLowerCase()} on the picture`
      : `Lay ${kinds.length || 'no'} layers on the picture`;
  form.hidden = at('bar').hidden = session !== undefined && !host.takes.includes('layers');
  for (const each of document.querySelectorAll('[data-takes]'))
    each.hidden = !host.takes.includes(each.dataset.takes);
  at('hand-over').disabled = !session;
  showTake();
}

const showTake = () => (at('take').hidden = !session || offersAnew);

/** Takes the picture, or the selection where there is one and a person wants it. */
function take() {
  const part = document.querySelector('[name=part]:checked').value;
  return working(async (signal) => {
    if (!given) say(`Taking the picture of ${host.name} …`);
    progress('picture', 0);
    const picture = await session.picture({ part }, { signal });
    const same = given && JSON.stringify(given.area) === JSON.stringify(picture.area);
    const opened = await store.open(picture.image, { name: picture.name, keepPlan: same });
    if (picture.image instanceof ImageBitmap) picture.image.close();
    if (!opened) throw store.picture.error ? errorOf(store.picture.error) : abandoned();
    given = { ...picture, image: undefined, part };
    onPaper(picture);
    show(picture);
    say();
  });
}

/** The button that was pressed is gone with its sentence, so the focus goes to the one that does the same. */
async function takeAnew() {
  await take();
  at('take').focus();
}

const abandoned = () => new DOMException('Another picture was taken.', 'AbortError');
const errorOf = ({ code, values }) => ({ name: code, message: values.message ?? code });

/** The paper is as large as the editor says; else it keeps its width and takes the picture's form. */
function onPaper({ size, area }) {
  store.amend('paper', (before) => {
    const { paper } = before;
    const widthMm = size?.widthMm ?? paper.widthMm;
    const heightMm = size?.heightMm ?? (widthMm * area.height) / area.width;
    const fits = [widthMm, heightMm].every((side) => side >= 1 && side <= 5000);
    return fits ? { ...before, paper: { ...paper, widthMm, heightMm } } : before;
  });
}

/** Tells what was given. */
function show({ name, area, selection }) {
  const size = document.createElement('small');
  const whole = given.part === 'selection' && selection ? 'Selection' : 'Picture';
  size.textContent = `${whole}, ${Math.round(area.width)} × ${Math.round(area.height)}`;
  at('picture-name').replaceChildren(name || 'The picture in hand', size);
  at('parts').hidden = !selection;
  at('work').hidden = false;
  const { brushes, brush = 0, paper } = store.plan;
  at('brush').replaceChildren(
    ...brushes.map(
      (each, i) => new Option(`${each.name}, ${each.pressedMm} mm`, i, false, i === brush),
    ),
  );
  at('width').value = Math.round(paper.widthMm);
}

/** Makes the layers that are ticked and lays them on the editor's picture: one step of its undo. */
function lay() {
  const kinds = new FormData(form).getAll('kind');
  return working(async (signal) => {
    const { area, revision } = given;
    say();
    const drawn = await planLayers(store, kinds, {
      names: NAMES,
      within: ringsWithin(given, given.part),
      signal,
      onProgress: ({ stage, done }) => progress(stage, done),
    });
    const layers = drawn.map((layer) => ({ ...layer, place: area, revision }));
    try {
      await session.layers(layers, { signal });
    } catch (error) {
      if (error.name !== 'TooLarge') throw error;
      return trouble(words.layersTooLarge(host.name, host.limits));
    }
    const laid = kinds.map((kind) => NAMES[kind].toLowerCase()).join(', ');
    say(`Laid on the picture: ${laid}. One undo in ${host.name} takes it off again.`);
  });
}

/** A change of plan by a control of the page, as a step of the panel's own undo. */
function onChange({ target }) {
  if (target.id === 'brush')
    store.change('brush', (before) => ({ ...before, brush: Number(target.value) }));
  if (target.id === 'width' && target.reportValidity())
    store.change('paper', (before) => {
      const widthMm = target.valueAsNumber;
      const heightMm = (widthMm * before.paper.heightMm) / before.paper.widthMm;
      const fits = heightMm >= 1 && heightMm <= 5000;
      return fits ? { ...before, paper: { ...before.paper, widthMm, heightMm } } : before;
    });
  ready();
}

async function tell(event) {
  if (!session || !given || !at('tell').checked || !host.takes.includes('readings')) return;
  const reading = spotOf(event, store.plan, given.area);
  await session.readings([reading]).catch(told);
}

async function handOver() {
  const swatches = swatchesOf(store.plan, { cssOfLab, designTokensOf, labOf });
  const count = swatches.swatches.length;
  if (count === 0) return say('The board is empty: add a colour first.');
  try {
    await session.swatches(swatches);
    say(`${host.name} has ${count === 1 ? 'the one swatch' : `all ${count} swatches`}.`);
  } catch (error) {
    told(error);
  }
}

/** A host has come. */
async function joined(mine) {
  session = mine;
  void mine.closed.then((why) => left(mine, why));
  try {
    host = await mine.ready;
  } catch {
    return; // `closed` tells
  }
  if (session !== mine) return;
  at('host').textContent = `with ${host.name}`;
  ready();
  await take();
}

function left(mine, why) {
  if (session !== mine) return;
  session = undefined;
  work?.abort();
  at('host').textContent = '';
  ready();
  if (why.name === 'VersionUnknown') return told(why);
  trouble(words.lostWith(host.name), { act: () => watch.knock(), label: 'Look for the editor' });
}

tabsIn(document.querySelector('[role=tablist]'));
// By the button's click: a sandboxed frame may drop forms before they are submitted.
laying.addEventListener('click', () => {
  if (form.reportValidity()) void lay();
});
form.addEventListener('submit', (event) => event.preventDefault());
form.addEventListener('change', onChange);
at('parts').addEventListener('change', () => void take());
at('take').addEventListener('click', () => void take());
at('stop').addEventListener('click', () => work?.abort());
at('hand-over').addEventListener('click', () => void handOver());
document.querySelector('lightness-picker').addEventListener('reading', (event) => void tell(event));

const content = document.querySelector('meta[name=tonewell-hosts]').content;
const named = content.split(/\s+/).filter(Boolean);
if (window.parent === window) {
  at('named').textContent = words.namedHosts(named);
  at('address').textContent = location.origin + location.pathname;
  at('alone').hidden = false;
} else say(words.WAITING);
ready();
const watch = awaitHost({
  name: 'Tonewell',
  origins: named.map((each) => (each === 'self' ? location.origin : each)),
  joined,
  stranger: (origin) => {
    if (!session) trouble(words.strangerAt(origin));
  },
  changed: () => say(words.changedIn(host.name), { act: takeAnew, label: 'Take it anew' }),
});
