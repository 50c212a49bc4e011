import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ENGLISH } from '../../components/shared/words/index.js';
import { outlinesOf } from '../../core/mass/index.js';
import {
  newPlan,
  planSheet,
  planSheets,
  SHEET_SIZES,
  SHEET_STRINGS,
  TILE_OVERLAP_MM,
  type Plan,
} from '../../core/plan/index.js';
import { escaped } from '../../core/base/svg.js';
import { bordersOf, hatchOf, hatchPath, wrapped, widthOf } from '../../core/plan/sheet-draw.js';
import { anyWork, edge, massesFrom, pairsIn, planOf } from './order-masses.js';

const masses = massesFrom(
  ['1112221112', '1012231012', '1112221113', '1112221113'],
  [{ x: 8, y: 1, area: 0.5, band: 3, contrast: 60, region: 0 }],
);
const plan = (part: Partial<Plan> = {}): Plan =>
  planOf(3, true, { paper: { widthMm: 150, heightMm: 60, lightness: 95 }, ...part });

/** The attributes of the first element that has one of a value. */
const elementWith = (page: string, attribute: string): Record<string, string> => {
  const found = new RegExp(`<[a-zA-Z]+[^>]*${attribute}[^>]*>`).exec(page)?.[0] ?? '';
  return Object.fromEntries(
    [...found.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key, value]),
  );
};
/** What stands between the tags of texts. */
const texts = (page: string): string[] =>
  [...page.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, words]) => words);
/** The frame of the picture. */
const frameOf = (page: string): { x: number; y: number; width: number; height: number } => {
  const { x, y, width, height } = elementWith(page, 'id="page-\\d+-frame"');
  return { x: Number(x), y: Number(y), width: Number(width), height: Number(height) };
};

