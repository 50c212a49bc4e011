/** Starting the core in a page, to see where it runs. */
import type { Browser, Page } from 'puppeteer-core';
import { importMap, type Site } from './site.js';

/** The shelf that is asked for. */
export const TUBES = ['cobalt-blue', 'quinacridone-magenta'];

/**
 * Starts the core of a page and lets it work: black, sRGB grey 119 (L* 50.03, code 128) and white; then one job of each part that
 * comes late: the reach of a shelf, the passages of three bands, the picture upright.
 */
const script = (from: string): string => `
  import { startCore } from ${JSON.stringify(from)};
  const core = await startCore({ timeout: 4000 });
  const data = new Uint8ClampedArray([0,0,0,255, 119,119,119,255, 255,255,255,255]);
  const picture = await core.open({ width: 3, height: 1, data });
  const { plane } = await core.run('working', { picture: picture.id });
  const asked = { picture: picture.id, thresholds: [64, 192], brushMm: 0.5, paperWidthMm: 3 };
  const late = await Promise.all([
    core.run('shelf', { tubes: ${JSON.stringify(TUBES)} }).then(({ low, high }) => [low, high]),
    core.run('passages', asked).then(({ passages }) => passages.length),
    core.run('rectified', { picture: picture.id, aspect: 3, width: 3 }).then(({ plane }) => [...plane.data].join(' ')),
  ].map((job) => job.catch((thrown) => thrown.name + ': ' + thrown.message)));
  globalThis.result = { mode: core.mode, codes: [...plane.data], tried: core.tried, late };
  core.dispose();
`;

export interface Result {
  mode: string;
  codes: number[];
  tried: string[];
  late: unknown[];
}

/** The kit as many files, as the file that a page includes, and whole, with nothing beside it. */
export type Kit = 'many' | 'one' | 'whole';
/** Where the file of a kit of one file lies. */
export const FILE = {
  one: 'dist/tonewell.min.js',
  whole: 'dist/tonewell.whole.min.js',
} as const;

let number = 0;

/** Opens a page with a module and gives it to a test once the module has left a `globalThis.result`. */
export async function withPage<T>(
  { site, browser }: { site: Site; browser: Browser },
  {
    body,
    file = 'many',
    origin = site.origin,
    policy,
  }: { body: string; file?: Kit; origin?: string; policy?: string },
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

/**
 * Starts the core in a page under a policy, from many files (by an import map of the nonce `map`) or the one file, whole or not, of the page's
 * own or another origin, and has it work.
 */
export async function modeOf(
  { site, other, browser }: { site: Site; other: Site; browser: Browser },
  { file, cross, policy }: { file: Kit; cross: boolean; policy?: string },
): Promise<Result> {
  const origin = cross ? other.origin : site.origin;
  const from = file === 'many' ? 'tonewell/core' : `${origin}/${FILE[file]}`;
  return withPage({ site, browser }, { body: script(from), file, origin, policy }, (page) =>
    page.evaluate(() => (globalThis as unknown as { result: Result }).result),
  );
}
