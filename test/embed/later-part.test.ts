/** Parts of elements that their server does not give at first: asked for again, or had by a reload that loses nothing unasked. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import type { PaintingPlan } from '../../components/index.js';
import { axeFindings, until } from './page.js';
import { importMap, root, startBrowser, startSite, type Site } from './site.js';

let site: Site;
let browser: Browser;

beforeAll(async () => {
  [site, browser] = await Promise.all([startSite(), startBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

/** A page with the kit's many files; while `down` is set, its server answers 500 to all further parts. */
interface Shaky {
  page: Page;
  server: { down: boolean; refused: number };
}

/** A page with an element below the edge of the window, so that nothing of it comes late until it is looked at. */
async function open(tag: string): Promise<Shaky> {
  const page = await browser.newPage();
  const server = { down: false, refused: 0 };
  await page.setRequestInterception(true);
  page.on('request', (request) => {
    if (!server.down || !request.url().includes('/dist/parts/')) return void request.continue();
    server.refused++;
    void request.respond({ status: 500, contentType: 'text/javascript', body: '' });
  });
  const element =
    tag === 'painting-plan' ? '<painting-plan name="later"></painting-plan>' : `<${tag}></${tag}>`;
  site.put('/far.css', { body: '.far { height: 4000px }', type: 'text/css' });
  const url = site.put('/later-part', {
    body: `<!doctype html><html lang="en"><title>Later</title><link rel="stylesheet" href="/far.css">
      <script type="importmap">${importMap()}</script><script type="module">import 'tonewell/define';</script>
      <main><h1>Later</h1><h2>Parts</h2><div class="far"></div>${element}</main></html>`,
  });
  await page.goto(url, { waitUntil: 'networkidle0' });
  return { page, server };
}

/** Has the part of an element fetched: by looking at it, or by opening the list of plans. */
const wanted = (page: Page, tag: string): Promise<void> =>
  page.$eval(tag, async (element) => {
    element.scrollIntoView();
    if (element.localName !== 'painting-plan') return;
    await (element as PaintingPlan).updateComplete;
    element.shadowRoot!.querySelector<HTMLElement>('#tab-shelf')!.click();
  });

/** The same while the server is down. */
async function openWithout(tag: string): Promise<Shaky> {
  const shaky = await open(tag);
  shaky.server.down = true;
  await wanted(shaky.page, tag);
  await until('the sentence', () => failureIn(shaky.page, tag));
  return shaky;
}

interface Failure {
  text: string;
  buttons: string[];
}

/** What an element tells of a part that did not come. */
const failureIn = (page: Page, tag: string): Promise<Failure | undefined> =>
  page.$eval(tag, ({ shadowRoot }) => {
    const box = shadowRoot!.querySelector('[part=trouble]');
    if (!box) return undefined;
    const buttons = [...box.querySelectorAll('button')].map((each) => each.innerText.trim());
    return { text: box.querySelector('span')!.innerText, buttons };
  });

const press = (page: Page, tag: string, label: string): Promise<void> =>
  page.$eval(
    tag,
    ({ shadowRoot }, wanted) =>
      [...shadowRoot!.querySelectorAll('button')]
        .find((each) => each.innerText.trim() === wanted)!
        .click(),
    label,
  );

/** Whether this engine goes on refusing a module that failed once. */
async function remembersFailures(page: Page): Promise<boolean> {
  const asked = `import('/came-later.js').then(() => false, () => true)`;
  site.put('/came-later.js', { body: '', status: 500, type: 'text/javascript' });
  expect(await page.evaluate(asked)).toBe(true);
  site.put('/came-later.js', { body: 'export {};', type: 'text/javascript' });
  return (await page.evaluate(asked)) as boolean;
}

const FIRST = {
  text: 'This part could not be loaded. Look at the connection, then try again.',
  buttons: ['Try again'],
};
const AGAIN = {
  text: 'It still could not be loaded. Some browsers need the page reloaded first.',
  buttons: ['Try again', 'Reload the page'],
};
const UNKEPT = {
  text: 'What you have set here is not kept and is lost when the page is reloaded.',
  buttons: ['Try again', 'Reload the page'],
};

/** Elements whose work comes as a part, and what they show then. */
const ELEMENTS = [
  { tag: 'swatch-bucket-board', shows: '[part~=bucket]' },
  { tag: 'painting-plan', shows: '[part=panel] .head ~ *' },
];
const shown = (page: Page, tag: string, shows: string): Promise<unknown> =>
  page.waitForFunction(
    (name: string, what: string) => {
      const root = document.querySelector(name)!.shadowRoot!;
      return root.querySelector(what) !== null && root.querySelector('[part=trouble]') === null;
    },
    {},
    tag,
    shows,
  );

