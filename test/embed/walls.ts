/**
 * A page with all eight elements behind walls of some kind, worked with as a painter would; what it shows, what it breaks and whom it asks
 * is written down. Every request of the browser goes through a proxy that keeps a list, workers, beacons and sockets included.
 */
import { readFileSync } from 'node:fs';
import { createServer, request as ask, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import puppeteer, { type Browser, type Frame, type Page } from 'puppeteer-core';
import type {
  LightnessPicker,
  MixingWell,
  PaintingCheck,
  PaintingPlan,
  PlanSheet,
  SwatchBucketBoard,
  SwatchSheetReader,
  ValueBandViewer,
} from '../../components/index.js';
import { chromeArgs, chromePath } from '../browser.mjs';
import { until } from './page.js';
import { importMap, root, tags, type Site } from './site.js';
import { FILE, type Kit } from './start.js';

export const PICTURES = {
  photo: 'demo/pictures/clay-dog-900.jpg',
  sheet: 'demo/pictures/test-sheet.jpg',
  painting: 'demo/pictures/painting-2.jpg',
} as const;

// The browser and its proxy

export interface Watched {
  readonly browser: Browser;
  /** Addresses asked for since the last call, those of sockets as `CONNECT host:port`. */
  asked(): string[];
  /** Cuts the network, for all that the browser runs, or mends it. */
  cut(off: boolean): void;
  close(): Promise<void>;
}

/** What Chromium asks on its own behalf, page or no page. */
const OWN_BUSINESS = [
  'accounts.google.com',
  'clients2.google.com',
  'content-autofill.googleapis.com',
  'update.googleapis.com',
];
const ownBusiness = (address: string): boolean =>
  OWN_BUSINESS.some(
    (host) => address.startsWith(`CONNECT ${host}:`) || address.startsWith(`http://${host}/`),
  );

/** A browser that reaches nothing but through a proxy that keeps a list. */
export async function startWatched(): Promise<Watched> {
  let list: string[] = [];
  let off = false;
  const proxy: Server = createServer((request, response) => {
    list.push(request.url!);
    if (off) return void request.socket.destroy();
    const onward = ask(
      request.url!,
      { method: request.method, headers: request.headers },
      (answer) => {
        response.writeHead(answer.statusCode!, answer.headers);
        answer.pipe(response);
      },
    );
    onward.on('error', () => response.writeHead(502).end());
    request.pipe(onward);
  });
  proxy.on('connect', ({ url }, socket) => {
    list.push(`CONNECT ${url}`);
    socket.end('HTTP/1.1 502 Bad Gateway\r\n\r\n');
  });
  await new Promise<void>((resolve) => proxy.listen(0, '127.0.0.1', resolve));
  const { port } = proxy.address() as AddressInfo;
  const browser = await puppeteer.launch({
    executablePath: await chromePath(),
    headless: 'shell',
    args: [
      ...chromeArgs,
      '--disable-features=AutofillServerCommunication,NetworkTimeServiceQuerying,OptimizationHints',
      `--proxy-server=127.0.0.1:${port}`,
      '--proxy-bypass-list=<-loopback>', // loopback through the proxy too
    ],
  });
  return {
    browser,
    asked() {
      const since = list;
      list = [];
      return since.filter((address) => !ownBusiness(address));
    },
    cut: (wish) => (off = wish),
    async close() {
      await browser.close();
      proxy.closeAllConnections();
      await new Promise((resolve) => proxy.close(resolve));
    },
  };
}

// The page

/** What a page broke: policies, the console, errors that nobody caught, doors to the network that were tried. */
export interface Trouble {
  violations: string[];
  console: string[];
  doors: string[];
}

/** Runs before anything of the page: notes refusals, and the doors that no element may ever try. */
const NOTES = `
  globalThis.notes = { violations: [], doors: [], ready: [], errors: [] };
  document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) =>
    notes.violations.push(effectiveDirective + ' ' + blockedURI.replace(/#.*/, '')));
  for (const name of ['WebSocket', 'EventSource', 'XMLHttpRequest', 'RTCPeerConnection', 'WebTransport', 'SharedWorker']) {
    const Real = globalThis[name];
    if (Real) globalThis[name] = class extends Real {
      constructor(...of) { notes.doors.push(name + ' ' + of[0]); super(...of); }
    };
  }
  const { sendBeacon } = navigator;
  navigator.sendBeacon = (...of) => (notes.doors.push('sendBeacon ' + of[0]), sendBeacon.apply(navigator, of));
  addEventListener('ready', ({ target }) => notes.ready.push(target.localName), true);
  addEventListener('error', ({ target, message }) => target.localName && notes.errors.push(target.localName + ': ' + message), true);
`;

/** What a site needs for the pages below; `name` keeps several apart. */
export interface Walls {
  /** Where the kit comes from. */
  kit: string;
  file: Kit;
  /** The page's policy. */
  policy?: string;
  /** Whether the page names pictures by `src`; else they are given as Blobs. */
  src?: boolean;
  /** Runs before the page's own modules. */
  before?: string;
  /** More of the page's markup. */
  markup?: string;
}

let pages = 0;

/**
 * Puts a page with all eight elements into a site, with a plan of its own; the pictures stand beside it.
 * @param address - another address of the kit's one file.
 */
export function putPage(
  site: Site,
  { kit, file, policy, src = true, before = '', markup = '' }: Walls,
  address?: string,
): string {
  const at = `/walls-${++pages}`;
  for (const [name, path] of Object.entries(PICTURES))
    site.put(`/${name}.jpg`, {
      body: readFileSync(`${root}${path}`),
      type: 'image/jpeg',
      headers: { 'access-control-allow-origin': '*' },
    });
  // Asked for by the browser, not by the page.
  site.put('/favicon.ico', { body: '', type: 'image/x-icon' });
  site.put(`${at}.notes.js`, { body: NOTES + before, type: 'text/javascript' });
  const one = address ?? (file === 'many' ? '' : `${kit}/${FILE[file]}`);
  const [define, from] = one ? [one, one] : ['tonewell/define', 'tonewell'];
  site.put(`${at}.js`, {
    body: `import '${define}'; import { sharedCore } from '${from}'; globalThis.coreOfAll = sharedCore;`,
    type: 'text/javascript',
    headers: { 'access-control-allow-origin': '*' },
  });
  const map =
    file === 'many' ? `<script type="importmap" nonce="map">${importMap(kit)}</script>` : '';
  const of = (name: string): string => (src ? `src="/${name}.jpg"` : '');
  return site.put(at, {
    headers: policy ? { 'content-security-policy': policy } : {},
    body: `<!doctype html><html lang="en"><meta charset="utf-8"><title>Walls</title>
      <script src="${at}.notes.js"></script>${map}<script type="module" src="${at}.js"></script>
      <painting-plan name="walls ${pages}" ${of('photo')}>
        <value-band-viewer controls="views corner ladder squint step-back zoom save tracings tools open undo"></value-band-viewer>
        <lightness-picker details></lightness-picker>
        <swatch-bucket-board></swatch-bucket-board>
        <mixing-well tubes="yellow-ochre burnt-sienna ultramarine" target="#6b7078"></mixing-well>
        <plan-sheet></plan-sheet>
        <swatch-sheet-reader ${of('sheet')}></swatch-sheet-reader>
        <painting-check ${of('painting')}></painting-check>
      </painting-plan>${markup}`,
  });
}

/** Opens a page and notes what it logs. `inside` tells which frame holds the elements. */
export async function openWalled(
  browser: Browser,
  url: string,
  inside: (page: Page) => Promise<Frame> = async (page) => page.mainFrame(),
): Promise<{ page: Page; frame: Frame; trouble(): Promise<Trouble> }> {
  const page = await browser.newPage();
  const console: string[] = [];
  page.on('pageerror', (error) => console.push(String(error)));
  page.on('console', (message) => {
    const { url: at = '' } = message.location();
    if (message.type() === 'error' && !at.endsWith('/favicon.ico')) console.push(message.text());
  });
  await page.setViewport({ width: 1280, height: 900 });
  await page.goto(url);
  const frame = await inside(page);
  return {
    page,
    frame,
    async trouble() {
      const { violations, doors } = await frame.evaluate(
        () => (globalThis as unknown as { notes: Trouble }).notes,
      );
      return { violations, doors, console: [...console] };
    },
  };
}

/** Gives the elements their pictures as Blobs. */
export async function givePictures(frame: Frame): Promise<void> {
  const bytes = Object.entries(PICTURES).map(
    ([name, path]) => [name, readFileSync(`${root}${path}`).toString('base64')] as const,
  );
  await frame.evaluate(async (all) => {
    await Promise.all(
      ['value-band-viewer', 'swatch-sheet-reader', 'painting-check'].map((tag) =>
        customElements.whenDefined(tag),
      ),
    );
    const [photo, sheet, painting] = all.map(
      ([name, text]) =>
        new File([Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0))], `${name}.jpg`, {
          type: 'image/jpeg',
        }),
    );
    document.querySelector('value-band-viewer')!.picture = photo;
    document.querySelector('swatch-sheet-reader')!.picture = sheet;
    document.querySelector('painting-check')!.picture = painting;
  }, bytes);
}

