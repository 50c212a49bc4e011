import { readFile, rm } from 'node:fs/promises';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { defaultStrategy, minifyHTMLLiterals } from '@literals/html-css-minifier';
import { nodeResolve } from '@rollup/plugin-node-resolve';
import terser from '@rollup/plugin-terser';
import esbuild from 'rollup-plugin-esbuild';
import { build, transformSync } from 'esbuild';

await rm('dist', { recursive: true, force: true });

const typescript = () => esbuild({ target: 'es2022', tsconfig: './tsconfig.json' });
// Bundlers are told by a comment to leave the address of a part as it is.
const minify = () =>
  terser({
    module: true,
    compress: { passes: 3 },
    format: { comments: /webpackIgnore|@vite-ignore/ },
  });

/** White space across lines is one space to an engine, in text as between attributes: nothing that is seen or read changes. */
const oneLine = (text) => text.replace(/[ \t\r]*\n\s*/g, ' ');
const css = (text) =>
  transformSync(text, { loader: 'css', minify: true, charset: 'utf8' }).code.trim();

/**
 * Templates in few bytes. The library finds them and keeps the map; what it would do to them by itself is not wanted: its HTML minifier
 * decodes entities and drops attributes, its CSS minifier puts declarations in another order.
 */
const templates = () => ({
  name: 'templates',
  transform(code, id) {
    if (!/[\\/]components[\\/].*\.ts$/.test(id) || !/\b(html|svg|css)`/.test(code)) return null;
    return minifyHTMLLiterals(code, {
      fileName: id,
      strategy: { ...defaultStrategy, minifyHTML: oneLine, minifyCSS: css },
      // Styles with an expression inside are no whole style sheet.
      shouldMinify: ({ tag, parts }) =>
        tag === 'html' || tag === 'svg' || (tag === 'css' && parts.length > 1),
      shouldMinifyCSS: ({ tag, parts }) => tag === 'css' && parts.length === 1,
    });
  },
});
const external = [/^lit(\/|$)/, /^@lit\//, /^comlink$/, /^culori(\/|$)/, /^idb$/, /^fflate$/];
/** Only registering acts on import; so a part of the core goes where it is used, not with everything that `core/index` names. */
const treeshake = { moduleSideEffects: (id) => /define[^/]*\.ts$/.test(id) };
const onLog = (level, log, handle) => {
  if (log.code === 'CIRCULAR_DEPENDENCY' && /node_modules/.test(log.message)) return;
  handle(level, log);
};

/** What the worker fetches only with the first job that needs it. */
const PARTS = ['paint', 'plan', 'check'];

/** One define entry for each element's folder. */
const tags = readdirSync('components', { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name.includes('-'))
  .map(({ name }) => name);
const defines = Object.fromEntries(
  tags.map((tag) => [`define/${tag}`, `components/${tag}/define.ts`]),
);

/**
 * In the single file looks come first and words after them, each kind side by side: what is alike then lies within the 32 kB that
 * DEFLATE looks back (RFC 1951), which saves some 9 kB.
 */
const alikeFirst = () => ({
  name: 'alike-first',
  transform(code, id) {
    if (!id.endsWith('everything.ts')) return null;
    const files = readdirSync('components', { recursive: true }).map((file) =>
      file.replaceAll('\\', '/'),
    );
    const looks = files.filter((file) => /(^shared\/tokens|\.styles)\.ts$/.test(file));
    const words = files.filter((file) => /^shared\/words\/[\w-]+\.ts$/.test(file));
    const imports = [...looks.sort(), ...words.sort()].map((file) => `import './${file}';`);
    return { code: [...imports, code].join('\n'), map: null };
  },
});

/** What the core function returns, by name. */
const namesOfCore = async () => JSON.parse(await readFile('dist/core-names.json', 'utf8'));

/**
 * In the single file the core stands once, as a function: called in the page it is the core, and its source text makes the
 * worker. `core/index.ts` becomes a module that hands out what the function returns.
 */
const coreAsFunction = () => ({
  name: 'core-as-function',
  async buildEnd() {
    await rm('dist/core-function.js');
    await rm('dist/core-names.json');
  },
  async load(id) {
    if (/core[\\/]worker[\\/]embedded\.ts$/.test(id)) {
      const text = (await readFile('dist/core-function.js', 'utf8')).trim();
      const names = await namesOfCore();
      if (!text.startsWith('var tonewellCore='))
        throw new Error('The core function is not what was expected');
      const body = text.replace(/^var tonewellCore\s*=\s*/, '').replace(/;\s*$/, '');
      return [
        `function makeCore() { return ${body}; }`,
        'const core = makeCore();',
        'export const embedded = { whole: true, text: () => `(${makeCore})().serve()` };',
        ...names.map((name) => `export const ${name} = core.${name};`),
      ].join('\n');
    }
    if (/core[\\/]worker[\\/]service\.ts$/.test(id))
      return `export { Service } from './embedded.js';`;
    if (/core[\\/]index\.ts$/.test(id)) {
      const names = (await namesOfCore()).filter((name) => name !== 'comlink');
      return `export { ${names.join(', ')} } from './worker/embedded.js';`;
    }
    if (/[\\/]comlink\.mjs$/.test(id)) {
      const core = JSON.stringify(resolve('core/worker/embedded.ts'));
      return `import { comlink } from ${core};
export const { proxy, releaseProxy, transfer, wrap } = comlink;`;
    }
    return null;
  },
});

/**
 * In a part of the worker each name of `core/worker/lent.ts` is taken from what `worker.js` lays out, the rest of its module from the
 * module itself.
 */
const lent = () => {
  const names = new Map(
    [
      ...readFileSync('core/worker/lent.ts', 'utf8').matchAll(
        /export \{([^}]+)\} from '(.+)\.js'/g,
      ),
    ].map(([, list, path]) => [resolve('core/worker', `${path}.ts`), list.match(/\w+/g)]),
  );
  return {
    name: 'lent',
    resolveId(source, importer) {
      if (source.startsWith('own:')) return source.slice(4);
      if (!importer || !source.startsWith('.')) return null;
      const id = resolve(dirname(importer), source.replace(/\.js$/, '.ts'));
      return names.has(id) ? `\0lent:${id}` : null;
    },
    load(id) {
      if (!id.startsWith('\0lent:')) return null;
      const own = id.slice(6);
      return [
        `export const { ${names.get(own).join(', ')} } = tonewellLent;`,
        `export * from ${JSON.stringify(`own:${own}`)};`,
      ].join('\n');
    },
  };
};

/** Tells which files may be asked for later, for pages that keep them for times without a network. */
const listOfLater = () => ({
  name: 'list-of-later',
  generateBundle(_options, bundle) {
    const later = Object.keys(bundle).filter((name) => name.startsWith('later/'));
    const parts = PARTS.map((part) => `worker-${part}.js`);
    const source = `${JSON.stringify([...later, ...parts].sort(), null, 2)}\n`;
    this.emitFile({ type: 'asset', fileName: 'later/list.json', source });
  },
});

/** The worker's text inside the file that a page includes; its parts lie beside. */
const workerInside = () => ({
  name: 'worker-inside',
  async load(id) {
    if (!/core[\\/]worker[\\/]embedded\.ts$/.test(id)) return null;
    const text = await readFile('dist/worker.js', 'utf8');
    return `function run() { ${text} }
export const embedded = { whole: false, text: () => \`(\${run})()\` };`;
  },
});

/** The first file holds all that it names, also what is taken from it only later. */
const allThatIsNamed = () => ({
  name: 'all-that-is-named',
  transform: (_code, id) =>
    /[\\/]first\.ts$/.test(id) ? { moduleSideEffects: 'no-treeshake' } : null,
});

/**
 * What comes later takes what the first file holds from a place in the page, not by an import: the page may know that file by another
 * address (a query, a redirect of a network), and an import would then load all of it a second time.
 */
const lentToLater = (first) => ({
  name: 'lent-to-later',
  renderChunk(code, chunk, _options, { chunks }) {
    const text = Object.values(chunks[first].modules).map((module) => module.code);
    const edition = createHash('sha256').update(text.join()).digest('hex').slice(0, 8);
    const program = this.parse(code);
    const fail = (what) => this.error(`${chunk.fileName}: ${what}`);
    const wanted = Object.values(chunks).flatMap((of) => of.importedBindings[first] ?? []);
    const changes =
      chunk.fileName === first
        ? lending(program, edition, new Set(wanted), fail)
        : taking(program, edition, `../${first}`, fail);
    const replace = (sofar, [{ start, end }, by]) => sofar.slice(0, start) + by + sofar.slice(end);
    return { code: changes.reduceRight(replace, code), map: null };
  },
});

/** Where files of one edition find each other in a page. */
const SHELF = 'globalThis.tonewellFirst';

/** Puts what is wanted later on the shelf, in the place of its exports. */
function lending(program, edition, wanted, fail) {
  const nodes = nodesOf(program);
  const lists = nodes.filter(({ type }) => type === 'ExportNamedDeclaration');
  if (lists.length !== 1) fail(`${lists.length} lists of exports`);
  const [list] = lists;
  const variables = program.body
    .filter(({ type, kind }) => type === 'VariableDeclaration' && kind !== 'const')
    .flatMap(({ declarations }) => declarations.map(({ id }) => id.name));
  const set = nodes
    .filter(({ type }) => type === 'AssignmentExpression' || type === 'UpdateExpression')
    .map(({ left, argument }) => (left ?? argument).name);
  const lent = list.specifiers.filter(({ exported }) => wanted.has(exported.name));
  for (const { local } of lent)
    if (variables.includes(local.name) && set.includes(local.name))
      fail(`${local.name} is lent, but changes`);
  // Names of one or two letters are the bundler's own.
  const told = list.specifiers.filter(({ exported }) => exported.name.length > 2);
  const shelved = lent.map(({ local, exported }) => `${exported.name}:${local.name}`);
  const exported = told.map(({ local, exported }) => `${local.name} as ${exported.name}`);
  return [[list, `(${SHELF} ??= {})["${edition}"] ??= {${shelved}};\nexport {${exported}};`]];
}

/** Takes from the shelf what was imported from, or handed on by, the first file. */
function taking(program, edition, first, fail) {
  const place = `${SHELF}["${edition}"]`;
  const ways = {
    ImportDeclaration: ({ specifiers }) =>
      `const {${specifiers.map(({ imported, local }) => `${imported.name}:${local.name}`)}} = ${place};`,
    ExportNamedDeclaration: ({ specifiers }) =>
      specifiers
        .map(({ local, exported: { name } }) => [name, `lent_${name}`, local.name])
        .map(
          ([name, own, local]) => `const ${own} = ${place}.${local}; export {${own} as ${name}};`,
        )
        .join('\n'),
  };
  return nodesOf(program)
    .filter(({ source }) => source?.type === 'Literal' && source.value === first)
    .map((node) => [node, (ways[node.type] ?? fail(`${node.type} of ${first}`))(node)]);
}

/** All nodes of a syntax tree (ESTree). */
function nodesOf(node) {
  const below = Object.values(node).flatMap((value) =>
    [value]
      .flat()
      .filter((each) => typeof each?.type === 'string')
      .flatMap(nodesOf),
  );
  return [node, ...below];
}

/** Tells the second build which names the core function returns. */
const namesBeside = () => ({
  name: 'names-beside',
  generateBundle(_options, bundle) {
    const [entry] = Object.values(bundle);
    const names = entry.exports.filter((name) => name !== 'default');
    this.emitFile({ type: 'asset', fileName: 'core-names.json', source: JSON.stringify(names) });
  },
});

/** The JSON Schema of a plan as a file, for other programs. */
const planSchema = () => ({
  name: 'plan-schema',
  async generateBundle() {
    const options = { bundle: true, format: 'esm', write: false };
    const { outputFiles } = await build({ entryPoints: ['core/plan/schema.ts'], ...options });
    const module = `data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`;
    const { PLAN_SCHEMA } = await import(module);
    const source = `${JSON.stringify(PLAN_SCHEMA, null, 2)}\n`;
    this.emitFile({ type: 'asset', fileName: 'plan.schema.json', source });
  },
});

/** The notices of the copies that the tubes' figures were read from. */
const notices = () => ({
  name: 'notices',
  async generateBundle() {
    const source = await readFile('core/paint/tube-data-notices.txt', 'utf8');
    this.emitFile({ type: 'asset', fileName: 'tube-data-notices.txt', source });
  },
});

export default [
  // The worker: self-contained and without imports, so valid as a module, a classic and a blob worker alike.
  {
    input: 'core/worker/worker.ts',
    treeshake,
    output: { file: 'dist/worker.js', format: 'iife' },
    plugins: [nodeResolve(), typescript(), minify()],
    onLog,
  },
  // Its parts, each fetched by the worker with the first job that needs it: modules without imports.
  ...PARTS.map((part) => ({
    input: `core/worker/worker-${part}.ts`,
    treeshake: { ...treeshake, propertyReadSideEffects: false, unknownGlobalSideEffects: false },
    output: { file: `dist/worker-${part}.js`, format: 'es' },
    plugins: [lent(), nodeResolve(), typescript(), minify()],
    onLog,
  })),
  // Many files, dependencies external. The client stays beside the worker, or the worker's address breaks.
  {
    input: {
      index: 'components/index.ts',
      'core/index': 'core/entry.ts',
      'host/index': 'components/host/index.ts',
      'define/index': 'components/define.ts',
      'words/en': 'components/shared/words/index.ts',
      'words/de': 'components/shared/words/de/index.ts',
      ...defines,
    },
    external,
    treeshake,
    output: {
      dir: 'dist',
      format: 'es',
      sourcemap: true,
      chunkFileNames: ({ name }) => (name === 'client' ? 'client.js' : 'parts/[name].js'),
      // Only the client: what it shares with elements has chunks of its own, so that no element loads it at once.
      onlyExplicitManualChunks: true,
      manualChunks: (id) =>
        /core[\\/]worker[\\/](client|embedded)\.ts$/.test(id) ? 'client' : undefined,
    },
    plugins: [templates(), typescript(), planSchema(), notices()],
    onLog,
  },
  // The core as one function, for the single file.
  {
    input: 'core/worker/whole.ts',
    treeshake,
    output: {
      file: 'dist/core-function.js',
      format: 'iife',
      name: 'tonewellCore',
      inlineDynamicImports: true,
    },
    // Not as a module: the one name at the top is what the single file takes up.
    plugins: [nodeResolve(), typescript(), terser({ format: { comments: false } }), namesBeside()],
    onLog,
  },
  // The file that a page includes: all elements defined, the worker inside; what comes later lies beside it.
  {
    input: { 'tonewell.min': 'components/first.ts' },
    treeshake,
    preserveEntrySignatures: 'allow-extension',
    output: {
      dir: 'dist',
      format: 'es',
      entryFileNames: '[name].js',
      chunkFileNames: 'later/[name].js',
    },
    plugins: [
      workerInside(),
      allThatIsNamed(),
      nodeResolve(),
      templates(),
      typescript(),
      lentToLater('tonewell.min.js'),
      listOfLater(),
      minify(),
    ],
    onLog,
  },
  // The whole kit in one file with nothing beside it.
  {
    input: 'components/everything.ts',
    treeshake,
    output: { file: 'dist/tonewell.whole.min.js', format: 'es', inlineDynamicImports: true },
    plugins: [coreAsFunction(), alikeFirst(), nodeResolve(), templates(), typescript(), minify()],
    onLog,
  },
];
