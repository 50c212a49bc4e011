/** What the viewer writes for other programs: PNG and SVG as large as on the plan's paper, where a pixel of the test's picture is 1 mm. */
import { expect } from 'chai';
import { setViewport } from '@web/test-runner-commands';
import { button, clear, HEIGHT, massesOf, shown, until, WIDTH } from './viewer-masses-helpers.js';

/** Pixels per metre that a PNG tells (PNG 3rd edition, 11.3.4.3), by the layout of chunks in 5.3. */
async function perMetre(blob: Blob): Promise<number[]> {
  const view = new DataView(await blob.arrayBuffer());
  for (let at = 8; at + 12 <= view.byteLength; at += 12 + view.getUint32(at)) {
    if (view.getUint32(at + 4) !== 0x70485973) continue; // pHYs
    return [view.getUint32(at + 8), view.getUint32(at + 12), view.getUint8(at + 16)];
  }
  return [];
}

/** An SVG as the browser shows it: its size on the page, and its pixels at so many a mm. */
async function seen(svg: string, perMm: number) {
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  await image.decode();
  document.body.append(image);
  const { width, height } = image.getBoundingClientRect();
  image.remove();
  const canvas = new OffscreenCanvas(WIDTH * perMm, HEIGHT * perMm);
  const context = canvas.getContext('2d', { willReadFrequently: true })!;
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  URL.revokeObjectURL(image.src);
  return { width, height, pixels: context.getImageData(0, 0, canvas.width, canvas.height) };
}

describe('files of the viewer', () => {
  before(async () => setViewport({ width: 1000, height: 900 }));
  afterEach(() => clear());

  it('a PNG tells the width of the paper, for whatever is seen', async () => {
    const { viewer, store } = await shown({ view: 'bands' });
    for (const view of ['photo', 'greys', 'bands'] as const)
      expect(await perMetre(await viewer.toBlob({ view })), view).to.eql([1000, 1000, 1]);
    const { paper } = store.plan;
    store.change('paper', (plan) => ({ ...plan, paper: { ...paper, widthMm: 300 } }));
    // 240 pixels on 0.3 m.
    expect(await perMetre(await viewer.toBlob())).to.eql([800, 800, 1]);
  });

  it('is of the type asked for where the browser writes that, else a PNG that tells its width', async () => {
    const { viewer } = await shown({ view: 'bands' });
    const jpeg = await viewer.toBlob({ type: 'image/jpeg' });
    expect([...new Uint8Array(await jpeg.slice(0, 3).arrayBuffer())]).to.eql([0xff, 0xd8, 0xff]);
    const canvas = new OffscreenCanvas(1, 1);
    canvas.getContext('2d');
    const plain = await canvas.convertToBlob({ type: 'image/webp' });
    const file = await viewer.toBlob({ type: 'image/webp' });
    expect(file.type).to.equal(plain.type);
    if (plain.type === 'image/webp') return;
    console.log('This engine writes no WebP: what the viewer gives in its place was tested.');
    expect(file.type).to.equal('image/png');
    expect(await perMetre(file)).to.eql([1000, 1000, 1]);
  });

  it('outlines are an SVG of the paper’s width, 96 px an inch of 25.4 mm', async () => {
    const { viewer, store } = await shown({ view: 'masses' });
    await massesOf(store);
    const file = await viewer.outlinesToBlob();
    expect(file.type).to.equal('image/svg+xml');
    const { width, height } = await seen(await file.text(), 1);
    expect(width).to.be.closeTo((WIDTH * 96) / 25.4, 0.51);
    expect(height).to.be.closeTo((HEIGHT * 96) / 25.4, 0.51);
    const drawing = new DOMParser().parseFromString(await file.text(), 'image/svg+xml');
    expect(drawing.querySelector('parsererror')).to.equal(null);
    const { masses } = await massesOf(store);
    expect(drawing.querySelectorAll('path')).to.have.length(masses.regions.length);
    expect(drawing.querySelector('#mass-0 > title')?.textContent).to.match(/^\S.* 1$/);
  });

  it('filled by its masses it is the picture of the masses, but for the width of a smoothed border', async () => {
    const { viewer, store } = await shown({ view: 'masses' });
    const { masses } = await massesOf(store);
    const drawing = new DOMParser().parseFromString(
      await (await viewer.outlinesToBlob()).text(),
      'image/svg+xml',
    );
    // Each mass in a colour of its own; edges unsmoothed, so that no mixed pixel passes for a mass.
    const root = drawing.documentElement;
    root.setAttribute('shape-rendering', 'crispEdges');
    root.querySelector('g')!.setAttribute('stroke', 'none');
    for (const path of drawing.querySelectorAll('path'))
      path.setAttribute('fill', `rgb(${50 + 10 * Number(path.id.slice(5))} 0 0)`);
    const { pixels } = await seen(new XMLSerializer().serializeToString(drawing), 1);
    let wrong = 0;
    const { labels } = masses;
    labels.forEach((label, at) => {
      if (pixels.data[4 * at] !== 50 + 10 * label) wrong++;
    });
    // The length of all borders between masses, pixels: a smoothed border may be as far off as 1.5 pixels on either side.
    let border = 0;
    labels.forEach((label, at) => {
      if (at % WIDTH < WIDTH - 1 && labels[at + 1] !== label) border++;
      if (at + WIDTH < labels.length && labels[at + WIDTH] !== label) border++;
    });
    expect(border).to.be.above(300);
    expect(wrong).to.be.below(1.5 * border);
    expect(wrong).to.be.below(0.03 * labels.length);
  });

  it('the button is there while masses are looked at, and names the file', async () => {
    const { viewer, root, store } = await shown({ view: 'bands', controls: 'views save tracings' });
    expect(root.querySelector('[data-save-outlines]')).to.equal(null);
    viewer.view = 'masses';
    await massesOf(store);
    await until(
      () => root.querySelector('[data-save-outlines]:not(:disabled)'),
      'the button for outlines',
    );
    const names: string[] = [];
    const click = HTMLAnchorElement.prototype.click;
    HTMLAnchorElement.prototype.click = function () {
      names.push(this.download);
    };
    try {
      button(root, /^Outlines as SVG$/).click();
      await until(() => names.length, 'the download');
    } finally {
      HTMLAnchorElement.prototype.click = click;
    }
    expect(names[0]).to.match(/outlines\.svg$/);
  });

  it('without a picture there is nothing to write', async () => {
    const viewer = document.createElement('value-band-viewer');
    document.body.append(viewer);
    let thrown: unknown;
    await viewer.outlinesToBlob().catch((error: unknown) => (thrown = error));
    viewer.remove();
    expect((thrown as DOMException).name).to.equal('InvalidStateError');
  });
});
