/**
 * The kit behind walls: strict policies, trusted types, a sandboxed frame of another origin, no storage, no network. All eight elements work
 * there, say what they cannot do, and ask nobody but for what their `src` names.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CDPSession } from 'puppeteer-core';
import { parsePlan } from '../../core/plan/index.js';
import { startDemo, until } from './page.js';
import { root, startSite, tags, type Site } from './site.js';
import {
  givePictures,
  openAll,
  openWalled,
  press,
  putPage,
  startWatched,
  told,
  work,
  type Shown,
  type Walls,
  type Watched,
} from './walls.js';

let site: Site;
let other: Site;
let watched: Watched;

beforeAll(async () => {
  [site, other, watched] = await Promise.all([startSite(), startSite(), startWatched()]);
});
afterAll(async () => {
  await watched?.close();
  await Promise.all([site?.close(), other?.close()]);
});

/** What the elements show wherever the core runs. */
const ALL = (mode: string): Shown => ({
  defined: tags,
  mode,
  bands: [4, 4], // three bands and bare paper, each of one colour
  traced: expect.toSatisfy((lines: number) => lines > 10),
  reading: true,
  swatches: 1,
  judged: 1,
  mix: true,
  found: 5,
  printed: expect.toSatisfy((pages: number) => pages > 0),
  dabs: 16, // demo/pictures/README.md
  checked: true,
  delivered: 'image/jpeg',
});

/** The headers and the frame that the guide gives to copy, by their kind and what they are for. */
const guide = readFileSync(`${root}demo/docs/builders.html`, 'utf8');
function sample(way: 'header' | 'frame', file?: Walls['file']): string {
  const attributes = `data-run="${way}"${file ? ` data-file="${file}"` : ''}`;
  const found = new RegExp(`<code ${attributes}>([^<]*)</code`).exec(guide);
  if (!found) throw new Error(`The guide has no ${way} for ${file ?? 'a page'}.`);
  return found[1].replaceAll('&lt;', '<').replaceAll('&gt;', '>');
}
/** A header's policy, with the nonce of the test page's import map. */
const policyOf = (header: string): string =>
  header
    .replace('Content-Security-Policy: ', '')
    .replace("script-src 'self'", "script-src 'self' 'nonce-map'");

const QUIET = { violations: [], console: [], doors: [] };
const here = `default-src 'none'; script-src 'self' 'nonce-map'; style-src 'self'`;
const typed = `require-trusted-types-for 'script'`;
const named = `${typed}; trusted-types lit-html tonewell`;

describe('policies', { timeout: 240_000 }, () => {
  interface Row {
    what: string;
    file: Walls['file'];
    policy: string;
    mode: string;
    /** Pictures as Blobs: then nothing but scripts is allowed at all. */
    blobs?: true;
    /** What is provoked knowingly: ways to a worker that the page does not allow. */
    violations?: string[];
  }
  const rows: Row[] = [
    {
      what: 'nothing but scripts, many files, pictures as Blobs',
      file: 'many',
      policy: here,
      mode: 'worker',
      blobs: true,
    },
    {
      what: 'nothing but scripts and blob workers, trusted types, the one file, pictures as Blobs',
      file: 'one',
      policy: `${here}; worker-src blob:; connect-src 'none'; ${named}`,
      mode: 'blob',
      blobs: true,
    },
    {
      what: 'the header of the guide, many files',
      file: 'many',
      policy: policyOf(sample('header', 'many')),
      mode: 'worker',
    },
    {
      what: 'the header of the guide, the one file',
      file: 'one',
      policy: policyOf(sample('header', 'one')),
      mode: 'blob',
    },
    {
      what: 'the header of the guide, the whole file',
      file: 'whole',
      policy: policyOf(sample('header', 'one')),
      mode: 'blob',
    },
    {
      what: 'trusted types without a list, the one file',
      file: 'one',
      policy: `${here}; connect-src 'self'; worker-src blob:; ${typed}`,
      mode: 'blob',
    },
    {
      what: 'trusted types that do not name the kit, many files',
      file: 'many',
      policy: `${here}; connect-src 'self'; ${typed}; trusted-types lit-html`,
      mode: 'page',
      violations: [
        'trusted-types trusted-types-policy',
        'require-trusted-types-for trusted-types-sink',
        'require-trusted-types-for trusted-types-sink',
      ],
    },
    {
      what: 'no workers, the one file',
      file: 'one',
      policy: `${here}; connect-src 'self'; worker-src 'none'`,
      mode: 'page',
      violations: ['worker-src blob'],
    },
    {
      what: 'no workers, the whole file',
      file: 'whole',
      policy: `${here}; connect-src 'self'; worker-src 'none'`,
      mode: 'page',
      violations: ['worker-src blob'],
    },
  ];

  it('README.md gives the same header', () => {
    expect(readFileSync(`${root}README.md`, 'utf8')).toContain(sample('header', 'many'));
  });

  it.each(rows)('$what: $mode', async ({ file, policy, mode, blobs, violations = [] }) => {
    const url = putPage(site, { kit: site.origin, file, policy, src: !blobs });
    const { page, frame, trouble } = await openWalled(watched.browser, url);
    if (blobs) await givePictures(frame);
    expect(await work(frame)).toEqual(ALL(mode));
    const { console, ...noted } = await trouble();
    expect(noted).toEqual({ violations, doors: [] });
    // Each refusal is logged by the browser itself; nothing else is.
    expect(console, console.join('\n')).toHaveLength(violations.length);
    await page.close();
  });
});

