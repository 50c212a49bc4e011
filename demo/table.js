/** An editor of a few lines: it lends its picture to the panel, lays what it is given over it, and takes each step back. */
import { BridgeError, imageOfLayer, joinFrame, pictureOfCanvas } from '../dist/host/index.js';

const at = (id) => document.getElementById(id);
const canvas = at('picture');
const context = canvas.getContext('2d');

/** The picture alone; the canvas shows the layers besides. */
const photo = new OffscreenCanvas(canvas.width, canvas.height);
/** The paper that it is to be painted on. */
const PAPER = { widthMm: 270, heightMm: 360 };
const PARTS = {
  dog: { x: 250, y: 185, width: 490, height: 850 },
  pear: { x: 20, y: 600, width: 250, height: 430 },
};

const loaded = (async () => {
  const image = new Image();
  image.src = 'pictures/clay-dog-900.jpg';
  try {
    await image.decode();
  } catch {
    at('told').textContent = 'The picture could not be loaded. Load this page again.';
    throw new BridgeError('NoPicture', 'The picture of the table could not be loaded.');
  }
  photo.getContext('2d').drawImage(image, 0, 0, photo.width, photo.height);
  draw();
})();
loaded.catch(() => undefined); // told above, and to the panel when it asks

let selection;
/** What lies on the picture after each step, the lowest layer first, and how many of the steps count. */
const steps = [[]];
let step = 0;
const hidden = new WeakSet();
let colours = [];

function draw() {
  context.drawImage(photo, 0, 0);
  for (const layer of steps[step]) {
    const { x, y, width, height } = layer.place;
    if (!hidden.has(layer)) context.drawImage(layer.image, x, y, width, height);
  }
  if (!selection) return;
  const { x, y, width, height } = selection;
  for (const [color, dash] of [
    ['#000', []],
    ['#fff', [12, 12]],
  ]) {
    context.lineWidth = 3;
    context.strokeStyle = color;
    context.setLineDash(dash);
    context.strokeRect(x, y, width, height);
  }
}

function list() {
  const layers = [...steps[step]].reverse();
  at('undo').disabled = step === 0;
  at('redo').disabled = step === steps.length - 1;
  at('nothing').hidden = layers.length > 0 || colours.length > 0;
  at('layers-heading').hidden = layers.length === 0;
  at('colours-heading').hidden = colours.length === 0;
  at('layers').replaceChildren(...layers.map(layerItem));
  at('colours').replaceChildren(...colours.map(colourItem));
}

function layerItem(layer) {
  const [item, label, box, form] = ['li', 'label', 'input', 'small'].map((name) =>
    document.createElement(name),
  );
  box.type = 'checkbox';
  box.checked = !hidden.has(layer);
  box.addEventListener('change', () => {
    if (box.checked) hidden.delete(layer);
    else hidden.add(layer);
    draw();
  });
  form.textContent = layer.form === 'svg' ? 'drawing' : 'pixels';
  label.append(box, layer.name, form);
  item.append(label);
  return item;
}

function colourItem({ css, words }) {
  const item = document.createElement('li');
  const dab = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  const fill = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  for (const [name, value] of Object.entries({ width: '100%', height: '100%', rx: 3, fill: css }))
    fill.setAttribute(name, value);
  dab.setAttribute('aria-hidden', 'true');
  dab.append(fill);
  item.append(dab, words);
  return item;
}

function show() {
  draw();
  list();
}

function go(to) {
  step = Math.max(0, Math.min(steps.length - 1, to));
  show();
}

const panel = joinFrame(document.querySelector('iframe'), {
  origin: location.origin,
  name: 'Drawing table',
  async picture(asked) {
    await loaded;
    const chosen = selection && { bounds: selection };
    return pictureOfCanvas(photo, asked, { name: 'Clay dog', size: PAPER, selection: chosen });
  },
  async layers(layers) {
    const images = await Promise.all(layers.map(imageOfLayer));
    steps.splice(step + 1);
    steps.push([...steps[step], ...layers.map((layer, i) => ({ ...layer, image: images[i] }))]);
    go(step + 1);
  },
  readings(readings) {
    const read = readings.map(({ css, value, band }) => ({
      css,
      words: `Spot, value ${value.toFixed(1)}, ${band}`,
    }));
    colours = [...colours, ...read];
    list();
  },
  swatches({ swatches }) {
    colours = swatches.map(({ css, name }) => ({ css, words: name || css }));
    list();
  },
});

at('undo').addEventListener('click', () => go(step - 1));
at('redo').addEventListener('click', () => go(step + 1));
addEventListener('keydown', (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
  event.preventDefault();
  go(event.shiftKey ? step + 1 : step - 1);
});

/* The selection: chosen from a list, or drawn. */

function select(part, chosen) {
  selection = part;
  at('selection').value = chosen;
  draw();
}

at('selection').addEventListener('change', ({ target: { value } }) => {
  select(PARTS[value], value);
  panel.changed();
});

/** Where the pointer is on the picture, inside it, whole pixels. */
function spotOf({ offsetX, offsetY }) {
  const inside = (at, over, most) => Math.round(Math.max(0, Math.min(1, at / over)) * most);
  return [
    inside(offsetX, canvas.clientWidth, canvas.width),
    inside(offsetY, canvas.clientHeight, canvas.height),
  ];
}

const LEAST_SIDE = 24;
let from;
canvas.addEventListener('pointerdown', (event) => {
  from = spotOf(event);
  canvas.setPointerCapture(event.pointerId);
});
canvas.addEventListener('pointermove', (event) => {
  if (!from) return;
  const to = spotOf(event);
  const [x, y] = [0, 1].map((i) => Math.min(from[i], to[i]));
  const [width, height] = [0, 1].map((i) => Math.abs(from[i] - to[i]));
  if (Math.min(width, height) >= LEAST_SIDE) select({ x, y, width, height }, 'drawn');
  else select(undefined, '');
});
canvas.addEventListener('pointerup', (event) => {
  const moved = from && spotOf(event).some((each, i) => each !== from[i]);
  from = undefined;
  if (!moved) select(undefined, '');
  panel.changed();
});
canvas.addEventListener('pointercancel', () => (from = undefined));
