/** The whole main job by keyboard alone, on the built studio page: from the top of the page with Tab, arrows, Enter, Space, Escape. */
import { mkdtemp, rm } from 'node:fs/promises';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, KeyInput, Page } from 'puppeteer-core';
import type { PaintingPlan } from '../../components/index.js';
import { startBrowser } from './site.js';
import { demoServer } from '../../demo/serve.mjs';

const PHOTO = fileURLToPath(new URL('../../demo/pictures/clay-dog-900.jpg', import.meta.url));

let server: Server;
let browser: Browser;
let page: Page;
let downloads = '';
const faults: string[] = [];

beforeAll(async () => {
  server = demoServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  browser = await startBrowser();
  downloads = await mkdtemp(join(tmpdir(), 'keyboard-'));
  page = await browser.newPage();
  page.on('pageerror', (error) => faults.push(String(error)));
  await page.setViewport({ width: 1280, height: 900 });
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  await ready();
});
afterAll(async () => {
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
  if (downloads) await rm(downloads, { recursive: true, force: true });
});

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

const plan = (): Promise<PaintingPlan['document']> =>
  page.$eval('painting-plan', (element) => (element as PaintingPlan).document);

const ready = (): Promise<boolean> =>
  until('the photo', () =>
    page.$eval('painting-plan', (element) => {
      const { picture } = (element as PaintingPlan).store;
      return picture.exact && picture.status === 'ready';
    }),
  );

interface Focused {
  /** The element of the kit that has it inside; empty on the page itself. */
  host: string;
  role: string;
  name: string;
  value: string;
  /** Whether all of it can be seen: inside the window, nothing over its middle. */
  seen: boolean;
  /** Whether the focus shows: an outline or another mark of its own. */
  marked: boolean;
}

/** What has the focus, through all shadow trees. */
const focused = (): Promise<Focused> =>
  page.evaluate(() => {
    let element: Element | null = document.activeElement;
    let host = '';
    while (element?.shadowRoot?.activeElement) {
      host = element.localName;
      element = element.shadowRoot.activeElement;
    }
    const input = element as HTMLInputElement | null;
    const box = element?.getBoundingClientRect() ?? new DOMRect();
    const root = element?.getRootNode() as Document | ShadowRoot;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const over = root?.elementFromPoint?.(x, y);
    const style = element ? getComputedStyle(element) : undefined;
    const labels = [...(input?.labels ?? [])].map((label) => label.textContent!.trim());
    return {
      host,
      role: element?.getAttribute('role') ?? element?.localName ?? '',
      name: (element?.getAttribute('aria-label') || labels.join(' ') || element?.textContent || '')
        .replace(/\s+/g, ' ')
        .trim(),
      value: input?.value ?? '',
      seen:
        box.width === 0 ||
        over === element ||
        element!.contains(over ?? null) ||
        // A file field is hidden in its label, which stands for it.
        (element!.closest('label')?.contains(over ?? null) ?? false) ||
        (over?.contains(element) ?? false),
      marked: style?.outlineStyle !== 'none',
    };
  });

const press = (key: KeyInput): Promise<void> => page.keyboard.press(key);

async function chord(key: KeyInput, ...held: KeyInput[]): Promise<void> {
  for (const each of held) await page.keyboard.down(each);
  await page.keyboard.press(key);
  for (const each of held.toReversed()) await page.keyboard.up(each);
}

/** Every stop of the Tab key on the way, for what is asked of all of them. */
const stops: Focused[] = [];

/** Goes on with Tab until the focus is where it is wanted. */
async function tabTo(host: string, name: RegExp, role?: string): Promise<Focused> {
  for (let i = 0; i < 220; i++) {
    await press('Tab');
    const now = await focused();
    stops.push(now);
    if (now.host === host && name.test(now.name) && (!role || now.role === role)) return now;
  }
  throw new Error(`Tab does not come to ${host} ${String(name)}`);
}

/** Replaces the text of the field in hand. */
async function write(text: string): Promise<void> {
  await chord('a', 'Control');
  await page.keyboard.type(text);
}

