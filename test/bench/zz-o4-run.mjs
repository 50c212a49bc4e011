/**
 * Measures the built files in a real Chromium and prints a table: each piece of work interleaved with copying the same bytes
 * (M) and with a general-purpose library that does the same. Only ratios within one run mean anything; times are medians.
 *
 *     node test/bench/run.mjs [row ...] [--strict]
 *
 * Ends with 1 when something could not be measured; with `--strict` also when a goal is missed by more than the slack of 1.3.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import puppeteer from 'puppeteer-core';
import { chromeArgs, chromePath } from '/work/main/test/browser.mjs';
import { rows } from '/work/main/test/bench/rows.mjs';
import { serve } from '/work/main/test/bench/serve.mjs';

const SLACK = 1.3;
const root = fileURLToPath(new URL('file:///work/main/'));
const strict = process.argv.includes('--strict');
const asked = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const names = Object.keys(rows);
const unknown = asked.filter((name) => !names.includes(name));
if (unknown.length > 0) fail(`No row named ${unknown.join(', ')}; there are ${names.join(', ')}.`);
if (!existsSync(`${root}dist/core/index.js`)) fail('Nothing is built yet: npm run build');

function fail(why) {
  console.error(why);
  process.exit(1);
}

async function bundled(entry) {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL(entry, 'file:///work/main/test/bench/'))],
    bundle: true,
    format: 'iife',
    target: 'es2022',
    write: false,
    alias: { 'tonewell/core': '/tmp/o4/core.mjs' },
    logLevel: 'error',
    define: { 'import.meta.url': 'location.href' },
  });
  return outputFiles[0].text;
}

const page = (scripts) =>
  `<!doctype html><meta charset="utf-8"><title>Bench</title><link rel="icon" href="data:,"><body>${scripts}`;
const made = new Map([
  ['/bench/kernels.js', await bundled('kernels.js')],
  ['/bench/page.js', await bundled('page.js')],
  ['/bench/empty.html', page('')],
  [
    '/bench/page.html',
    page(
      '<script src="/bench/page.js"></script><script type="module" src="/dist/tonewell.min.js"></script>',
    ),
  ],
]);
const site = await serve(root, made);
const browser = await puppeteer.launch({
  executablePath: await chromePath(),
  headless: 'shell',
  args: chromeArgs,
  protocolTimeout: 120_000,
});

/** What a row may use: kernels in a worker of their own, and a fresh page. */
const tools = {
  async kernel(row) {
    const tab = await browser.newPage();
    await tab.goto(`${site.origin}/bench/empty.html`);
    const answer = await tab.evaluate(
      (row) =>
        new Promise((resolve) => {
          const worker = new Worker('/bench/kernels.js');
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = ({ message }) => resolve({ failed: message });
          worker.postMessage({ row });
        }),
      row,
    );
    await tab.close();
    if (answer.failed) throw new Error(answer.failed);
    return answer;
  },

  async page(use) {
    const tab = await browser.newPage();
    await tab.setViewport({ width: 1200, height: 900 });
    await tab.goto(`${site.origin}/bench/page.html`);
    await tab.evaluate(() => customElements.whenDefined('value-band-viewer').then(() => undefined));
    const answer = await use(tab);
    await tab.close();
    return answer;
  },
};

const HEADS = ['work', 'ours', 'M', 'x M', 'beside', 'its', 'x its', 'goal', 'met'];
const lines = [];
const missed = [];
let broken = false;

const ms = (value) => (value === undefined ? '' : value < 1 ? value.toFixed(3) : value.toFixed(1));
const times = (value) => (value === undefined ? '' : value.toFixed(value < 10 ? 2 : 0));

for (const name of names) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const started = Date.now();
  try {
    for (const line of await rows[name](tools)) {
      const { work, ours, M, beside, its, goal, value, limit } = line;
      const met = limit === undefined ? '' : value <= limit ? 'yes' : `no (${times(value)})`;
      if (limit !== undefined && value > limit) missed.push({ work, goal, value, limit });
      lines.push([
        work,
        ms(ours),
        ms(M),
        M && ours !== undefined ? times(ours / M) : '',
        beside ?? '',
        ms(its),
        its ? times(ours / its) : '',
        goal ?? '',
        met,
      ]);
    }
  } catch (thrown) {
    broken = true;
    console.error(`${name}: could not be measured: ${thrown.message}`);
  }
  console.error(`${name}: ${((Date.now() - started) / 1000).toFixed(1)} s`);
}

const version = await browser.version();
await browser.close();
await site.close();

const widths = HEADS.map((head, i) =>
  Math.max(head.length, ...lines.map((line) => line[i].length)),
);
const text = (line) =>
  line
    .map((cell, i) =>
      i >= 1 && i <= 6 && i !== 4 ? cell.padStart(widths[i]) : cell.padEnd(widths[i]),
    )
    .join('  ')
    .trimEnd();
console.log(
  `\n${version}; milliseconds, medians; M is copying the same bytes; other work on the machine makes times longer`,
);
console.log(text(HEADS));
console.log(widths.map((width) => '-'.repeat(width)).join('  '));
for (const line of lines) console.log(text(line));
const far = missed.filter(({ value, limit }) => !(value <= SLACK * limit));
if (missed.length === 0) console.log('\nEvery goal met.');
else {
  console.log(`\n${missed.length} missed, ${far.length} by more than ${SLACK} x:`);
  for (const { work, goal, value } of missed)
    console.log(`  ${work}: ${times(value)}, wanted ${goal}`);
}
process.exit(broken || (strict && far.length > 0) ? 1 : 0);