describe('requests', { timeout: 240_000 }, () => {
  it.each(['many', 'one'] as const)(
    'of a page with all elements, every panel opened, all saved and printed (%s): the kit and what src names',
    async (file) => {
      const url = putPage(site, { kit: other.origin, file });
      watched.asked();
      const { page, frame, trouble } = await openWalled(watched.browser, url);
      const client = await page.createCDPSession();
      await client.send('Browser.setDownloadBehavior', { behavior: 'deny' });
      await work(frame);
      const pressed = await openAll(frame);
      for (const tag of tags)
        expect(pressed.filter((each) => each.startsWith(`${tag}:`)).length, tag).toBeGreaterThan(0);
      expect(pressed.length).toBeGreaterThan(60);
      await press(frame, 'plan-sheet', '[data-save-all]');
      await press(frame, 'plan-sheet', '[data-print]');
      await press(frame, 'painting-check', '[data-deliver]');
      await frame.$eval('painting-plan', async (plan) => {
        plan.download();
        await plan.save();
      });
      await new Promise((resolve) => setTimeout(resolve, 3000));
      expect(await trouble()).toEqual(QUIET);

      const own = new URL(url);
      const beside = [own.pathname, `${own.pathname}.notes.js`, `${own.pathname}.js`];
      const pictures = ['/photo.jpg', '/sheet.jpg', '/painting.jpg'];
      const asked = watched.asked();
      const atHome = asked.filter(
        (address) => address.startsWith(`${site.origin}/`) && !address.endsWith('/favicon.ico'),
      );
      expect([...new Set(atHome)].sort()).toEqual(
        [...beside, ...pictures].map((path) => site.origin + path).sort(),
      );
      const kit =
        file === 'one'
          ? /^\/dist\/(tonewell\.min|later\/[\w.-]+|worker-[a-z]+)\.js$/
          : /^\/(dist|node_modules)\/.+\.m?js$/;
      const elsewhere = asked.filter((address) => !address.startsWith(`${site.origin}/`));
      expect(elsewhere.length).toBeGreaterThan(0);
      expect(
        elsewhere.filter(
          (address) =>
            !address.startsWith(`${other.origin}/`) ||
            !kit.test(address.slice(other.origin.length)),
        ),
      ).toEqual([]);
      await page.close();
    },
  );

  it('the list hears of workers, beacons and sockets', async () => {
    const page = await watched.browser.newPage();
    await page.goto(site.put('/loud', { body: '<!doctype html><title>Loud</title>' }));
    watched.asked();
    await page.evaluate(async (origin) => {
      const text = `fetch('${origin}/from-a-worker')`;
      new Worker(URL.createObjectURL(new Blob([text])));
      navigator.sendBeacon('/beacon', 'x');
      new WebSocket('ws://elsewhere.example/socket');
      new Image().src = 'http://elsewhere.example/pixel.gif';
    }, site.origin);
    const heard = new Set<string>();
    const all = [
      `${site.origin}/from-a-worker`,
      `${site.origin}/beacon`,
      'CONNECT elsewhere.example:80',
      'http://elsewhere.example/pixel.gif',
    ];
    await until('all of them', async () => {
      for (const address of watched.asked()) heard.add(address);
      return all.every((address) => heard.has(address));
    });
    await page.close();
  });

  it('a picture of a server that forbids reading is told, with what to do', async () => {
    const closed = await startSite();
    const url = putPage(site, { kit: site.origin, file: 'one', src: false });
    const { page, frame } = await openWalled(watched.browser, url);
    const picture = closed.put('/closed.jpg', { body: 'not to be read', type: 'image/jpeg' });
    await frame.$eval('value-band-viewer', (viewer, src) => void (viewer.src = src), picture);
    expect(await until('the sentence', () => told(frame, 'value-band-viewer'))).toMatch(
      /does not let other pages read it\. Save it to this device and open the file/,
    );
    await page.close();
    await closed.close();
  });
});

