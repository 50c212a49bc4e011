/** A red spot (CIELAB 46.5 55.7 33.1, culori 4.0.2) on grey, with a corner of another colour; 320 x 200. */
export async function accentPicture(corner: string): Promise<Blob> {
  const canvas = new OffscreenCanvas(320, 200);
  const context = canvas.getContext('2d')!;
  context.fillStyle = 'rgb(128 128 128)';
  context.fillRect(0, 0, 320, 200);
  context.fillStyle = corner;
  context.fillRect(270, 140, 50, 60);
  context.fillStyle = 'rgb(200 58 58)';
  context.beginPath();
  context.arc(60, 60, 8, 0, 2 * Math.PI);
  context.fill();
  return canvas.convertToBlob({ type: 'image/png' });
}
