/**
 * The guide: every sample is run as it stands, the reference names all that the manifest has, its examples come alive and can be
 * changed, every link leads somewhere, and the pages fit, read and print like the others.
 */
import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Frame, Page } from 'puppeteer-core';
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
import { elementsIn, inPage, runInNode, runInPage } from './samples.js';
import { root, startBrowser, startSite, type Site } from './site.js';
import type { Kit } from './start.js';
import { modeOf } from './start.js';

interface Named {
  name: string;
  inheritedFrom?: { name: string };
}
interface Element {
  tagName: string;
  attributes?: Named[];
  events?: Named[];
  slots?: Named[];
  cssParts?: Named[];
  cssProperties?: Named[];
  cssStates?: Named[];
  members: (Named & { kind: string })[];
}

const chapters = ['tutorial', 'reference', 'builders', 'computed'];
const textOf = (path: string): string => readFileSync(`${root}${path}`, 'utf8');
const manifest = JSON.parse(textOf('dist/custom-elements.json')) as {
  modules: { declarations: Element[] }[];
};
const elements = manifest.modules
  .flatMap(({ declarations }) => declarations)
  .filter(({ tagName }) => tagName);

const plain = (html: string): string =>
  html
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&');
const samples = chapters.flatMap((chapter) =>
  [
    ...textOf(`demo/docs/${chapter}.html`).matchAll(
      /<code\s+data-run="(\w+)"(?:\s+data-file="([^"]+)")?\s*>([\s\S]*?)<\/code/g,
    ),
  ].map(([, way, file, html], i) => ({
    way,
    file,
    code: plain(html),
    what: `${chapter} ${i + 1}`,
  })),
);

let demo: DemoSite;
let site: Site;
let other: Site;
let browser: Browser;

beforeAll(async () => {
  [demo, site, other, browser] = await Promise.all([
    startDemo(),
    startSite(),
    startSite(),
    startBrowser(),
  ]);
});
afterAll(async () => {
  await browser?.close();
  demo?.close();
  await Promise.all([site?.close(), other?.close()]);
});

const at = (chapter: string): string => `${demo.origin}/demo/docs/${chapter}.html`;

async function open(chapter: string, width = 1440): Promise<Page & { watched: Watched }> {
  const page = await browser.newPage();
  await page.setViewport({ width, height: 900 });
  const watched = watch(page);
  await page.goto(at(chapter));
  if (chapter === 'reference') await page.waitForSelector('main[data-drawn]');
  return Object.assign(page, { watched });
}
type Watched = ReturnType<typeof watch>;

describe('samples', () => {
  it('each block of code is one that is run', () => {
    for (const chapter of chapters) {
      const blocks = textOf(`demo/docs/${chapter}.html`).match(/<pre\b/g)?.length ?? 0;
      expect(
        samples.filter(({ what }) => what.startsWith(chapter)),
        chapter,
      ).toHaveLength(blocks);
    }
    expect(new Set(samples.map(({ way }) => way))).toEqual(
      // 'header' and 'frame': walls.test.ts; 'walled': host.test.ts
      new Set(['page', 'module', 'node', 'site', 'esbuild', 'header', 'frame', 'walled']),
    );
  });

  it.each(samples.filter(({ way }) => way === 'page'))('a page, $what', async ({ code }) => {
    const { version } = JSON.parse(textOf('package.json')) as { version: string };
    const body = code.replaceAll(`https://cdn.example/tonewell@${version}`, other.origin);
    expect(body).not.toContain('cdn.example');
    expect(elementsIn(code)).toBeGreaterThan(0);
    expect(await runInPage(site, browser, body, elementsIn(code))).toEqual([]);
  });

  it.each(samples.filter(({ way }) => way === 'module'))('a module, $what', async ({ code }) => {
    const waits = code.includes('atelier-') ? 0 : 1;
    expect(await runInPage(site, browser, inPage(code), waits)).toEqual([]);
  });

  it.each(samples.filter(({ way }) => way === 'node'))('in Node, $what', async ({ code }) => {
    expect((await runInNode(code)).length).toBeGreaterThan(0);
  });

  // These sites are built from the packed kit and run in a browser by test/consumers.
  it.each(samples.filter(({ way }) => way === 'site'))(
    'of a site that is built and run elsewhere, $file',
    ({ file, code }) => {
      expect(code.trim()).toBe(textOf(`test/consumers/${file}`).trim());
      const built = textOf('test/consumers/consumers.test.ts');
      expect(built).toContain(`'${file.split('/')[0]}'`);
    },
  );

  it.each(samples.filter(({ way }) => way === 'esbuild'))(
    'bundled by esbuild, $what',
    async ({ code }) => {
      const { outputFiles } = await build({
        stdin: { contents: code, resolveDir: root },
        bundle: true,
        splitting: true,
        format: 'esm',
        outdir: '/bundled',
        write: false,
        logLevel: 'silent',
      });
      for (const { path, text } of outputFiles)
        site.put(path, { body: text, type: 'text/javascript' });
      site.put('/bundled/worker.js', { body: textOf('dist/worker.js'), type: 'text/javascript' });
      site.put('/bundled/photo.jpg', {
        body: readFileSync(`${root}demo/pictures/clay-dog-900.jpg`),
        type: 'image/jpeg',
      });
      const page = await browser.newPage();
      const { faults } = watch(page);
      await page.goto(
        site.put('/bundled/page.html', {
          body: `<!doctype html><html lang="en"><title>Bundled</title><link rel="icon" href="data:,">
            <script type="module" src="stdin.js"></script><value-band-viewer src="photo.jpg"></value-band-viewer>`,
        }),
      );
      await until('the bands', () =>
        page.$eval('value-band-viewer', (viewer) => viewer.matches(':state(ready)')),
      );
      expect(page.workers().map((worker) => worker.url())).toEqual([
        `${site.origin}/bundled/worker.js`,
      ]);
      expect(faults).toEqual([]);
      await page.close();
    },
  );
});

