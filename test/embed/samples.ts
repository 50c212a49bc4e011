/** Running the samples of the documents: a page until its elements are ready, a module in a page, a script in Node. */
import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { promisify } from 'node:util';
import type { Browser } from 'puppeteer-core';
import { importMap, root, tags, type Site } from './site.js';

/** Elements that are ready only with a photo of the painter's own: without `src` they ask for one. */
const ASKING = ['swatch-sheet-reader', 'painting-check'];

/** How many elements of the kit in a markup become ready by themselves. */
export function elementsIn(markup: string): number {
  return tags
    .flatMap((tag) => markup.match(new RegExp(`<${tag}\\b[^>]*>`, 'g')) ?? [])
    .filter((start) => !ASKING.some((tag) => start.startsWith(`<${tag}`)) || /\ssrc=/.test(start))
    .length;
}

/** A page's markup that runs a module with the kit's entries by their names. */
export function inPage(code: string): string {
  return `<script type="importmap">${importMap()}</script><script type="module">${code}</script>`;
}

/**
 * Runs a page until so many elements of the kit in it have said `ready`; returns what went wrong meanwhile. The page has
 * `photo.jpg` and `tonewell.min.js` beside it, with what that asks for later.
 */
export async function runInPage(
  site: Site,
  browser: Browser,
  body: string,
  count: number,
): Promise<string[]> {
  const photo = readFileSync(`${root}demo/pictures/clay-dog-900.jpg`);
  const later = JSON.parse(readFileSync(`${root}dist/later/list.json`, 'utf8')) as string[];
  for (const file of ['tonewell.min.js', ...later]) {
    const body = readFileSync(`${root}dist/${file}`);
    site.put(`/sample/${file}`, { body, type: 'text/javascript' });
  }
  site.put('/sample/photo.jpg', { body: photo, type: 'image/jpeg' });
  site.put('/sample/listen.js', {
    type: 'text/javascript',
    body: `globalThis.heard = new Set(); addEventListener('ready', (event) => heard.add(event.target), true);`,
  });
  const url = site.put('/sample/page.html', {
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

/** Runs a module in Node, from the package's own folder; returns what it printed. */
export async function runInNode(code: string): Promise<string> {
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ['--input-type=module', '-e', code],
    { cwd: root, timeout: 30_000 },
  );
  return stdout.trim();
}
