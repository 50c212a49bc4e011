/** The studio page as a painter meets it: offline, a photo to bands, a spot to the board, by keyboard, and back after a reload. */
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, ElementHandle, Page } from 'puppeteer-core';
import type {
  LightnessPicker,
  PaintingPlan,
  PlanSheet,
  ValueBandViewer,
} from '../../components/index.js';
import { startBrowser } from './site.js';
import { demoServer } from '../../demo/serve.mjs';

let server: Server;
let browser: Browser;
let page: Page;
const asked = new Set<string>();
const faults: string[] = [];

beforeAll(async () => {
  server = demoServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  browser = await startBrowser();
  page = await browser.newPage();
  page.on('request', (request) => asked.add(new URL(request.url()).origin));
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  await page.setViewport({ width: 1280, height: 900 });
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
});
afterAll(async () => {
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
});

const plan = (): Promise<PaintingPlan['document']> =>
  page.$eval('painting-plan', (element) => (element as PaintingPlan).document);

async function until<T>(
  what: string,
  ask: () => Promise<T | undefined | false | null>,
): Promise<T> {
  for (let i = 0; i < 150; i++) {
    const answer = await ask();
    if (answer) return answer;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain for ${what}`);
}

const ready = (): Promise<boolean> =>
  until('the photo', () =>
    page.$eval('painting-plan', (element) => (element as PaintingPlan).store.picture.exact),
  );

/** The first button inside an element whose words begin as given. */
const button = (host: string, words: string): Promise<ElementHandle<Element>> =>
  until(`the button ${words}`, async () => {
    for (const each of await page.$$(`${host} >>> button`)) {
      if ((await each.evaluate((element) => element.textContent!.trim())).startsWith(words))
        return each;
    }
    return undefined;
  });

describe('the studio', () => {
  it('shows the photo as bands, with limits that the photo proposes', async () => {
    await ready();
    const { photoLimits, board } = await plan();
    expect(photoLimits).toHaveLength(2);
    expect(board.bands.map(({ name }) => name)).toEqual(['dark', 'middle', 'light']);
  });

  it('moves a limit by keyboard and takes it back', async () => {
    const limits = async (): Promise<unknown> => {
      const { photoLimits, paperLimit } = await plan();
      return { photoLimits, paperLimit };
    };
    const before = await limits();
    const peg = await until('a peg', () =>
      page.$('value-band-viewer >>> [role=slider][part~=peg]'),
    );
    await peg.focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowUp');
    expect(await limits()).not.toEqual(before);
    await page.$eval('painting-plan', (element) => {
      const own = element as PaintingPlan;
      while (own.store.canUndo) own.undo();
    });
    expect(await limits()).toEqual(before);
  });

  it('reads a spot and sends it to the bucket of its band', async () => {
    const hole = await until('the hole', () => page.$('lightness-picker >>> [part~=hole]'));
    await hole.focus();
    await page.keyboard.press('ArrowLeft');
    const send = await button('lightness-picker', 'Send to the board');
    await until('a reading', () =>
      send.evaluate((element) => !(element as HTMLButtonElement).disabled),
    );
    await send.focus();
    await page.keyboard.press('Enter');
    const { swatches, limits } = await until('the swatch', async () => {
      const { board, photoLimits } = await plan();
      return board.swatches.length > 0 && { swatches: board.swatches, limits: photoLimits };
    });
    const [{ lightness, bucket, from }] = swatches;
    expect(from).toBe('reading');
    expect(bucket).toBe(limits.filter((limit) => lightness >= limit).length);
  });

  it('takes plan and photo up again after a reload', async () => {
    await page.$eval('painting-plan', (element) =>
      (element as PaintingPlan).store.change('title', (now) => ({ ...now, title: 'Clay dog' })),
    );
    await until('the plan to be kept with its photo', () =>
      page.$eval('painting-plan', async (element) => {
        await (element as PaintingPlan).save();
        return (element as PaintingPlan).document.photo !== undefined;
      }),
    );
    await page.$eval('painting-plan', (element) => (element as PaintingPlan).save());
    const before = await plan();
    await page.reload();
    await ready();
    const after = await plan();
    expect(after.title).toBe('Clay dog');
    expect(after.board.swatches).toEqual(before.board.swatches);
    expect(after.photoLimits).toEqual(before.photoLimits);
  });

  it('tells lengths as the person chose, after a reload too', async () => {
    const unit = (): Promise<string> =>
      page.$eval('plan-sheet', (element) => (element as PlanSheet).lengthUnit);
    expect(await unit()).toBe('mm');
    await page.$eval('value-band-viewer', (element) =>
      (element as ValueBandViewer).chooseUnit('in'),
    );
    expect(await unit()).toBe('in');
    await page.reload();
    await ready();
    expect(await unit()).toBe('in');
    expect(
      await page.$eval('lightness-picker', (element) =>
        (element as LightnessPicker).lengthOf(25.4),
      ),
    ).toMatch(/^1\s+in$/);
  });

  it('asks nobody but its own server, and logs no fault', () => {
    const own = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    expect(
      [...asked].filter((origin) => origin !== own && !/^(blob|data|null)/.test(origin)),
    ).toEqual([]);
    expect(faults).toEqual([]);
  });
});
