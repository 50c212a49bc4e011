/** The studio's own arrangement, its layouts, arm's length, and the page without its server. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import type { PaintingPlan } from '../../components/index.js';
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

const KEY = 'tonewell studio arrangement';
/** Panels after the first three, as the page has them. */
const REST = ['well', 'print', 'paper', 'check'];
const ALL = ['photo', 'spots', 'board', ...REST];

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

interface Visit {
  page: Page;
  faults: string[];
  asked: Set<string>;
  leave(): Promise<void>;
}

/** A visit in a browser profile of its own. */
async function visit({
  width = 1440,
  height = 900,
  prepare,
}: {
  width?: number;
  height?: number;
  prepare?: (page: Page) => Promise<unknown>;
} = {}): Promise<Visit> {
  const context = await browser.createBrowserContext();
  const page = await context.newPage();
  const watched = watch(page);
  await page.setViewport({ width, height });
  await prepare?.(page);
  await page.goto(`${demo.origin}/demo/index.html`);
  await ready(page);
  return { page, ...watched, leave: () => context.close() };
}

const ready = (page: Page): Promise<boolean> =>
  until('the photo', () =>
    page.$eval('painting-plan', (plan) => (plan as PaintingPlan).store.picture.exact),
  );

/** The panels in sight, in the order of the page. */
const panels = (page: Page): Promise<string[]> =>
  page.$$eval('[data-panel]', (all) =>
    all.filter((each) => each.checkVisibility()).map((each) => each.id),
  );

const box = (page: Page, id: string): Promise<{ width: number; height: number }> =>
  page.$eval(`#${id}`, (panel) => ({
    width: (panel as HTMLElement).offsetWidth,
    height: (panel as HTMLElement).offsetHeight,
  }));

const remembered = (page: Page): Promise<string | null> =>
  page.evaluate((key) => localStorage.getItem(key), KEY);

const press = async (page: Page, selector: string): Promise<void> => {
  await page.$eval(selector, (button) => (button as HTMLElement).focus());
  await page.keyboard.press('Enter');
};

