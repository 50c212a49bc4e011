import { existsSync } from 'node:fs';
import { chromeLauncher } from '@web/test-runner-chrome';
import { esbuildPlugin } from '@web/dev-server-esbuild';
import { chromeArgs, chromePath } from './browser.mjs';

const executablePath = await chromePath();

/** Sources import each other as `.js`; they are served from the `.ts` beside it. */
const sourcesAsJs = (context, next) => {
  const source = '.' + context.path.replace(/\.js$/, '.ts');
  if (/^\/(core|components|test)\/.*\.js$/.test(context.path) && !existsSync('.' + context.path) && existsSync(source)) {
    context.path = source.slice(1);
  }
  return next();
};

export default {
  rootDir: '.',
  files: 'test/browser/**/*.test.ts',
  nodeResolve: true,
  concurrency: 1,
  testFramework: { config: { timeout: 15000 } },
  plugins: [esbuildPlugin({ ts: true, target: 'es2022', tsconfig: './tsconfig.json' })],
  middleware: [sourcesAsJs],
  browsers: [chromeLauncher({ launchOptions: { executablePath, headless: 'shell', args: chromeArgs } })],
};
