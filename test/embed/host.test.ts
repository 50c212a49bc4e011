/** The editor bridge as it is built: a page and the panel in its frame, on two origins, each under a strict policy. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Frame, Page } from 'puppeteer-core';
import type * as Bridge from '../../components/host/index.js';
import {
  DRAW_FIELDS,
  fieldAt,
  FIELDS,
  layIn,
  limitFields,
  panelIn,
  putPanel,
  saidIn,
  saysIn,
} from './host.js';
import { axeFindings, until, watch } from './page.js';
import { importMap, root, startBrowser, startSite, type Site } from './site.js';
import { readFileSync } from 'node:fs';

let site: Site;
let other: Site;
let browser: Browser;
let panel: string;

beforeAll(async () => {
  [site, other, browser] = await Promise.all([startSite(), startSite(), startBrowser()]);
  panel = putPanel(other, [site.origin]);
});
afterAll(async () => {
  await browser?.close();
  await Promise.all([site?.close(), other?.close()]);
});

/** What a host's page has heard. */
interface Heard {
  what: string;
  value: unknown;
}

/**
 * A host: a canvas of 400 x 300 pixels that shows 800 x 600 units beginning at (100, 50). `also` is script that runs before the panel is
 * joined and may set `facts` (of the canvas) and `offer`.
 */
const host = (also: string, origin: string): string => `
  import * as bridge from '/dist/host/index.js';
  const { joinFrame, pictureOfCanvas, imageOfLayer, BridgeError } = bridge;
  ${DRAW_FIELDS}
  const canvas = document.querySelector('canvas');
  const context = canvas.getContext('2d', { willReadFrequently: true });
  drawFields(context);
  globalThis.heard = [];
  const hear = (what) => (value) => void heard.push({ what, value });
  const facts = { name: 'Fields <b>', area: { x: 100, y: 50, width: 800, height: 600 }, revision: 'r7' };
  const offer = {
    origin: ${JSON.stringify(origin)},
    name: 'Sketch table',
    picture: (asked) => pictureOfCanvas(canvas, asked, facts),
    async layers(layers) {
      for (const layer of layers) {
        const image = await imageOfLayer(layer);
        const shown = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d');
        const { x, y, width, height } = layer.place;
        shown.drawImage(image, (x - 100) / 2, (y - 50) / 2, width / 2, height / 2);
        const { data } = shown.getImageData(0, 0, canvas.width, canvas.height);
        hear('layer')({ ...layer, data: undefined, pixels: [...new Uint32Array(data.buffer)] });
      }
    },
    readings: hear('readings'),
    swatches: hear('swatches'),
    progress: hear('progress'),
    joined: (session, { name }) => hear('joined')(name),
    left: ({ name }) => hear('left')(name),
  };
  ${also}
  globalThis.link = joinFrame(document.querySelector('iframe'), offer);
  globalThis.facts = facts;
  globalThis.bridge = bridge;
`;

let number = 0;

async function openHost({
  also = '',
  origin = other.origin,
  frame = panel,
  at = site,
  width = 320,
  /** The frame's attribute `sandbox`; without one when missing. */
  sandbox = undefined as string | undefined,
} = {}): Promise<Page & { faults: string[] }> {
  const name = `/host-${++number}`;
  at.put(`${name}.js`, { body: host(also, origin), type: 'text/javascript' });
  const url = at.put(name, {
    body: `<!doctype html><html lang="en"><title>Host</title><link rel="icon" href="data:,">
      <canvas width="400" height="300" hidden></canvas>
      <iframe src="${frame}" ${sandbox === undefined ? '' : `sandbox="${sandbox}"`} width="${width}" height="880" title="Panel"></iframe>
      <script type="module" src="${name}.js"></script></html>`,
    headers: {
      'content-security-policy': `default-src 'none'; script-src 'self'; frame-src ${new URL(frame).origin}; img-src blob: data: ${other.origin}`,
    },
  });
  const page = await browser.newPage();
  await page.setViewport({ width: Math.max(600, width + 40), height: 960 });
  const { faults } = watch(page);
  await page.goto(url);
  return Object.assign(page, { faults });
}

