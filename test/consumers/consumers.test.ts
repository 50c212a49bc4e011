/**
 * Sites of other people, built from the packed kit with their own tools: plain HTML from the one file (of its own and of
 * another origin), Vite, webpack, esbuild, React 19, Vue 3, a page rendered on a server. Each shows the bands of a picture in a real
 * browser and hears a typed event. The sites' own tools are installed once, as pinned in the lock file beside this test.
 */
import { execFile } from 'node:child_process';
import {
  cpSync,
  mkdtempSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Frame, Page } from 'puppeteer-core';
import { layIn, limitFields, panelIn, putPanel, saysIn } from '../embed/host.js';
import { until, watch } from '../embed/page.js';
import { root, startBrowser, startSite, type Site } from '../embed/site.js';

const run = promisify(execFile);
const folder = mkdtempSync(join(tmpdir(), 'tonewell-consumers-'));
const npm = (args: string[], cwd: string) => run('npm', args, { cwd, maxBuffer: 1 << 26 });
const node = (args: string[]) =>
  run(process.execPath, args, { cwd: folder, maxBuffer: 1 << 26, timeout: 240_000 }).catch(
    (thrown: { message: string; stdout?: string }) => {
      throw new Error(`${thrown.message}\n${thrown.stdout ?? ''}`);
    },
  );

let site: Site;
let other: Site;
let browser: Browser;
let files: string[];

/** Puts every file of a folder of the consumers at the same path of a site. */
function publish(at: Site, path: string): void {
  for (const entry of readdirSync(join(folder, path), { withFileTypes: true })) {
    if (entry.isDirectory()) publish(at, `${path}/${entry.name}`);
    else {
      const body = readFileSync(join(folder, path, entry.name));
      const text = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8' };
      const type = text[extname(entry.name) as keyof typeof text] ?? 'application/octet-stream';
      at.put(`/${path}/${entry.name}`, {
        body,
        type,
        headers: { 'access-control-allow-origin': '*' },
      });
    }
  }
}

beforeAll(async () => {
  cpSync(join(root, 'test/consumers'), folder, {
    recursive: true,
    filter: (path) => !/node_modules|[\\/]out$|\.test\.ts$/.test(path),
  });
  cpSync(join(root, '.npmrc'), join(folder, '.npmrc'));
  // No scripts of packages: one of them would compile a canvas for Node, which a page has no use for.
  await npm(['ci', '--ignore-scripts'], folder);
  const { stdout } = await npm(['pack', '--json', '--pack-destination', folder], root);
  const [packed] = JSON.parse(stdout.slice(stdout.indexOf('['))) as {
    filename: string;
    files: { path: string }[];
  }[];
  files = packed.files.map(({ path }) => path);
  const kit = join(folder, 'node_modules/tonewell');
  mkdirSync(kit, { recursive: true });
  await run('tar', ['-xzf', packed.filename, '-C', kit, '--strip-components=1'], { cwd: folder });
  cpSync(kit, join(folder, 'kit'), { recursive: true });
  await node(['build.mjs']);
  await node(['hosts/build.mjs']);
  [site, other, browser] = await Promise.all([startSite(), startSite(), startBrowser()]);
  const photo = readFileSync(join(root, 'demo/pictures/clay-dog-900.jpg'));
  for (const each of [site, other]) {
    each.put('/photo.jpg', { body: photo, type: 'image/jpeg' });
    publish(each, 'out');
    publish(each, 'kit/dist');
  }
}, 400_000);

afterAll(async () => {
  await browser?.close();
  await Promise.all([site?.close(), other?.close()]);
  rmSync(folder, { recursive: true, force: true });
});

/** Opens a page, moves a limit by the keyboard, and tells what was shown and heard. */
async function seen(
  url: string,
): Promise<{ colours: number; flat: number; before: number[]; heard: string }> {
  const page = await browser.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  try {
    await page.goto(url);
    await page.waitForFunction(
      () =>
        document.querySelector('value-band-viewer')?.matches(':state(ready)') &&
        document.querySelector('value-band-viewer')!.shadowRoot!.querySelector('[part~=peg]'),
      { timeout: 30_000 },
    );
    const shown = await page.evaluate(async () => {
      const viewer = document.querySelector('value-band-viewer')!;
      const bitmap = await createImageBitmap(await viewer.toBlob({ view: 'bands' }));
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const context = canvas.getContext('2d')!;
      context.drawImage(bitmap, 0, 0);
      const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      const colours = new Set(new Uint32Array(data.buffer));
      // The lowest peg: the limit of the darkest band (the highest is the paper's).
      [...viewer.shadowRoot!.querySelectorAll<HTMLElement>('[part~=peg]')].at(-1)!.focus();
      const paper = viewer.store.plan.paperLimit === undefined ? 0 : 1;
      return {
        colours: colours.size,
        flat: viewer.limits.length + 1 + paper,
        before: viewer.limits,
      };
    });
    // The first step goes to the next tenth of a value, which may lie near.
    for (let step = 0; step < 3; step++) await page.keyboard.press('ArrowUp');
    await page
      .waitForFunction(() => document.body.dataset.limits, { timeout: 10_000 })
      .catch(() => {
        throw new Error(`no event was heard; faults: ${faults.join(' | ')}`);
      });
    await new Promise((resolve) => setTimeout(resolve, 100));
    const heard = await page.evaluate(() => document.body.dataset.limits!);
    expect(faults).toEqual([]);
    return { ...shown, heard };
  } finally {
    await page.close();
  }
}

