/** The article as a reader meets it: nothing moves, nothing starts before it is near, it prints, and it reads without script. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import type { ValueBandViewer } from '../../components/index.js';
import {
  axeFindings,
  sideways,
  startDemo,
  strangers,
  until,
  watch,
  type DemoSite,
} from './page.js';
import { startBrowser } from './site.js';

let demo: DemoSite;
let browser: Browser;

beforeAll(async () => {
  demo = await startDemo();
  browser = await startBrowser();
});
afterAll(async () => {
  await browser?.close();
  demo?.close();
});

const figures = ['photo', 'greys', 'bands', 'paper'];

async function open(
  prepare: (page: Page) => Promise<unknown> = async () => undefined,
): Promise<Page> {
  const page = await browser.newPage();
  await page.setViewport({ width: 1280, height: 900 });
  await prepare(page);
  await page.goto(`${demo.origin}/demo/article.html`);
  return page;
}

/** Scrolls through the page as a reader does. */
async function readThrough(page: Page): Promise<void> {
  await page.evaluate(async () => {
    for (let y = 0; y < document.documentElement.scrollHeight; y += 240) {
      scrollTo(0, y);
      await new Promise((resolve) => setTimeout(resolve, 80));
    }
  });
}

const shown = (page: Page, name: string): Promise<boolean> =>
  page.$eval(`#figure-${name}`, (figure) => figure.matches(':state(ready)'));

const allShown = (page: Page): Promise<boolean> =>
  until('all figures', async () =>
    (await Promise.all(figures.map((name) => shown(page, name)))).every(Boolean),
  );

