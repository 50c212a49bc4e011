/**
 * The browser suite in Chromium, Firefox and WebKit: `npm run test:engines` (after a build). `ENGINES=webkit` or `ENGINES=firefox,webkit` takes
 * some of them only; `SMOKE=1` a part of the files, as `npm test` does.
 */
import { existsSync } from 'node:fs';
import base from './web-test-runner.config.mjs';
import { enginesFound, howToInstall } from './engines/found.mjs';
import { firefoxLauncher } from './engines/firefox.mjs';
import { webkitLauncher } from './engines/webkit.mjs';

const launchers = { firefox: firefoxLauncher, webkit: webkitLauncher };
const asked = process.env.ENGINES?.split(',') ?? ['chromium', ...Object.keys(launchers)];
const others = enginesFound().filter(({ name }) => asked.includes(name));
const gone = others.filter(({ missing }) => missing.length > 0);
if (gone.length > 0)
  throw new Error(
    `${gone.map(howToInstall).join('\n')}\nENGINES=chromium npm run test:engines takes the engines that it names only.`,
  );
if (!existsSync('dist/worker.js'))
  throw new Error('The built package is tested too: npm run build comes first.');
console.log(`Engines: ${asked.join(', ')}`);

const built = 'test/engines/built.test.ts';
const some = ['engines-alike', 'core', 'value-band-viewer'].map(
  (name) => `test/browser/${name}.test.ts`,
);

export default {
  ...base,
  files: [built, ...(process.env.SMOKE ? some : [base.files])],
  concurrentBrowsers: 1,
  testsFinishTimeout: 600_000, // the longest file takes minutes where axe is slow
  browsers: [
    ...(asked.includes('chromium') ? base.browsers : []),
    ...others.map(({ name, path }) => launchers[name](path)),
  ],
};
