// An editor on Konva: its picture is an image of the library, layers come back as images and groups of paths.
import Konva from 'konva';
import { imageOfLayer, joinFrame, pictureOfCanvas } from 'tonewell/host';
import { drawnFields, PLACE, TABLE } from './fields.js';
import { Steps } from './steps.js';

const stage = new Konva.Stage({ container: 'table', ...TABLE });
const sheet = new Konva.Layer();
stage.add(sheet);
const steps = new Steps();
sheet.add(new Konva.Rect({ ...TABLE, fill: '#808080' }));
const picture = new Konva.Image({ image: drawnFields(), ...PLACE });
sheet.add(picture);

/** A layer as a node of the library, over the rectangle that it covers. */
async function nodeOf(layer) {
  if (layer.form === 'svg') return pathsOf(layer);
  return new Konva.Image({ image: await imageOfLayer(layer), ...layer.place });
}

function pathsOf({ data, place }) {
  const svg = new DOMParser().parseFromString(data, 'image/svg+xml').documentElement;
  const [, , width, height] = svg.getAttribute('viewBox').split(' ').map(Number);
  const { x, y } = place;
  const group = new Konva.Group({
    x,
    y,
    scaleX: place.width / width,
    scaleY: place.height / height,
  });
  for (const path of svg.querySelectorAll('path'))
    group.add(new Konva.Path({ data: path.getAttribute('d'), stroke: '#000', strokeWidth: 0.5 }));
  return group;
}

joinFrame(document.querySelector('iframe'), {
  origin: document.documentElement.dataset.panel,
  name: 'Konva table',
  picture: (asked) =>
    pictureOfCanvas(picture.toCanvas({ pixelRatio: 1 }), asked, { name: 'Fields', area: PLACE }),
  async layers(layers) {
    const nodes = await Promise.all(layers.map(nodeOf));
    steps.take({
      does: () => sheet.add(...nodes),
      undoes: () => nodes.forEach((node) => node.remove()),
    });
    document.body.dataset.objects = sheet
      .getChildren()
      .map((node) => node.getClassName())
      .join(' ');
  },
});

// What lies on the table now, for whoever looks at the page.
sheet.on('draw', () => {
  document.body.dataset.count = sheet.getChildren().length - 1;
});
