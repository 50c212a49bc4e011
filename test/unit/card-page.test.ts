/** The value card's page: sizes as read from its SVG by this test alone (CSS Values 4: lengths in mm; ISO 216 for A4; ISO 838 for the hole). */
import { describe, expect, it } from 'vitest';
import { valueCardPage } from '../../core/index.js';

const options = {
  title: 'Value card: Heron & weir',
  how: ['Fill each square with one even grey of the value under it.'],
  scale: 'This line is 100 mm long.',
};
const fields = [46, 67].map((limit) => ({
  limit,
  label: `Value ${limit / 10}`,
  note: 'dark below',
}));
const numbers = (page: string, shape: RegExp): number[][] =>
  [...page.matchAll(shape)].map((found) => found.slice(1).map(Number));

describe('the page of a value card', () => {
  it('is of the size of its paper, one unit a millimetre', () => {
    expect(valueCardPage(fields, options)).toMatch(
      /^<svg [^>]*width="210mm" height="297mm" viewBox="0 0 210 297"/,
    );
    expect(valueCardPage(fields, { ...options, paper: 'letter' })).toContain(
      'width="215.9mm" height="279.4mm"',
    );
  });

  it('has a square of 40 mm with a hole of 6 mm in its middle for each limit', () => {
    const page = valueCardPage(fields, options);
    const squares = numbers(page, /<rect x="([\d.]+)" y="([\d.]+)" width="40" height="40"/g);
    const holes = numbers(page, /<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g);
    expect(squares).toHaveLength(2);
    holes.forEach(([x, y, r], i) => {
      expect([x, y, r]).toEqual([squares[i][0] + 20, squares[i][1] + 20, 3]);
    });
    expect(page).toContain('Value 4.6');
    expect(page).toContain('Heron &#38; weir');
  });

  it('keeps all within the margins, with one limit and with eight, on both papers', () => {
    for (const paper of ['A4', 'letter'] as const)
      for (const count of [1, 4, 5, 8]) {
        const many = Array.from({ length: count }, (_, i) => ({ limit: 10 * i, label: `${i}` }));
        const page = valueCardPage(many, { ...options, paper });
        const [width, height] = paper === 'A4' ? [210, 297] : [215.9, 279.4];
        const boxes = numbers(
          page,
          /<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/g,
        );
        expect(boxes.filter(([, , w]) => w === 40)).toHaveLength(count);
        for (const [x, y, w, h] of boxes) {
          expect(x).toBeGreaterThanOrEqual(10);
          expect(x + w).toBeLessThanOrEqual(width - 10);
          expect(y + h).toBeLessThanOrEqual(height - 16);
        }
      }
  });

  it('has a line of 100 mm', () => {
    const [[from, to]] = numbers(
      valueCardPage(fields, options),
      /id="scale" d="M([\d.]+) [\d.]+V[\d.]+H([\d.]+)/g,
    );
    expect(to - from).toBe(100);
  });

  it('names a wrong argument', () => {
    expect(() => valueCardPage([], options)).toThrow(/fields/);
    expect(() => valueCardPage([{ limit: 101, label: '' }], options)).toThrow(/fields\[0\]\.limit/);
    expect(() => valueCardPage(fields, { ...options, paper: 'A3' as never })).toThrow(/paper/);
  });
});
