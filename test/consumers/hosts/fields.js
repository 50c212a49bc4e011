/** The picture of both hosts: three flat fields, 400 x 300, dark at the left, middle above, light below; in colours, so that a grey is not of it. */
export function drawnFields() {
  const canvas = document.createElement('canvas');
  canvas.width = 400;
  canvas.height = 300;
  const context = canvas.getContext('2d');
  context.fillStyle = '#1e325a';
  context.fillRect(0, 0, 130, 300);
  context.fillStyle = '#aa5a50';
  context.fillRect(130, 0, 270, 140);
  context.fillStyle = '#dcd296';
  context.fillRect(130, 140, 270, 160);
  return canvas;
}

/** Where it lies on the table, in the host's units: a quarter larger than its pixels. */
export const PLACE = { x: 60, y: 30, width: 500, height: 375 };
export const TABLE = { width: 640, height: 440 };
