/** Every sample of README.md is run: HTML in a page, JavaScript in a page or, where it says so, in Node. */
import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'puppeteer-core';
import { importMap, root, startBrowser, startSite, tags, type Site } from './site.js';

const text = readFileSync(`${root}README.md`, 'utf8');
const samples = [...text.matchAll(/^```(\w+)\n([\s\S]*?)^```/gm)].map(([, language, code], i) => ({
  language,
  code,
  what: `sample ${i + 1}: ${code.trim().split('\n').at(-1)}`,
}));
const inNode = ({ language, code }: { language: string; code: string }): boolean =>
  language === 'js' && code.startsWith('// in Node');

let site: Site;
let browser: Browser;

beforeAll(async () => {
  [site, browser] = await Promise.all([startSite(), startBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

/** Runs a page until every element of the kit in it has said `ready`; returns what went wrong meanwhile. */
async function run(body: string, count: number): Promise<string[]> {
  const photo = readFileSync(`${root}demo/pictures/clay-dog-900.jpg`);
  const bundle = readFileSync(`${root}dist/tonewell.min.js`, 'utf8');
  site.put('/readme/tonewell.min.js', { body: bundle, type: 'text/javascript' });
  site.put('/readme/photo.jpg', { body: photo, type: 'image/jpeg' });
  site.put('/readme/listen.js', {
    type: 'text/javascript',
    body: `globalThis.heard = new Set(); addEventListener('ready', (event) => heard.add(event.target), true);`,
  });
  const url = site.put('/readme/page.html', {
    body: `<!doctype html><html lang="en"><title>Sample</title><script src="listen.js"></script><body>${body}`,
  });
  const page = await browser.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => {
    const { url = '' } = message.location();
    if (message.type() === 'error' && !url.endsWith('/favicon.ico'))
      faults.push(`${message.text()} ${url}`);
  });
  try {
    await page.goto(url);
    for (let i = 0; i < 200; i++) {
      const heard = await page.evaluate(
        () => (globalThis as unknown as { heard: Set<unknown> }).heard.size,
      );
      if (heard >= count) return faults;
      await page.evaluate(() => scrollTo(0, (scrollY + 300) % document.body.scrollHeight)); // figures wait until they are near
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    const heard = await page.evaluate(() =>
      [...(globalThis as unknown as { heard: Set<Element> }).heard].map(
        ({ localName }) => localName,
      ),
    );
    return [...faults, `only ${heard.join(', ') || 'no element'} became ready`];
  } finally {
    await page.close();
  }
}

describe('README.md', () => {
  it('holds samples of every element', () => {
    const all = samples.map(({ code }) => code).join('');
    for (const tag of tags) expect(all).toContain(tag);
  });

  it('names its commands as scripts that exist', () => {
    const { scripts } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as {
      scripts: Record<string, string>;
    };
    expect(
      samples.filter(({ language }) => language === 'sh').map(({ code }) => code.trim()),
    ).toEqual(['npm ci && npm start', 'npm ci && npm test']);
    expect(scripts).toMatchObject({ start: expect.any(String), test: expect.any(String) });
  });

  for (const { what, code } of samples.filter(({ language }) => language === 'html')) {
    it(what, async () => {
      const count = tags.reduce((sum, tag) => sum + code.split(`<${tag}`).length - 1, 0);
      expect(await run(code, count)).toEqual([]);
    });
  }

  for (const { what, code } of samples.filter(
    (sample) => sample.language === 'js' && !inNode(sample),
  )) {
    it(what, async () => {
      const waits = code.includes('atelier-') ? 0 : 1;
      const page = `<script type="importmap">${importMap()}</script><script type="module">${code}</script>`;
      expect(await run(page, waits)).toEqual([]);
    });
  }

  for (const { what, code } of samples.filter(inNode)) {
    it(what, async () => {
      const { stdout } = await promisify(execFile)(
        process.execPath,
        ['--input-type=module', '-e', code],
        { cwd: root, timeout: 30_000 },
      );
      expect(stdout.trim().length).toBeGreaterThan(0);
    });
  }
});