async function showsAndTells(url: string): Promise<void> {
  const { colours, flat, before, heard } = await seen(url);
  expect(colours).toBe(flat); // one flat colour a band and for bare paper, nothing between
  const limits = heard.split(' ').map(Number);
  expect(limits).toHaveLength(before.length);
  expect(Math.max(...limits.map((limit, i) => Math.abs(limit - before[i])))).toBeGreaterThan(0.2);
}

const plain = (
  kit: string,
): string => `<!doctype html><html lang="en"><meta charset="utf-8"><title>Plain</title>
  <value-band-viewer src="/photo.jpg" loading="eager" alt="A clay dog"></value-band-viewer>
  <script type="module" src="${kit}/kit/dist/tonewell.min.js"></script>
  <script type="module">
    document.querySelector('value-band-viewer').addEventListener('limits-change', (event) => {
      document.body.dataset.limits = event.limits.map((limit) => limit.toFixed(1)).join(' ');
    });
  </script>`;

describe('sites built from the packed kit', () => {
  it('the packed kit has what its exports name, and no tests or sources', () => {
    expect(files).toContain('dist/index.js');
    expect(files).toContain('dist/worker.js');
    expect(files).toContain('LICENSE');
    expect(
      files.filter((file) => /(^|\/)(test|demo|core\/.*\.ts$)/.test(file) && !/^dist\//.test(file)),
    ).toEqual([]);
  });

  it('plain HTML, the one file from the same origin', async () => {
    await showsAndTells(site.put('/plain-same', { body: plain('') }));
  });

  it('plain HTML, the one file from another origin', async () => {
    await showsAndTells(site.put('/plain-other', { body: plain(other.origin) }));
  });

  it.each(['vite', 'webpack', 'esbuild', 'react', 'vue'])('%s', async (name) => {
    await showsAndTells(`${site.origin}/out/${name}/index.html`);
  });

  it.each(['vite', 'webpack', 'esbuild'])('%s finds the parts of the worker', async (name) => {
    const page = await browser.newPage();
    try {
      await page.goto(`${site.origin}/out/${name}/index.html`);
      await page.waitForFunction(() => document.body.dataset.late, { timeout: 30_000 });
      expect(await page.evaluate(() => document.body.dataset.late)).toBe('worker true');
    } finally {
      await page.close();
    }
  });

  it('types hold in TypeScript, in React 19 and in Vue 3 templates', async () => {
    await node(['node_modules/typescript/bin/tsc', '-p', 'react']);
    await node(['node_modules/vue-tsc/bin/vue-tsc.js', '-p', 'vue']);
  }, 240_000);

  it('a wrong attribute is a fault of types in React and in Vue', async () => {
    for (const [file, from, to] of [
      ['react/main.tsx', 'loading="eager"', 'loading="soon"'],
      ['vue/Figure.vue', 'loading="eager"', 'loading="soon"'],
    ]) {
      const path = join(folder, file);
      const text = readFileSync(path, 'utf8');
      writeFileSync(path, text.replace(from, to));
      const check = file.startsWith('react')
        ? node(['node_modules/typescript/bin/tsc', '-p', 'react'])
        : node(['node_modules/vue-tsc/bin/vue-tsc.js', '-p', 'vue']);
      await expect(check, file).rejects.toThrow();
      writeFileSync(path, text);
    }
  }, 240_000);

  it('a server renders the page; its fallback shows without script, and the same page works with script', async () => {
    const { stdout } = await node(['server/page.mjs']);
    expect(stdout).toContain('<value-band-viewer');
    expect(stdout).toContain('White has L* 100.');
    const script = `<script type="module" src="/kit/dist/tonewell.min.js"></script>`;
    const head = '<!doctype html><html lang="en"><meta charset="utf-8"><title>Served</title>';
    const page = await browser.newPage();
    await page.setJavaScriptEnabled(false);
    await page.goto(site.put('/served-quiet', { body: head + stdout + script }));
    const image = await page.$eval('img', (img) => img.getBoundingClientRect().width);
    expect(image).toBe(300);
    await page.close();
    const listen = `<script type="module">
      document.querySelector('value-band-viewer').addEventListener('limits-change', (event) => {
        document.body.dataset.limits = event.limits.map((limit) => limit.toFixed(1)).join(' ');
      });</script>`;
    await showsAndTells(site.put('/served', { body: head + stdout + script + listen }));
  });
});

/** Where the picture of the hosts lies on their table, and its fields (test/consumers/hosts/fields.js), a quarter larger than drawn. */
const PLACED = { left: 60, top: 30, right: 560, bottom: 405 };
const FIELD_RIGHT = 60 + 130 * 1.25;
const FIELD_BELOW = 30 + 140 * 1.25;

/** What a point of the table shows: a field of the picture, 0 the dark one, or nothing of it. */
function fieldAt(x: number, y: number): number | undefined {
  const { left, top, right, bottom } = PLACED;
  if (x < left || x >= right || y < top || y >= bottom) return undefined;
  if (x < FIELD_RIGHT) return 0;
  return y < FIELD_BELOW ? 1 : 2;
}

/** Whether a point lies within so many pixels of the border of a field. */
function nearBorder(x: number, y: number, px: number): boolean {
  const around = [-px, 0, px].flatMap((dx) => [-px, 0, px].map((dy) => fieldAt(x + dx, y + dy)));
  return around.some((field) => field !== fieldAt(x, y));
}

/** The colours of the table by field, the one beside the picture last; points at borders are left out. */
async function coloursOf(page: Page): Promise<string[][]> {
  const { width, data } = await page.evaluate(() => {
    const canvas = document.querySelector('canvas')!;
    const { width, height } = canvas;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, width, height);
    return { width, data: [...new Uint32Array(data.buffer)] };
  });
  const found = [0, 1, 2, 3].map(() => new Set<string>());
  for (let i = 0; i < data.length; i += 7) {
    const [x, y] = [i % width, Math.floor(i / width)];
    if (nearBorder(x, y, 4)) continue;
    const [r, g, b] = [data[i] & 255, (data[i] >> 8) & 255, (data[i] >> 16) & 255];
    found[fieldAt(x, y) ?? 3].add(`${r} ${g} ${b}`);
  }
  return found.map((colours) => [...colours]);
}

