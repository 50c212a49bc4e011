/** What the tests of the editor bridge share: the panel under a policy for named hosts, and pictures whose masses are known. */
import { readFileSync } from 'node:fs';
import type { Frame, Page } from 'puppeteer-core';
import { root, type Site } from './site.js';

/** Puts the panel of the demo on a site, for hosts of these origins, from the built files under `kit`. */
export function putPanel(site: Site, hosts: readonly string[], kit = '/dist'): string {
  const html = readFileSync(`${root}demo/panel.html`, 'utf8')
    .replace('content="self"', `content="${hosts.join(' ')}"`)
    .replace('"../dist/', `"${kit}/`);
  const script = readFileSync(`${root}demo/panel.js`, 'utf8').replaceAll("'../dist/", `'${kit}/`);
  // With CORS, since a module in a frame without an origin is fetched as from another site.
  const headers = { 'access-control-allow-origin': '*' };
  site.put('/demo/panel.js', { body: script, type: 'text/javascript', headers });
  return site.put('/demo/panel.html', {
    body: html,
    headers: {
      'content-security-policy':
        `default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; ` +
        `connect-src 'self' blob: data:; worker-src 'self' blob:; frame-ancestors ${hosts.join(' ')}`,
    },
  });
}

/** The panel in a host's page, once it has taken a picture. */
export async function panelIn(page: Page, seconds = 60): Promise<Frame> {
  const handle = await page.waitForSelector('iframe');
  const frame = (await handle!.contentFrame()) as Frame;
  await frame.waitForFunction(
    () => document.querySelector('value-band-viewer')?.matches(':state(ready)'),
    { timeout: seconds * 1000 },
  );
  return frame;
}

/** What the panel says. */
export const saidIn = (frame: Frame): Promise<string> =>
  frame.$eval('#said', ({ textContent }) => textContent);

/** Waits until the panel says something. */
export async function saysIn(frame: Frame, what: RegExp): Promise<void> {
  await frame.waitForFunction(
    (pattern: string) => new RegExp(pattern).test(document.querySelector('#said')!.textContent),
    { timeout: 30_000 },
    what.source,
  );
}

/** Ticks these kinds of layers and no others, and presses the button. */
export async function layIn(frame: Frame, ...kinds: string[]): Promise<void> {
  await frame.evaluate((wanted: string[]) => {
    for (const box of document.querySelectorAll<HTMLInputElement>('[name=kind]'))
      if (box.checked !== wanted.includes(box.value)) box.click();
  }, kinds);
  await frame.click('#lay');
}

/**
 * A picture of three flat fields, 400 x 300: dark at the left (to x = 130), middle above right (to y = 140), light below right. Any brush
 * that is narrower than 70 pixels states all three, so masses are these fields.
 */
export const FIELDS = {
  width: 400,
  height: 300,
  right: 130,
  below: 140,
  /** sRGB greys of L* 19.9, 50.0 and 80.1 (from memory: 0x30, 0x77, 0xc6). */
  greys: [0x30, 0x77, 0xc6],
} as const;

/** Sets the limits between the fields, L* 35 and 65: where a picture has no tones between them, the photo proposes any. */
export const limitFields = (frame: Frame): Promise<void> =>
  frame.$eval('value-band-viewer', (viewer) => void (viewer.limits = [35, 65]));

/** Draws the fields; text of a function for pages. */
export const DRAW_FIELDS = `
  function drawFields(context) {
    const { width, height, right, below, greys } = ${JSON.stringify(FIELDS)};
    const grey = (i) => 'rgb(' + greys[i] + ' ' + greys[i] + ' ' + greys[i] + ')';
    context.fillStyle = grey(0); context.fillRect(0, 0, right, height);
    context.fillStyle = grey(1); context.fillRect(right, 0, width - right, below);
    context.fillStyle = grey(2); context.fillRect(right, below, width - right, height - below);
  }`;

/** Which field a point of the picture lies in: 0 the dark one. */
export const fieldAt = (x: number, y: number): number =>
  x < FIELDS.right ? 0 : y < FIELDS.below ? 1 : 2;