const heardBy = (page: Page, what: string): Promise<unknown[]> =>
  page.evaluate(
    (wanted: string) =>
      (globalThis as unknown as { heard: Heard[] }).heard
        .filter((each) => each.what === wanted)
        .map(({ value }) => value),
    what,
  );

interface SeenLayer {
  kind: string;
  name: string;
  form: string;
  revision: string;
  place: object;
  size: { widthMm: number; heightMm: number };
  pixels: number[];
}

const layersOf = async (page: Page, count: number): Promise<SeenLayer[]> =>
  until('layers', async () => {
    const layers = (await heardBy(page, 'layer')) as SeenLayer[];
    return layers.length >= count && layers;
  });

const { width: W, height: H, right, below } = FIELDS;
/** Points that lie at least so many pixels from the borders of the fields. */
function* pointsOff(px: number): Generator<[x: number, y: number]> {
  for (let y = 0; y < H; y += 3)
    for (let x = 0; x < W; x += 3)
      if (Math.abs(x + 0.5 - right) >= px && (x < right || Math.abs(y + 0.5 - below) >= px))
        yield [x, y];
}

/** Greys of a layer in each of the fields, all of them; the borders may run a pixel beside. */
function greysByField({ pixels }: SeenLayer): Set<number>[] {
  const greys = [new Set<number>(), new Set<number>(), new Set<number>()];
  for (const [x, y] of pointsOff(2)) greys[fieldAt(x, y)].add(pixels[y * W + x]);
  return greys;
}

const alphaAt = ({ pixels }: SeenLayer, x: number, y: number): number => pixels[y * W + x] >>> 24;

