/**
 * The plan outlives what happens to its page: the page's process crashes, the browser is killed while a limit is dragged,
 * its files are damaged, there is no room left, two windows work on one plan. A real browser with a profile on the disk.
 */
import { mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import type { PaintingPlan } from '../../components/index.js';
import { demoServer } from '../../demo/serve.mjs';
import { chromeArgs, chromePath } from '../browser.mjs';

let server: Server;
let address: string;
let browser: Browser;
const profile = mkdtempSync(join(tmpdir(), 'tonewell-profile-'));

async function start(): Promise<void> {
  browser = await puppeteer.launch({
    executablePath: await chromePath(),
    headless: 'shell',
    userDataDir: profile,
    args: chromeArgs,
  });
}

beforeAll(async () => {
  server = demoServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/demo/index.html`;
  await start();
});
afterAll(async () => {
  await browser?.close().catch(() => undefined);
  server?.closeAllConnections();
  server?.close();
  rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
});

async function until<T>(
  what: string,
  ask: () => Promise<T | undefined | false | null>,
): Promise<T> {
  for (let i = 0; i < 200; i++) {
    const answer = await ask();
    if (answer) return answer;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain for ${what}`);
}

async function open(): Promise<Page> {
  const page = await browser.newPage();
  await page.goto(address);
  await until('the photo', () =>
    page.$eval('painting-plan', (element) => (element as PaintingPlan).store?.picture.exact),
  );
  return page;
}

const title = (page: Page): Promise<string> =>
  page.$eval('painting-plan', (element) => (element as PaintingPlan).document.title);

/** What the element says is wrong. */
const trouble = (page: Page): Promise<string> =>
  page.$eval(
    'painting-plan',
    (element) => element.shadowRoot!.querySelector('[role=alert]')?.textContent?.trim() ?? '',
  );

/** Changes the plan many times a second, as a drag does: the title is the time of the change, ms. */
async function edit(page: Page): Promise<void> {
  await page.$eval('painting-plan', (element) => {
    const { store } = element as PaintingPlan;
    setInterval(
      () => store.change('title', (plan) => ({ ...plan, title: String(Date.now()) }), 'drag'),
      50,
    );
  });
  await new Promise((resolve) => setTimeout(resolve, 3000));
}

describe('the bar', () => {
  it('takes a change back by keyboard after a click anywhere in the studio', async () => {
    const page = await open();
    await page.$eval('painting-plan', (element) =>
      (element as PaintingPlan).store.change('title', (plan) => ({ ...plan, title: 'a change' })),
    );
    for (const heading of await page.$$('painting-plan h2')) {
      if (!(await heading.isVisible())) continue;
      await heading.click();
      break;
    }
    for (const [keys, expected] of [
      [['Control', 'z'], ''],
      [['Control', 'Shift', 'Z'], 'a change'],
      [['Meta', 'z'], ''],
      [['Control', 'y'], 'a change'],
      [['Control', 'z'], ''],
    ] as const) {
      for (const key of keys) await page.keyboard.down(key);
      for (const key of [...keys].reverse()) await page.keyboard.up(key);
      expect(await title(page), keys.join(' ')).toBe(expected);
    }
    await page.close();
  });

  it('keeps undo and redo on one line at 360 px, with targets of 44 px, and nothing sticks out', async () => {
    const page = await open();
    await page.setViewport({ width: 360, height: 800, hasTouch: true, isMobile: true });
    await until('the photo', () =>
      page.$eval('painting-plan', (element) => (element as PaintingPlan).store?.picture.exact),
    );
    for (const panel of ['shelf', 'photos', 'brief', 'file']) {
      await (await page.$(`painting-plan >>> #tab-${panel}`))!.evaluate((tab) =>
        (tab as HTMLElement).click(),
      );
      await page.waitForSelector('painting-plan >>> #panel');
      const { steps, small, width } = await page.$eval('painting-plan', (element) => {
        const root = element.shadowRoot!;
        const boxes = [...root.querySelectorAll('button, label.button, input:not(.away), select')]
          .filter((each) => !/checkbox/.test((each as HTMLInputElement).type ?? ''))
          .map((each) => each.getBoundingClientRect());
        return {
          steps: [...root.querySelectorAll('.steps button')].map(
            (each) => each.getBoundingClientRect().top,
          ),
          small: boxes.filter((box) => box.height < 44 || box.right > innerWidth || box.left < 0)
            .length,
          width: document.documentElement.scrollWidth,
        };
      });
      expect(steps[0], panel).toBe(steps[1]);
      expect(small, panel).toBe(0);
      expect(width, panel).toBeLessThanOrEqual(360);
    }
    await page.close();
  });
});

describe('a kept plan', () => {
  it('is there again, but for the last second, after its process has crashed mid-edit', async () => {
    const page = await open();
    await edit(page);
    const client = await page.createCDPSession();
    const crashed = new Promise((resolve) => page.once('error', resolve));
    const killed = Date.now();
    void client.send('Page.crash').catch(() => undefined);
    await crashed;
    await page.close().catch(() => undefined);
    const again = await open();
    const kept = Number(await title(again));
    expect(kept).toBeGreaterThan(0);
    expect(killed - kept).toBeLessThanOrEqual(1000);
    await again.close();
  });

  it('is there again, but for the last second, after the whole browser was killed mid-edit', async () => {
    const page = await open();
    await edit(page);
    const gone = new Promise((resolve) => browser.process()!.once('exit', resolve));
    const killed = Date.now();
    browser.process()!.kill('SIGKILL');
    await gone;
    await start();
    const again = await open();
    const kept = Number(await title(again));
    expect(kept).toBeGreaterThan(0);
    expect(killed - kept).toBeLessThanOrEqual(1000);
    expect(
      await again.$eval('painting-plan', (element) => (element as PaintingPlan).document.photo),
    ).toBeTruthy();
    await again.close();
  });

  it('stays usable, and says what to do, when the browser has no room left', async () => {
    const page = await open();
    const client = await page.createCDPSession();
    const { origin } = new URL(address);
    await client.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1000 });
    await page.$eval('painting-plan', async (element) => {
      const own = element as PaintingPlan;
      own.store.change('notes', (plan) => ({
        ...plan,
        title: 'in hand',
        notes: 'x'.repeat(49_000),
      }));
      await own.save();
    });
    const words = await until('the sentence', () => trouble(page));
    expect(words).toMatch(/no room left .* save it as a file/);
    expect(await title(page)).toBe('in hand');
    await client.send('Storage.overrideQuotaForOrigin', { origin });
    await page.$eval('painting-plan', async (element) => {
      const own = element as PaintingPlan;
      own.store.change('title', (plan) => ({ ...plan, title: 'kept after all' }));
      await own.save();
    });
    await until('the sentence to go', async () => (await trouble(page)) === '');
    await page.reload();
    await until('the plan', async () => (await title(page)) === 'kept after all');
    await page.close();
  });

  it('is never overwritten by another window: that one hears of it and is offered both ways', async () => {
    const [one, two] = [await open(), await open()];
    await one.$eval('painting-plan', async (element) => {
      const own = element as PaintingPlan;
      own.store.change('title', (plan) => ({ ...plan, title: 'of the first window' }));
      await own.save();
    });
    expect(await until('the offer', () => trouble(two))).toMatch(/Take up the other/);
    await two.$eval('painting-plan', async (element) => {
      const own = element as PaintingPlan;
      own.store.change('title', (plan) => ({ ...plan, title: 'of the second window' }));
      await own.save();
    });
    const names = await Promise.all(
      [one, two].map((page) => page.$eval('painting-plan', (each) => (each as PaintingPlan).name)),
    );
    expect(names[0]).not.toBe(names[1]);
    await Promise.all([one.close(), two.close()]);
  });

  it('gives way to a usable page when the files of the database are damaged', async () => {
    await browser.close();
    const damaged = damage(profile);
    expect(damaged).toBeGreaterThan(0);
    await start();
    const page = await open();
    await page.$eval('painting-plan', async (element) => {
      const own = element as PaintingPlan;
      own.store.change('title', (plan) => ({ ...plan, title: 'usable' }));
      await own.save();
    });
    expect(await title(page)).toBe('usable');
    // Either the browser began its database anew, and the plan is kept there, or the page says that it is not kept.
    const kept = await page.$eval('painting-plan', (element) =>
      /Kept here/.test(element.shadowRoot!.querySelector('.standing')!.textContent!),
    );
    expect(kept || /save it as a file/.test(await trouble(page))).toBe(true);
    await page.close();
  });
});

/** Overwrites the records of every IndexedDB below a folder; tells how many files that were. */
function damage(folder: string): number {
  let count = 0;
  for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!/indexeddb\.leveldb/.test(path) || !/\.(log|ldb)$|MANIFEST/.test(path)) continue;
    const file = join(folder, path);
    writeFileSync(file, new Uint8Array(statSync(file).size).fill(0x5a));
    count += 1;
  }
  return count;
}