describe('the sheet', () => {
  // Sizes of paper: ISO 216, ANSI/ASME Y14.1 (8.5 x 11 in of 25.4 mm).
  it.each([
    ['A4' as const, 210, 297],
    ['letter' as const, 8.5 * 25.4, 11 * 25.4],
  ])('is of the size of %s, in mm', (paper, width, height) => {
    const page = planSheet(plan(), masses, { paper });
    const svg = elementWith(page, 'viewBox');
    expect(parseFloat(svg.width)).toBeCloseTo(width, 9);
    expect(parseFloat(svg.height)).toBeCloseTo(height, 9);
    expect([svg.width, svg.height].every((each) => each.endsWith('mm'))).toBe(true);
    expect(svg.viewBox.split(' ').map(Number)).toEqual(
      [0, 0, width, height].map((v) => expect.closeTo(v, 9)),
    );
    expect(SHEET_SIZES[paper][0]).toBeCloseTo(width, 9);
    expect(planSheet(plan(), masses)).toBe(planSheet(plan(), masses, { paper: 'A4' }));
  });

  it('shows the painting at true size where it fits, else reduced and says so', () => {
    // 10 x 4 pixels on 150 mm: 150 x 60 mm.
    const page = planSheet(plan(), masses);
    expect(frameOf(page)).toMatchObject({ width: 150, height: 60 });
    expect(texts(page)).toContain(SHEET_STRINGS['page.scale-true']);
    const large = planSheet(
      plan({ paper: { widthMm: 380, heightMm: 152, lightness: 95 } }),
      masses,
    );
    // 190 mm lie between the margins of A4: half the size.
    expect(frameOf(large)).toMatchObject({ width: 190, height: 76 });
    expect(texts(large).join()).toContain('1 mm here is 2 mm');
  });

  it('has a line of 100 mm on every page', () => {
    for (const page of planSheets(newPlan(), masses))
      expect(page).toMatch(/id="page-\d+-rule" d="M10 [\d.]+h100M/);
  });

  it('is told in words: bands, values, order, cautions, marks', () => {
    const words = texts(planSheet(plan(), masses)).join('\n');
    for (const each of ['dark', 'middle', 'light', 'Order of work', 'Cautions', 'bare paper'])
      expect(words).toContain(each);
    expect(words).toContain('Lay “dark”, the darkest part');
    expect(words).toContain('1 light, 12 mm'); // 0.5 px of 15 mm: a disc of 0.798 px across, 11.97 mm
  });

  it('calls a further page of lists by what it goes on with', () => {
    const heads = (cautions: string[], steps: Plan['steps']): string[] =>
      planSheets(plan({ title: 'Jug', steps }), masses, { cautions, order: steps })
        .map((page) => texts(page)[0])
        .filter((head) => head.startsWith('Jug ·'));
    const many = Array.from({ length: 80 }, (_, i) => `Caution ${i}: ${'mind it '.repeat(20)}`);
    const own = (count: number): Plan['steps'] =>
      Array.from(
        { length: count },
        (_, i) => ({ id: `o${i}`, kind: 'own', text: 'wait' }) as never,
      );
    expect(heads(many, own(1))[0]).toBe('Jug · continued');
    expect(heads([], own(300))[0]).toBe('Jug · Order of work, continued');
  });

  it('writes the words and numbers of another language', () => {
    const strings = { 'page.order': 'Reihenfolge', 'page.scale': 'Ein Millimeter sind {times}' };
    const words = texts(
      planSheet(plan({ paper: { widthMm: 475, heightMm: 190, lightness: 95 } }), masses, {
        strings,
        language: 'de',
      }),
    );
    expect(words).toContain('Reihenfolge');
    expect(words.join('\n')).toContain('Ein Millimeter sind 2,5');
    expect(words).toContain('Values and dabs');
  });

  it('takes titles as plain text', () => {
    const title = `<script>alert(1)</script> & "quotes" 'too'\u0000\u0007\ud800`;
    const page = planSheet(plan({ title }), masses);
    expect(page).not.toMatch(/<script/);
    expect(texts(page)[0]).toBe(
      '&#60;script&#62;alert(1)&#60;/script&#62; &#38; &#34;quotes&#34; &#39;too&#39;',
    );
  });

  it('holds no script, style, event or address, so that it serves under any policy', () => {
    const notes = { title: 'x', cautions: ['<b onclick="a()">'] };
    for (const page of planSheets(plan(), masses, { ...notes, squaresMm: 20 })) {
      expect(page).not.toMatch(
        /<script|<style|\sstyle=|<[^>]* on[a-z]+=|href|<foreignObject|<image/i,
      );
      expect([...page.matchAll(/url\(([^)]*)\)/g)].every(([, to]) => to.startsWith('#'))).toBe(
        true,
      );
    }
  });

  it('names what is wrong with its arguments', () => {
    expect(() => planSheet(plan(), masses, { paper: 'A5' as never })).toThrow(
      /^options\.paper is "A5"/,
    );
    expect(() => planSheet(plan(), masses, { squaresMm: 1 })).toThrow(/^options\.squaresMm is 1/);
    expect(() => planSheet(plan(), masses, { strings: { a: 1 as never } })).toThrow(
      /strings\.a is 1/,
    );
    expect(() => planSheet(plan(), null as never)).toThrow(/^masses is null/);
    expect(() => planSheet(undefined as never, masses)).toThrow(/^plan is undefined/);
  });

  it('changes nothing it is given', () => {
    const given = plan();
    const before = structuredClone({ given, masses });
    planSheets(given, masses);
    expect({ given, masses }).toEqual(before);
  });

  it('prints recipes, of tubes it does not know too', () => {
    const given = plan();
    const recipe = {
      parts: [
        { tube: 'burnt-sienna', parts: 2 },
        { tube: 'mud', parts: 1 },
      ],
      strength: 0.5,
    };
    given.board.swatches.push({ id: 's', bucket: 0, lightness: 20, recipe });
    const words = texts(
      planSheet(given, masses, { strings: { 'tube.burnt-sienna': 'gebrannte Siena' } }),
    );
    expect(words.join(' ')).toContain('2 gebrannte Siena + 1 mud');
    expect(texts(planSheet(given, masses)).join(' ')).toContain('2 Burnt sienna + 1 mud');
  });

  it('takes any masses, a single pixel too', () => {
    fc.assert(
      fc.property(anyWork, fc.constantFrom('A4' as const, 'letter' as const), (work, paper) => {
        const { edges, reserves } = work;
        const page = planSheet(work.plan, work.masses, { paper, edges, reserves });
        expect(page.startsWith('<svg ')).toBe(true);
        expect(page).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 60 },
    );
  });

  it('a long list goes on on further pages, and nothing is lost', () => {
    const steps = Array.from({ length: 120 }, (_, i) => ({
      id: `s${i}`,
      kind: 'own',
      text: `own step ${i} ${'and on '.repeat(i === 60 ? 400 : 3)}`,
    }));
    const pages = planSheets(plan(), masses, { order: steps });
    const words = pages.map(texts);
    expect(words[0]).toContain(SHEET_STRINGS['page.order-more']);
    const all = words.flat().join('\n');
    for (let i = 0; i < 120; i++) expect(all).toContain(`${i + 1} own step ${i} `);
    // 119 of 3 times "and on", one of 400, however their lines are broken.
    expect(all.replace(/\s+/g, ' ').match(/and on/g)).toHaveLength(119 * 3 + 400);
  });
});

describe('edges, reserves, choices', () => {
  const two = massesFrom(['0011', '0011']);
  const lines = (kind: 'hard' | 'soft' | 'lost'): string => {
    const page = planSheet(planOf(2, false), two, {
      edges: [edge([0, 1], kind)],
      show: { hatching: false },
    });
    return /<g id="page-1-picture">(.*?)<\/g>/s.exec(page)![1];
  };

  it('solid for hard, broken for soft, no line for lost', () => {
    const border = /<path d="M[^"]*" fill="none" stroke="#000"[^>]*>/;
    expect(border.exec(lines('hard'))![0]).not.toContain('dasharray');
    expect(border.exec(lines('soft'))![0]).toContain('stroke-dasharray');
    expect(lines('lost')).not.toMatch(border);
  });

  it('the painter’s word on an edge goes first', () => {
    const overrules = [
      {
        kind: 'edge',
        between: [
          [0.1, 0.5],
          [0.9, 0.5],
        ],
        edge: 'lost',
      },
    ];
    const page = planSheet(planOf(2, false, { overrules }), two, { edges: [edge([0, 1], 'hard')] });
    expect(texts(page)).toContain('lost edge: no line');
  });

  it('mirrors the picture and not the letters', () => {
    const left = massesFrom(['0111', '0111']);
    const border = (mirrored: boolean): string =>
      /<g id="page-1-picture"><path d="(M[^"]*)"/.exec(
        planSheet(planOf(2, false), left, {
          mirrored,
          show: { hatching: false, numbers: false },
        }),
      )![1];
    const xs = (path: string): number[] => [...path.matchAll(/[ML]([\d.]+) /g)].map(([, x]) => +x);
    // Between margins at 10 mm the picture is 190 mm wide; the border lies at a quarter.
    for (const x of xs(border(false))) expect(x).toBeCloseTo(10 + 190 / 4, 1);
    for (const x of xs(border(true))) expect(x).toBeCloseTo(10 + (3 * 190) / 4, 1);
    expect(planSheet(plan(), masses, { mirrored: true })).not.toContain('transform');
  });

  it('leaves out what is not wanted', () => {
    const with1 = planSheet(plan(), masses);
    expect(with1).toContain('clip-path="url(#page-1-band-0)"');
    const without = planSheet(plan(), masses, {
      show: { hatching: false, marks: false, reserves: false, outlines: false, numbers: false },
    });
    expect(without).not.toContain('clip-path');
    expect(texts(without)).not.toContain(SHEET_STRINGS['page.key-light-mark']);
  });

  it('draws transfer squares of the wanted size on the paper', () => {
    const page = planSheet(plan(), masses, { squaresMm: 40 });
    const path = elementWith(page, 'stroke-dasharray="0.3 0.9"').d;
    const across = [...path.matchAll(/M([\d.]+) [\d.]+v/g)].map(([, x]) => +x - 10);
    const down = [...path.matchAll(/M[\d.]+ ([\d.]+)h/g)].map(([, y]) => +y - 28);
    expect(across).toEqual([40, 80, 120].map((x) => expect.closeTo(x, 2)));
    expect(down).toEqual([expect.closeTo(40, 2)]);
  });
});