describe(
  'a picture goes to the panel of another origin, layers come back',
  { timeout: 120_000 },
  () => {
    it('bands and masses lie where the fields are, lines along their borders', async () => {
      const page = await openHost();
      const frame = await panelIn(page);
      await limitFields(frame);
      await layIn(frame, 'bands', 'masses', 'outlines', 'strokes');
      const layers = await layersOf(page, 4);
      await saysIn(
        frame,
        /^Laid on the picture: bands, masses, outlines, strokes\. One undo in Sketch table/,
      );
      expect(layers.map(({ kind, form }) => `${kind} ${form}`)).toEqual([
        'bands png',
        'masses png',
        'outlines svg',
        'strokes svg',
      ]);
      for (const { place, revision } of layers) {
        expect(place).toEqual({ x: 100, y: 50, width: 800, height: 600 });
        expect(revision).toBe('r7');
      }
      for (const flat of layers.slice(0, 2)) {
        const greys = greysByField(flat);
        expect(
          greys.map(({ size }) => size),
          flat.kind,
        ).toEqual([1, 1, 1]);
        const [dark, middle, light] = greys.map(([word]) => word & 255);
        expect(dark).toBeLessThan(middle);
        expect(middle).toBeLessThan(light);
      }
      const outlines = layers[2];
      for (let y = 20; y < H; y += 40)
        expect(Math.max(...[-1, 0, 1].map((d) => alphaAt(outlines, right + d, y)))).toBeGreaterThan(
          60,
        );
      for (let x = right + 20; x < W - 10; x += 40)
        expect(Math.max(...[-1, 0, 1].map((d) => alphaAt(outlines, x, below + d)))).toBeGreaterThan(
          60,
        );
      expect(alphaAt(outlines, 60, 150) + alphaAt(outlines, 260, 70)).toBe(0);
      expect(page.faults).toEqual([]);
      await page.close();
    });

    it('the progress is told, and ends', async () => {
      const page = await openHost();
      const frame = await panelIn(page);
      await layIn(frame, 'masses');
      await layersOf(page, 1);
      await saysIn(frame, /^Laid/);
      const told = (await heardBy(page, 'progress')) as { stage: string; done: number }[];
      expect(told.some(({ stage }) => stage === 'finding masses')).toBe(true);
      expect(told.at(-1)!.done).toBe(1);
      await page.close();
    });

    it('a selection is worked on alone, and laid where it is', async () => {
      const page = await openHost({
        also: `facts.selection = { bounds: { x: 260, y: 230, width: 400, height: 200 } };`,
      });
      const frame = await panelIn(page);
      expect(await frame.$eval('#picture-name', (title) => title.textContent)).toBe(
        'Fields <b>Selection, 400 × 200',
      );
      await layIn(frame, 'masses');
      const [selected] = await layersOf(page, 1);
      expect(selected.place).toEqual({ x: 260, y: 230, width: 400, height: 200 });
      // In pixels of the canvas the selection reaches from (80, 90) to (280, 190).
      for (const [x, y] of pointsOff(2)) {
        const inside = x >= 80 && x < 280 && y >= 90 && y < 190;
        if (x === 78 || x === 279 || y === 90 || y === 189) continue; // where a pixel ends
        expect(alphaAt(selected, x, y), `${x} ${y}`).toBe(inside ? 255 : 0);
      }
      const greys = [new Set(), new Set(), new Set()];
      for (const [x, y] of pointsOff(2))
        if (x > 80 && x < 279 && y > 90 && y < 189)
          greys[fieldAt(x, y)].add(selected.pixels[y * W + x]);
      expect(greys.map(({ size }) => size)).toEqual([1, 1, 1]);

      await frame.click('#parts [value=all] + span');
      await until('all of it', async () =>
        /Picture, 800 × 600/.test(await frame.$eval('#picture-name', (title) => title.textContent)),
      );
      await layIn(frame, 'masses');
      const [, whole] = await layersOf(page, 2);
      expect(whole.place).toEqual({ x: 100, y: 50, width: 800, height: 600 });
      await page.close();
    });

    it('a selection of another form leaves empty what lies outside it', async () => {
      // A triangle over the whole canvas: (0, 0), (400, 0), (0, 300) in its pixels.
      const page = await openHost({
        also: `facts.selection = { bounds: facts.area, rings: [[100, 50, 900, 50, 100, 650]] };`,
      });
      const frame = await panelIn(page);
      await layIn(frame, 'masses', 'outlines');
      const layers = await layersOf(page, 2);
      expect(layers.map(({ form }) => form)).toEqual(['png', 'png']);
      for (const [x, y] of pointsOff(0)) {
        const beyond = (x + 0.5) / W + (y + 0.5) / H - 1; // above 0 outside the triangle
        if (Math.abs(beyond) < 0.01) continue;
        expect(alphaAt(layers[0], x, y), `${x} ${y}`).toBe(beyond < 0 ? 255 : 0);
        if (beyond > 0) expect(alphaAt(layers[1], x, y)).toBe(0);
      }
      await page.close();
    });

    it('the size on paper is the one that the host tells', async () => {
      const page = await openHost({ also: `facts.size = { widthMm: 200, heightMm: 150 };` });
      const frame = await panelIn(page);
      expect(await frame.$eval('#width', (field) => (field as HTMLInputElement).value)).toBe('200');
      await layIn(frame, 'masses');
      const [layer] = await layersOf(page, 1);
      expect(layer.size).toEqual({ widthMm: 200, heightMm: 150 });
      await page.close();
    });
  },
);

