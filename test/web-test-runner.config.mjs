import { existsSync, writeFileSync } from 'node:fs';
import { defaultReporter } from '@web/test-runner';
import { chromeLauncher } from '@web/test-runner-chrome';
import { esbuildPlugin } from '@web/dev-server-esbuild';
import { chromeArgs, chromePath } from './browser.mjs';
import { worksInNode } from './engines/in-node.mjs';
import { mediaFeatures } from './engines/media.mjs';

const executablePath = await chromePath();

/** Sources import each other as `.js`; they are served from the `.ts` beside it. */
const sourcesAsJs = (context, next) => {
  const source = '.' + context.path.replace(/\.js$/, '.ts');
  if (
    /^\/(core|components|test)\/.*\.js$/.test(context.path) &&
    !existsSync('.' + context.path) &&
    existsSync(source)
  ) {
    context.path = source.slice(1);
  }
  return next();
};

/** Counts the tests one by one, for the closing line of `npm test`. */
const counter = () => {
  const count = { numPassedTests: 0, numFailedTests: 0 };
  const add = (suite) => {
    for (const test of suite.tests) {
      if (test.passed) count.numPassedTests++;
      else if (!test.skipped) count.numFailedTests++;
    }
    suite.suites.forEach(add);
  };
  return {
    stop({ sessions }) {
      for (const { testResults, errors } of sessions) {
        if (testResults) add(testResults);
        if (errors?.length) count.numFailedTests++;
      }
      writeFileSync(process.env.TONEWELL_REPORT, JSON.stringify(count));
    },
  };
};

export default {
  rootDir: '.',
  files: 'test/browser/**/*.test.ts',
  nodeResolve: true,
  concurrency: 1,
  testFramework: { config: { timeout: 15000 } },
  plugins: [
    esbuildPlugin({ ts: true, target: 'es2022', tsconfig: './tsconfig.json' }),
    worksInNode(),
    mediaFeatures(),
  ],
  middleware: [sourcesAsJs],
  reporters: [defaultReporter(), ...(process.env.TONEWELL_REPORT ? [counter()] : [])],
  browsers: [
    chromeLauncher({ launchOptions: { executablePath, headless: 'shell', args: chromeArgs } }),
  ],
};
