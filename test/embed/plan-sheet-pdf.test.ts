import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { inflateSync } from 'node:zlib';
import { build } from 'esbuild';
import puppeteer, { type Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planSheets, type SheetPaper } from '../../core/plan/index.js';
import { chromeArgs, chromePath } from '../browser.mjs';
import { massesFrom, planOf } from '../unit/order-masses.js';

/** How far a length on the printed page may be off, mm. */
const WITHIN = 0.2;
/** A point of PDF is 1/72 in (ISO 32000-2, 8.3.2.3), an inch 25.4 mm. */
const MM = 25.4 / 72;

interface PdfPage {
  width: number;
  height: number;
  /** Straight lines of paths, mm from the left and the top. */
  lines: [x1: number, y1: number, x2: number, y2: number][];
}

type Matrix = [number, number, number, number, number, number];

/**
 * Reads pages and the straight lines on them from a PDF as Chromium writes it: content streams packed with Flate, operators
 * `q Q cm m l h re` of ISO 32000-2 (8.4.4, 8.5.2). Curves are skipped: nothing that is measured here is one.
 */
function pagesOf(pdf: Buffer): PdfPage[] {
  const file = pdf.toString('latin1');
  const object = (id: string): string =>
    new RegExp(`(?:^|[\\r\\n])${id} 0 obj([\\s\\S]*?)endobj`).exec(file)?.[1] ?? '';
  return [...file.matchAll(/(\d+) 0 obj\s*<<[^]*?endobj/g)]
    .filter(([text]) => /\/Type \/Page\b/.test(text))
    .map(([text]) => {
      const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(text) as string[];
      const content = object(/\/Contents (\d+) 0 R/.exec(text)![1]);
      const start = /stream\r?\n/.exec(content)!;
      const packed = content.slice(start.index + start[0].length, content.lastIndexOf('endstream'));
      const unpacked = inflateSync(Buffer.from(packed, 'latin1')).toString('latin1');
      return {
        width: Number(width) * MM,
        height: Number(height) * MM,
        lines: linesOf(unpacked, Number(height)),
      };
    });
}

function linesOf(content: string, height: number): PdfPage['lines'] {
  const lines: PdfPage['lines'] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  const kept: Matrix[] = [];
  let at: [number, number] = [0, 0];
  let start = at;
  const toMm = (x: number, y: number): [number, number] => {
    const [a, b, c, d, e, f] = matrix;
    return [(a * x + c * y + e) * MM, (height - (b * x + d * y + f)) * MM];
  };
  const lineTo = (to: [number, number]): void => {
    lines.push([...at, ...to]);
    at = to;
  };
  for (const line of content.split('\n')) {
    const parts = line.trim().split(/\s+/);
    const operator = parts.pop();
    const numbers = parts.map(Number);
    if (operator === 'q') kept.push(matrix);
    else if (operator === 'Q') matrix = kept.pop() ?? matrix;
    else if (operator === 'cm') {
      const [a, b, c, d, e, f] = numbers;
      const [p, q, r, s, t, u] = matrix;
      matrix = [
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
      ];
    } else if (operator === 'm') start = at = toMm(numbers[0], numbers[1]);
    else if (operator === 'l') lineTo(toMm(numbers[0], numbers[1]));
    else if (operator === 'h') lineTo(start);
    else if (operator === 're') {
      const [x, y, w, h] = numbers;
      at = toMm(x, y);
      start = at;
      for (const [u, v] of [
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
        [x, y],
      ])
        lineTo(toMm(u, v));
    }
  }
  return lines;
}

const horizontal = ([, y1, , y2]: PdfPage['lines'][number]): boolean => Math.abs(y1 - y2) < 0.02;
const lengthOf = ([x1, y1, x2, y2]: PdfPage['lines'][number]): number =>
  Math.hypot(x2 - x1, y2 - y1);