describe('readings and swatches', { timeout: 120_000 }, () => {
  it('a spot is told where it is in the host, the board with its colours', async () => {
    const page = await openHost();
    const frame = await panelIn(page);
    await frame.click('#tab-spots');
    await frame.waitForFunction(() =>
      document.querySelector('lightness-picker')!.matches(':state(ready)'),
    );
    await frame.evaluate(() =>
      document
        .querySelector('lightness-picker')!
        .shadowRoot!.querySelector<HTMLElement>('[part~=hole]')!
        .focus(),
    );
    await page.keyboard.press('Enter');
    const [[reading]] = await until('a reading', async () => {
      const readings = (await heardBy(page, 'readings')) as Record<string, unknown>[][];
      return readings.length > 0 && readings;
    });
    // The hole begins in the middle of the picture: in the light field, whose grey is #c6c6c6.
    expect(reading).toMatchObject({ at: [500, 350], band: 'light', css: '#c6c6c6' });
    // CIE 15: L* = 116 (Y/Yn)^(1/3) - 16, with the transfer curve of IEC 61966-2-1.
    const Y = ((0xc6 / 255 + 0.055) / 1.055) ** 2.4;
    expect(reading.lightness as number).toBeCloseTo(116 * Math.cbrt(Y) - 16, 3);

    await frame.click('#tab-swatches');
    await frame.click('#hand-over');
    await saysIn(frame, /^The board is empty/);
    await frame.evaluate(() => {
      const { store } = document.querySelector('painting-plan') as unknown as {
        store: { change(label: string, make: (plan: never) => unknown): void };
      };
      store.change('add', (plan: { board: object }) => ({
        ...plan,
        board: {
          ...plan.board,
          swatches: [{ id: 'a', bucket: 0, lightness: 30, css: 'rgb(71 71 71)', name: 'slate' }],
        },
      }));
    });
    await frame.click('#hand-over');
    await saysIn(frame, /^Sketch table has the one swatch/);
    const [swatches] = (await heardBy(page, 'swatches')) as {
      bands: { name: string }[];
      swatches: unknown[];
      tokens: string;
    }[];
    expect(swatches.bands.map(({ name }) => name)).toEqual(['dark', 'middle', 'light']);
    expect(swatches.swatches).toEqual([{ name: 'slate', band: 0, lightness: 30, css: '#474747' }]);
    const { $type, dark } = JSON.parse(swatches.tokens) as {
      $type: string;
      dark: { slate: { $value: { colorSpace: string; hex: string } } };
    };
    expect($type).toBe('color');
    expect(dark.slate.$value).toMatchObject({ colorSpace: 'srgb', hex: '#474747' });
    await page.close();
  });

  it('what a host does not take is not offered', async () => {
    const page = await openHost({ also: 'delete offer.readings; delete offer.layers;' });
    const frame = await panelIn(page);
    expect(
      await frame.$$eval('#layers, #bar, .tell', (all) =>
        all.map((each) => (each as HTMLElement).hidden),
      ),
    ).toEqual([true, true, true]);
    await page.close();
  });
});

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const neverJoined = async (page: Page): Promise<void> => {
  await pause(1500);
  expect(await heardBy(page, 'joined')).toEqual([]);
};
const frameOf = async (page: Page): Promise<Frame> =>
  (await (await page.$('iframe'))!.contentFrame()) as Frame;

/**
 * A page that plays the panel: it knocks with a port, twice, since the host may not listen yet, greets over it and asks for the picture. What
 * it hears of that, and whatever comes to its window, it tells the page about it as `seen`.
 */
const KNOCKS = `<!doctype html><title>Knocks</title><script>
  const seen = (what) => top.postMessage({ seen: what }, '*');
  const knock = (at) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => {
      seen(data.kind);
      if (data.kind !== 'hello') return;
      port1.postMessage({ kind: 'hello', body: { ...data.body, side: 'panel', name: 'Not the panel', takes: [] } });
      port1.postMessage({ kind: 'picture', id: 1, body: { part: 'all' } });
    };
    at.postMessage({ tonewell: 'knock', by: 'somebody else' }, '*', [port2]);
  };
  const knocks = () => {
    for (const at of new Set([parent, top])) knock(at);
    seen('knocked');
  };
  addEventListener('message', ({ data, ports }) => seen({ ...data, ports: ports.length }));
  knocks();
  setTimeout(knocks, 1000);
</script>`;
/** Has a host's page keep what {@link KNOCKS} tells. */
const SEES = `addEventListener('message', ({ data }) => data?.seen && hear('seen')(data.seen));`;
/** What such pages have seen, once they have knocked so many times. */
const seenBy = (page: Page, knocks: number): Promise<unknown[]> =>
  until('knocks', async () => {
    const seen = await heardBy(page, 'seen');
    const others = seen.filter((what) => what !== 'knocked');
    return seen.length - others.length >= knocks && others;
  });