describe("the painter's own arrangement", () => {
  it('is made by keyboard, told, remembered over a reload, and reset', async () => {
    const { page, faults, asked, leave } = await visit();
    expect(await panels(page)).toEqual(ALL);
    await press(page, '#arrange');
    // A panel is moved: the focus stays with it.
    await press(page, '#spots [data-act=later]');
    expect(await panels(page)).toEqual(['photo', 'board', 'spots', ...REST]);
    expect(await page.evaluate(() => document.activeElement!.closest('[data-panel]')!.id)).toBe(
      'spots',
    );
    // Its size follows the arrow keys on its corner: columns of the grid are a twelfth of the page.
    const before = await box(page, 'spots');
    await page.$eval('#spots .corner', (corner) => (corner as HTMLElement).focus());
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    // A wider panel has a larger picture: its height is compared at the same width.
    const wider = await box(page, 'spots');
    await page.keyboard.press('ArrowUp');
    const after = await box(page, 'spots');
    const grid = await page.$eval('#panels', (grid) => (grid as HTMLElement).offsetWidth);
    expect(after.width - before.width).toBeCloseTo((2 * (grid + 16)) / 12, -1);
    expect(wider.height - after.height).toBeGreaterThan(0);
    expect(await page.$eval('#said', (said) => said.textContent)).toMatch(
      /^Spots, 6 of 12 columns, \d+ rows$/,
    );
    // By number, and back to the height of its content.
    await page.$eval('#spots [data-size=rows]', (field) => {
      (field as HTMLInputElement).value = '20';
      field.dispatchEvent(new Event('change', { bubbles: true }));
    });
    expect((await box(page, 'spots')).height).toBe(20 * 32 - 16);
    // Another panel is taken out, one is put away.
    await press(page, '#away button');
    await press(page, '#photo [data-act=away]');
    expect(await panels(page)).toEqual(['board', 'spots', ...REST, 'second']);
    await press(page, '#arranged');
    expect(await page.evaluate(() => document.activeElement!.id)).toBe('arrange');

    await page.reload();
    await ready(page);
    expect(await panels(page)).toEqual(['board', 'spots', ...REST, 'second']);
    expect(await box(page, 'spots')).toMatchObject({ height: 20 * 32 - 16 });

    await press(page, '#arrange');
    await press(page, '#reset');
    expect(await panels(page)).toEqual(ALL);
    expect(await remembered(page)).toBeNull();
    expect(strangers(asked, demo.origin)).toEqual([]);
    expect(faults).toEqual([]);
    await leave();
  });

  it('is changed by dragging a corner; Escape takes the drag back', async () => {
    const { page, leave } = await visit();
    await press(page, '#arrange');
    const corner = async (): Promise<{ x: number; y: number }> => {
      const handle = await page.$('#photo .corner');
      await handle!.scrollIntoView();
      const { x, y, width, height } = (await handle!.boundingBox())!;
      return { x: x + width / 2, y: y + height / 2 };
    };
    const before = await box(page, 'photo');
    const columnsOfPhoto = (): Promise<string> =>
      page.$eval('#photo [data-size=columns]', (field) => (field as HTMLInputElement).value);
    let { x, y } = await corner();
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 230, y - 96, { steps: 6 });
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await box(page, 'photo')).toEqual(before);
    ({ x, y } = await corner());
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 230, y - 96, { steps: 6 });
    await page.mouse.up();
    expect(await columnsOfPhoto()).toBe('6');
    expect((await box(page, 'photo')).height).toBe(before.height - 96);
    await leave();
  });

  it.each([
    [
      'broken',
      (page: Page) =>
        page.evaluateOnNewDocument(
          (key) => localStorage.setItem(key, '{"edition":1,"places":[{"id":7}]}'),
          KEY,
        ),
    ],
    [
      'from elsewhere',
      (page: Page) =>
        page.evaluateOnNewDocument((key) => localStorage.setItem(key, '\u0000<b>'), KEY),
    ],
    [
      'closed',
      (page: Page) =>
        page.evaluateOnNewDocument(() => {
          Object.defineProperty(window, 'localStorage', {
            get() {
              throw new DOMException('closed', 'SecurityError');
            },
          });
        }),
    ],
  ])('is the proposed one where what is remembered is %s, and works', async (_, prepare) => {
    const { page, faults, leave } = await visit({ prepare });
    expect(await panels(page)).toEqual(ALL);
    await press(page, '#arrange');
    await press(page, '#spots [data-act=away]');
    expect(await panels(page)).toEqual(['photo', 'board', ...REST]);
    expect(faults).toEqual([]);
    await leave();
  });

  it('keeps what a panel holds while it is put away', async () => {
    const { page, leave } = await visit();
    await press(page, '#arrange');
    await press(page, '#board [data-act=away]');
    await page.$eval('painting-plan', (plan) =>
      (plan as PaintingPlan).store.change('bands', (now) => ({ ...now, title: 'while away' })),
    );
    await press(page, '#away button');
    // A panel that is taken out comes last.
    expect(await panels(page)).toEqual([...ALL.filter((id) => id !== 'board'), 'board']);
    expect(await page.$eval('swatch-bucket-board', (board) => board.store.plan.title)).toBe(
      'while away',
    );
    await leave();
  });
});

describe('layouts', () => {
  it.each([360, 390, 640, 768, 1024, 1080, 1440, 1920])(
    "a page %d pixels wide is not scrolled sideways, arranging or not, nor at arm's length",
    async (width) => {
      const { page, leave } = await visit({ width });
      expect(await sideways(page)).toBe(0);
      await press(page, '#arrange');
      expect(await sideways(page)).toBe(0);
      await press(page, '#arm');
      expect(await sideways(page)).toBe(0);
      await leave();
    },
  );

  it.each([360, 1280])('text at 200 % fits %d pixels', async (width) => {
    const { page, leave } = await visit({ width });
    await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
    expect(await sideways(page)).toBe(0);
    await press(page, '#arrange');
    expect(await sideways(page)).toBe(0);
    await leave();
  });

  it('a phone shows one panel at a time; the switch changes it', async () => {
    const { page, leave } = await visit({ width: 360, height: 740 });
    expect(await panels(page)).toEqual(['photo']);
    await press(page, '#switch [data-show=board]');
    expect(await panels(page)).toEqual(['board']);
    expect(await page.evaluate(() => document.activeElement!.getAttribute('aria-current'))).toBe(
      'true',
    );
    await page.reload();
    await ready(page);
    expect(await panels(page)).toEqual(['board']);
    await leave();
  });
});