const PICTURE = [['30 50 90'], ['170 90 80'], ['220 210 150'], ['128 128 128']];

describe.each([
  ['fabric', 'Fabric table', 'image image', 'group'],
  ['konva', 'Konva table', 'Rect Image Image', 'Group'],
])('an editor on %s', (library, name, objects, group) => {
  /** The editor's page and the panel on another origin, both under strict policies, all from the packed kit. */
  async function openEditor(): Promise<{ page: Page; panel: Frame; faults: string[] }> {
    const address = putPanel(other, [site.origin], '/kit/dist');
    const table = library === 'fabric' ? '<canvas id="table"></canvas>' : '<div id="table"></div>';
    const page = await browser.newPage();
    await page.setViewport({ width: 1100, height: 960 });
    const { faults } = watch(page);
    await page.goto(
      site.put(`/editor-${library}`, {
        body: `<!doctype html><html lang="en" data-panel="${other.origin}"><meta charset="utf-8"><title>Editor</title>
          <link rel="icon" href="data:,"><link rel="stylesheet" href="/editor.css">
          <body><main>${table}</main><iframe src="${address}" width="320" height="900" title="Panel"></iframe>
          <script type="module" src="/out/hosts/${library}.js"></script></body></html>`,
        headers: {
          'content-security-policy': `default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; frame-src ${other.origin}`,
        },
      }),
    );
    const panel = await panelIn(page);
    await limitFields(panel);
    return { page, panel, faults };
  }

  it('gives its picture and gets masses as an object, which one undo takes off and redo brings back', async () => {
    site.put('/editor.css', { type: 'text/css', body: 'body { display: flex; margin: 0 }' });
    const { page, panel, faults } = await openEditor();
    expect(await panel.$eval('#host', (host) => host.textContent)).toBe(`with ${name}`);
    expect(await coloursOf(page)).toEqual(PICTURE);

    await layIn(panel, 'masses');
    await saysIn(panel, /^Laid on the picture: masses/);
    expect(await page.evaluate(() => document.body.dataset.objects)).toBe(objects);
    const shown = async (wanted: (colours: string[][]) => boolean): Promise<string[][]> =>
      until('the table', async () => {
        const colours = await coloursOf(page);
        return wanted(colours) && colours;
      });
    const greys = await shown(([dark]) => dark[0] !== PICTURE[0][0]);
    expect(greys.map(({ length }) => length)).toEqual([1, 1, 1, 1]);
    const [dark, middle, light, beside] = greys.map(([colour]) => colour.split(' ').map(Number));
    for (const [r, g, b] of [dark, middle, light]) expect([g, b]).toEqual([r, r]);
    expect(dark[0]).toBeLessThan(middle[0]);
    expect(middle[0]).toBeLessThan(light[0]);
    expect(beside).toEqual([128, 128, 128]);

    await page.click('main');
    const press = async (shift = false): Promise<void> => {
      await page.keyboard.down('Control');
      if (shift) await page.keyboard.down('Shift');
      await page.keyboard.press('z');
      if (shift) await page.keyboard.up('Shift');
      await page.keyboard.up('Control');
    };
    await press();
    expect(await shown(([first]) => first[0] === PICTURE[0][0])).toEqual(PICTURE);
    await press(true);
    expect(await shown(([first]) => first[0] !== PICTURE[0][0])).toEqual(greys);
    expect(faults).toEqual([]);
    await page.close();
  });

  it('gets several layers in one step; outlines as a group of paths along the borders', async () => {
    const { page, panel, faults } = await openEditor();
    await layIn(panel, 'masses', 'outlines');
    await saysIn(panel, /^Laid on the picture: masses, outlines/);
    expect(await page.evaluate(() => document.body.dataset.objects)).toBe(`${objects} ${group}`);
    /** The darkest of a few pixels across the border between the middle and the light field, and that of the light field. */
    const [border, field] = await until('the lines', () =>
      page.evaluate((y: number) => {
        const context = document.querySelector('canvas')!.getContext('2d')!;
        const darkest = (top: number): number =>
          Math.min(...context.getImageData(400, top, 1, 7).data.filter((_, i) => i % 4 === 0));
        const [at, off] = [darkest(y - 3), darkest(y - 40)];
        return at < off - 30 ? [at, off] : false;
      }, FIELD_BELOW),
    );
    expect(border).toBeLessThan(field);
    await page.click('main');
    await page.keyboard.down('Control');
    await page.keyboard.press('z');
    await page.keyboard.up('Control');
    await until(
      'the picture',
      async () => JSON.stringify(await coloursOf(page)) === JSON.stringify(PICTURE),
    );
    expect(faults).toEqual([]);
    await page.close();
  });
});

