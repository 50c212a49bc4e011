/** Where the core runs under which policy and from which origin, and that it computes the same everywhere. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'puppeteer-core';
import { importMap, startBrowser, startSite, type Site } from './site.js';

let site: Site;
let other: Site;
let browser: Browser;

beforeAll(async () => {
  [site, other, browser] = await Promise.all([startSite(), startSite(), startBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await Promise.all([site?.close(), other?.close()]);
});

/** Starts the core of a page and lets it work: black, sRGB grey 119 (L* 50.03, code 128) and white. */
const script = (from: string): string => `
  import { startCore } from ${JSON.stringify(from)};
  const core = await startCore({ timeout: 4000 });
  const data = new Uint8ClampedArray([0,0,0,255, 119,119,119,255, 255,255,255,255]);
  const picture = await core.open({ width: 3, height: 1, data });
  const { plane } = await core.run('working', { picture: picture.id });
  globalThis.result = { mode: core.mode, codes: [...plane.data], tried: core.tried };
  core.dispose();
`;

interface Result {
  mode: string;
  codes: number[];
  tried: string[];
}

let number = 0;
async function modeOf({
  file,
  cross,
  policy,
}: {
  file: 'many' | 'one';
  cross: boolean;
  policy?: string;
}): Promise<Result> {
  const origin = cross ? other.origin : site.origin;
  const name = `/page-${++number}`;
  site.put(`${name}.js`, {
    body: script(file === 'many' ? 'tonewell/core' : `${origin}/dist/tonewell.min.js`),
    type: 'text/javascript',
  });
  const map =
    file === 'many' ? `<script type="importmap" nonce="map">${importMap(origin)}</script>` : '';
  const headers: Record<string, string> = policy ? { 'content-security-policy': policy } : {};
  const url = site.put(name, {
    body: `<!doctype html><title>Start</title>${map}<script type="module" src="${name}.js"></script>`,
    headers,
  });
  const page = await browser.newPage();
  try {
    const trouble: string[] = [];
    page.on('console', (message) => trouble.push(message.text()));
    page.on('pageerror', (error) => trouble.push(String(error)));
    await page.goto(url);
    for (let i = 0; i < 150; i++) {
      const result = await page.evaluate(() => (globalThis as { result?: Result }).result);
      if (result) return result;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    throw new Error(`The page gave no result: ${trouble.join('; ')}`);
  } finally {
    await page.close();
  }
}

describe('the start-up ladder', () => {
  const here = (): string => `script-src ${site.origin} 'nonce-map'`;
  const both = (): string => `script-src ${site.origin} ${other.origin} 'nonce-map'`;
  const rows: [
    what: string,
    page: { file: 'many' | 'one'; cross: boolean; policy?: () => string },
    mode: string,
  ][] = [
    ['many files, same origin', { file: 'many', cross: false }, 'worker'],
    ['many files, another origin', { file: 'many', cross: true }, 'blob'],
    ['one file, same origin', { file: 'one', cross: false }, 'blob'],
    ['one file, another origin', { file: 'one', cross: true }, 'blob'],
    [
      'many files, only own workers',
      { file: 'many', cross: false, policy: () => `${here()}; worker-src 'self'` },
      'worker',
    ],
    [
      'many files, nothing but own scripts',
      { file: 'many', cross: false, policy: () => `default-src 'none'; ${here()}` },
      'worker',
    ],
    [
      'many files from another origin, only own workers',
      { file: 'many', cross: true, policy: () => `${both()}; worker-src 'self'` },
      'page',
    ],
    [
      'one file, only blob workers',
      { file: 'one', cross: true, policy: () => `${both()}; worker-src blob:` },
      'blob',
    ],
    [
      'one file, nothing but own scripts',
      { file: 'one', cross: false, policy: () => `default-src 'none'; ${here()}` },
      'page',
    ],
    [
      'many files, no workers',
      { file: 'many', cross: false, policy: () => `${here()}; worker-src 'none'` },
      'page',
    ],
    [
      'one file, no workers',
      { file: 'one', cross: true, policy: () => `${both()}; worker-src 'none'` },
      'page',
    ],
    [
      'many files, trusted types',
      { file: 'many', cross: false, policy: () => `${here()}; require-trusted-types-for 'script'` },
      'page',
    ],
    [
      'one file, trusted types',
      {
        file: 'one',
        cross: false,
        policy: () => `${here()}; require-trusted-types-for 'script'; trusted-types lit-html`,
      },
      'page',
    ],
  ];
  for (const [what, { policy, ...page }, mode] of rows) {
    it(`${what}: ${mode}`, async () => {
      const result = await modeOf({ ...page, policy: policy?.() });
      expect(result.codes).toEqual([0, 128, 255]);
      expect(result.mode, result.tried.join('\n')).toBe(mode);
    });
  }
});
