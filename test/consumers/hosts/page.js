import { imageOfLayer, joinFrame, pictureOfCanvas } from 'tonewell/host';

const canvas = document.querySelector('canvas');
const context = canvas.getContext('2d');
const before = []; // what undo brings back

joinFrame(document.querySelector('iframe'), {
  origin: 'https://kit.example',
  name: 'Sketch table',
  picture: (asked) => pictureOfCanvas(canvas, asked, { name: 'Still life' }),
  async layers(layers) {
    const images = await Promise.all(layers.map(imageOfLayer));
    before.push(context.getImageData(0, 0, canvas.width, canvas.height));
    layers.forEach(({ place: { x, y, width, height } }, i) =>
      context.drawImage(images[i], x, y, width, height),
    );
  },
  readings: ([{ css, value }]) => console.log(`${css} has value ${value.toFixed(1)}`),
  swatches: ({ swatches }) => console.log(`${swatches.length} swatches`),
});

addEventListener('keydown', ({ ctrlKey, key }) => {
  if (ctrlKey && key === 'z' && before.length > 0) context.putImageData(before.pop(), 0, 0);
});
