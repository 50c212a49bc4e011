/** Starting the core in a page, to see where it runs. */
import type { Browser } from 'puppeteer-core';
import { importMap, type Site } from './site.js';

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

export interface Result {
  mode: string;
  codes: number[];
  tried: string[];
}

let number = 0;
/**
 * Starts the core in a page under a policy, from many files (by an import map of the nonce `map`) or the one file, of the page's
 * own or another origin, and has it work.
 */
export async function modeOf(
  { site, other, browser }: { site: Site; other: Site; browser: Browser },
  { file, cross, policy }: { file: 'many' | 'one'; cross: boolean; policy?: string },
): Promise<Result> {
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
