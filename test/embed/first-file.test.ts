/**
 * The file that a page includes: what lies beside it comes once and finds it under whatever address the page knows it by; alone it still
 * shows bands and lets limits be moved, and says what is missing.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import { until } from './page.js';
import { root, startBrowser, startSite, type Site } from './site.js';
import { FILE } from './start.js';
import { openAll, openWalled, putPage, told, work } from './walls.js';

let site: Site;
let browser: Browser;

beforeAll(async () => {
  [site, browser] = await Promise.all([startSite(), startBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

const type = 'text/javascript';
const listed = JSON.parse(readFileSync(`${root}dist/later/list.json`, 'utf8')) as string[];

/** Counts what a page asks for, by path. */
function counted(page: Page): Map<string, number> {
  const counts = new Map<string, number>();
  page.on('request', (request) => {
    const { pathname } = new URL(request.url());
    counts.set(pathname, (counts.get(pathname) ?? 0) + 1);
  });
  return counts;
}

describe('the file that a page includes', { timeout: 120_000 }, () => {
  it('has beside it what its list names', () => {
    const there = readdirSync(`${root}dist/later`).filter((name) => name.endsWith('.js'));
    const workers = readdirSync(`${root}dist`).filter((name) => name.startsWith('worker-'));
    expect(listed).toEqual([...there.map((name) => `later/${name}`), ...workers].sort());
    expect(there.length).toBeGreaterThan(10);
  });

  it('is imported by nothing that comes later', () => {
    for (const file of listed)
      expect(readFileSync(`${root}dist/${file}`, 'utf8'), file).not.toContain('tonewell.min.js');
  });

  it.each([
    ['with a query', '/dist/tonewell.min.js?edition=2'],
    ['where another address leads to it', '/kit.js'],
  ])('%s: all elements work, and it is loaded once', async (_, address) => {
    site.put('/kit.js', { body: '', status: 302, headers: { location: '/dist/tonewell.min.js' } });
    const { page, frame, trouble } = await openWalled(browser, 'about:blank');
    const asked = counted(page);
    await page.goto(putPage(site, { kit: site.origin, file: 'one' }, address));
    const shown = await work(frame);
    await openAll(frame);
    expect(shown).toMatchObject({ mode: 'blob', bands: [4, 4], found: 5, dabs: 16, checked: true });
    expect(asked.get('/dist/tonewell.min.js')).toBe(1);
    expect(
      [...asked.keys()].filter((path) => path.startsWith('/dist/later/')).length,
    ).toBeGreaterThan(5);
    expect(await trouble()).toEqual({ violations: [], console: [], doors: [] });
    await page.close();
  });

  it('twice in a page, under two addresses: the first one serves', async () => {
    const { page, frame, trouble } = await openWalled(browser, 'about:blank');
    const again = `<script type="module" src="/dist/tonewell.min.js?again"></script>`;
    await page.goto(putPage(site, { kit: site.origin, file: 'one', markup: again }));
    expect(await work(frame)).toMatchObject({ mode: 'blob', bands: [4, 4], found: 5 });
    expect(await trouble()).toEqual({ violations: [], console: [], doors: [] });
    await page.close();
  });

  it('alone it shows bands and lets limits be moved, and says what cannot be had', async () => {
    site.put('/alone/kit.js', { body: readFileSync(`${root}${FILE.one}`), type });
    const { page, frame } = await openWalled(
      browser,
      putPage(site, { kit: site.origin, file: 'one' }, '/alone/kit.js'),
    );
    const limits = (): Promise<unknown[]> =>
      frame.$eval('painting-plan', ({ store: { plan } }) => [...plan.photoLimits, plan.paperLimit]);
    await until('the photo', () =>
      frame.$eval('painting-plan', (plan) => plan.store.picture.exact),
    );
    await frame.$eval('value-band-viewer', (viewer) => viewer.scrollIntoView());
    const peg = await until('a peg', () => frame.$('value-band-viewer >>> [part~="peg"]'));
    const before = await limits();
    await peg.focus();
    await page.keyboard.press('ArrowUp');
    expect(await limits()).not.toEqual(before);
    await frame.$eval('mixing-well', (well) => well.scrollIntoView());
    await until('the sentence', async () =>
      /could not be loaded/.test(await told(frame, 'mixing-well')),
    );
    await page.close();
  });
});