describe('the plan, printed to PDF by Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await puppeteer.launch({
      executablePath: await chromePath(),
      args: chromeArgs,
      headless: 'shell',
    });
  });
  afterAll(() => browser?.close());

  const printed = async (pages: readonly string[], paper: SheetPaper): Promise<PdfPage[]> => {
    const page = await browser.newPage();
    const size = paper === 'A4' ? '210mm 297mm' : '8.5in 11in';
    await page.setContent(
      `<!doctype html><style>@page{size:${size};margin:0}body{margin:0}svg{display:block;break-after:page}svg:last-child{break-after:auto}</style>${pages.join('')}`,
    );
    const pdf = await page.pdf({ preferCSSPageSize: true });
    await page.close();
    return pagesOf(Buffer.from(pdf));
  };

  const rows = Array.from({ length: 30 }, (_, y) =>
    Array.from({ length: 40 }, (_, x) => (x < 10 ? 0 : y < 12 ? 1 : 2)).join(''),
  );
  const masses = massesFrom(rows);

  it.each([
    ['A4' as const, 210, 297],
    ['letter' as const, 215.9, 279.4],
  ])('on %s the page, the rule and the painting are of true size', async (paper, width, height) => {
    // 40 x 30 pixels on 120 mm: 3 mm a pixel; the first border runs at 30 mm.
    const plan = planOf(3, false, { paper: { widthMm: 120, heightMm: 90, lightness: 95 } });
    const pages = planSheets(plan, masses, { paper, show: { hatching: false } });
    const pdf = await printed(pages, paper);
    expect(pdf).toHaveLength(pages.length);
    for (const { width: w, height: h, lines } of pdf) {
      expect(Math.abs(w - width)).toBeLessThan(WITHIN);
      expect(Math.abs(h - height)).toBeLessThan(WITHIN);
      // The rule: the longest level line that starts at the margin in the lowest 20 mm.
      const level = lines
        .filter((line) => horizontal(line) && line[1] > height - 20 && line[1] < height - 5)
        .filter(([x1, , x2]) => Math.abs(Math.min(x1, x2) - 10) < 1)
        .map(lengthOf);
      expect(Math.abs(Math.max(...level) - 100)).toBeLessThan(WITHIN);
      // The frame of the painting, upright and level, and the border of the dark at 30 mm.
      const upright = lines.filter(([x1, , x2]) => Math.abs(x1 - x2) < 0.02);
      const tall = upright.filter((line) => Math.abs(lengthOf(line) - 90) < WITHIN);
      const xs = tall.map(([x]) => x).sort((a, b) => a - b);
      expect(Math.abs(xs[xs.length - 1] - xs[0] - 120)).toBeLessThan(WITHIN);
      const dark = upright.filter(([x]) => Math.abs(x - xs[0] - 30) < WITHIN).map(lengthOf);
      expect(Math.max(0, ...dark)).toBeGreaterThan(30);
    }
  });

  it('parts of a larger painting are of true size, squares and all', async () => {
    const plan = planOf(3, false, { paper: { widthMm: 400, heightMm: 300, lightness: 95 } });
    const pages = planSheets(plan, masses, { squaresMm: 50, show: { hatching: false } });
    const pdf = await printed(pages, 'A4');
    expect(pdf).toHaveLength(pages.length);
    const parts = pdf.slice(-6);
    let squares = 0;
    for (const { lines } of parts) {
      const upright = lines.filter(([x1, , x2]) => Math.abs(x1 - x2) < 0.02);
      const frame = upright
        .filter((line) => Math.abs(lengthOf(line) - 300) < WITHIN)
        .map(([x]) => x)
        .sort((a, b) => a - b);
      expect(Math.abs(frame[frame.length - 1] - frame[0] - 400)).toBeLessThan(WITHIN);
      // The lines of the squares are written dash by dash as far as the page shows them: boxes of 0.1 by 0.3 mm, two sides each.
      const dashes = new Set(
        upright.filter((line) => Math.abs(lengthOf(line) - 0.3) < 0.05).map(([x]) => x.toFixed(2)),
      );
      for (const x of dashes) {
        const from = Number(x) - frame[0];
        expect(Math.abs(from - 50 * Math.round(from / 50))).toBeLessThan(WITHIN);
      }
      squares += dashes.size / 2;
    }
    // 190 mm of 400 on each of three pages: 3, 4 and 1 lines, on both rows.
    expect(squares).toBeGreaterThanOrEqual(14);
  });

  it('from an element’s own button: the pages alone, at true size, in a page with margins and a strict policy', async () => {
    const plan = planOf(3, false, { paper: { widthMm: 120, heightMm: 90, lightness: 95 } });
    const pages = planSheets(plan, masses, { paper: 'letter', show: { hatching: false } });
    const bundle = await build({
      stdin: {
        contents: `import { printPages } from './components/shared/printing.ts';
          window.printedPages = (pages, paper) => printPages(pages, paper, document);`,
        resolveDir: new URL('../..', import.meta.url).pathname,
      },
      bundle: true,
      ignoreAnnotations: true,
      format: 'esm',
      write: false,
    });
    const files: Record<string, [type: string, body: string]> = {
      '/': [
        'text/html',
        `<!doctype html><title>Studio</title><link rel="stylesheet" href="host.css"><script type="module" src="host.js"></script>
         <main><h1>Studio</h1>${'<p>Much else on the page.</p>'.repeat(200)}</main>`,
      ],
      '/host.css': [
        'text/css',
        'html { padding: 3em } body { margin: 2em; padding: 40px; display: grid; transform: scale(0.9) } @page { margin: 3cm; size: A5 }',
      ],
      '/host.js': ['text/javascript', bundle.outputFiles[0].text],
    };
    const server: Server = createServer(({ url = '/' }, answer) => {
      const [type, body] = files[url] ?? ['text/plain', ''];
      answer.setHeader('content-type', `${type}; charset=utf-8`);
      answer.setHeader(
        'content-security-policy',
        "default-src 'none'; script-src 'self'; style-src 'self'; require-trusted-types-for 'script'",
      );
      answer.end(body);
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const page = await browser.newPage();
    try {
      const faults: string[] = [];
      page.on('pageerror', (error) => faults.push(String(error)));
      page.on('console', (message) => {
        if (message.type() === 'error' && !message.text().includes('404'))
          faults.push(message.text());
      });
      await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
      await page.evaluate((all) => {
        window.print = () => undefined;
        (
          window as unknown as { printedPages: (pages: string[], paper: string) => void }
        ).printedPages(all, 'letter');
      }, pages);
      const pdf = pagesOf(Buffer.from(await page.pdf({ preferCSSPageSize: true })));
      expect(faults).toEqual([]);
      expect(pdf).toHaveLength(pages.length);
      for (const { width, height, lines } of pdf) {
        expect(Math.abs(width - 215.9)).toBeLessThan(WITHIN);
        expect(Math.abs(height - 279.4)).toBeLessThan(WITHIN);
        const rule = lines.filter(
          (line) =>
            horizontal(line) &&
            Math.abs(line[0] - 10) < WITHIN &&
            Math.abs(lengthOf(line) - 100) < WITHIN,
        );
        expect(rule.length).toBeGreaterThan(0);
        const frame = lines.filter(
          (line) => horizontal(line) && Math.abs(lengthOf(line) - 120) < WITHIN,
        );
        expect(frame.length).toBeGreaterThanOrEqual(2);
      }
      // Afterwards the document prints as before.
      await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
      const after = pagesOf(Buffer.from(await page.pdf({ preferCSSPageSize: true })));
      expect(Math.abs(after[0].width - 148)).toBeLessThan(WITHIN);
    } finally {
      await page.close();
      server.close();
    }
  });
});
