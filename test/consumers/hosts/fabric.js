// An editor on fabric: its picture is an image of the library, layers come back as images and groups of paths.
import { Canvas, FabricImage, loadSVGFromString, util } from 'fabric';
import { imageOfLayer, joinFrame, pictureOfCanvas } from 'tonewell/host';
import { drawnFields, PLACE, TABLE } from './fields.js';
import { Steps } from './steps.js';

const table = new Canvas('table', { ...TABLE, backgroundColor: '#808080' });
const steps = new Steps();
const corner = { originX: 'left', originY: 'top', left: PLACE.x, top: PLACE.y };
const picture = new FabricImage(drawnFields(), { ...corner, scaleX: 1.25, scaleY: 1.25 });
table.add(picture);

/** A layer as an object of the library, over the rectangle that it covers. */
async function objectOf(layer) {
  const { x, y, width, height } = layer.place;
  const { object, size } = layer.form === 'svg' ? await pathsOf(layer) : await imageOf(layer);
  const scaleX = width / size.width;
  const scaleY = height / size.height;
  // Where its own corner lies on the drawing: lines are broader than the shapes that they go round.
  const corner = object.getPointByOrigin('left', 'top');
  object.set({ originX: 'left', originY: 'top', scaleX, scaleY });
  object.set({ left: x + corner.x * scaleX, top: y + corner.y * scaleY });
  return object;
}

async function imageOf(layer) {
  const image = drawn(await imageOfLayer(layer));
  const object = new FabricImage(image, { originX: 'left', originY: 'top', left: 0, top: 0 });
  return { object, size: image };
}

/** The library takes images and canvases, and no bitmaps. */
function drawn(bitmap) {
  const canvas = document.createElement('canvas');
  canvas.width = bitmap.width;
  canvas.height = bitmap.height;
  canvas.getContext('2d').drawImage(bitmap, 0, 0);
  return canvas;
}

async function pathsOf({ data }) {
  const { objects, options } = await loadSVGFromString(data);
  return { object: util.groupSVGElements(objects.filter(Boolean), options), size: options };
}

joinFrame(document.querySelector('iframe'), {
  origin: document.documentElement.dataset.panel,
  name: 'Fabric table',
  picture: (asked) =>
    pictureOfCanvas(picture.toCanvasElement({ withoutTransform: true }), asked, {
      name: 'Fields',
      area: PLACE,
    }),
  async layers(layers) {
    const objects = await Promise.all(layers.map(objectOf));
    steps.take({
      does: () => table.add(...objects),
      undoes: () => table.remove(...objects),
    });
    table.renderAll();
    document.body.dataset.objects = table
      .getObjects()
      .map(({ type }) => type)
      .join(' ');
  },
});

// What lies on the table now, for whoever looks at the page.
table.on('after:render', () => {
  document.body.dataset.count = table.getObjects().length;
});
table.renderAll();