describe('who may be joined', { timeout: 120_000 }, () => {
  it('a page that the panel does not name is told off, and gets no port', async () => {
    const third = await startSite();
    // The policy of the panel's server would not even show it; here the panel has to see to it itself.
    const open = other.put('/demo/panel-open.html', {
      body: readFileSync(`${root}demo/panel.html`, 'utf8').replace(
        'content="self"',
        `content="${site.origin}"`,
      ),
    });
    const page = await openHost({ at: third, frame: open });
    const frame = await frameOf(page);
    await saysIn(frame, /is not on its list/);
    expect(await saidIn(frame)).toContain(third.origin);
    await neverJoined(page);
    expect(page.faults).toEqual([]);
    await page.close();
    await third.close();
  });

  it('a panel of another origin than the one named is not joined', async () => {
    const page = await openHost({ origin: 'https://kit.example' });
    await neverJoined(page);
    await saysIn(await frameOf(page), /^Waiting for the editor/);
    await page.close();
  });

  it('a page of another origin that has come into the frame gets nothing', async () => {
    const frame = other.put('/knocks-inside', { body: KNOCKS });
    const page = await openHost({ origin: 'https://kit.example', frame, also: SEES });
    await seenBy(page, 1);
    await neverJoined(page);
    expect(await seenBy(page, 1)).toEqual([]);
    await page.close();
  });

  it('a knock from elsewhere than the frame counts nothing', async () => {
    const page = await openHost({
      frame: other.put('/quiet', { body: '<!doctype html><title>Quiet</title>' }),
    });
    await page.evaluate(
      async (origin: string) => {
        const stray = document.createElement('iframe');
        stray.src = `${origin}/knocks`;
        document.body.append(stray);
        await new Promise((resolve) => stray.addEventListener('load', resolve));
        const { port1, port2 } = new MessageChannel();
        postMessage({ tonewell: 'knock', by: 'x' }, location.origin, [port2]);
        port1.postMessage('held');
      },
      other
        .put('/knocks', {
          body: KNOCKS,
        })
        .replace('/knocks', ''),
    );
    await neverJoined(page);
    await page.close();
  });

  it('messages of every form leave both sides as they were', async () => {
    const page = await openHost();
    const frame = await panelIn(page);
    await page.evaluate((origin: string) => {
      const { contentWindow } = document.querySelector('iframe')!;
      const strange = [
        null,
        1,
        'join',
        [],
        { tonewell: 'join' },
        { tonewell: {} },
        { tonewell: 'dance' },
        { tonewell: 'join', as: 'x' },
      ];
      for (const each of strange) contentWindow!.postMessage(each, origin);
      const { port1, port2 } = new MessageChannel();
      contentWindow!.postMessage({ tonewell: 'dance' }, origin, [port1, port2]);
    }, other.origin);
    await frame.evaluate(() => {
      const strange = [null, 1, {}, { tonewell: 'join' }, { tonewell: 'knock', by: 'no port' }];
      for (const each of strange) parent.postMessage(each, '*');
      const { port1, port2 } = new MessageChannel();
      parent.postMessage({ tonewell: 'knock', by: 1 }, '*', [port1]);
      parent.postMessage({ tonewell: 'knock', by: 'two ports' }, '*', [
        port2,
        new MessageChannel().port1,
      ]);
    });
    await layIn(frame, 'masses');
    await layersOf(page, 1);
    expect(await heardBy(page, 'joined')).toEqual(['Tonewell']);
    expect(page.faults).toEqual([]);
    await page.close();
  });
});

