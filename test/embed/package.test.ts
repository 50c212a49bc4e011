/** What is published: sound exports and types, a manifest that names everything, a public surface that changes on purpose only. */
import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { root, tags } from './site.js';

const run = promisify(execFile);
const text = (path: string): string => readFileSync(join(root, path), 'utf8');
const json = <T>(path: string): T => JSON.parse(text(path)) as T;

/** Kilobytes (1000 bytes), gzipped, of built files and all they import at once; parts that come later are not counted. */
async function weight(...files: string[]): Promise<number> {
  const { outputFiles } = await build({
    stdin: {
      contents: files.map((file, i) => `export * as all${i} from './${file}';`).join('\n'),
      resolveDir: root,
    },
    bundle: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    write: false,
    logLevel: 'error',
    legalComments: 'none',
    plugins: [
      {
        name: 'later',
        setup({ onResolve }) {
          onResolve({ filter: /.*/ }, ({ kind, path }) =>
            kind === 'dynamic-import' ? { path, external: true } : undefined,
          );
        },
      },
    ],
  });
  return kilobytes(outputFiles[0].contents);
}

const kilobytes = (bytes: Uint8Array | string): number =>
  gzipSync(bytes, { level: 9 }).length / 1000;

/** All sources of a folder, one after the other. */
const sourcesOf = (folder: string): string =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => text(join(folder, file)))
    .join('\n');

interface Declaration {
  name: string;
  tagName?: string;
  description?: string;
  summary?: string;
  attributes?: { name: string; description?: string }[];
  events?: { name: string; description?: string; type?: { text: string } }[];
  cssParts?: { name: string; description?: string }[];
  cssProperties?: { name: string; description?: string }[];
  slots?: { name: string; description?: string }[];
  members: { kind: string; name: string; description?: string }[];
}

const manifest = json<{ modules: { declarations: Declaration[] }[] }>('dist/custom-elements.json');
const elements = manifest.modules
  .flatMap(({ declarations }) => declarations)
  .filter(({ tagName }) => tagName);

describe('the package', () => {
  it('publint finds nothing to mend', async () => {
    const { stdout } = await run('npx', ['publint', '--strict'], { cwd: root });
    expect(stdout).toContain('All good');
  });

  it('types resolve for every entry, in Node and in bundlers', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'tonewell-pack-'));
    try {
      const pack = await run('npm', ['pack', '--json', '--pack-destination', folder], {
        cwd: root,
      });
      const [{ filename }] = JSON.parse(pack.stdout.slice(pack.stdout.indexOf('['))) as [
        { filename: string },
      ];
      // The worker is no module to import; its address is all that is used.
      const args = ['attw', join(folder, filename), '--profile', 'esm-only', '--format', 'json'];
      const { stdout } = await run('npx', [...args, '--exclude-entrypoints', 'worker.js'], {
        cwd: root,
        maxBuffer: 1 << 26,
      }).catch((thrown: { stdout: string }) => thrown);
      const { problems } = JSON.parse(stdout) as { problems?: Record<string, unknown[]> };
      const left = Object.entries(problems ?? {})
        .flatMap(([kind, of]) => of.map((problem) => ({ ...(problem as object), kind })))
        // Node's CommonJS resolution and that of Node 10 are not offered: the package is ES modules.
        .filter((problem) => !/node10|node16-cjs/.test(JSON.stringify(problem)));
      expect(left).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('has the public surface that is written down', async () => {
    const written = json<Record<string, string[]>>('test/reference/surface.json');
    for (const [entry, names] of Object.entries(written)) {
      const script = `console.log(JSON.stringify(Object.keys(await import('${entry}')).sort()))`;
      const { stdout } = await run(process.execPath, ['--input-type=module', '-e', script], {
        cwd: root,
      });
      expect(JSON.parse(stdout), `${entry}: a change is written down in surface.json`).toEqual(
        names,
      );
    }
  });
});

