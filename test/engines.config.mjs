/**
 * The browser suite in Chromium, Firefox and WebKit: `npm run test:engines` (after a build). `ENGINES=webkit` or `ENGINES=firefox,webkit` takes
 * some of them only, and fails where one of these is not on the machine; `SMOKE=1` takes a part of the files, as `npm test` does.
 */
import { existsSync } from 'node:fs';
import base from './web-test-runner.config.mjs';
import { enginesFound, howToInstall } from './engines/found.mjs';
import { firefoxLauncher } from './engines/firefox.mjs';
import { webkitLauncher } from './engines/webkit.mjs';

const launchers = { firefox: firefoxLauncher, webkit: webkitLauncher };
const all = ['chromium', ...Object.keys(launchers)];
const asked = process.env.ENGINES?.split(',') ?? all;
const unknown = asked.filter((name) => !all.includes(name));
if (unknown.length > 0)
  throw new Error(`ENGINES names ${unknown.join(', ')}, but there are ${all.join(', ')} only.`);
const others = enginesFound().filter(({ name }) => asked.includes(name));
const there = others.filter(({ missing }) => missing.length === 0);
const gone = others.filter(({ missing }) => missing.length > 0).map(howToInstall);
if (gone.length > 0 && process.env.ENGINES) throw new Error(gone.join('\n'));
if (!existsSync('dist/worker.js'))
  throw new Error('The built package is tested too: npm run build comes first.');

const taking = [
  ...(asked.includes('chromium') ? ['Chromium'] : []),
  ...there.map(({ title }) => title),
];
/** Which engines take part and why others do not: said before the tests, and after them, where it is not overlooked. */
const tell = () =>
  console.log(
    [`Engines: ${taking.join(', ')}`, ...gone.map((why) => `Left out: ${why}`)].join('\n'),
  );

const built = 'test/engines/built.test.ts';
const some = ['engines-alike', 'core', 'value-band-viewer'].map(
  (name) => `test/browser/${name}.test.ts`,
);

export default {
  ...base,
  files: [built, ...(process.env.SMOKE ? some : [base.files])],
  reporters: [...base.reporters, { start: tell, stop: tell }],
  // WebKit takes some three to five times as long as Chromium for the same test, most of it in axe. Tests wait for states, not for time.
  testFramework: { config: { ...base.testFramework.config, timeout: 45_000 } },
  concurrentBrowsers: 1,
  testsFinishTimeout: 600_000, // the longest file takes minutes where axe is slow
  browsers: [
    ...(asked.includes('chromium') ? base.browsers : []),
    ...there.map(({ name, path }) => launchers[name](path)),
  ],
};