describe('the table of policies', () => {
  const rows = [
    ...textOf('demo/docs/builders.html').matchAll(
      /<tr data-files="(\w+)" data-from="(\w+)" data-mode="(\w+)">\s*<td>([\s\S]*?)<\/td>/g,
    ),
  ].map(([, file, from, mode, cell]) => ({
    file: file as Kit,
    from,
    mode,
    policy: plain(/<code\s*>([\s\S]*?)<\/code\s*>/.exec(cell)?.[1] ?? '').replace(/\s+/g, ' '),
  }));

  it('has a row for each way', () => {
    expect(rows).toHaveLength(17);
    expect(rows.filter(({ policy }) => policy)).toHaveLength(13);
  });

  it.each(rows)('$file, from $from, under "$policy": $mode', async (row) => {
    const policy = row.policy
      .replace("script-src 'self'", "script-src 'self' 'nonce-map'")
      .replaceAll('https://kit.example', other.origin);
    const { mode, codes } = await modeOf(
      { site, other, browser },
      { file: row.file, cross: row.from === 'other', policy: policy || undefined },
    );
    expect(mode).toBe(row.mode);
    expect(codes).toEqual([0, 128, 255]);
  });
});

describe('the element reference', { timeout: 240_000 }, () => {
  it('names every element with all that its manifest has', async () => {
    const page = await open('reference');
    const named = await page.$$eval('main > section', (sections) =>
      sections.map((section) => ({
        id: section.id,
        names: [...section.querySelectorAll('dt .name, .also code')].map(
          ({ textContent }) => textContent,
        ),
      })),
    );
    expect(named.map(({ id }) => id)).toEqual([
      ...elements.map(({ tagName }) => tagName).sort(),
      'of-all',
    ]);
    for (const element of elements) {
      const { names } = named.find(({ id }) => id === element.tagName)!;
      const wanted = [
        ...(element.attributes ?? []),
        ...(element.events ?? []),
        ...(element.cssParts ?? []),
        ...(element.cssProperties ?? []),
      ].map(({ name }) => name);
      expect(names).toEqual(expect.arrayContaining(wanted));
      const states = (element.cssStates ?? []).map(({ name }) => `:state(${name})`);
      expect(names).toEqual(expect.arrayContaining(states));
      const slots = (element.slots ?? []).map(({ name }) => name || '(without a name)');
      expect(names).toEqual(expect.arrayContaining(slots));
      const methods = element.members.filter(({ kind }) => kind === 'method');
      for (const { name } of methods)
        expect(
          names.some((each) => each.startsWith(`${name}(`)),
          name,
        ).toBe(true);
      const fields = element.members.filter(({ kind }) => kind === 'field');
      const [own, ofAll] = await page.$$eval(`#${element.tagName}, #of-all`, (sections) =>
        sections.map(({ textContent }) => textContent),
      );
      for (const { name, inheritedFrom } of fields)
        expect(inheritedFrom?.name === 'TonewellElement' ? ofAll : own, name).toContain(name);
    }
    await page.close();
  });

  it.each(elements.map(({ tagName }) => tagName))(
    'the example of %s comes alive, can be changed by keys, says what is wrong, and goes back',
    async (tag) => {
      const page = await open('reference');
      const box = `#${tag} .example`;
      const state = (): Promise<string | undefined> =>
        page.$eval(box, (each) => (each as HTMLElement).dataset.state);
      await page.$eval(box, (each) => each.scrollIntoView());
      await until(`the example of ${tag}`, async () => (await state()) === 'ready', 60);
      const frame = (await (await page.$(`${box} iframe`))!.contentFrame()) as Frame;
      const first = await page.$eval(`${box} textarea`, (area) => area.value);
      expect(await frame.$$eval('#stage > *', (all) => all.length)).toBeGreaterThan(0);

      await page.$eval(`${box} textarea`, (area) => {
        area.focus();
        area.setSelectionRange(0, 0);
      });
      await page.keyboard.type('<p>Changed</p>');
      await until('the change', () =>
        frame.$$eval('#stage > p', ([added]) => added?.textContent === 'Changed'),
      );
      await until(`${tag} once more`, async () => (await state()) === 'ready', 60);
      await until('its height', () =>
        page.$eval(`${box} iframe`, (each) => each.clientHeight > 120),
      );

      await page.keyboard.type('<');
      await until('a word on what is wrong', async () => (await state()) === 'fault');
      const wrong = await page.$eval(box, (each) => ({
        said: each.querySelector('.state')!.textContent,
        invalid: each.querySelector('textarea')!.getAttribute('aria-invalid'),
        described:
          each.querySelector('textarea')!.getAttribute('aria-describedby') ===
          each.querySelector('.state')!.id,
      }));
      expect(wrong).toEqual({
        said: expect.stringMatching(/^Line 1: .+\. The example still shows what stood here before/),
        invalid: 'true',
        described: true,
      });
      expect(await frame.$$eval('#stage > p', ([kept]) => kept.textContent)).toBe('Changed');

      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      await until('the first markup', async () => (await state()) === 'ready', 60);
      expect(await page.$eval(`${box} textarea`, (area) => area.value)).toBe(first);
      expect(await axeFindings(frame)).toEqual([]);
      expect(strangers(page.watched.asked, demo.origin)).toEqual([]);
      expect(page.watched.faults).toEqual([]);
      await page.close();
    },
  );

  it('a form in an example tells what it would send and goes nowhere', async () => {
    const page = await open('reference');
    const box = '#lightness-picker .example';
    await page.$eval(box, (each) => each.scrollIntoView());
    await until(
      'the example',
      async () =>
        (await page.$eval(box, (each) => (each as HTMLElement).dataset.state)) === 'ready',
    );
    const frame = (await (await page.$(`${box} iframe`))!.contentFrame()) as Frame;
    const saidBy = async (act: () => Promise<unknown>, said: RegExp): Promise<void> => {
      await act();
      await until(String(said), async () =>
        said.test(await page.$eval(`${box} .state`, ({ textContent }) => textContent)),
      );
    };
    const send = (): Promise<void> =>
      frame.$eval('form button', (button) => (button as HTMLButtonElement).click());
    await saidBy(send, /nothing to send yet/);
    await frame.$eval('lightness-picker', (picker) =>
      picker.shadowRoot!.querySelector<HTMLElement>('[part~=hole]')!.focus(),
    );
    await page.keyboard.press('Enter');
    await saidBy(send, /would send: darkest = #[\da-f]{6}\./);
    expect(frame.url()).toBe(`${demo.origin}/demo/docs/example.html`);
    await page.close();
  });

  const image = '<img src="../pictures/clay-dog-900.jpg" alt="A dog">';
  it.each<[markup: string, line: number, said: RegExp]>([
    ['<value-band-viewer>', 1, /never ended/],
    ['<p>\n</value-band-viewer>', 2, /before <p> of line 1/],
    ['</p>', 1, /never begun/],
    ['<p>\n  <script>alert(1)</script></p>', 2, /<script> is not taken/],
    ['<no-such-element></no-such-element>', 1, /no element of the kit/],
    ['<value-band-viewer onready="alert(1)"></value-band-viewer>', 1, /no attribute onready/],
    ['<p style="color: red"></p>', 1, /no attribute style/],
    ['<p srcdoc="x"></p>', 1, /no attribute srcdoc/],
    ['<iframe></iframe>', 1, /<iframe> is not taken/],
    ['<img src="https://other.example/a.jpg">', 1, /from this server/],
    ['<img src="javascript:alert(1)">', 1, /from this server/],
    ['<value-band-viewer src="a.jpg></value-band-viewer>', 1, /closing quotation mark/],
    ['<value-band-viewer view="bands" view="photo"></value-band-viewer>', 1, /stands twice/],
    ['<value-band-viewer\n', 1, /no “>”/],
    ['<value-band-viewer />', 1, /does not end it/],
    ['a < b', 1, /&lt;/],
    ['<!-- open', 1, /-->/],
  ])('refuses %s', async (markup, line, said) => {
    const page = await open('example');
    const told = await readIn(page, markup, {
      'value-band-viewer': ['src', 'view'],
    });
    expect(told.fault).toMatch(said);
    expect(told.line).toBe(line);
    await page.close();
  });

  it('takes what is in order, letter by letter', async () => {
    const page = await open('example');
    const markup = `<!-- a note -->\n<form><p class='a' data-x=1>1 &lt; 2 &amp; 3 &#65;</p>${image}<value-band-viewer view="bands"></value-band-viewer></form>`;
    const told = await readIn(page, markup, { 'value-band-viewer': ['view'] });
    expect(told.html).toBe(
      `\n<form><p class="a" data-x="1">1 &lt; 2 &amp; 3 A</p>${image}<value-band-viewer view="bands"></value-band-viewer></form>`,
    );
    await page.close();
  });
});

/** What the reader of examples makes of a markup, in a page. */
async function readIn(
  page: Page,
  markup: string,
  own: Record<string, string[]>,
): Promise<{ html?: string; fault?: string; line?: number }> {
  // A text, since a bundler would have its own way with import().
  return (await page.evaluate(`import('/demo/docs/markup.js').then(({ readMarkup }) => {
    try {
      const box = document.createElement('div');
      box.append(readMarkup(${JSON.stringify(markup)}, ${JSON.stringify(own)}));
      return { html: box.innerHTML };
    } catch ({ message, line }) {
      return { fault: message, line };
    }
  })`)) as { html?: string; fault?: string; line?: number };
}

describe('the tutorial', { timeout: 120_000 }, () => {
  it('works from the photo to the page, on one plan', async () => {
    const page = await open('tutorial');
    await page.evaluate(() => {
      Object.assign(self, { heard: new Set<string>() });
      addEventListener(
        'ready',
        ({ target }) => (self as unknown as { heard: Set<Element> }).heard.add(target as never),
        true,
      );
    });
    for (const step of ['photo', 'bands', 'limits', 'masses']) {
      await page.$eval(`#${step}`, (section) => section.scrollIntoView());
      await until(`step ${step}`, () =>
        page.$eval(`#${step} value-band-viewer`, (viewer) => viewer.matches(':state(ready)')),
      );
    }
    // Lines lie on what they are drawn round: a mass's corner of the picture is the picture's corner.
    await until(
      'the tracings',
      () =>
        page.$eval(
          '#masses value-band-viewer',
          (viewer) => !!viewer.shadowRoot!.querySelector('.traced > path'),
        ),
      60,
    );
    expect(
      await page.$eval('#masses value-band-viewer', (viewer) => {
        const line = viewer.shadowRoot!.querySelector<SVGGraphicsElement>('.traced > path')!;
        const { e, f } = line.getScreenCTM()!;
        const { x, y } = viewer.shadowRoot!.querySelector('[part~=stage]')!.getBoundingClientRect();
        return [Math.abs(e - x) < 0.5, Math.abs(f - y) < 0.5];
      }),
    ).toEqual([true, true]);
    const limitsOf = (step: string): Promise<number[]> =>
      page.$eval(`#${step} value-band-viewer`, (viewer) => (viewer as ValueBandViewer).limits);
    const before = await limitsOf('bands');
    await page.$eval('#limits', (section) => section.scrollIntoView());
    await until('the ladder', () =>
      page.$eval('#limits value-band-viewer', (viewer) => {
        const peg = [...viewer.shadowRoot!.querySelectorAll<HTMLElement>('[part~=peg]')].at(-1);
        peg?.focus();
        return !!peg;
      }),
    );
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowUp');
    await until('the limit', async () => (await limitsOf('limits'))[0] !== before[0]);
    expect(await limitsOf('bands')).toEqual(await limitsOf('limits'));

    await page.$eval('#mixes', (section) => section.scrollIntoView());
    await page.$eval('#sheet', (section) => section.scrollIntoView());
    await until('the page', () => page.$eval('plan-sheet', ({ pages }) => pages.length > 0));
    expect(
      await page.$eval('mixing-well', (well) => well.shadowRoot!.childElementCount),
    ).toBeGreaterThan(0);
    expect(
      await page.$eval(
        'swatch-bucket-board',
        (board) => board.shadowRoot!.querySelectorAll('[part~=bucket]').length,
      ),
    ).toBe(before.length + 1);
    expect(strangers(page.watched.asked, demo.origin)).toEqual([]);
    expect(page.watched.faults).toEqual([]);
    await page.close();
  });
});

describe('all pages of the guide', { timeout: 120_000 }, () => {
  it('have links that lead somewhere', async () => {
    const ids = new Map<string, string[]>();
    const links: [from: string, to: string][] = [];
    for (const chapter of [...chapters, 'example']) {
      const page = await open(chapter);
      const seen = await page.evaluate(() => ({
        ids: [...document.querySelectorAll('[id]')].map(({ id }) => id),
        links: [...document.querySelectorAll<HTMLAnchorElement>('a[href]')].map(({ href }) => href),
      }));
      ids.set(new URL(at(chapter)).pathname, seen.ids);
      links.push(...seen.links.map((link) => [chapter, link] as [string, string]));
      await page.close();
    }
    for (const chapter of ['index', 'article', 'lesson', 'marking'])
      expect(textOf(`demo/${chapter}.html`)).toContain('href="docs/tutorial.html"');
    expect(links.length).toBeGreaterThan(40);
    for (const [from, to] of links) {
      const { origin, pathname, hash } = new URL(to);
      expect(origin, `${from} → ${to}`).toBe(demo.origin);
      expect((await fetch(to, { method: 'HEAD' })).status, `${from} → ${to}`).toBe(200);
      if (hash && ids.has(pathname)) expect(ids.get(pathname), to).toContain(hash.slice(1));
    }
  });

  it.each(chapters)(
    '%s fits 360 pixels and text at 200 %, is clean for axe light and dark, asks only its own server',
    async (chapter) => {
      const page = await open(chapter);
      for (const [width, scheme] of [
        [1440, 'light'],
        [768, 'dark'],
        [360, 'dark'],
      ] as const) {
        await page.setViewport({ width, height: 740 });
        await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
        await new Promise((resolve) => setTimeout(resolve, 300));
        expect(await sideways(page), `${width}`).toBe(0);
        expect(await axeFindings(page)).toEqual([]);
      }
      await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
      expect(await sideways(page)).toBe(0);
      expect(strangers(page.watched.asked, demo.origin)).toEqual([]);
      expect(page.watched.faults).toEqual([]);
      await page.close();
    },
  );

  it('the reference unfolds what is folded before it is printed', async () => {
    const page = await open('reference');
    const folded = (): Promise<number> => page.$$eval('details:not([open])', (all) => all.length);
    expect(await folded()).toBeGreaterThan(0);
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    expect(await folded()).toBe(0);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await folded()).toBeGreaterThan(0);
    await page.close();
  });

  it('are at hand without a network once the studio was open', async () => {
    const short = await startDemo();
    const context = await browser.createBrowserContext();
    const page = await context.newPage();
    await page.goto(`${short.origin}/demo/index.html`);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    short.close();
    for (const chapter of chapters) {
      await page.goto(`${short.origin}/demo/docs/${chapter}.html`);
      expect(await page.$eval('h1', (title) => title.textContent!.length)).toBeGreaterThan(0);
    }
    await page.goto(`${short.origin}/demo/docs/reference.html`);
    await page.waitForSelector('main[data-drawn]');
    await context.close();
  });
});