describe('a panel in a frame without an origin', { timeout: 120_000 }, () => {
  const WALLED = { sandbox: 'allow-scripts', origin: 'null' };

  it('is given the picture and lays layers, where its host asks for that', async () => {
    const page = await openHost(WALLED);
    const frame = await panelIn(page);
    expect(await frame.evaluate(() => self.origin)).toBe('null');
    await limitFields(frame);
    await layIn(frame, 'masses', 'outlines');
    const [masses, outlines] = await layersOf(page, 2);
    expect(greysByField(masses).map(({ size }) => size)).toEqual([1, 1, 1]);
    expect(outlines).toMatchObject({ form: 'svg', revision: 'r7' });
    expect(await heardBy(page, 'joined')).toEqual(['Tonewell']);
    expect(page.faults).toEqual([]);
    await page.close();
  });

  it('is joined as the guide shows it', async () => {
    const [, sample] = /<code data-run="walled">([^<]*)</.exec(
      readFileSync(`${root}demo/docs/builders.html`, 'utf8'),
    )!;
    const body = sample.replaceAll('&lt;', '<').replaceAll('&gt;', '>');
    const page = await browser.newPage();
    await page.goto(
      site.put('/walled', {
        body: `<!doctype html><title>Editor</title><script type="importmap">${importMap()}</script>${body.replace('https://kit.example/panel.html', panel)}`,
      }),
    );
    const frame = await panelIn(page);
    expect(await frame.evaluate(() => self.origin)).toBe('null');
    expect(await frame.$eval('#picture-name', (title) => title.textContent)).toMatch(/400 × 300/);
    await page.close();
  });

  it('is found again by itself when the connection was lost', async () => {
    const page = await openHost(WALLED);
    const frame = await panelIn(page);
    await page.evaluate(() =>
      (globalThis as unknown as { link: { session: { close(): void } } }).link.session.close(),
    );
    await saysIn(frame, /^The connection with Sketch table is lost/);
    await frame.click('#said button');
    await until('a connection', async () => (await heardBy(page, 'joined')).length === 2);
    await page.close();
  });

  it('gets nothing from a host that names its address', async () => {
    const page = await openHost({ sandbox: 'allow-scripts' });
    await neverJoined(page);
    await page.close();
  });

  it.each([undefined, 'allow-scripts allow-same-origin', 'allow-same-origin', ''])(
    'has to be walled off by the host: sandbox %j is not enough',
    async (sandbox) => {
      const page = await openHost({ ...WALLED, sandbox, also: 'globalThis.offer = offer;' });
      await page.waitForFunction(() => 'offer' in globalThis);
      expect(page.faults.join()).toMatch(/TypeError: origin: expected one like/);
      await neverJoined(page);
      await page.close();
    },
  );

  it('is not joined by a page that it does not name', async () => {
    const third = await startSite();
    const open = other.put('/demo/panel-open.html', {
      body: readFileSync(`${root}demo/panel.html`, 'utf8').replace(
        'content="self"',
        `content="${site.origin}"`,
      ),
    });
    const page = await openHost({ ...WALLED, at: third, frame: open });
    await saysIn(await frameOf(page), /is not on its list/);
    await neverJoined(page);
    await page.close();
    await third.close();
  });

  it('is the frame itself: others without an origin, beside it and in it, count nothing', async () => {
    other.put('/knocks-beside', { body: KNOCKS });
    other.put('/knocks-within', { body: KNOCKS });
    const page = await openHost({
      ...WALLED,
      frame: other.put('/holds', {
        // As soon as it is called: the host listens by then.
        body: `<!doctype html><title>Holds another</title><body><script>
          addEventListener('message', () => {
            const within = document.createElement('iframe');
            within.sandbox = 'allow-scripts';
            within.src = '/knocks-within';
            document.body.append(within);
          }, { once: true });
        </script>`,
      }),
      also: `${SEES}
        const beside = document.createElement('iframe');
        beside.sandbox = 'allow-scripts';
        beside.src = '${other.origin}/knocks-beside';
        document.body.append(beside);`,
    });
    await seenBy(page, 4);
    await neverJoined(page);
    expect(await seenBy(page, 4)).toEqual([]);
    await page.close();
  });

  it('is the first page in the frame: a later one gets nothing, and ends the connection', async () => {
    const page = await openHost({ ...WALLED, also: SEES });
    const frame = await panelIn(page);
    const later = other.put('/knocks-later', { body: KNOCKS });
    await frame.evaluate((url: string) => void (location.href = url), later);
    await until('the end', async () => (await heardBy(page, 'left')).length > 0);
    await seenBy(page, 2);
    await pause(500);
    expect(await heardBy(page, 'joined')).toEqual(['Tonewell']);
    // It may be called, as anybody may; no port comes to it, and nothing over its own.
    for (const each of await seenBy(page, 2)) expect(each).toEqual({ tonewell: 'call', ports: 0 });
    expect(
      await page.evaluate(() => (globalThis as unknown as { link: Bridge.FrameHost }).link.session),
    ).toBeUndefined();
    await page.close();
  });

  it('a page that knocks and is gone leaves no port to the one after it', async () => {
    const gone = other.put('/knocks-and-goes', {
      body: `<!doctype html><title>Goes</title><script>
        addEventListener('message', () => {
          const { port2 } = new MessageChannel();
          parent.postMessage({ tonewell: 'knock', by: 'gone' }, '*', [port2]);
          location.href = '/knocks-after';
        }, { once: true });
      </script>`,
    });
    other.put('/knocks-after', { body: KNOCKS });
    const page = await openHost({ ...WALLED, frame: gone, also: SEES });
    await seenBy(page, 1);
    await neverJoined(page);
    for (const each of await seenBy(page, 1)) expect(each).toMatchObject({ ports: 0 });
    await page.close();
  });
});