describe('a sandboxed frame of another origin', { timeout: 240_000 }, () => {
  /** Opens a page in a frame; one that may run scripts and nothing else unless another is given. */
  async function sandboxed(
    walls: Walls,
    frame = '<iframe sandbox="allow-scripts" src="https://plans.example/plan.html" title="Plan"></iframe>',
  ): ReturnType<typeof openWalled> {
    const framed = putPage(other, walls);
    const sized = frame.replace('<iframe', '<iframe width="1240" height="860"');
    const host = site.put(`/host${new URL(framed).pathname}`, {
      body: `<!doctype html><html lang="en"><title>Host</title>${sized.replace('https://plans.example/plan.html', framed)}`,
    });
    return openWalled(watched.browser, host, (page) =>
      page.waitForFrame((each) => each.url() === framed),
    );
  }

  it.each(['many', 'one'] as const)('%s: all elements work', async (file) => {
    const policy = `${here.replaceAll("'self'", other.origin)} blob:; connect-src ${other.origin}; worker-src blob: ${other.origin}; ${named}`;
    const { page, frame, trouble } = await sandboxed({ kit: other.origin, file, policy });
    expect(await frame.evaluate(() => globalThis.origin)).toBe('null');
    expect(await work(frame)).toEqual(ALL('blob'));
    expect(await trouble()).toEqual(QUIET);
    await page.close();
  });

  it('nothing is lost without a word: not kept, no files, no print are told, and the plan is there as text', async () => {
    const { page, frame } = await sandboxed({ kit: other.origin, file: 'one' });
    await until('the sentence', async () =>
      (await told(frame, 'painting-plan')).includes('may not keep plans'),
    );
    expect(await told(frame, 'painting-plan')).toMatch(/save it as a file before you leave/);
    await work(frame);
    await frame.$eval('painting-plan', (plan) =>
      plan.store.change('title', (now) => ({ ...now, title: 'Walled dog' })),
    );

    await press(frame, 'painting-plan', 'Save the plan as a file');
    const text = await until('the text', () =>
      frame.$eval('painting-plan', (plan) => plan.shadowRoot!.querySelector('textarea')?.value),
    );
    expect(parsePlan(text).title).toBe('Walled dog');
    expect(await told(frame, 'painting-plan')).toMatch(
      /copy this text into a file called Walled dog\.json/,
    );
    // And back, as the file that it was copied into.
    await frame.$eval(
      'painting-plan',
      async (plan, json) => {
        plan.store.change('title', (now) => ({ ...now, title: 'Another' }));
        await plan.openFile(new File([json], 'Walled dog.json', { type: 'application/json' }));
      },
      text,
    );
    await until('the plan', () =>
      frame.$eval('painting-plan', (plan) => plan.document.title === 'Walled dog'),
    );

    await press(frame, 'plan-sheet', '[data-print]');
    await until('the word on printing', async () =>
      /may not print where it is shown/.test(await told(frame, 'plan-sheet')),
    );
    expect(await frame.$('[data-printed-plan]')).toBe(null);
    const noFile = /may not hand files over\. Open it in a window of its own/;
    await press(frame, 'plan-sheet', '[data-save]');
    await press(frame, 'value-band-viewer', 'Save as PNG');
    await openAll(frame);
    await press(frame, 'painting-check', '[data-deliver]');
    for (const tag of ['plan-sheet', 'value-band-viewer', 'painting-check'])
      await until(`the word of ${tag}`, async () => noFile.test(await told(frame, tag)));
    await page.close();
  });

  it('the frame of the guide hands files over', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'tonewell-walled-'));
    const { page, frame } = await sandboxed({ kit: other.origin, file: 'one' }, sample('frame'));
    const client = await page.createCDPSession();
    await client.send('Browser.setDownloadBehavior', { behavior: 'allow', downloadPath: folder });
    await until('the photo', () =>
      frame.$eval('painting-plan', (plan) => {
        if (plan.store.picture.exact)
          plan.store.change('title', (now) => ({ ...now, title: 'Dog' }));
        return plan.store.picture.exact;
      }),
    );
    await frame.$eval('painting-plan', (plan) => plan.download());
    await until('the file', async () => readdirSync(folder).includes('Dog.json'));
    expect(parsePlan(readFileSync(join(folder, 'Dog.json'), 'utf8')).title).toBe('Dog');
    await page.close();
    rmSync(folder, { recursive: true });
  });
});

