/** Every sample of README.md is run: HTML in a page, JavaScript in a page or, where it says so, in Node. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'puppeteer-core';
import { elementsIn, inPage, runInNode, runInPage } from './samples.js';
import { root, startBrowser, startSite, tags, type Site } from './site.js';

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
      expect(await runInPage(site, browser, code, elementsIn(code))).toEqual([]);
    });
  }

  for (const { what, code } of samples.filter(
    (sample) => sample.language === 'js' && !inNode(sample),
  )) {
    it(what, async () => {
      if (code.includes('tonewell/host')) {
        // An editor with a panel: built from the packed kit and run in a browser by test/consumers.
        expect(code).toBe(readFileSync(`${root}test/consumers/hosts/page.js`, 'utf8'));
        return;
      }
      const waits = code.includes('atelier-') ? 0 : 1;
      expect(await runInPage(site, browser, inPage(code), waits)).toEqual([]);
    });
  }

  for (const { what, code } of samples.filter(inNode)) {
    it(what, async () => {
      expect((await runInNode(code)).length).toBeGreaterThan(0);
    });
  }
});
