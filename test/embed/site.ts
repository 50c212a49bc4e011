/** Small sites on this machine for the tests of what was built: pages with any policy, the built files on a second origin. */
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import puppeteer, { type Browser } from 'puppeteer-core';
import { chromeArgs, chromePath } from '../browser.mjs';

export const root = fileURLToPath(new URL('../..', import.meta.url));

export const tags = [
  'painting-plan',
  'value-band-viewer',
  'swatch-bucket-board',
  'lightness-picker',
  'mixing-well',
  'painting-check',
  'plan-sheet',
  'swatch-sheet-reader',
];

const types: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.svg': 'image/svg+xml',
};

export interface Page {
  body: string | Uint8Array;
  headers?: Record<string, string>;
  type?: string;
  /** 200 unless told. */
  status?: number;
}

export interface Site {
  readonly origin: string;
  /** Puts a page at a path. */
  put(path: string, page: Page): string;
  close(): Promise<void>;
}

/** A site that serves pages put into it and, with CORS, the files of the checkout. */
export async function startSite(): Promise<Site> {
  const pages = new Map<string, Page>();
  const server: Server = createServer((request, response) => {
    const { pathname } = new URL(request.url!, 'http://localhost');
    const page = pages.get(pathname);
    if (page)
      return response
        .writeHead(page.status ?? 200, {
          'content-type': page.type ?? types['.html'],
          ...page.headers,
        })
        .end(page.body);
    const file = normalize(join(root, decodeURIComponent(pathname)));
    if (!file.startsWith(root) || !existsSync(file) || !statSync(file).isFile())
      return response.writeHead(404).end();
    response.writeHead(200, {
      'content-type': types[extname(file)] ?? 'application/octet-stream',
      'access-control-allow-origin': '*',
    });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    origin,
    put(path, page) {
      pages.set(path, page);
      return origin + path;
    },
    close: () =>
      new Promise((resolve) => (server.closeAllConnections(), server.close(() => resolve()))),
  };
}

export async function startBrowser(): Promise<Browser> {
  return puppeteer.launch({
    executablePath: await chromePath(),
    headless: 'shell',
    args: chromeArgs,
  });
}

/** An import map for the built files' own dependencies, as a page without a bundler needs it. */
export function importMap(origin = ''): string {
  const at = (path: string): string => `${origin}/node_modules/${path}`;
  return JSON.stringify({
    imports: {
      lit: at('lit/index.js'),
      'lit/': at('lit/'),
      'lit-html': at('lit-html/lit-html.js'),
      'lit-html/': at('lit-html/'),
      'lit-element/lit-element.js': at('lit-element/lit-element.js'),
      '@lit/reactive-element': at('@lit/reactive-element/reactive-element.js'),
      '@lit/reactive-element/': at('@lit/reactive-element/'),
      comlink: at('comlink/dist/esm/comlink.mjs'),
      'culori/fn': at('culori/src/index-fn.js'),
      culori: at('culori/src/index.js'),
      idb: at('idb/build/index.js'),
      fflate: at('fflate/esm/browser.js'),
      tonewell: `${origin}/dist/index.js`,
      'tonewell/core': `${origin}/dist/core/index.js`,
      'tonewell/host': `${origin}/dist/host/index.js`,
      'tonewell/words/de': `${origin}/dist/words/de.js`,
      'tonewell/define': `${origin}/dist/define/index.js`,
      ...Object.fromEntries(
        tags.map((tag) => [`tonewell/define/${tag}`, `${origin}/dist/define/${tag}.js`]),
      ),
    },
  });
}
