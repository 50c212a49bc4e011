/** Every entry imports in bare Node, without a DOM, and the core works there. */
import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { root, tags } from './site.js';

const run = promisify(execFile);
const node = async (script: string): Promise<string> =>
  (
    await run(process.execPath, ['--input-type=module', '-e', script], {
      cwd: root,
      timeout: 30_000,
    })
  ).stdout.trim();

const { exports } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as {
  exports: Record<string, { default?: string } | string>;
};
const entries = [
  'tonewell',
  'tonewell/core',
  'tonewell/host',
  'tonewell/define',
  ...tags.map((tag) => `tonewell/define/${tag}`),
];

describe('entries in bare Node', () => {
  for (const entry of entries) {
    it(`${entry} imports by its package name`, async () => {
      expect(await node(`const all = await import('${entry}'); console.log(typeof all)`)).toBe(
        'object',
      );
    });
  }

  it('every export points at a file that was built', () => {
    const files = Object.values(exports).flatMap((target) =>
      typeof target === 'string' ? target : Object.values(target),
    );
    for (const file of files)
      if (!file.includes('*')) expect(() => readFileSync(`${root}${file}`), file).not.toThrow();
  });

  it('the core runs jobs in the page mode and lets the process end', async () => {
    const out = await node(`
      import { startCore, lightnessOf, suggestThresholds } from 'tonewell/core';
      const core = await startCore();
      const picture = await core.open({ width: 3, height: 1, data: new Uint8Array([0,0,0,255, 119,119,119,255, 255,255,255,255]) });
      const { plane } = await core.run('working', { picture: picture.id });
      console.log(core.mode, [...plane.data].join(' '), lightnessOf('#777777').toFixed(2));
    `);
    // L* of sRGB 119 is 50.03 (IEC 61966-2-1, CIE L*)
    expect(out).toBe('page 0 128 255 50.03');
  });

  it('the manifest names every element with its tag', () => {
    const manifest = JSON.parse(readFileSync(`${root}dist/custom-elements.json`, 'utf8')) as {
      modules: { declarations?: { kind: string; name: string }[] }[];
    };
    const names = manifest.modules.flatMap(({ declarations = [] }) =>
      declarations.map(({ name }) => name),
    );
    for (const name of ['PaintingPlan', 'ValueBandViewer', 'SwatchBucketBoard', 'LightnessPicker'])
      expect(names).toContain(name);
  });

  it('every entry has types', () => {
    for (const entry of [
      'types/components/index.d.ts',
      'types/core/entry.d.ts',
      'types/components/define.d.ts',
      ...tags.map((tag) => `types/components/${tag}/define.d.ts`),
    ]) {
      expect(readFileSync(`${root}dist/${entry}`, 'utf8').length).toBeGreaterThan(0);
    }
  });
});