// The work

/**
 * Presses all that opens or turns to something: folded parts, panels, tools, ways of looking. Returns what was pressed.
 */
export function openAll(frame: Frame): Promise<string[]> {
  return frame.evaluate(async (all) => {
    const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 40));
    const opens =
      'button[aria-expanded=false], button[aria-pressed=false], [role=tab][aria-selected=false], details:not([open]) > summary';
    const done: string[] = [];
    for (const tag of all) {
      const element = document.querySelector(tag)!;
      element.scrollIntoView({ block: 'center' });
      const nameOf = (each: Element): string =>
        `${tag}: ${(each.getAttribute('aria-label') ?? each.textContent!).replace(/\s+/g, ' ').trim()}`;
      for (;;) {
        const next = [...element.shadowRoot!.querySelectorAll<HTMLButtonElement>(opens)].find(
          (each) => !each.disabled && each.checkVisibility() && !done.includes(nameOf(each)),
        );
        if (!next) break;
        done.push(nameOf(next));
        next.click();
        await soon();
      }
    }
    return done;
  }, tags);
}

/** The words of an element's alerts and notes. */
export const told = (frame: Frame, tag: string): Promise<string> =>
  frame.$eval(tag, (element) =>
    [
      ...element.shadowRoot!.querySelectorAll(
        '[role=alert], [role=status], [part=trouble], [data-said]',
      ),
    ]
      .map(({ textContent }) => textContent!.replace(/\s+/g, ' ').trim())
      .join(' | '),
  );

