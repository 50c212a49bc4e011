/** The drawing table of the guide, as it is served: an editor with the panel at its side. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Frame, Page } from 'puppeteer-core';
import { layIn, panelIn, saysIn } from './host.js';
import { axeFindings, startDemo, strangers, until, watch, type DemoSite } from './page.js';
import { startBrowser } from './site.js';

let site: DemoSite;
let browser: Browser;
let page: Page;
let panel: Frame;
let heard: ReturnType<typeof watch>;

beforeAll(async () => {
  [site, browser] = await Promise.all([startDemo(), startBrowser()]);
  page = await browser.newPage();
  await page.setViewport({ width: 1280, height: 900 });
  heard = watch(page);
  await page.goto(`${site.origin}/demo/table.html`);
  panel = await panelIn(page);
});
afterAll(async () => {
  await browser?.close();
  site?.close();
});

const layers = (): Promise<string[]> =>
  page.$$eval('#layers label', (labels) =>
    labels.map(({ firstChild, childNodes }) =>
      (firstChild as HTMLInputElement).checked ? childNodes[1].textContent! : '',
    ),
  );

/** The colour of the canvas at a place of the photo, fractions. */
const colourAt = (x: number, y: number): Promise<number[]> =>
  page.$eval(
    'canvas',
    (canvas, x, y) => [
      ...canvas.getContext('2d')!.getImageData(x * canvas.width, y * canvas.height, 1, 1).data,
    ],
    x,
    y,
  );

describe('the drawing table', () => {
  it('lays what the panel gives over its picture, and takes each step back', async () => {
    // On the ribbon: red in the photo, a grey in its bands.
    const [red, green, blue] = await colourAt(0.5, 0.385);
    expect(red).toBeGreaterThan(2 * Math.max(green, blue));
    await layIn(panel, 'bands', 'outlines');
    await saysIn(panel, /Laid on the picture: bands, outlines/);
    expect(await layers()).toEqual(['Outlines', 'Bands']);
    const [grey, ...others] = await colourAt(0.5, 0.385);
    expect(others.slice(0, 2)).toEqual([grey, grey]);
    await page.click('#undo');
    expect(await layers()).toEqual([]);
    expect(await colourAt(0.5, 0.385)).toEqual([red, green, blue, 255]);
    await page.keyboard.down('Control');
    await page.keyboard.press('Z');
    await page.keyboard.down('Shift');
    await page.keyboard.press('Z');
    await page.keyboard.up('Shift');
    await page.keyboard.up('Control');
    expect(await layers()).toEqual(['Outlines', 'Bands']);
    // A layer that is not shown is still there.
    await page.click('#layers li:last-child input');
    expect(await layers()).toEqual(['Outlines', '']);
    expect(await colourAt(0.5, 0.385)).toEqual([red, green, blue, 255]);
  });

  it('lends a selection that was chosen or drawn', async () => {
    await page.select('#selection', 'pear');
    await saysIn(panel, /have changed/);
    await panel.click('#said button');
    await until('the selection', () =>
      panel.$eval('#picture-name', ({ textContent }) => /250 × 430/.test(textContent!)),
    );
    await page.$eval('canvas', (canvas) => canvas.scrollIntoView());
    const box = (await (await page.$('canvas'))!.boundingBox())!;
    await page.mouse.move(box.x + 100, box.y + 100);
    await page.mouse.down();
    await page.mouse.move(box.x + 200, box.y + 250, { steps: 4 });
    await page.mouse.up();
    expect(await page.$eval('select', ({ value }) => value)).toBe('drawn');
    // A press without a drag lets it go.
    await page.mouse.click(box.x + 50, box.y + 50);
    expect(await page.$eval('select', ({ value }) => value)).toBe('');
  });

  it('keeps to its own policy, asks no other server, and is at one with axe', async () => {
    expect(await axeFindings(page)).toEqual([]);
    expect(heard.faults).toEqual([]);
    expect(strangers(heard.asked, site.origin)).toEqual([]);
  });

  it('says what to do where its picture is not to be had', async () => {
    const other = await browser.newPage();
    await other.setRequestInterception(true);
    other.on('request', (request) =>
      /clay-dog/.test(request.url()) ? void request.abort() : void request.continue(),
    );
    await other.goto(`${site.origin}/demo/table.html`);
    await until('the sentence', () =>
      other.$eval('#told', ({ textContent }) => /Load this page again/.test(textContent!)),
    );
    await other.close();
  });
});