describe('storage', { timeout: 240_000 }, () => {
  const names = ['indexedDB', 'localStorage', 'sessionStorage', 'BroadcastChannel', 'caches'];
  const doors = JSON.stringify(names);
  const rows: [what: string, before: string, said: RegExp][] = [
    [
      'absent',
      `for (const name of ${doors}) Object.defineProperty(globalThis, name, { value: undefined });
       Object.defineProperty(navigator, 'storage', { value: undefined });`,
      /does not let the page keep anything .* save it as a file before you leave/,
    ],
    [
      'forbidden',
      `for (const name of ${doors}) Object.defineProperty(globalThis, name, { get() { throw new DOMException('closed', 'SecurityError'); } });
       Object.defineProperty(navigator, 'storage', { get() { throw new DOMException('closed', 'SecurityError'); } });`,
      /does not let the page keep anything .* save it as a file before you leave/,
    ],
  ];
  it.each(rows)('%s: it is told, and all elements work', async (_, before, said) => {
    const url = putPage(site, { kit: site.origin, file: 'one', before });
    const { page, frame, trouble } = await openWalled(watched.browser, url);
    expect(await work(frame)).toEqual(ALL('blob'));
    await openAll(frame);
    expect(await told(frame, 'painting-plan')).toMatch(said);
    expect(await trouble()).toEqual(QUIET);
    await page.close();
  });

  it('full: it is told, and all elements work', async () => {
    const url = putPage(site, { kit: site.origin, file: 'one' });
    const { page, frame, trouble } = await openWalled(watched.browser, 'about:blank');
    const client: CDPSession = await page.createCDPSession();
    await client.send('Storage.overrideQuotaForOrigin', { origin: site.origin, quotaSize: 1 });
    await page.goto(url);
    expect(await work(frame)).toEqual(ALL('blob'));
    await until('the sentence', async () =>
      /no room left .* save it as a file/.test(await told(frame, 'painting-plan')),
    );
    expect(await trouble()).toEqual(QUIET);
    await client.send('Storage.overrideQuotaForOrigin', { origin: site.origin });
    await page.close();
  });
});