describe('the manifest', () => {
  it('names every element once', () => {
    expect(elements.map(({ tagName }) => tagName).sort()).toEqual([...tags].sort());
  });

  it('describes every attribute, property, method, event, part, slot and CSS property', () => {
    const bare = elements.flatMap((element) =>
      [
        [element],
        element.attributes,
        element.events,
        element.cssParts,
        element.cssProperties,
        element.slots,
        element.members,
      ]
        .flatMap(
          (list) => (list ?? []) as { name: string; description?: string; summary?: string }[],
        )
        .filter(({ description, summary }) => !(description || summary)?.trim())
        .map(({ name }) => `${element.tagName} ${name}`),
    );
    expect(bare).toEqual([]);
  });

  it('names every attribute that a class observes', async () => {
    const script = `
      const { elements } = await import('tonewell');
      globalThis.HTMLElement ??= class {};
      console.log(JSON.stringify(elements.map((e) => [e.tag, e.observedAttributes ?? []])));`;
    const { stdout } = await run(process.execPath, ['--input-type=module', '-e', script], {
      cwd: root,
    });
    for (const [tag, observed] of JSON.parse(stdout) as [string, string[]][]) {
      const { attributes = [] } = elements.find(({ tagName }) => tagName === tag)!;
      expect(
        attributes.map(({ name }) => name),
        tag,
      ).toEqual(expect.arrayContaining(observed));
    }
  });

  it('names every part, slot and event that the sources have', () => {
    const missing = elements.flatMap(({ tagName, cssParts = [], slots = [], events = [] }) => {
      const source = sourcesOf(`components/${tagName}`);
      const found = (pattern: RegExp): string[] => [
        ...new Set([...source.matchAll(pattern)].flatMap(([, names]) => names.split(/\s+/))),
      ];
      const told = (list: { name: string }[]): Set<string> => new Set(list.map(({ name }) => name));
      const lacking = (kind: string, names: string[], list: Set<string>): string[] =>
        names.filter((name) => name && !list.has(name)).map((name) => `${tagName} ${kind} ${name}`);
      return [
        ...lacking('part', found(/\bpart="([a-z][a-z0-9 -]*)"/g), told(cssParts)),
        ...lacking('slot', found(/<slot name="([a-z-]+)"/g), told(slots)),
        ...lacking(
          'event',
          found(/dispatchEvent\(\s*new ([A-Za-z]+Event)\(/g) // Those of the community protocol go between elements.
            .filter((name) => name !== 'Event' && name !== 'PlanProviderEvent'),
          new Set(events.map(({ type }) => type!.text)),
        ),
      ];
    });
    expect(missing).toEqual([]);
  });

  it('gives editors and frameworks every element', () => {
    for (const { name, tagName } of elements) {
      expect(text('dist/types/jsx.d.ts')).toContain(`"${tagName}"`);
      expect(text('dist/types/vue.d.ts')).toContain(`'${tagName}': KitElement<Kit.${name}`);
      expect(text('dist/html-data.json')).toContain(`"${tagName}"`);
      expect(text('dist/web-types.json')).toContain(`"${tagName}"`);
    }
  });
});

/**
 * Kilobytes, gzipped, that may not be passed (what was reached, rounded up a little) and those that are the goal. An element beside the
 * viewer counts with what it brings beyond the viewer's own.
 */
interface Budget {
  most: number;
  goal?: number;
}

const VIEWER = 'dist/define/value-band-viewer.js';
/** The viewer with what it loads to open a picture: the client and Comlink. */
const FIRST: Budget = { most: 25, goal: 25 };
/** The same with what a photo does to its plan, which comes beside the client: all that first bands take. */
const BANDS: Budget = { most: 27.2 };
const FURTHER: Record<string, Budget> = {
  'lightness-picker': { most: 11.4, goal: 12 },
  'mixing-well': { most: 2.6, goal: 12 },
  'painting-check': { most: 3, goal: 12 },
  'painting-plan': { most: 9.4, goal: 12 },
  'plan-sheet': { most: 6.8, goal: 12 },
  'swatch-bucket-board': { most: 10.8, goal: 12 },
  'swatch-sheet-reader': { most: 3.8, goal: 12 },
};
/** Both sides of the bridge to an editor, with all that they look at in a message. */
const HOST: Budget = { most: 6.2, goal: 4 };
const FILES: Record<string, Budget> = {
  'dist/worker.js': { most: 45, goal: 45 },
  'dist/worker-paint.js': { most: 35.5, goal: 45 },
  'dist/worker-plan.js': { most: 45, goal: 45 },
  'dist/worker-check.js': { most: 42, goal: 45 },
  'dist/tonewell.min.js': { most: 147, goal: 150 },
  // For single copies: it carries all that the other one asks for only when it is needed.
  'dist/tonewell.whole.min.js': { most: 416.5 },
};

/** Tells what is reached beside what may be and what is wanted. */
function within(what: string, reached: number, { most, goal }: Budget): void {
  const line = `${what}: ${reached.toFixed(1)} kB of at most ${most} (goal ${goal ?? 'none'})`;
  console.log(line);
  expect(reached, line).toBeLessThanOrEqual(most);
}

describe('weight', () => {
  it('the viewer, when it has opened a picture', async () => {
    within('value-band-viewer', await weight(VIEWER, 'dist/client.js'), FIRST);
    const beside = 'dist/parts/photo-in-plan.js';
    within('first bands', await weight(VIEWER, 'dist/client.js', beside), BANDS);
  });

  it('every further element has a budget', () => {
    const further = tags.filter((tag) => tag !== 'value-band-viewer');
    expect(Object.keys(FURTHER)).toEqual(expect.arrayContaining(further));
  });

  it.each(Object.entries(FURTHER))('%s beyond the viewer', async (tag, budget) => {
    const both = await weight(VIEWER, `dist/define/${tag}.js`);
    within(tag, both - (await weight(VIEWER)), budget);
  });

  it('the bridge to an editor, which loads nothing else of the kit', async () => {
    within('host', await weight('dist/host/index.js'), HOST);
    expect(text('dist/host/index.js')).not.toMatch(/^import\b|\bfrom '/m);
  });

  it.each(Object.entries(FILES))('%s', (file, budget) => {
    within(file, kilobytes(text(file)), budget);
  });
});
