// Builds the sites of this folder with their own tools; each lands in `out/` beside it.
import vue from '@vitejs/plugin-vue';
import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { cpSync, readdirSync } from 'node:fs';
import * as esbuild from 'esbuild';
import { build } from 'vite';
import webpack from 'webpack';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));
const isCustomElement = (tag) => tag.includes('-');
const plugins = {
  vite: [],
  react: [react()],
  vue: [vue({ template: { compilerOptions: { isCustomElement } } })],
};

for (const [site, of] of Object.entries(plugins)) {
  await build({
    root: at(site),
    base: './',
    configFile: false,
    logLevel: 'warn',
    plugins: of,
    build: { outDir: at(`out/${site}`), emptyOutDir: true, modulePreload: { polyfill: false } },
  });
}

const stats = await new Promise((resolve, reject) =>
  webpack(
    {
      mode: 'production',
      context: at('webpack'),
      entry: ['./index.js', './late.js'],
      experiments: { outputModule: true },
      output: { path: at('out/webpack'), filename: 'main.js', module: true, publicPath: 'auto' },
      performance: { hints: false },
    },
    (error, made) => (error ? reject(error) : resolve(made)),
  ),
);
if (stats.hasErrors()) throw new Error(stats.toString('errors-only'));
cpSync(at('webpack/index.html'), at('out/webpack/index.html'));

// esbuild keeps `new URL(…, import.meta.url)` as it stands: the worker and its parts are copied beside the bundle.
await esbuild.build({
  entryPoints: [at('esbuild/index.js')],
  outfile: at('out/esbuild/main.js'),
  bundle: true,
  minify: true,
  format: 'esm',
  target: 'es2022',
  logLevel: 'warning',
});
cpSync(at('esbuild/index.html'), at('out/esbuild/index.html'));
const kit = at('node_modules/tonewell/dist');
for (const file of readdirSync(kit))
  if (/^worker.*\.js$/.test(file)) cpSync(`${kit}/${file}`, at(`out/esbuild/${file}`));