/** The page after a reload has no mark. */
const mark = (page: Page): Promise<void> => page.evaluate(() => void (document.title = 'Marked'));
const reloaded = (page: Page): Promise<boolean> =>
  until('a reload', async () => {
    const title = await page.title().catch(() => 'Marked'); // while the page changes there is none to ask
    return title === 'Later';
  });

/** Asks once more in vain. */
async function askInVain({ page, server }: Shaky, tag: string): Promise<void> {
  const before = server.refused;
  await press(page, tag, 'Try again');
  await until('the offer', async () => (await failureIn(page, tag))?.buttons.length === 2);
  if (!(await remembersFailures(page))) expect(server.refused).toBeGreaterThan(before);
}

describe('a part of an element that is not there at first', { timeout: 60_000 }, () => {
  it.each(ELEMENTS)('$tag: comes when it is asked for again', async ({ tag, shows }) => {
    const { page, server } = await openWithout(tag);
    expect(await failureIn(page, tag)).toEqual(FIRST);
    expect(await axeFindings(page)).toEqual([]);
    server.down = false;
    await press(page, tag, 'Try again');
    if (await remembersFailures(page))
      await until('the offer', async () => (await failureIn(page, tag))?.text === AGAIN.text);
    else await shown(page, tag, shows);
    await page.close();
  });

  it('is had by a reload after a second failure, and the plan is kept first', async () => {
    const tag = 'painting-plan';
    const shaky = await openWithout(tag);
    const { page, server } = shaky;
    await askInVain(shaky, tag);
    expect(await failureIn(page, tag)).toEqual(AGAIN);
    expect(await axeFindings(page)).toEqual([]);
    server.down = false;
    await mark(page);
    // The change is younger than the time after which it would be kept by itself.
    await page.$eval(tag, (plan) => {
      const { store } = plan as PaintingPlan;
      store.change('title', (before) => ({ ...before, title: 'Pears at noon' }));
      plan.shadowRoot!.querySelector<HTMLElement>('[data-reload]')!.click();
    });
    await reloaded(page);
    await until('the plan', () =>
      page
        .$eval(tag, (plan) => (plan as PaintingPlan).document?.title)
        .then((title) => title === 'Pears at noon'),
    );
    await wanted(page, tag);
    await shown(page, tag, ELEMENTS[1].shows);
    await page.close();
  });

  it('leaves a way out of the list of plans: Escape closes it, and the focus goes back', async () => {
    const { page } = await openWithout('painting-plan');
    await page.$eval('painting-plan', (plan) =>
      plan.shadowRoot!.querySelector<HTMLElement>('[part=trouble] button')!.focus(),
    );
    await page.keyboard.press('Escape');
    await page.waitForFunction(
      () => !document.querySelector('painting-plan')!.shadowRoot!.querySelector('[part=panel]'),
    );
    expect(
      await page.$eval('painting-plan', ({ shadowRoot }) => shadowRoot!.activeElement?.id),
    ).toBe('tab-shelf');
    await page.close();
  });

  it('is reloaded only when asked twice where nothing is kept', async () => {
    const tag = 'swatch-bucket-board';
    const shaky = await openWithout(tag);
    const { page } = shaky;
    await askInVain(shaky, tag);
    await mark(page);
    await press(page, tag, 'Reload the page');
    await until('the warning', async () => (await failureIn(page, tag))?.text === UNKEPT.text);
    expect(await failureIn(page, tag)).toEqual(UNKEPT);
    expect(await page.title()).toBe('Marked');
    await press(page, tag, 'Reload the page');
    await reloaded(page);
    await page.close();
  });
});

describe('a part of the worker that is not there at first', { timeout: 60_000 }, () => {
  it('comes with the next call, though engines remember a module that failed', async () => {
    const type = 'text/javascript';
    site.put('/dist/worker-paint.js', { body: '', status: 500, type });
    const url = site.put('/later-worker', {
      body: `<!doctype html><title>Later</title><script type="importmap">${importMap()}</script>
        <script type="module">
          import { startCore } from 'tonewell/core';
          const core = await startCore({ modes: ['worker'] });
          globalThis.shelf = () =>
            core.run('shelf', { tubes: ['cobalt-blue'] }).then(() => 'done', ({ name }) => name);
        </script>`,
    });
    const page = await browser.newPage();
    await page.goto(url);
    await page.waitForFunction(() => 'shelf' in globalThis);
    expect(await page.evaluate('shelf()')).toBe('PartUnavailable');
    site.put('/dist/worker-paint.js', { body: readFileSync(`${root}dist/worker-paint.js`), type });
    expect(await page.evaluate('shelf()')).toBe('done');
    await page.close();
  });
});