describe('the main job by keyboard alone', () => {
  it('begins at the top: the first stop leads past the masthead', async () => {
    await press('Tab');
    expect((await focused()).name).toBe('To the panels');
  });

  it('gives the plan a title', async () => {
    await tabTo('painting-plan', /^Title of this plan$/);
    await write('Dog by keys');
    await press('Enter');
    await until('the title', async () => (await plan()).title === 'Dog by keys');
  });

  it('opens a photo', async () => {
    await tabTo('value-band-viewer', /^Open a photo$/);
    const choosing = page.waitForFileChooser();
    // The browser takes a moment to catch its file dialog; a key before that opens one that nobody sees.
    await new Promise((resolve) => setTimeout(resolve, 500));
    await press('Enter');
    const chooser = await choosing;
    await chooser.accept([PHOTO]);
    await until('the other photo', () =>
      page.$eval('painting-plan', (element) => {
        const { name, status } = (element as PaintingPlan).store.picture;
        return name === 'clay-dog-900.jpg' && status === 'ready';
      }),
    );
  });

  it('looks at greys and bands', async () => {
    for (const view of ['Greys', 'Bands']) {
      await tabTo('value-band-viewer', new RegExp(`^${view}$`), 'button');
      await press('Enter');
      expect(
        await page.$eval(
          'value-band-viewer',
          (element) => (element as unknown as { view: string }).view,
        ),
      ).toBe(view.toLowerCase());
    }
  });

  it('moves a peg, and names a band', async () => {
    const { photoLimits } = await plan();
    await tabTo('value-band-viewer', /^Limit between middle and light$/, 'slider');
    await press('ArrowUp');
    await press('ArrowUp');
    const moved = (await plan()).photoLimits;
    expect(moved[1]).toBeGreaterThan(photoLimits[1]);
    expect(moved[0]).toBe(photoLimits[0]);
    await tabTo('value-band-viewer', /^Name of the darkest band$/);
    await write('shadows');
    await press('Enter');
    expect((await plan()).board.bands[0].name).toBe('shadows');
  });

  it('squints', async () => {
    await tabTo('value-band-viewer', /^Squint$/);
    for (let i = 0; i < 4; i++) await press('ArrowRight');
    expect(Number((await focused()).value)).toBe(20);
    for (let i = 0; i < 4; i++) await press('ArrowLeft');
  });

  it('crops, loops the sitter and marks a spot that is not to be trusted', async () => {
    const stage = (): Promise<Focused> => tabTo('value-band-viewer', /Picture/);
    await tabTo('value-band-viewer', /^Crop$/, 'button');
    await press('Enter');
    await stage();
    for (let i = 0; i < 3; i++) await chord('-', 'Shift');
    await press('ArrowDown');
    const { crop } = await until('the crop', async () => (await plan()).crop && plan());
    expect(crop!.width).toBeLessThan(1);
    await ready();
    await tabTo('value-band-viewer', /^Sitter$/, 'button');
    await press('Enter');
    await stage();
    await press('Enter');
    await chord('ArrowLeft', 'Shift');
    const { sitter } = await until('the loop', async () => (await plan()).sitter && plan());
    expect(sitter!.length).toBeGreaterThan(4);
    await tabTo('value-band-viewer', /^Not to be trusted$/, 'button');
    await press('Enter');
    await stage();
    await chord('ArrowUp', 'Shift');
    await press('Enter');
    const { distrusted } = await until('the mark', async () => {
      const now = await plan();
      return now.distrusted?.length ? now : undefined;
    });
    expect(distrusted).toHaveLength(1);
    await tabTo('value-band-viewer', /^Not to be trusted$/, 'button');
    await press('Enter');
    await ready();
  });

  it('reads a spot, keeps it and sends it to the board', async () => {
    await tabTo('lightness-picker', /^Hole of the card$/, 'slider');
    for (let i = 0; i < 5; i++) await press('ArrowDown');
    await press('Enter');
    await tabTo('lightness-picker', /^Keep$/, 'button');
    await press('Enter');
    await until('the kept reading', async () => (await plan()).readings?.length === 1);
    await tabTo('lightness-picker', /^Send to the board$/, 'button');
    await press('Enter');
    await until('the swatch', async () => (await plan()).board.swatches.length === 1);
  });

  it('adds a colour on the board, moves it to another bucket, and takes that back and forth', async () => {
    await tabTo('swatch-bucket-board', /^Add a colour/, 'button');
    await press('Enter');
    expect((await focused()).name).toMatch(/^Colour, by name or code/);
    await page.keyboard.type('#304050');
    await press('Enter');
    const { id, bucket } = await until('the colour', async () =>
      (await plan()).board.swatches.find(({ css }) => css === '#304050'),
    );
    const where = async (): Promise<number> =>
      (await plan()).board.swatches.find((swatch) => swatch.id === id)!.bucket;
    await tabTo('swatch-bucket-board', /#304050/);
    await press('Space');
    await press('ArrowRight');
    await press('Space');
    expect(await where()).toBe(bucket + 1);
    await chord('z', 'Control');
    expect(await where()).toBe(bucket);
    await chord('z', 'Control', 'Shift');
    expect(await where()).toBe(bucket + 1);
    // Escape puts back what was picked up.
    await tabTo('swatch-bucket-board', /#304050/);
    await press('Space');
    await press('ArrowLeft');
    await press('Escape');
    expect(await where()).toBe(bucket + 1);
  });

  it('saves the bands as PNG', async () => {
    const session = await browser.target().createCDPSession();
    await session.send('Browser.setDownloadBehavior', {
      behavior: 'allow',
      downloadPath: downloads,
      eventsEnabled: true,
    });
    const begun = new Promise<string>((resolve) =>
      session.on('Browser.downloadWillBegin', ({ suggestedFilename }) =>
        resolve(suggestedFilename),
      ),
    );
    await tabTo('value-band-viewer', /^Save as PNG$/, 'button');
    await press('Enter');
    expect(await begun).toMatch(/\.png$/);
  });

  it('finds all of it again after a reload', async () => {
    await page.$eval('painting-plan', (element) => (element as PaintingPlan).save());
    const before = await plan();
    await page.reload();
    await ready();
    const after = await plan();
    expect(after.title).toBe('Dog by keys');
    for (const part of [
      'photoLimits',
      'crop',
      'sitter',
      'distrusted',
      'readings',
      'board',
    ] as const)
      expect(after[part], part).toEqual(before[part]);
  });

  it('saw every stop: none was covered (WCAG 2.2, 2.4.11), each had a name (4.1.2)', () => {
    const held = stops.filter(({ host }) => host !== '');
    expect(held.length).toBeGreaterThan(100);
    expect(held.filter(({ name }) => name === '')).toEqual([]);
    expect(held.filter(({ seen }) => !seen)).toEqual([]);
    expect(faults).toEqual([]);
  });
});
