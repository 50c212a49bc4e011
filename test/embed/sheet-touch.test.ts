/** The sheet reader on the built studio page, on a phone: a 12-megapixel file, a finger on a corner, the value card at its size. */
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import type { SwatchSheetReader } from '../../components/index.js';
import { startBrowser } from './site.js';
import { demoServer } from '../../demo/serve.mjs';

let server: Server;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  server = demoServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  browser = await startBrowser();
  page = await browser.newPage();
  await page.setViewport({ width: 360, height: 780, hasTouch: true, isMobile: true });
  const { port } = server.address() as AddressInfo;
  await page.goto(`http://127.0.0.1:${port}/demo/index.html#paper`);
  await page.waitForSelector('swatch-sheet-reader');
});
afterAll(async () => {
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
});

/** The reader's first corner, photo pixels, its handle's middle on the screen, and how far the page is scrolled. */
const cornerNow = () =>
  page.evaluate(() => {
    const reader = document.querySelector<SwatchSheetReader>('swatch-sheet-reader')!;
    const handle = reader.shadowRoot!.querySelector('[data-corner]')!;
    const { x, y, width, height } = handle.getBoundingClientRect();
    const shown = reader.shadowRoot!.querySelector('.stage')!.getBoundingClientRect().width;
    const [at] = reader.reading!.corners;
    return {
      at,
      x: x + width / 2,
      y: y + height / 2,
      least: Math.min(width, height),
      shown,
      scrollY,
    };
  });

describe('the sheet reader on a phone', () => {
  it('reads a file of 12 megapixels', async () => {
    const dabs = await page.evaluate(async () => {
      const small = await createImageBitmap(await (await fetch('pictures/test-sheet.jpg')).blob());
      const canvas = new OffscreenCanvas(4000, 3000);
      canvas.getContext('2d')!.drawImage(small, 0, 0, 4000, 3000);
      const file = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
      const reader = document.querySelector<SwatchSheetReader>('swatch-sheet-reader')!;
      const read = new Promise((resolve) =>
        reader.addEventListener('sheet-read', resolve, { once: true }),
      );
      reader.picture = file;
      await read;
      return reader.reading!.swatches.length;
    });
    // demo/pictures/README.md: sixteen dabs.
    expect(dabs).toBe(16);
  });

  it('lets a finger move a corner, and the page stays where it is', async () => {
    await page.evaluate(() => {
      const reader = document.querySelector<SwatchSheetReader>('swatch-sheet-reader')!;
      reader.shadowRoot!.querySelector('[data-corner]')!.scrollIntoView({ block: 'center' });
    });
    const before = await cornerNow();
    expect(before.least).toBeGreaterThanOrEqual(44);
    await page.touchscreen.touchStart(before.x, before.y);
    for (let i = 1; i <= 6; i++)
      await page.touchscreen.touchMove(before.x + 2 * i, before.y + 3 * i);
    await page.touchscreen.touchEnd();
    await page.waitForFunction(
      (x) =>
        document.querySelector<SwatchSheetReader>('swatch-sheet-reader')!.reading!.corners[0][0] !==
        x,
      {},
      before.at[0],
    );
    const after = await cornerNow();
    // 12 and 18 pixels of the screen, in pixels of a photo 4000 wide; a pixel of the screen to either side.
    const scale = 4000 / before.shown;
    expect(Math.abs(after.at[0] - before.at[0] - 12 * scale)).toBeLessThan(scale);
    expect(Math.abs(after.at[1] - before.at[1] - 18 * scale)).toBeLessThan(scale);
    expect(after.scrollY).toBe(before.scrollY);
  });

  it('draws the value card in CSS millimetres', async () => {
    const scale = await page.evaluate(async () => {
      const reader = document.querySelector<SwatchSheetReader>('swatch-sheet-reader')!;
      reader.panel = 'card';
      await reader.updateComplete;
      const drawn = reader
        .shadowRoot!.querySelector('.card-page svg')!
        .cloneNode(true) as SVGElement;
      document.body.append(drawn);
      const { width } = drawn.querySelector('#scale')!.getBoundingClientRect();
      drawn.remove();
      return width;
    });
    // CSS Values 4: 96 pixels an inch, 25.4 mm an inch.
    expect(Math.abs(scale - (100 * 96) / 25.4)).toBeLessThan(0.5);
  });
});