describe('when something is wrong', { timeout: 120_000 }, () => {
  it('a connection that was lost is told, and found again', async () => {
    const page = await openHost();
    const frame = await panelIn(page);
    await page.evaluate(() =>
      (globalThis as unknown as { link: { session: { close(): void } } }).link.session.close(),
    );
    await saysIn(frame, /^The connection with Sketch table is lost/);
    expect(await frame.$eval('#lay', (button) => (button as HTMLButtonElement).disabled)).toBe(
      true,
    );
    await frame.click('#said button');
    await until('a connection', async () => (await heardBy(page, 'joined')).length === 2);
    await frame.waitForFunction(() => !document.querySelector<HTMLButtonElement>('#lay')!.disabled);
    await layIn(frame, 'masses');
    await layersOf(page, 1);
    await page.close();
  });

  it('a panel that is loaded again is joined again, with one port each', async () => {
    const page = await openHost();
    const frame = await panelIn(page);
    await frame.evaluate(() => location.reload());
    await until('a connection', async () => (await heardBy(page, 'joined')).length === 2);
    await panelIn(page);
    expect(await heardBy(page, 'joined')).toHaveLength(2);
    expect(page.faults).toEqual([]);
    await page.close();
  });

  it.each([
    ['NoPicture', /^Sketch table has no picture open/],
    ['TooLarge', /^The picture is too large\. This panel takes up to 50 megapixels and 256 MB/],
    ['SomethingElse', /^Sketch table could not do this: Why/],
  ])('%s is told in words', async (name, said) => {
    const also = `offer.picture = () => { throw new BridgeError('${name}', 'Why'); };`;
    const page = await openHost({ also });
    await saysIn((await (await page.$('iframe'))!.contentFrame()) as Frame, said);
    await page.close();
  });

  it('a canvas with pixels of another origin is told in words', async () => {
    other.put('/foreign.png', {
      body: readFileSync(`${root}demo/article/bands.png`),
      type: 'image/png',
    });
    const page = await openHost({
      also: `const foreign = new Image(); foreign.src = '${other.origin}/foreign.png';
        await foreign.decode(); context.drawImage(foreign, 0, 0);`,
    });
    await saysIn(
      (await (await page.$('iframe'))!.contentFrame()) as Frame,
      /comes from another site/,
    );
    await page.close();
  });

  it('a picture that has changed is offered again, once', async () => {
    const page = await openHost();
    const frame = await panelIn(page);
    const offers = (): Promise<number> =>
      frame.$$eval(
        'button',
        (all) => all.filter((each) => each.checkVisibility() && /anew/.test(each.innerText)).length,
      );
    expect(await offers()).toBe(1);
    await page.evaluate(() => {
      const { link, facts } = globalThis as unknown as {
        link: { changed(): void };
        facts: { name: string };
      };
      facts.name = 'Later';
      link.changed();
    });
    await saysIn(frame, /^Picture or selection have changed in Sketch table/);
    expect(await offers()).toBe(1);
    await frame.focus('#said button');
    await page.keyboard.press('Enter');
    await until('the later one', async () =>
      (await frame.$eval('#picture-name', (title) => title.textContent)).startsWith('Later'),
    );
    await frame.waitForFunction(() => document.activeElement?.id === 'take');
    expect(await offers()).toBe(1);
    await page.close();
  });

  it.each([
    [280, 'light'],
    [1440, 'dark'],
  ] as const)(
    'the panel alone says what it is and leads on, %i pixels, %s',
    async (width, scheme) => {
      const page = await browser.newPage();
      await page.setViewport({ width, height: 900 });
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
      await page.goto(panel);
      await page.waitForSelector('#alone:not([hidden])');
      const shown = await page.$eval('#alone', (alone) => ({
        text: (alone as HTMLElement).innerText,
        links: [...alone.querySelectorAll('a')].map(({ href }) => href),
      }));
      expect(shown.text).toContain(`it may be shown by ${site.origin}.`);
      expect(shown.text).toContain(`<iframe src="${panel}" title="Panel"></iframe>`);
      expect(shown.links.map((href) => new URL(href).pathname)).toEqual([
        '/demo/table.html',
        '/demo/docs/builders.html',
        '/demo/index.html',
      ]);
      for (const href of shown.links) {
        const answer = await (await fetch(href)).text();
        const { hash } = new URL(href);
        expect(answer).toContain(hash ? `id="${hash.slice(1)}"` : '<main');
      }
      expect(await page.$eval('#work', (work) => (work as HTMLElement).hidden)).toBe(true);
      expect(await page.evaluate(() => document.scrollingElement!.scrollWidth)).toBe(width);
      expect(await axeFindings(page)).toEqual([]);
      await page.close();
    },
  );
});

