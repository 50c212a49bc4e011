// Bundles the editors of this folder: two with a library that draws on a canvas, and the one of the guide, with a canvas of its own.
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));

await esbuild.build({
  entryPoints: ['fabric', 'konva', 'page'].map((name) => at(`${name}.js`)),
  outdir: at('../out/hosts'),
  bundle: true,
  minify: true,
  format: 'esm',
  target: 'es2022',
  logLevel: 'warning',
});