/** Presses the first button inside an element that a selector or the beginning of its words names. */
export const press = (frame: Frame, tag: string, which: string): Promise<void> =>
  frame.$eval(
    tag,
    (element, name) => {
      const buttons = [...element.shadowRoot!.querySelectorAll('button')];
      const button =
        buttons.find((each) => name.startsWith('[') && each.matches(name)) ??
        buttons.find((each) => each.textContent!.trim().startsWith(name));
      if (!button) throw new Error(`no button ${name}`);
      button.click();
    },
    which,
  );

/** What the elements showed. */
export interface Shown {
  defined: string[];
  /** Where the core ran. */
  mode: string;
  /** Flat colours of the bands, and how many there should be. */
  bands: [seen: number, due: number];
  /** Lines traced over the picture. */
  traced: number;
  reading: boolean;
  swatches: number;
  /** Swatches that the board has judged. */
  judged: number;
  /** CSS colours of the mix in the well and of mixes found. */
  mix: boolean;
  found: number;
  printed: number;
  /** Dabs read from the test sheet. */
  dabs: number;
  checked: boolean;
  delivered: string;
}

/** Works through the whole job by what the elements offer to a page, and tells what came of it. */
export async function work(frame: Frame): Promise<Shown> {
  const element = <K extends keyof HTMLElementTagNameMap, T>(
    tag: K,
    use: (element: HTMLElementTagNameMap[K]) => T | Promise<T>,
  ): Promise<T> => frame.$eval(tag, use as never) as Promise<T>;
  const see = (tag: string): Promise<void> =>
    frame.$eval(tag, (each) => each.scrollIntoView({ block: 'center' }));

  const defined = await frame.evaluate((all) => all.filter((tag) => customElements.get(tag)), tags);
  await until(
    'the photo',
    () => element('painting-plan', (plan: PaintingPlan) => plan.store?.picture.exact),
    40,
  );
  await see('value-band-viewer');
  const bands = await element('value-band-viewer', async (viewer: ValueBandViewer) => {
    const bitmap = await createImageBitmap(await viewer.toBlob({ view: 'bands' }));
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
    const paper = viewer.store.plan.paperLimit === undefined ? 0 : 1;
    const due = viewer.limits.length + 1 + paper;
    return [new Set(new Uint32Array(data.buffer)).size, due] as [number, number];
  });
  await element('value-band-viewer', (viewer: ValueBandViewer) => {
    viewer.tracings = 'masses edges reserves marks strokes';
    viewer.view = 'masses';
  });
  const traced = await until(
    'the tracings',
    () =>
      element(
        'value-band-viewer',
        (viewer: ValueBandViewer) => viewer.shadowRoot!.querySelectorAll('svg .trace').length,
      ),
    40,
  );

  await see('lightness-picker');
  const reading = await until('a reading', () =>
    element('lightness-picker', async (picker: LightnessPicker) => {
      const read = await picker.read();
      picker.keep();
      picker.sendToBoard();
      return read !== undefined && picker.store.plan.board.swatches.length > 0;
    }),
  );
  await see('swatch-bucket-board');
  const [swatches, judged] = await element(
    'swatch-bucket-board',
    async (board: SwatchBucketBoard) => {
      await board.updateComplete;
      board.judge();
      return [board.board.swatches.length, board.verdict.swatches.length];
    },
  );

  await see('mixing-well');
  await until('the form', () =>
    element('mixing-well', (well: MixingWell) => {
      const find = well.shadowRoot!.querySelector<HTMLElement>(
        '[part~=find] [type=submit]:enabled',
      );
      find?.click();
      return find !== null;
    }),
  );
  await until('the mixes', () =>
    element(
      'mixing-well',
      (well: MixingWell) => well.shadowRoot!.querySelector('[part~=found] [part~=mix]') !== null,
    ),
  );
  const [mix, found] = await element('mixing-well', async (well: MixingWell) => {
    well.recipe = { parts: [{ tube: 'ultramarine', parts: 2 }], strength: 0.5 };
    await well.updateComplete;
    return [well.mix !== undefined, well.shadowRoot!.querySelectorAll('[part~=mix]').length] as [
      boolean,
      number,
    ];
  });

  await see('plan-sheet');
  const printed = await until(
    'the pages',
    () => element('plan-sheet', (sheet: PlanSheet) => sheet.pages.length),
    60,
  );

  await see('swatch-sheet-reader');
  const dabs = await until(
    'the test sheet',
    () =>
      element(
        'swatch-sheet-reader',
        (reader: SwatchSheetReader) => reader.reading?.swatches.length,
      ),
    40,
  ).catch(async ({ message }: Error) => {
    // It has been waited for in vain on a quiet machine, seldom and without a known reason: what it says helps to find that.
    throw new Error(`${message}, which says: ${await told(frame, 'swatch-sheet-reader')}`);
  });

  await see('painting-check');
  await until(
    'the painting',
    () => element('painting-check', (check: PaintingCheck) => check.painting.picture.exact),
    40,
  );
  const [checked, delivered] = await element('painting-check', async (check: PaintingCheck) => {
    const report = await check.check();
    return [report !== null, (await check.deliver()).type] as [boolean, string];
  });
  const mode = await frame.evaluate(async () => {
    const { coreOfAll } = globalThis as unknown as { coreOfAll(): Promise<{ mode: string }> };
    return (await coreOfAll()).mode;
  });
  return {
    defined,
    mode,
    bands,
    traced,
    reading,
    swatches,
    judged,
    mix,
    found,
    printed,
    dabs,
    checked,
    delivered,
  };
}