describe('the canvas of a page', () => {
  it('is reduced to what the panel takes, and shows as much as before', async () => {
    const page = await openHost();
    await until('the page', () => page.evaluate(() => 'bridge' in globalThis));
    const given = await page.evaluate(async () => {
      const { bridge } = globalThis as unknown as {
        bridge: typeof Bridge;
      };
      const asked = {
        part: 'all' as const,
        panel: { limits: { pixels: 3000, bytes: 1e9 } } as never,
      };
      const canvas = document.querySelector('canvas')!;
      const { image, area } = await bridge.pictureOfCanvas(canvas, asked);
      const { width, height } = image as ImageBitmap;
      return { width, height, area, kept: canvas.width };
    });
    expect(given.width * given.height).toBeLessThanOrEqual(3000);
    expect(given.width * given.height).toBeGreaterThan(2800);
    expect(given.area).toEqual({ x: 0, y: 0, width: 400, height: 300 });
    expect(given.kept).toBe(400);
    await page.close();
  });
});

describe('the panel', { timeout: 120_000 }, () => {
  it.each([
    [280, 'light'],
    [320, 'dark'],
    [420, 'light'],
  ] as const)(
    'fits %i pixels, %s, and is clean for axe in each of its tabs',
    async (width, scheme) => {
      const page = await openHost({ width });
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
      const frame = await panelIn(page);
      for (const tab of ['values', 'spots', 'swatches']) {
        await frame.click(`#tab-${tab}`);
        await new Promise((resolve) => setTimeout(resolve, 500));
        expect(await frame.evaluate(() => document.scrollingElement!.scrollWidth)).toBe(width);
        expect(await axeFindings(frame)).toEqual([]);
      }
      if (width >= 320) {
        await frame.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
        expect(await frame.evaluate(() => document.scrollingElement!.scrollWidth)).toBe(width);
      }
      await page.close();
    },
  );

  it('is used by keys alone', async () => {
    const page = await openHost();
    const frame = await panelIn(page);
    await frame.focus('#tab-values');
    await page.keyboard.press('End');
    expect(await frame.evaluate(() => document.activeElement!.id)).toBe('tab-swatches');
    expect(await frame.$eval('#swatches', (shown) => (shown as HTMLElement).hidden)).toBe(false);
    await page.keyboard.press('ArrowRight');
    expect(await frame.evaluate(() => document.activeElement!.id)).toBe('tab-values');
    await frame.focus('[value=bands]');
    await page.keyboard.press('Space');
    for (let i = 0; i < 20; i++) {
      if ((await frame.evaluate(() => document.activeElement!.id)) === 'lay') break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    expect((await layersOf(page, 2)).map(({ kind }) => kind)).toEqual(['bands', 'masses']);
    await page.close();
  });
});
