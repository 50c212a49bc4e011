/**
 * Runs everything that must pass and closes with the line `N passed, N failed`: types, lint, unit tests, build, tests of
 * what was built, browser tests. A step that fails does not keep the next ones from running, but for the build, which the
 * tests after it need. Firefox and WebKit take a part of the browser tests where they are on the machine.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { enginesFound, howToInstall } from './engines/found.mjs';

const results = mkdtempSync(join(tmpdir(), 'tonewell-test-'));
const report = (name) => join(results, `${name}.json`);
let passed = 0;
let failed = 0;
let engines = 'Engines: none, since the build failed';

function run(command, args, env = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      stdio: 'inherit',
      env: { ...process.env, ...env },
      shell: false,
    });
    child.on('close', (code) => resolve(code ?? 1));
    child.on('error', () => resolve(1));
  });
}

/** A step that passes or fails as a whole. */
async function step(name, script) {
  console.log(`\n== ${name}`);
  const ok = (await run('npm', ['run', '--silent', script])) === 0;
  if (ok) passed++;
  else failed++;
  console.log(`${name}: ${ok ? 'passed' : 'failed'}`);
  return ok;
}

/** A step whose tests are counted one by one, from the report that it writes. */
async function counted(name, file, command, args, env) {
  console.log(`\n== ${name}`);
  const code = await run(command, args, env);
  const counts = existsSync(file)
    ? JSON.parse(readFileSync(file, 'utf8'))
    : { numPassedTests: 0, numFailedTests: 0 };
  passed += counts.numPassedTests;
  failed += counts.numFailedTests;
  // A runner that fails without a failed test (a file that does not load, no tests at all) is a failure too.
  if ((code !== 0 && counts.numFailedTests === 0) || counts.numPassedTests === 0) failed++;
  console.log(`${name}: ${counts.numPassedTests} passed, ${counts.numFailedTests} failed`);
}

const vitest = (project) => [
  'vitest',
  'run',
  '--config',
  'test/vitest.config.ts',
  '--project',
  project,
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report(project)}`,
];

/** A part of the browser tests in the other engines that are on this machine; tells which took part. */
async function otherEngines() {
  const all = enginesFound();
  const there = all.filter(({ missing }) => missing.length === 0);
  const gone = all.filter(({ missing }) => missing.length > 0);
  if (there.length > 0) {
    await counted(
      `Smoke tests in ${there.map(({ title }) => title).join(' and ')}`,
      report('engines'),
      'npx',
      ['web-test-runner', '--config', 'test/engines.config.mjs'],
      {
        TONEWELL_REPORT: report('engines'),
        ENGINES: there.map(({ name }) => name).join(),
        SMOKE: '1',
      },
    );
  }
  return [
    'Engines: Chromium (all browser tests)',
    ...there.map(({ title }) => `${title} (smoke tests)`),
    ...gone.map((engine) => `no test in ${engine.title}: ${howToInstall(engine)}`),
  ].join('; ');
}

await step('Types', 'types');
await step('Lint', 'lint');
await counted('Unit tests', report('unit'), 'npx', vitest('unit'));
if (await step('Build', 'build')) {
  await counted('Tests of the built package', report('embed'), 'npx', vitest('embed'));
  await counted('Sites of other people', report('consumers'), 'npx', vitest('consumers'));
  await counted(
    'Browser tests',
    report('browser'),
    'npx',
    ['web-test-runner', '--config', 'test/web-test-runner.config.mjs'],
    {
      TONEWELL_REPORT: report('browser'),
    },
  );
  engines = await otherEngines();
}
rmSync(results, { recursive: true, force: true });
console.log(`\n${engines}`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