describe('without a network', { timeout: 240_000 }, () => {
  it('the demo pages are at hand once the studio was open, with the plan; another page says what to do', async () => {
    const demo = await startDemo();
    const page = await watched.browser.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(String(error)));
    const ready = (tag: string): Promise<unknown> =>
      until(`${tag} on ${page.url()}`, () =>
        page.$eval(tag, (element) => {
          element.scrollIntoView();
          return element.matches(':state(ready)');
        }),
      );
    const studio = (): Promise<unknown> =>
      until('the photo of the studio', () =>
        page.$eval('painting-plan', (plan) => plan.store?.picture.exact && !!plan.document.photo),
      );
    try {
      await page.goto(`${demo.origin}/demo/index.html`);
      await studio();
      await page.$eval('painting-plan', async (plan) => {
        plan.store.change('title', (now) => ({ ...now, title: 'Kept on the way' }));
        await plan.save();
        await navigator.serviceWorker.ready;
      });
      await page.setOfflineMode(true);
      watched.cut(true);
      watched.asked();

      await page.reload();
      await studio();
      expect(await page.$eval('painting-plan', (plan) => plan.document.title)).toBe(
        'Kept on the way',
      );
      await ready('value-band-viewer');
      for (const name of ['article', 'docs/tutorial']) {
        await page.goto(`${demo.origin}/demo/${name}.html`);
        await ready('value-band-viewer');
      }
      await page.goto(`${demo.origin}/demo/lesson.html`);
      await until('the board', () =>
        page.$eval('swatch-bucket-board', (board) => {
          board.scrollIntoView();
          return board.shadowRoot!.querySelector('[part~=bucket]') !== null;
        }),
      );
      for (const name of ['marking', 'docs/reference', 'docs/builders', 'docs/computed']) {
        await page.goto(`${demo.origin}/demo/${name}.html`);
        expect(await page.$eval('h1', ({ textContent }) => textContent)).not.toMatch(/not at hand/);
      }
      await page.goto(`${demo.origin}/demo/no-such-page.html`);
      expect(await page.$eval('body', ({ innerText }) => innerText)).toMatch(
        /no copy of this page is kept here\. Open it once while there is a network\.\s+The studio/,
      );
      await page.click('a');
      await page.waitForSelector('painting-plan');
      await studio();
      expect(faults).toEqual([]);
    } finally {
      watched.cut(false);
      await page.close();
      demo.close();
    }
  });

  it('a page of many files tells which part could not be had, and keeps the plan in hand', async () => {
    const url = putPage(site, { kit: site.origin, file: 'many' });
    const { page, frame } = await openWalled(watched.browser, url);
    await page.setViewport({ width: 1280, height: 300 });
    await until('the photo', () =>
      frame.$eval('painting-plan', (plan) => plan.store?.picture.exact),
    );
    watched.cut(true);
    try {
      await frame.$eval('plan-sheet', (sheet) => sheet.scrollIntoView());
      const said = await until('a sentence', async () => {
        const words = await Promise.all(
          ['plan-sheet', 'mixing-well', 'swatch-sheet-reader', 'painting-check'].map((tag) =>
            told(frame, tag),
          ),
        );
        return words.find((each) => /could not be loaded/.test(each));
      });
      expect(said).toMatch(/connection/);
      expect(await frame.$eval('painting-plan', (plan) => plan.store.picture.exact)).toBe(true);
    } finally {
      watched.cut(false);
      await page.close();
    }
  });

  it('a page that has the kit in one whole file works on with pictures of the device', async () => {
    const url = putPage(site, { kit: site.origin, file: 'whole', src: false });
    const { page, frame, trouble } = await openWalled(watched.browser, url);
    await until('the kit', () => frame.evaluate(() => 'coreOfAll' in globalThis));
    await page.setOfflineMode(true);
    watched.cut(true);
    try {
      await givePictures(frame);
      expect(await work(frame)).toEqual(ALL('blob'));
      await openAll(frame);
      expect(await trouble()).toEqual(QUIET);
      // A picture that would have to be fetched is told, with what to do.
      await frame.$eval('lightness-picker', (picker) => void (picker.src = '/photo.jpg'));
      await until('the sentence', async () =>
        /cannot be reached.* Save it to this device and open the file/.test(
          await told(frame, 'value-band-viewer'),
        ),
      );
    } finally {
      watched.cut(false);
      await page.close();
    }
  });
});