describe('the article', () => {
  it('reads without script: words, pictures, captions', async () => {
    const page = await open((page) => page.setJavaScriptEnabled(false));
    const seen = await page.evaluate(() => ({
      defined: document.querySelectorAll(':not(:defined)').length,
      words: document.querySelector('article')!.innerText.split(/\s+/).length,
      captions: [...document.querySelectorAll<HTMLElement>('[slot=caption], figcaption')].map(
        (caption) => caption.offsetHeight,
      ),
      pictures: [...document.querySelectorAll<HTMLImageElement>('value-band-viewer > img')].map(
        ({ complete, naturalWidth, offsetWidth, offsetHeight }) =>
          complete && naturalWidth > 0 && Math.abs(offsetHeight / offsetWidth - 4 / 3) < 0.01,
      ),
    }));
    expect(seen.defined).toBe(4);
    expect(seen.words).toBeGreaterThan(500);
    expect(seen.captions.filter((height) => height >= 24)).toHaveLength(4);
    expect(seen.pictures).toEqual([true, true, true, true]);
    await page.close();
  });

  it('starts nothing before a figure is near, then draws it', async () => {
    const fetched: string[] = [];
    const page = await open(async (page) => {
      page.on('request', (request) => {
        if (request.resourceType() === 'fetch') fetched.push(request.url());
      });
      // The first figure far below: a longer opening than the article has.
      await page.setRequestInterception(true);
      page.on('request', (request) => {
        if (!request.url().endsWith('/article.css')) return void request.continue();
        void request.respond({
          contentType: 'text/css',
          body: '#article header { block-size: 6000px } value-band-viewer > img { inline-size: 100%; block-size: auto }',
        });
      });
      // Decoding in the page or its workers goes through this call.
      await page.evaluateOnNewDocument(() => {
        const decode = self.createImageBitmap;
        Object.assign(self, { decoded: 0 });
        self.createImageBitmap = ((...args: Parameters<typeof decode>) => {
          (self as unknown as { decoded: number }).decoded++;
          return decode(...args);
        }) as typeof decode;
      });
    });
    await new Promise((resolve) => setTimeout(resolve, 1500));
    expect(page.workers()).toHaveLength(0);
    expect(fetched).toEqual([]);
    expect(await page.evaluate('decoded')).toBe(0);
    expect(
      await page.$$eval('value-band-viewer > img', (images) =>
        images.map((image) => [image.loading, image.complete && image.naturalWidth > 0]),
      ),
    ).toEqual(figures.map(() => ['lazy', false]));

    await page.$eval('#figure-photo', (figure) => figure.scrollIntoView());
    await until('the first figure', () => shown(page, 'photo'));
    expect(page.workers().length).toBeGreaterThan(0);
    expect(fetched.length).toBeGreaterThan(0);
    await page.close();
  });

  it('moves nothing: the sum of layout shifts is 0', async () => {
    const page = await open((page) =>
      page.evaluateOnNewDocument(() => {
        const shifts: number[] = [];
        Object.assign(self, { shifts });
        new PerformanceObserver((list) => {
          for (const entry of list.getEntries())
            shifts.push((entry as unknown as { value: number }).value);
        }).observe({ type: 'layout-shift', buffered: true });
      }),
    );
    await readThrough(page);
    await allShown(page);
    await page.evaluate(() => scrollTo(0, 0));
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect(await page.evaluate('shifts')).toEqual([]);
    // That shifts are seen at all in this browser: one made on purpose.
    await page.evaluate(() => {
      const block = document.createElement('p');
      block.textContent = 'in the way';
      document.querySelector('#article')!.before(block);
    });
    await until('a shift', () => page.evaluate('shifts.length > 0') as Promise<boolean>);
    await page.close();
  });

  it('says of the picture what its figures compute', async () => {
    const page = await open();
    await readThrough(page);
    await allShown(page);
    const found = await page.evaluate(() => {
      const { picture, plan } = document.querySelector<ValueBandViewer>('#figure-bands')!.store;
      const { data, width, height } = picture.plane!;
      const limits = [...plan.photoLimits, plan.paperLimit!];
      const counts = [0, 0, 0, 0];
      for (const code of data) counts[limits.filter((limit) => code / 2.55 >= limit).length]++;
      // A spot of 13 pixels square about a place, as the mean of its lightnesses.
      const lightnessAt = (place: string): number => {
        const [x, y] = place.split(' ').map(Number);
        let sum = 0;
        for (let j = -6; j <= 6; j++)
          for (let i = -6; i <= 6; i++)
            sum += data[(Math.round(y * height) + j) * width + Math.round(x * width) + i];
        return sum / 169 / 2.55;
      };
      return {
        limits,
        shares: [...document.querySelectorAll<HTMLElement>('data[data-band]')].map((told) => ({
          told: Number(told.textContent),
          found: (100 * counts[Number(told.dataset.band)]) / data.length,
        })),
        spots: [...document.querySelectorAll<HTMLElement>('data[data-spot]')].map((told) => ({
          told: Number(told.textContent),
          found: lightnessAt(told.dataset.spot!),
        })),
      };
    });
    expect(found.shares).toHaveLength(4);
    for (const { told, found: share } of found.shares)
      expect(Math.abs(told - share)).toBeLessThan(0.6);
    expect(found.spots).toHaveLength(5);
    for (const { told, found: lightness } of found.spots)
      expect(Math.abs(told - munsell(lightness))).toBeLessThan(0.11);
    // The limits told in the table.
    expect(found.limits.map((limit) => munsell(limit).toFixed(1))).toEqual(['3.6', '6.6', '8.9']);
    await page.close();
  });

  it('prints its figures as pictures, drawn or not', async () => {
    const page = await open();
    await page.$eval('#figure-paper', (figure) => figure.scrollIntoView());
    await until('the last figure', () => shown(page, 'paper'));
    await until('the pictures', () =>
      page.$$eval('value-band-viewer > img', (images) =>
        images.every((image) => (image.loading = 'eager') && image.complete),
      ),
    );
    const pdf = Buffer.from(await page.pdf({ format: 'A4' })).toString('latin1');
    expect(pdf.match(/\/Subtype\s*\/Image/g)?.length).toBeGreaterThanOrEqual(4);
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBeLessThanOrEqual(5);
    await page.close();
  });

  it('fits 360 pixels, text at 200 % too, is clean for axe light and dark, asks only its own server, logs no fault', async () => {
    let watched: ReturnType<typeof watch>;
    const page = await open(async (page) => {
      watched = watch(page);
    });
    for (const [width, scheme] of [
      [1280, 'light'],
      [360, 'dark'],
    ] as const) {
      await page.setViewport({ width, height: 740 });
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
      await readThrough(page);
      await allShown(page);
      expect(await sideways(page)).toBe(0);
      expect(await axeFindings(page)).toEqual([]);
    }
    await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
    expect(await sideways(page)).toBe(0);
    expect(strangers(watched!.asked, demo.origin)).toEqual([]);
    expect(watched!.faults).toEqual([]);
    await page.close();
  });
});

/** Munsell value of a lightness: the quintic of ASTM D1535-08 (Y of the perfect diffuser = 100), solved by halving. */
function munsell(lightness: number): number {
  const f = (lightness + 16) / 116;
  const Y = 100 * (lightness > 8 ? f ** 3 : (lightness * 27) / 24389);
  const luminance = (v: number): number =>
    1.1914 * v - 0.22533 * v ** 2 + 0.23352 * v ** 3 - 0.020484 * v ** 4 + 0.00081939 * v ** 5;
  let [low, high] = [0, 10.2];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (luminance(middle) < Y) low = middle;
    else high = middle;
  }
  return low;
}
