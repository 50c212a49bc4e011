// Bundles the editors of this folder, each with a library that draws on a canvas and with the kit's side of the bridge.
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));

await esbuild.build({
  entryPoints: [at('fabric.js'), at('konva.js')],
  outdir: at('../out/hosts'),
  bundle: true,
  minify: true,
  format: 'esm',
  target: 'es2022',
  logLevel: 'warning',
});
