/** The engines that the browser tests run in, and which of them this machine has. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const onPath = (program) =>
  process.env.PATH.split(delimiter)
    .map((folder) => join(folder, program))
    .find(existsSync);

/** MiniBrowser lies beside the library, in a folder named after the machine's architecture. */
function miniBrowser() {
  const machine = { x64: 'x86_64-linux-gnu', arm64: 'aarch64-linux-gnu' }[process.arch];
  return ['webkit2gtk-4.1', 'webkit2gtk-4.0', 'webkitgtk-6.0']
    .map((library) => `/usr/lib/${machine}/${library}/MiniBrowser`)
    .find(existsSync);
}

/**
 * What each engine needs beside Chromium, which every run has. `path` is the browser; `missing` names what is not there as Debian
 * packages.
 * @returns {{ name: 'firefox' | 'webkit', title: string, path?: string, missing: string[] }[]}
 */
export function enginesFound() {
  const firefox = process.env.FIREFOX_PATH ?? onPath('firefox-esr') ?? onPath('firefox');
  const webkit = miniBrowser();
  return [
    { name: 'firefox', title: 'Firefox', path: firefox, missing: firefox ? [] : ['firefox-esr'] },
    {
      name: 'webkit',
      title: 'WebKit',
      path: webkit,
      missing: [
        ...(webkit && onPath('WebKitWebDriver') ? [] : ['webkit2gtk-driver']),
        ...(onPath('Xvfb') ? [] : ['xvfb']),
      ],
    },
  ];
}

/** What to do about an engine that is not there, in a few words. */
export const howToInstall = ({ title, missing }) =>
  `${title} is not on this machine (Debian: apt-get install ${missing.join(' ')})`;
