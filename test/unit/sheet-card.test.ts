import { describe, expect, it } from 'vitest';
import { CARD_CODES, certifyCard, readSheet, type CardReading } from '../../core/swatch/index.js';
import { photograph } from '../synthetic/camera.js';
import { paintedSheet } from '../synthetic/sheet.js';
import { usualCamera } from '../synthetic/standard-sheet.js';

const strip = (...greys: (number | Partial<CardReading['swatches'][number]>)[]): CardReading => ({
  swatches: greys.map((grey) => ({
    lab: [typeof grey === 'number' ? grey : 50, 0, 0],
    spread: 0.4,
    uncertainty: 0.3,
    ...(typeof grey === 'number' ? {} : grey),
  })),
});

describe('the value card', () => {
  it('is certified when each limit has a grey that surely fits', () => {
    const verdict = certifyCard(strip(34.2, 58.9, 74.1), [35, 58, 75]);
    expect(verdict.certified).toBe(true);
    expect(verdict.repaint).toEqual([]);
    expect(verdict.reasons).toEqual([]);
    expect(verdict.steps.map(({ swatch, verdict: said }) => [swatch, said])).toEqual([
      [0, 'fits'],
      [1, 'fits'],
      [2, 'fits'],
    ]);
    expect(verdict.steps[1].reasons).toEqual([
      { code: 'card.fits', values: { limit: 58, lightness: 58.9, off: 0.9 } },
    ]);
  });

  it('says which grey to paint anew, which way and how far', () => {
    const { certified, steps, repaint } = certifyCard(strip(30, 58, 80), [35, 58, 75]);
    expect(certified).toBe(false);
    expect(repaint).toEqual([35, 75]);
    expect(steps[0].verdict).toBe('too-dark');
    expect(steps[0].reasons[0]).toEqual({
      code: 'card.too-dark',
      values: { limit: 35, lightness: 30, by: 5 },
    });
    expect(steps[2].verdict).toBe('too-light');
  });

  it('pairs by lightness whatever the order, and says when the strip is out of order', () => {
    const fallen = certifyCard(strip(75, 58, 35), [35, 58, 75]);
    expect(fallen.certified).toBe(true);
    expect(fallen.reasons).toEqual([]);
    expect(fallen.steps.map(({ swatch }) => swatch)).toEqual([2, 1, 0]);
    const mixed = certifyCard(strip(58, 75, 35), [35, 58, 75]);
    expect(mixed.certified).toBe(true);
    expect(mixed.reasons.map(({ code }) => code)).toEqual(['card.order']);
  });

  it('tells a missing grey from one that is off, and counts what belongs to no limit', () => {
    const { steps, repaint, reasons } = certifyCard(strip(31, 71, 92), [30, 50, 70]);
    expect(steps.map(({ verdict }) => verdict)).toEqual(['fits', 'missing', 'fits']);
    expect(steps[1]).not.toHaveProperty('swatch');
    expect(repaint).toEqual([50]);
    expect(reasons).toEqual([{ code: 'card.extra', values: { count: 1 } }]);
  });

  it('is unsure where the reading is', () => {
    const { certified, steps, repaint } = certifyCard(
      strip({ lab: [51, 0, 0], uncertainty: 1.5 }),
      [50],
    );
    expect(certified).toBe(false);
    expect(steps[0].verdict).toBe('unsure');
    expect(repaint).toEqual([]);
  });

  it('tells colour and blotches, which mislead the eye', () => {
    const { steps } = certifyCard(strip({ lab: [50, 0, -12], spread: 4 }), [50]);
    expect(steps[0].verdict).toBe('fits');
    expect(steps[0].reasons.map(({ code }) => code)).toEqual([
      'card.fits',
      'card.coloured',
      'card.blotchy',
    ]);
  });

  it('takes empty lists and refuses wrong ones', () => {
    expect(certifyCard(strip(), [50]).steps[0].verdict).toBe('missing');
    expect(certifyCard(strip(40), []).certified).toBe(false);
    expect(() => certifyCard(strip(40), [50, 30])).toThrow(RangeError);
    expect(() => certifyCard(strip(40), [50], { tolerance: 0 })).toThrow(/options\.tolerance/);
    expect(() => certifyCard({} as never, [50])).toThrow(TypeError);
  });

  it('uses its published codes only', () => {
    const said = certifyCard(strip(10, 49, 53.5, 90), [30, 50, 55]);
    for (const { code } of [...said.reasons, ...said.steps.flatMap(({ reasons }) => reasons)])
      expect(CARD_CODES).toContain(code);
  });
});

describe('a painted strip under a phone', () => {
  // Greys that touch one another, with holes punched through to a dark table; true L* as painted.
  const greys = [24, 36, 47, 58, 69, 80];
  const sheet = paintedSheet({
    width: 1000,
    height: 714,
    paper: [95, 0, 0],
    seed: 3,
    dabs: [
      ...greys.map((L, i) => ({
        at: [0.2 + 0.12 * i, 0.5] as [number, number],
        radius: [0.06, 0.12] as [number, number],
        lab: [L, 0, 0] as [number, number, number],
        rectangle: true,
        grain: 0.03,
      })),
      ...greys.map((_, i) => ({
        at: [0.2 + 0.12 * i, 0.45] as [number, number],
        radius: [0.012, 0.017] as [number, number],
        lab: [15, 4, 6] as [number, number, number],
      })),
    ],
  });
  const reading = readSheet(photograph(sheet, usualCamera(5, 1000, 750)));

  it('each grey is read though they touch', () => {
    expect(reading.swatches).toHaveLength(greys.length);
    reading.swatches.forEach(({ lab, column }, i) => {
      expect(Math.abs(lab[0] - greys[i])).toBeLessThan(0.7);
      expect(column).toBe(i);
    });
  });

  it('is certified for the plan it was painted for, and not for another', () => {
    expect(certifyCard(reading, [36, 58, 80]).certified).toBe(true);
    const other = certifyCard(reading, [36, 52, 80]);
    expect(other.certified).toBe(false);
    expect(other.repaint).toEqual([52]);
  });
});