describe("arm's length", () => {
  /** A wake lock whose comings and goings are noted. */
  const notedLock = (page: Page): Promise<unknown> =>
    page.evaluateOnNewDocument(() => {
      const locks: EventTarget[] = [];
      Object.assign(self, { locks });
      Object.defineProperty(navigator, 'wakeLock', {
        value: {
          async request() {
            const lock = Object.assign(new EventTarget(), {
              released: false,
              async release() {
                lock.released = true;
                lock.dispatchEvent(new Event('release'));
              },
            });
            locks.push(lock);
            return lock;
          },
        },
      });
    });
  const locks = (page: Page): Promise<boolean[]> =>
    page.evaluate('locks.map(({ released }) => released)') as Promise<boolean[]>;
  const wake = (page: Page): Promise<string> =>
    page.$eval('#wake', (told) => told.textContent ?? '');

  it('shows one panel, larger, keeps the screen awake, and Escape leaves it', async () => {
    const { page, faults, leave } = await visit({ prepare: notedLock });
    const size = (): Promise<{ type: number; target: number }> =>
      page.evaluate(() => {
        const button = document
          .querySelector('value-band-viewer')!
          .shadowRoot!.querySelector<HTMLElement>('[part~=views] button')!;
        return { type: parseFloat(getComputedStyle(button).fontSize), target: button.offsetHeight };
      });
    const tools = (): Promise<boolean> =>
      page.$eval(
        'value-band-viewer',
        (viewer) => viewer.shadowRoot!.querySelector('[part~=tools]') !== null,
      );
    await until('the tools', tools);
    const before = await size();
    await press(page, '#arm');
    await until('the lock', async () => (await locks(page)).length === 1);
    const at = await size();
    expect(at.type).toBeCloseTo(before.type * 1.5, 5);
    expect(at.target).toBeGreaterThanOrEqual(64);
    expect(await panels(page)).toEqual(['photo']);
    // What is for the table only is laid away meanwhile.
    expect(await tools()).toBe(false);
    expect(await wake(page)).toBe('The screen stays awake.');
    expect(await page.evaluate(() => document.activeElement!.id)).toBe('leave');
    await press(page, '#switch [data-show=spots]');
    expect(await panels(page)).toEqual(['spots']);

    // The browser lets go when the page is hidden; on return the lock is asked for again.
    await page.evaluate('locks[0].release()');
    await until('the words', async () => (await wake(page)).startsWith('The screen may go dark'));
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await until('the lock again', async () => (await locks(page)).length === 2);
    await until('the words', async () => (await wake(page)) === 'The screen stays awake.');

    await page.keyboard.press('Escape');
    expect(await panels(page)).toEqual(ALL);
    expect(await size()).toEqual(before);
    await until('the tools', tools);
    expect(await page.evaluate(() => document.activeElement!.id)).toBe('arm');
    await until('the lock to be let go', async () => (await locks(page)).every(Boolean));
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(await locks(page)).toHaveLength(2);
    expect(faults).toEqual([]);
    await leave();
  });

  it('says so where the browser cannot keep the screen awake', async () => {
    const { page, leave } = await visit({
      prepare: (page) =>
        page.evaluateOnNewDocument(() =>
          Object.defineProperty(navigator, 'wakeLock', { value: undefined }),
        ),
    });
    await press(page, '#arm');
    await until('the words', async () =>
      (await wake(page)).startsWith('This browser cannot keep the screen awake.'),
    );
    await leave();
  });

  it('takes back and makes again from its own line', async () => {
    const { page, leave } = await visit();
    await page.$eval('painting-plan', (plan) =>
      (plan as PaintingPlan).store.change('title', (now) => ({ ...now, title: 'new' })),
    );
    await press(page, '#arm');
    const title = (): Promise<string> =>
      page.$eval('painting-plan', (plan) => (plan as PaintingPlan).document.title);
    await press(page, '#arm-undo');
    expect(await title()).toBe('');
    await press(page, '#arm-redo');
    expect(await title()).toBe('new');
    await leave();
  });
});

describe('access', () => {
  it.each([
    ['light', 1440, undefined],
    ['dark', 1440, undefined],
    ['light', 768, undefined],
    ['light', 360, undefined],
    ['dark', 1440, '#arrange'],
    ['light', 360, '#arrange'],
    ['light', 1024, '#arm'],
    ['dark', 360, '#arm'],
  ] as const)('axe finds nothing: %s, %d pixels, %s', async (scheme, width, mode) => {
    const { page, leave } = await visit({
      width,
      prepare: (page) =>
        page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]),
    });
    if (mode) await press(page, mode);
    expect(await axeFindings(page)).toEqual([]);
    await leave();
  });
});

describe('without its server', () => {
  it('the page comes back from its own copies', async () => {
    const own = await startDemo();
    const context = await browser.createBrowserContext();
    const page = await context.newPage();
    await page.goto(`${own.origin}/demo/index.html`);
    await ready(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    own.close();
    await page.reload();
    await ready(page);
    expect(await panels(page)).toEqual(ALL);
    await context.close();
  });
});
