/** Finds a real Chromium and starts it without asking the network for anything. */
import { existsSync } from 'node:fs';

/** `CHROME_PATH`, else the system's Chromium, else the one that a development dependency brings. */
export async function chromePath() {
  const system = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
  for (const path of [process.env.CHROME_PATH, ...system])
    if (path && existsSync(path)) return path;
  process.env.AWS_LAMBDA_JS_RUNTIME ??= 'nodejs20.x'; // lets the package unpack its own shared libraries
  const { default: chromium } = await import('@sparticuz/chromium');
  return chromium.executablePath();
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