describe('parts at true size', () => {
  const sizes = fc.record({
    widthMm: fc.integer({ min: 50, max: 1200 }),
    paper: fc.constantFrom('A4' as const, 'letter' as const),
  });

  it('together show the whole painting, with the overlap told, at true size', () => {
    fc.assert(
      fc.property(sizes, ({ widthMm, paper }) => {
        const given = planOf(3, true, {
          paper: { widthMm, heightMm: 0.4 * widthMm, lightness: 95 },
        });
        const pages = planSheets(given, masses, { paper });
        const parts = pages
          .map((page) => {
            const clip =
              /<clipPath id="page-\d+-part"><rect x="([\d.-]+)" y="([\d.-]+)" width="([\d.]+)" height="([\d.]+)"/.exec(
                page,
              );
            const frame = frameOf(page);
            return clip && { clip: clip.slice(1).map(Number), frame };
          })
          .filter((part) => part !== null);
        expect(parts.length).toBeGreaterThan(0);
        // What each page shows, in mm of the painting.
        const shown = parts.map(({ clip: [x, y, width, height], frame }) => {
          expect(frame.width).toBeCloseTo(widthMm, 2);
          return [x - frame.x, y - frame.y, x + width - frame.x, y + height - frame.y];
        });
        const [right, bottom] = [widthMm, (widthMm * 4) / 10];
        const covers = (from: number, to: number, low: number, high: number, end: number): void => {
          const spans = [...new Set(shown.map((part) => `${part[low]} ${part[high]}`))]
            .map((span) => span.split(' ').map(Number))
            .sort(([a], [b]) => a - b);
          expect(spans[0][0]).toBeLessThanOrEqual(from);
          expect(spans.at(-1)![1]).toBeGreaterThanOrEqual(to - 0.01);
          for (let i = 1; i < spans.length; i++)
            expect(spans[i - 1][1] - spans[i][0]).toBeCloseTo(TILE_OVERLAP_MM + 0.3, 1);
          expect(end).toBe(to);
        };
        covers(0, right, 0, 2, right);
        covers(0, bottom, 1, 3, bottom);
      }),
      { numRuns: 25 },
    );
  });

  it('crosses are at the same places of the painting on all pages that show them', () => {
    const given = planOf(3, true, { paper: { widthMm: 560, heightMm: 380, lightness: 95 } });
    const square = massesFrom(['012', '012']);
    const pages = planSheets(given, square).slice(1);
    const spots = pages.map((page) => {
      const { x, y } = frameOf(page);
      return [...page.matchAll(/d="M([\d.]+) ([\d.]+)h6M/g)].map(
        ([, u, v]) => `${Math.round(+u + 3 - x)} ${Math.round(+v - y)}`,
      );
    });
    // Three pages across and two down: each cross is on two pages at least, each page has three at least.
    const counts = new Map<string, number>();
    for (const spot of spots.flat()) counts.set(spot, (counts.get(spot) ?? 0) + 1);
    expect(pages).toHaveLength(8);
    expect([...counts.values()].every((count) => count >= 2)).toBe(true);
    expect(spots.every((each) => each.length >= 3)).toBe(true);
  });

  it('a picture that no pile of pages has room for is refused by name', () => {
    const tall = massesFrom(Array.from({ length: 900 }, () => '0'));
    expect(() => planSheets(planOf(1, false), tall)).toThrow(/^masses\.map is "1 x 900 on 381 mm"/);
    expect(planSheet(planOf(1, false), tall)).toContain('<svg');
  });
});

describe('borders, from outlines', () => {
  it('are each drawn once, and cover all sides of pixels between two masses', () => {
    fc.assert(
      fc.property(anyWork, ({ masses: any }) => {
        const found = bordersOf(outlinesOf(any, { tolerancePx: 0 }));
        const pairs = found.map(({ regions }) => regions.join(' ')).sort();
        expect(pairs).toEqual([...new Set(pairs)]);
        expect(pairs).toEqual(
          pairsIn(any)
            .map((pair) => pair.join(' '))
            .sort(),
        );
        const sides = found.reduce(
          (sum, { lines }) =>
            sum +
            lines.reduce((all, line) => {
              for (let i = 2; i < line.length; i += 2)
                all += Math.abs(line[i] - line[i - 2]) + Math.abs(line[i + 1] - line[i - 1]);
              return all;
            }, 0),
          0,
        );
        // Counted from the labels: sides of pixels where the label changes.
        const { width } = any.map;
        let expected = 0;
        any.labels.forEach((label, i) => {
          if ((i + 1) % width !== 0 && any.labels[i + 1] !== label) expected += 1;
          if (i + width < any.labels.length && any.labels[i + width] !== label) expected += 1;
        });
        expect(sides).toBeCloseTo(expected, 6);
      }),
    );
  });
});

describe('hatching and type', () => {
  it('is the denser the darker the band, and tells bands apart', () => {
    for (let bands = 1; bands <= 6; bands++) {
      const ink = Array.from({ length: bands }, (_, band) => {
        const { gap, angles } = hatchOf(band, bands);
        return angles.length / gap;
      });
      for (let band = 1; band < bands; band++) expect(ink[band]).toBeLessThan(ink[band - 1] * 0.85);
    }
  });

  it('lines lie in their box at the distance told', () => {
    const box = { x: 3, y: 5, width: 40, height: 17 };
    for (const angle of [45, 135]) {
      const path = hatchPath(box, { gap: 2, angles: [angle] });
      const lines = [...path.matchAll(/M([\d.-]+) ([\d.-]+)L([\d.-]+) ([\d.-]+)/g)].map((m) =>
        m.slice(1).map(Number),
      );
      const across = lines.map(([x, y, u, v]) => {
        for (const px of [x, u]) expect(px >= 3 - 1e-3 && px <= 43 + 1e-3).toBe(true);
        for (const py of [y, v]) expect(py >= 5 - 1e-3 && py <= 22 + 1e-3).toBe(true);
        expect(Math.abs(Math.abs(v - y) - Math.abs(u - x))).toBeLessThan(0.01);
        return (angle === 45 ? x + y : y - x) / Math.SQRT2;
      });
      across.sort((a, b) => a - b);
      for (let i = 1; i < across.length; i++) expect(across[i] - across[i - 1]).toBeCloseTo(2, 2);
      expect(lines.length).toBe(20); // (40 + 17) / sqrt 2 / 2 = 20.15
    }
  });

  it('wraps words, cuts what is longer than a line, and loses nothing', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 200 }),
        fc.integer({ min: 10, max: 80 }),
        (words, width) => {
          const lines = wrapped(words, width, 2.5);
          for (const line of lines)
            expect(widthOf(line, 2.5) <= width || [...line].length === 1).toBe(true);
          expect(lines.join('').replace(/\s/g, '')).toBe(words.replace(/\s/g, ''));
        },
      ),
    );
  });

  it('escapes markup and drops what XML has no place for', () => {
    expect(escaped('a<b>&"\'')).toBe('a&#60;b&#62;&#38;&#34;&#39;');
    expect(escaped('\u0000\u0008\ud800x\udc00\ufffe\uffff')).toBe('x');
    expect(escaped('\u{1f58c} é\t\n\r')).toBe('\u{1f58c} é&#9;&#10;&#13;');
  });
});

describe('words of the page', () => {
  it('are the same in the core and in the elements’ table', () => {
    for (const [key, words] of Object.entries(SHEET_STRINGS))
      expect([key, ENGLISH[key]]).toEqual([key, words]);
  });

  it('are there for each kind of step and each finding', () => {
    const kinds = ['keep', 'mask', 'tint', 'ground', 'lay', 'unmask', 'marks', 'own'];
    const roles = ['darkest', 'middles', 'second-darks', 'lights'].map((role) => `lay-${role}`);
    for (const each of [...kinds, ...roles]) expect(SHEET_STRINGS).toHaveProperty([`work.${each}`]);
    // The codes are those that the order's own description lists.
    const text = readFileSync(new URL('../../core/plan/order.ts', import.meta.url), 'utf8');
    const listed = [...text.matchAll(/`(?:order)?\.((?:wait|hint|warn)-[a-z-]+)`/g)].map(
      ([, code]) => `order.${code}`,
    );
    expect(listed.length).toBeGreaterThan(15);
    expect(
      Object.keys(SHEET_STRINGS)
        .filter((key) => key.startsWith('order.'))
        .sort(),
    ).toEqual([...new Set(listed)].sort());
  });
});
