/** Where the core runs under which policy and from which origin, and that it computes the same everywhere. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'puppeteer-core';
import { startBrowser, startSite, type Site } from './site.js';
import { modeOf } from './start.js';

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
      const result = await modeOf({ site, other, browser }, { ...page, policy: policy?.() });
      expect(result.codes).toEqual([0, 128, 255]);
      expect(result.mode, result.tried.join('\n')).toBe(mode);
    });
  }
});
