/** What is shown of bringing pictures comes as a part of its own: nothing that is brought is lost, and nothing waits, while it is on its way. */
import { readdirSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, HTTPRequest, Page } from 'puppeteer-core';
import type { ValueBandViewer } from '../../components/index.js';
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

/** A photograph of the checkout. */
const PHOTO = '/demo/pictures/clay-dog-900.jpg';

/** What a page's viewer has told, each event with its figures. */
interface Told {
  type: string;
  name?: string;
  code?: string;
  message?: string;
}

interface Held {
  page: Page;
  /** Lets the part through, or has the server say that there is none. */
  answer(there: boolean): void;
  told(): Promise<Told[]>;
}

/** A page whose request for the viewer's part is held until it is answered. */
async function open(viewer: string): Promise<Held> {
  const page = await browser.newPage();
  const held: HTTPRequest[] = [];
  let holding = true;
  await page.setRequestInterception(true);
  page.on('request', (request) => {
    if (holding && /\/dist\/parts\/bringing\.js$/.test(request.url())) held.push(request);
    else void request.continue();
  });
  await page.goto(
    site.put('/bringing', {
      body: `<!doctype html><html lang="en"><title>Bringing</title><script type="importmap">${importMap()}</script>
        <main><h1>Bringing</h1>${viewer}</main><script type="module">
          globalThis.told = [];
          const viewer = document.querySelector('value-band-viewer');
          for (const type of ['ready', 'error', 'picture-change'])
            viewer.addEventListener(type, ({ name, message, reason }) =>
              told.push({ type, name, message, code: reason?.code }));
          await import('tonewell/define/value-band-viewer');
        </script></html>`,
    }),
  );
  return {
    page,
    answer(there) {
      holding = false;
      for (const request of held.splice(0))
        void (there ? request.continue() : request.respond({ status: 500, body: '' }));
    },
    told: () => page.evaluate(() => (globalThis as unknown as { told: Told[] }).told),
  };
}

/** The text that is seen in the viewer. */
const seen = (page: Page): Promise<string> =>
  page.$eval('value-band-viewer', ({ shadowRoot }) =>
    [...(shadowRoot?.querySelectorAll('.sheet *') ?? [])]
      .filter((each) => each.childElementCount === 0)
      .map((each) => each.textContent.trim())
      .join(' '),
  );

/** Lets a file fall on the viewer; tells whether the page keeps the browser from opening it in its place. */
const drop = (page: Page): Promise<boolean> =>
  page.$eval(
    'value-band-viewer',
    async (viewer, address) => {
      const photo = await (await fetch(address)).blob();
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([photo], 'dropped.jpg', { type: 'image/jpeg' }));
      const event = new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true });
      viewer.dispatchEvent(event);
      return event.defaultPrevented;
    },
    PHOTO,
  );

describe('what is shown of bringing pictures', { timeout: 60_000 }, () => {
  it('is a file of its own', () => {
    expect(readdirSync(`${root}dist/parts`)).toContain('bringing.js');
  });

  it('holds up no bands: a bare figure is ready without it', async () => {
    const { page, told } = await open(
      `<value-band-viewer controls="none" src="${PHOTO}"></value-band-viewer>`,
    );
    await until('the picture', async () => (await told()).some(({ type }) => type === 'ready'));
    const [width, limits] = await page.$eval('value-band-viewer', (viewer) => [
      viewer.shadowRoot!.querySelector('canvas')!.width,
      (viewer as ValueBandViewer).limits,
    ]);
    expect(width).toBeGreaterThan(100);
    // The photo has proposed its own limits: a new plan has 36 and 66.
    expect(limits).not.toEqual([36, 66]);
    await page.close();
  });

  it('a file that is let fall before it is here is opened, and the page stays', async () => {
    const { page, told } = await open('<value-band-viewer controls="none"></value-band-viewer>');
    await page.waitForFunction(() => customElements.get('value-band-viewer'));
    expect(await drop(page)).toBe(true);
    await until('the picture', async () => (await told()).length === 2);
    expect((await told()).map(({ type, name }) => [type, name ?? ''])).toEqual(
      expect.arrayContaining([
        ['picture-change', 'dropped.jpg'],
        ['ready', ''],
      ]),
    );
    await page.close();
  });

  it('a fault is told once, when its words are here', async () => {
    const { page, answer, told } = await open(
      '<value-band-viewer controls="none" src="/no/such.jpg"></value-band-viewer>',
    );
    await page.waitForFunction(
      () =>
        document.querySelector<ValueBandViewer>('value-band-viewer')?.store?.picture.status ===
        'failed',
    );
    expect(await told()).toEqual([]);
    answer(true);
    await until('the fault', async () => (await told()).length > 0);
    const [{ type, code, message }, ...more] = await told();
    expect([type, code]).toEqual(['error', 'PictureMissing']);
    expect(message).toMatch(/^There is no picture at this address\./);
    expect(more).toEqual([]);
    expect(await seen(page)).toContain(message);
    await page.close();
  });

  it('a fault is told in plain words where its own cannot be had', async () => {
    const { page, answer, told } = await open(
      '<value-band-viewer controls="none" src="/no/such.jpg"></value-band-viewer>',
    );
    await page.waitForFunction(
      () =>
        document.querySelector<ValueBandViewer>('value-band-viewer')?.store?.picture.status ===
        'failed',
    );
    answer(false);
    await until('the fault', async () => (await told()).length > 0);
    const [{ code, message }] = await told();
    // The finding itself stays for whoever asks in a program.
    expect(code).toBe('PictureMissing');
    expect(message).toBe('This part could not be loaded. Look at the connection, then try again.');
    expect(await seen(page)).toContain(message);
    await page.close();
  });

  const mountOf = (page: Page): Promise<number> =>
    until('the mount', () =>
      page.$eval(
        'value-band-viewer',
        ({ shadowRoot }) => shadowRoot?.querySelector('.mount')?.getBoundingClientRect().height,
      ),
    );

  it('an empty viewer says when it could not be had', async () => {
    const { page, answer } = await open('<value-band-viewer loading="eager"></value-band-viewer>');
    await mountOf(page);
    answer(false);
    await until('the sentence', async () => /could not be loaded/.test(await seen(page)));
    expect(await axeFindings(page)).toEqual([]);
    await page.close();
  });

  it('an empty viewer keeps its room for it', async () => {
    const { page, answer } = await open('<value-band-viewer loading="eager"></value-band-viewer>');
    const before = await mountOf(page);
    answer(true);
    await until('the first words', async () => /Open a photo/.test(await seen(page)));
    expect(await mountOf(page)).toBe(before);
    await page.close();
  });
});