it("the guide's editor on a canvas of its own ('hosts') gets masses, and its undo takes them off", async () => {
  const script = readFileSync(join(folder, 'out/hosts/page.js'), 'utf8');
  expect(script).toContain('https://kit.example');
  site.put('/own/page.js', {
    body: script.replace('https://kit.example', other.origin),
    type: 'text/javascript',
  });
  site.put('/own/draw.js', {
    type: 'text/javascript',
    body: `const context = document.querySelector('canvas').getContext('2d');
      context.fillStyle = '#1e325a'; context.fillRect(0, 0, 130, 300);
      context.fillStyle = '#dcd296'; context.fillRect(130, 0, 270, 300);`,
  });
  const page = await browser.newPage();
  await page.setViewport({ width: 1100, height: 960 });
  const { faults } = watch(page);
  await page.goto(
    site.put('/own/page.html', {
      body: `<!doctype html><html lang="en"><meta charset="utf-8"><title>Own</title><link rel="icon" href="data:,">
        <p>Press Control and Z</p><canvas width="400" height="300"></canvas>
        <iframe src="${putPanel(other, [site.origin], '/kit/dist')}" width="320" height="880" title="Panel"></iframe>
        <script src="draw.js"></script><script type="module" src="page.js"></script></html>`,
      headers: {
        'content-security-policy': `default-src 'none'; script-src 'self'; img-src data:; frame-src ${other.origin}`,
      },
    }),
  );
  const colours = (): Promise<string[]> =>
    page.evaluate(() =>
      [60, 260].map((x) =>
        document
          .querySelector('canvas')!
          .getContext('2d')!
          .getImageData(x, 150, 1, 1)
          .data.slice(0, 3)
          .join(' '),
      ),
    );
  const panel = await panelIn(page);
  await layIn(panel, 'masses');
  await saysIn(panel, /^Laid on the picture: masses/);
  const [dark, light] = (await colours()).map((colour) => colour.split(' ').map(Number));
  for (const [r, g, b] of [dark, light]) expect([g, b]).toEqual([r, r]);
  expect(dark[0]).toBeLessThan(light[0]);
  await page.click('p');
  await page.keyboard.down('Control');
  await page.keyboard.press('z');
  await page.keyboard.up('Control');
  expect(await colours()).toEqual(['30 50 90', '220 210 150']);
  expect(faults).toEqual([]);
  await page.close();
});
