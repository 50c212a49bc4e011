/** The lesson and its marking page as built: a board handed in as a file, a folder of them marked, in Chromium under a strict policy. */
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, ElementHandle, Page } from 'puppeteer-core';
import { parseLesson, parseSubmission, type Submission } from '../../core/entry.js';
import type { SwatchBucketBoard } from '../../components/index.js';
import { demoServer } from '../../demo/serve.mjs';
import { root, startBrowser } from './site.js';

const submissions = join(root, 'demo', 'submissions');
const axeText = readFileSync(join(root, 'node_modules', 'axe-core', 'axe.min.js'), 'utf8');

let server: Server;
let browser: Browser;
let origin: string;
let folder: string;
const faults: string[] = [];
const asked = new Set<string>();

beforeAll(async () => {
  server = demoServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  browser = await startBrowser();
  folder = mkdtempSync(join(tmpdir(), 'tonewell-lesson-'));
});
afterAll(async () => {
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

async function open(name: string, width = 1280): Promise<Page> {
  const page = await browser.newPage();
  page.on('request', (request) => asked.add(new URL(request.url()).origin));
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  page.on('dialog', (dialog) => (faults.push(dialog.message()), void dialog.dismiss()));
  await page.setViewport({ width, height: 900 });
  await page.goto(`${origin}/demo/${name}.html`);
  return page;
}

async function until<T>(
  what: string,
  ask: () => Promise<T | undefined | false | null>,
): Promise<T> {
  for (let i = 0; i < 100; i++) {
    const answer = await ask();
    if (answer) return answer;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain for ${what}`);
}

/** What axe finds wrong on the whole page, as lines. Run by the protocol, which the page's policy does not bind. */
async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axeText);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html }) => `${id}: ${html.slice(0, 120)}`),
    );
  });
}

const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

const onBoard = <T>(page: Page, ask: (board: SwatchBucketBoard) => T): Promise<T> =>
  page.$eval('swatch-bucket-board', ask as unknown as (element: Element) => T) as Promise<T>;

/** Puts the files into the chooser and waits for the report. */
async function choose(page: Page, ...files: string[]): Promise<string> {
  const input = (await page.$('#files')) as ElementHandle<HTMLInputElement>;
  await page.$eval('#report', (element) => element.replaceChildren());
  await input.uploadFile(...files);
  await until('the report', () =>
    page.$eval('#report', (element) => element.childElementCount > 0),
  );
  return page.$eval('#report', (element) => (element as HTMLElement).innerText);
}

const put = (name: string, content: string): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
const example = (name: string): Submission =>
  JSON.parse(readFileSync(join(submissions, name), 'utf8')) as Submission;

describe('the lesson page', () => {
  let page: Page;
  let sent: (Submission & { student: string })[];

  it('shows the lesson of demo/submissions/lesson.json, with what each bucket lacks', async () => {
    page = await open('lesson');
    await until('the board', () => page.$('swatch-bucket-board >>> .lack'));
    const lesson = await page.$eval('swatch-bucket-board', (element) =>
      element.getAttribute('lesson'),
    );
    expect(parseLesson(lesson)).toEqual(
      parseLesson(readFileSync(join(submissions, 'lesson.json'), 'utf8')),
    );
    const lacks = await Promise.all(
      (await page.$$('swatch-bucket-board >>> .lack')).map((each) =>
        each.evaluate((element) => element.textContent),
      ),
    );
    expect(lacks).toEqual([
      'One that leans orange is missing.',
      'One that leans blue is missing.',
      'One more is asked for here.',
      'One that leans blue is missing.',
      'One that leans orange is missing.',
    ]);
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('is not handed in while something is missing', async () => {
    await page.evaluate(() => {
      const files: Promise<string>[] = [];
      Object.assign(globalThis, { files });
      const make = URL.createObjectURL.bind(URL);
      URL.createObjectURL = (blob: Blob) => (files.push(blob.text()), make(blob));
      // The file is looked at here, not laid into the machine's folder.
      addEventListener(
        'click',
        (event) =>
          event.target instanceof HTMLAnchorElement &&
          event.target.download &&
          event.preventDefault(),
        true,
      );
      HTMLAnchorElement.prototype.click = () => undefined;
    });
    await page.type('#student', 'Anna <img src=x onerror=alert(1)>');
    await page.keyboard.press('Enter');
    expect(
      await page.evaluate(() => (globalThis as unknown as { files: unknown[] }).files.length),
    ).toBe(0);
    expect(await onBoard(page, (board) => board.validationMessage)).toBe(
      'dark lacks a swatch that leans orange.',
    );
  });

  it('a complete but wrong board is handed in by keyboard, with the verdict; a change makes it the second attempt', async () => {
    await onBoard(page, (board) => {
      const { bands, swatches } = board.board;
      const more = [
        { id: 'm1', bucket: 0, lightness: 26, css: '#483b32' },
        { id: 'm2', bucket: 1, lightness: 44.15, css: '#5d6a76' },
        { id: 'm3', bucket: 2, lightness: 75.9, css: '#b3bcc8' },
        { id: 'm4', bucket: 2, lightness: 72.85, css: '#c0b0a4' },
      ];
      board.board = { bands, swatches: [...swatches, ...more] };
    });
    await page.focus('#student');
    await page.keyboard.press('Enter');
    const said = await until('the word that it is handed in', () =>
      page.$eval('#handed-in', (element) => element.textContent),
    );
    expect(said).toMatch(
      /^Handed in as anna-img-src-x-onerror-alert-1-1\.json\. \d swatches are out of place/,
    );
    expect(await page.$('swatch-bucket-board >>> .verdict')).toBeTruthy();
    const dab = (await page.$('swatch-bucket-board >>> [data-dab="swatch-2"]'))!;
    await dab.focus();
    for (const key of ['Space', 'ArrowRight', 'Space'] as const) await page.keyboard.press(key);
    await until('the second attempt', () =>
      page.$eval('#handed-in', (element) => element.textContent!.includes('attempt 2')),
    );
    await page.focus('#student');
    await page.keyboard.press('Enter');
    sent = (
      await page.evaluate(() =>
        Promise.all((globalThis as unknown as { files: Promise<string>[] }).files),
      )
    ).map((text) => parseSubmission(text) as Submission & { student: string });
    expect(sent.map(({ attempt }) => attempt)).toEqual([1, 2]);
    expect(sent[0].student).toBe('Anna <img src=x onerror=alert(1)>');
    expect(sent[1].board.swatches.find(({ id }) => id === 'swatch-2')!.bucket).toBe(1);
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('the marking page takes those files up; markup in the name is text', async () => {
    const marking = await open('marking');
    const files = sent.map((each, i) => put(`anna-${i + 1}.json`, JSON.stringify(each)));
    const told = await choose(marking, ...files, join(submissions, 'lesson.json'));
    expect(told).toContain('Anna <img src=x onerror=alert(1)>');
    expect(told).toContain('Second attempts against first ones');
    expect(told).not.toContain('The file says');
    expect(await marking.$$('#report img')).toHaveLength(0);
    await marking.close();
    await page.close();
  });

  it('fits 360 px', async () => {
    const narrow = await open('lesson', 360);
    await until('the board', () => narrow.$('swatch-bucket-board >>> .lack'));
    expect(await overflow(narrow)).toBeLessThanOrEqual(0);
    await narrow.close();
  });
});

describe('the marking page', () => {
  let page: Page;

  it('says what to do before there is anything to mark', async () => {
    page = await open('marking');
    expect(await page.$eval('main', (element) => (element as HTMLElement).innerText)).toContain(
      'Choose the folder',
    );
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('the invented class by keyboard: verdicts, a verdict that was painted over, mistakes by band and lean, second attempts', async () => {
    await page.focus('#example');
    await page.keyboard.press('Enter');
    await until('the report', () => page.$('.boards'));
    const report = await page.$eval('#report', (element) => (element as HTMLElement).innerText);
    const rows = await page.$$eval('.boards tbody tr:not(.whole)', (all) =>
      all.map((row) => [...row.children].slice(0, 3).map((cell) => cell.firstChild!.textContent)),
    );
    // Which mixes were laid where is written down in the files; by hand, each wrong one crosses one of the next bucket.
    expect(rows).toEqual([
      ['Student 1', '1', '2 of 11'], // slate (44) over blue ash (41); sage (60) under moss grey (63)
      ['Student 1', '2', 'none'],
      ['Student 2', '1', '3 of 12'], // slate (44) over rainy day (39); peat (26) under slate; sage (60) under olive (64)
      ['Student 2', '2', '1 of 12'], // peat (26) under plum (32)
      ['Student 3', '1', 'none'],
      ['Student 4', '1', '2 of 10'], // sage (60) and rain (62) under lichen (65)
      ['Student 5', '1', '2 of 11'], // slate (44) over steel (38); shell (73) over linen (70)
      ['Student 6', '1', 'none'], // puddle is wet: not sure
    ]);
    expect(report).toContain('The file says of “slate” “fits”; judged here it is too light.');
    expect(report).toContain('“puddle” in light: not sure.');
    expect(report).toContain('In dark, swatches that lean blue are too light');
    expect(report).toContain('3 swatches of 3 students');
    expect(report).toContain(
      '2 students handed in again: 2 got better. 5 swatches were out of place at first, 1 at last.',
    );
    expect(report).toContain('Put right: slate, sage; wrong still: peat.');
    expect(report).not.toContain('could not be read');
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('a board is looked at whole, by keyboard', async () => {
    const button = (await page.$('[aria-controls="board-0-0"]'))!;
    await button.focus();
    await page.keyboard.press('Enter');
    await until('the board', () => page.$('#board-0-0 swatch-bucket-board >>> .verdict'));
    expect(await button.evaluate((element) => element.getAttribute('aria-expanded'))).toBe('true');
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.keyboard.press('Enter');
    expect(await page.$eval('#board-0-0', (element) => (element as HTMLElement).hidden)).toBe(true);
  });

  it('prints: colours stay, choices go', async () => {
    await page.emulateMediaType('print');
    const shown = await page.evaluate(() => ({
      intake: getComputedStyle(document.querySelector('.intake')!).display,
      adjust: getComputedStyle(document.querySelector('.lying')!).printColorAdjust,
      over: document.documentElement.scrollWidth - innerWidth,
    }));
    expect(shown).toEqual({ intake: 'none', adjust: 'exact', over: 0 });
    await page.emulateMediaType('screen');
    await page.close();
  });

  it('files that cannot be read are listed with reasons, the rest is shown', async () => {
    page = await open('marking', 360);
    const right = example('student-3-1.json');
    const files = [
      put('cut.json', JSON.stringify(right).slice(0, 200)),
      put('notes.txt', 'not a board'),
      put('other.json', JSON.stringify({ ...right, schema: 9, attempt: 0 })),
      put(
        'proto.json',
        JSON.stringify(right).replace('"schema":1', '"schema":1,"__proto__":{"x":1}'),
      ),
      put('huge.json', ' '.repeat(4_000_001)),
      put('bad-lesson.json', JSON.stringify({ schema: 1, task: '', title: 'x', bands: [] })),
      put(
        'script.json',
        JSON.stringify({
          ...right,
          student: '<script>alert(1)</script>',
          made: '2026-99-02T00:00:00Z',
        }),
      ),
      put(
        'hostile.json',
        JSON.stringify({
          ...right,
          student: '<svg onload=alert(2)>',
          verdict: { swatches: [{ id: '<b>', verdict: '<i>' }] },
          board: {
            ...right.board,
            swatches: right.board.swatches.map((each) => ({
              ...each,
              name: '<u>ink</u>',
              css: 'url(https://x.example/a.png)',
            })),
          },
        }),
      ),
      join(submissions, 'student-3-1.json'),
    ];
    const told = await choose(page, ...files);
    expect(told).toContain('Student 3');
    expect(told).toContain('<svg onload=alert(2)>');
    expect(told).toContain('Boards without their lesson');
    for (const line of [
      'cut.json',
      'The file is no JSON text; it may be cut short.',
      'notes.txt',
      'it is no JSON file.',
      '$.schema is 9; it should be 1.',
      '$.attempt is 0; it should be at least 1 and at most 1000.',
      'forbidden key',
      'it is larger than 4 MB.',
      'bad-lesson.json',
      '$.made should be',
    ])
      expect(told).toContain(line);
    expect(await page.$$('#report :is(script, i, u, img)')).toHaveLength(0);
    expect(await page.$$('.bad > li')).toHaveLength(7);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('a folder is read with all that lies in it, hidden files aside', async () => {
    const inner = join(folder, 'class', 'inner');
    mkdirSync(inner, { recursive: true });
    for (const name of ['lesson.json', 'student-1-1.json'])
      copyFileSync(join(submissions, name), join(folder, 'class', name));
    copyFileSync(join(submissions, 'student-3-1.json'), join(inner, 'student-3-1.json'));
    writeFileSync(join(folder, 'class', '.hidden'), 'x');
    await page.$eval('#report', (element) => element.replaceChildren());
    const input = (await page.$('#folder')) as ElementHandle<HTMLInputElement>;
    await input.uploadFile(join(folder, 'class'));
    await until('the report', () => page.$('.boards'));
    expect(await page.$eval('#status', (element) => element.textContent)).toBe(
      '2 students handed in 2 boards.',
    );
    expect(await page.$eval('#verdicts', (element) => element.textContent)).toBe(
      'Greys that hold their place',
    );
  });

  it('files may be dropped', async () => {
    await page.$eval('#report', (element) => element.replaceChildren());
    const text = readFileSync(join(submissions, 'student-4-1.json'), 'utf8');
    await page.evaluate((content) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([content], 'dropped.json', { type: 'application/json' }));
      const drop = document.querySelector('#drop')!;
      for (const type of ['dragover', 'drop'])
        drop.dispatchEvent(new DragEvent(type, { dataTransfer, cancelable: true }));
    }, text);
    await until('the report', () => page.$('.boards'));
    expect(await page.$eval('#status', (element) => element.textContent)).toBe(
      '1 student handed in 1 board.',
    );
  });

  it('nothing readable at all', async () => {
    const told = await choose(page, put('only.json', '{}'));
    expect(told).toContain('could not be read');
    expect(await page.$eval('#status', (element) => element.textContent)).toBe(
      'No board could be read. 1 file could not be read; see the end of the report.',
    );
    await page.close();
  });

  it('asks nobody but its own server, and logs no fault', () => {
    expect([...asked].filter((each) => each !== origin && !/^(blob|data|null)/.test(each))).toEqual(
      [],
    );
    expect(faults).toEqual([]);
  });

  it('the invented submissions are sound, and there are no others', () => {
    const names = readdirSync(submissions).filter((name) => name !== 'lesson.json');
    expect(names).toHaveLength(8);
    for (const name of names) {
      const { student, attempt } = parseSubmission(readFileSync(join(submissions, name), 'utf8'));
      expect(`${student!.toLowerCase().replace(' ', '-')}-${attempt}.json`).toBe(name);
    }
  });
});
