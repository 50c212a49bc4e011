/** Where the core runs under which policy and from which origin, and that it computes the same everywhere, late parts too. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'puppeteer-core';
import { importMap, root, startBrowser, startSite, type Site } from './site.js';

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

/**
 * Starts the core of a page and lets it work: black, sRGB grey 119 (L* 50.03, code 128) and white; then one job of each part that
 * comes late: the reach of a shelf (as the page's own function has it), the passages of three bands, the picture upright.
 */
const script = (from: string): string => `
  import { shelfRange, startCore } from ${JSON.stringify(from)};
  const core = await startCore({ timeout: 4000 });
  const data = new Uint8ClampedArray([0,0,0,255, 119,119,119,255, 255,255,255,255]);
  const picture = await core.open({ width: 3, height: 1, data });
  const { plane } = await core.run('working', { picture: picture.id });
  const asked = { picture: picture.id, thresholds: [64, 192], brushMm: 0.5, paperWidthMm: 3 };
  const tubes = ['cobalt-blue', 'quinacridone-magenta'];
  const late = await Promise.all([
    core.run('shelf', { tubes }).then((range) => JSON.stringify(range) === JSON.stringify(shelfRange(tubes))),
    core.run('passages', asked).then(({ passages }) => passages.length),
    core.run('rectified', { picture: picture.id, aspect: 3, width: 3 }).then(({ plane }) => [...plane.data].join(' ')),
  ].map((job) => job.catch((thrown) => thrown.name + ': ' + thrown.message)));
  globalThis.result = { mode: core.mode, codes: [...plane.data], tried: core.tried, late };
  core.dispose();
`;

interface Result {
  mode: string;
  codes: number[];
  tried: string[];
  late: unknown[];
}

let number = 0;

/** Opens a page with a module and gives it to a test once the module has left a `globalThis.result`. */
async function withPage<T>(
  {
    body,
    file = 'many',
    origin = site.origin,
    policy,
  }: { body: string; file?: 'many' | 'one'; origin?: string; policy?: string },
  use: (page: Page) => Promise<T>,
): Promise<T> {
  const name = `/page-${++number}`;
  site.put(`${name}.js`, { body, type: 'text/javascript' });
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
      if (await page.evaluate(() => 'result' in globalThis)) return await use(page);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    throw new Error(`The page gave no result: ${trouble.join('; ')}`);
  } finally {
    await page.close();
  }
}

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
  const from = file === 'many' ? 'tonewell/core' : `${origin}/dist/tonewell.min.js`;
  return withPage({ body: script(from), file, origin, policy }, (page) =>
    page.evaluate(() => (globalThis as unknown as { result: Result }).result),
  );
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
      expect(result.late).toEqual([true, 3, '0 128 255']);
      expect(result.mode, result.tried.join('\n')).toBe(mode);
    });
  }
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

  it.each([
    ['worker', '/dist/worker-paint.js'],
    ['blob', '/dist/worker-paint.js'],
    ['page', '/dist/parts/worker-paint.js'],
  ])('%s: is named when it is missing, and asked for again', async (mode, path) => {
    const origin = mode === 'blob' ? other.origin : site.origin;
    const away = mode === 'blob' ? other : site;
    away.put(path, { body: '', status: 404, headers });
    const body = calls(`{ modes: ['${mode}'] }`);
    await withPage({ body, origin }, async (page) => {
      expect(await late(page)).toMatch(/^PartUnavailable: .*worker-paint\.js/);
      expect(await first(page)).toBe('done');
      expect(await late(page)).toMatch(/^PartUnavailable: /);
      away.put(path, { body: readFileSync(`${root}${path}`), type, headers });
      expect(await late(page)).toBe('done');
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
    expect(await withPage({ body: own }, late)).toBe('TypeError: of its own');
    const bare = calls(`{ modes: ['worker'], workerUrl: '/bare/worker.js' }`);
    expect(await withPage({ body: bare }, late)).toBe('done');
  });
});
