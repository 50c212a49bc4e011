/**
 * Serves what `works.ts` comes to in Node, worked out in this run from the same sources, to tests in a browser: `/works-in-node.json`. (A
 * command of the runner would have to answer within twenty seconds.)
 */
import { build } from 'esbuild';

export function worksInNode() {
  let worked;
  return {
    name: 'works-in-node',
    async serve({ path }) {
      if (path !== '/works-in-node.json') return undefined;
      worked ??= work();
      return { body: JSON.stringify(await worked), type: 'json' };
    },
  };
}

async function work() {
  const { outputFiles } = await build({
    entryPoints: ['test/engines/works.ts'],
    bundle: true,
    format: 'esm',
    platform: 'neutral',
    mainFields: ['module', 'main'],
    target: 'es2022',
    write: false,
  });
  const address = `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`;
  const { works } = await import(address);
  return works();
}
