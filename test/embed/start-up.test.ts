/** Where the core runs under which policy and from which origin, and that it computes the same everywhere, late parts too. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import { root, startBrowser, startSite, type Site } from './site.js';
import { modeOf, TUBES, withPage, type Kit } from './start.js';
import { shelfRange } from '../../core/index.js';

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
  // As the core's own function has it in Node, within 1e-9.
  const { low, high } = shelfRange(TUBES);
  const reach = [expect.closeTo(low, 9), expect.closeTo(high, 9)] as unknown;
  const typed = `require-trusted-types-for 'script'`;
  const here = (): string => `script-src ${site.origin} 'nonce-map'`;
  const both = (): string => `script-src ${site.origin} ${other.origin} 'nonce-map'`;
  const rows: [
    what: string,
    page: { file: Kit; cross: boolean; policy?: () => string },
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
      'many files from another origin, only blob workers',
      { file: 'many', cross: true, policy: () => `${both()}; worker-src blob:` },
      'blob',
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
      'many files, trusted types without a list',
      { file: 'many', cross: false, policy: () => `${here()}; ${typed}` },
      'worker',
    ],
    [
      'many files, trusted types that name the kit’s policies',
      {
        file: 'many',
        cross: false,
        policy: () => `${here()}; ${typed}; trusted-types lit-html tonewell`,
      },
      'worker',
    ],
    [
      'many files from another origin, trusted types that name the kit’s policies',
      {
        file: 'many',
        cross: true,
        policy: () => `${both()}; worker-src blob:; ${typed}; trusted-types lit-html tonewell`,
      },
      'blob',
    ],
    [
      'one file, trusted types that name the kit’s policies',
      {
        file: 'one',
        cross: false,
        policy: () => `${here()}; worker-src blob:; ${typed}; trusted-types lit-html tonewell`,
      },
      'blob',
    ],
    [
      'many files, trusted types that name another policy',
      { file: 'many', cross: false, policy: () => `${here()}; ${typed}; trusted-types lit-html` },
      'page',
    ],
    [
      'one file, trusted types that name another policy',
      { file: 'one', cross: false, policy: () => `${here()}; ${typed}; trusted-types lit-html` },
      'page',
    ],
    [
      'many files, a list of policies without the kit’s, types not required',
      { file: 'many', cross: false, policy: () => `${here()}; trusted-types lit-html` },
      'worker',
    ],
  ];
  const whole = rows
    .filter(([, { file }]) => file === 'one')
    .map(([what, page, mode]): (typeof rows)[0] => [
      what.replace('one file', 'one whole file'),
      { ...page, file: 'whole' },
      mode,
    ]);
  for (const [what, { policy, ...page }, mode] of [...rows, ...whole]) {
    it(`${what}: ${mode}`, async () => {
      const result = await modeOf({ site, other, browser }, { ...page, policy: policy?.() });
      expect(result.codes).toEqual([0, 128, 255]);
      expect(result.late).toEqual([reach, 3, '0 128 255']);
      expect(result.mode, result.tried.join('\n')).toBe(mode);
    });
  }
});

describe('where trusted types are required', () => {
  const policy = `script-src 'self' 'nonce-map'; require-trusted-types-for 'script'; trusted-types lit-html tonewell own`;
  const modeWith = (workerUrl: string): Promise<unknown> =>
    withPage(
      { site, browser },
      {
        policy,
        body: `
          import { startCore } from 'tonewell/core';
          const own = trustedTypes.createPolicy('own', { createScriptURL: (address) => address });
          const core = await startCore({ timeout: 4000, workerUrl: ${workerUrl} });
          globalThis.result = core.mode;
          core.dispose();`,
      },
      (page) => page.evaluate('result'),
    );

  it('the kit vouches for no address that it was given', async () => {
    expect(await modeWith(`'/dist/worker.js'`)).toBe('page');
    expect(await modeWith(`new URL('/dist/worker.js', location.href)`)).toBe('page');
  });

  it('an address that the page vouches for is taken', async () => {
    expect(await modeWith(`own.createScriptURL('/dist/worker.js')`)).toBe('worker');
  });
});

describe('a part that comes with the first job that needs it', () => {
  const type = 'text/javascript';
  const headers = { 'access-control-allow-origin': '*' };
  /** Leaves two calls: of a job in a part that comes late, and of one that needs no part. */
  const calls = (options: string): string => `
    import { startCore } from 'tonewell/core';
    const core = await startCore(${options});
    const told = (job) => job.then(() => 'done', ({ name, message }) => name + ': ' + message);
    const picture = await core.open({ width: 1, height: 1, data: new Uint8Array([0, 0, 0, 255]) });
    globalThis.late = () => told(core.run('shelf', { tubes: ['cobalt-blue'] }));
    globalThis.first = () => told(core.run('working', { picture: picture.id }));
    globalThis.result = true;`;
  const late = (page: Page): Promise<string> => page.evaluate('late()') as Promise<string>;
  const first = (page: Page): Promise<string> => page.evaluate('first()') as Promise<string>;

  /** Whether the engine goes on refusing a module that is there by now, because it was missing once. */
  async function remembersFailures(page: Page): Promise<boolean> {
    const url = `${site.origin}/came-later.js`;
    const asked = `import(${JSON.stringify(url)}).then(() => false, () => true)`;
    site.put('/came-later.js', { body: '', status: 404, type });
    expect(await page.evaluate(asked)).toBe(true);
    site.put('/came-later.js', { body: 'export {};', type });
    return (await page.evaluate(asked)) as boolean;
  }

  it.each([
    ['worker', '/dist/worker-paint.js'],
    ['blob', '/dist/worker-paint.js'],
    ['page', '/dist/parts/worker-paint.js'],
  ])('%s: is named when it is missing, and asked for again', async (mode, path) => {
    const origin = mode === 'blob' ? other.origin : site.origin;
    const away = mode === 'blob' ? other : site;
    away.put(path, { body: '', status: 404, headers });
    const body = calls(`{ modes: ['${mode}'] }`);
    await withPage({ site, browser }, { body, origin }, async (page) => {
      expect(await late(page)).toMatch(/^PartUnavailable: .*worker-paint\.js/);
      expect(await first(page)).toBe('done');
      expect(await late(page)).toMatch(/^PartUnavailable: /);
      away.put(path, { body: readFileSync(`${root}${path}`), type, headers });
      // A module of the page itself that failed once may stay so until the page is loaded again.
      if (mode === 'page' && (await remembersFailures(page)))
        expect(await late(page)).toMatch(/^PartUnavailable: /);
      else expect(await late(page)).toBe('done');
    });
  });

  it('lies beside a worker of the caller’s own choice, else beside the bundle', async () => {
    const worker = readFileSync(`${root}dist/worker.js`);
    site.put('/own/worker.js', { body: worker, type });
    site.put('/own/worker-paint.js', {
      body: `export const handlers = () => ({ shelf() { throw new TypeError('of its own'); } });`,
      type,
    });
    site.put('/bare/worker.js', { body: worker, type });
    const own = calls(`{ modes: ['worker'], workerUrl: '/own/worker.js' }`);
    expect(await withPage({ site, browser }, { body: own }, late)).toBe('TypeError: of its own');
    const bare = calls(`{ modes: ['worker'], workerUrl: '/bare/worker.js' }`);
    expect(await withPage({ site, browser }, { body: bare }, late)).toBe('done');
  });
});
