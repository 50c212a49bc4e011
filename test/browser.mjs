/** Finds a real Chromium and starts it without asking the network for anything. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** `CHROME_PATH`, else the system's Chromium, else the one that a development dependency brings. */
export async function chromePath() {
  const system = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
  for (const path of [process.env.CHROME_PATH, ...system]) {
    if (path && existsSync(path)) return path;
  }
  return broughtAlong();
}

/** The package's own Chromium: it unpacks shared libraries and fonts into the temporary folder, where it has to be told to look. */
async function broughtAlong() {
  process.env.AWS_LAMBDA_JS_RUNTIME ??= 'nodejs20.x'; // lets the package unpack its shared libraries
  const { default: chromium } = await import('@sparticuz/chromium');
  const path = await chromium.executablePath();
  const folder = join(tmpdir(), 'tonewell-fonts');
  const folders = [join(tmpdir(), 'fonts'), '/usr/share/fonts'].map((dir) => `<dir>${dir}</dir>`);
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    join(folder, 'fonts.conf'),
    `<?xml version="1.0"?><fontconfig>${folders.join('')}<cachedir>${join(folder, 'cache')}</cachedir></fontconfig>\n`,
  );
  process.env.FONTCONFIG_PATH = folder;
  return path;
}

export const chromeArgs = [
  '--no-sandbox',
  '--no-first-run',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-quic',
  '--force-color-profile=srgb',
];
