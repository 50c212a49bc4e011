import { readFileSync } from 'node:fs';
import { converter, differenceCiede2000, formatHex, parse, type Lab65 } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lab } from '../../core/base/types.js';
import {
  byteOfLinear,
  cssOfLab,
  deltaE2000,
  helmholtzKohlrausch,
  labOf,
  labOfHex,
  labOfLinear,
  labOfName,
  labOfSrgb,
  labOfXyz,
  lchOf,
  leanOf,
  lightnessOf,
  lightnessOfLuminance,
  lightnessOfMunsell,
  LINEAR_OF_SRGB,
  LUMINANCE_OF_RGB,
  luminanceOfLightness,
  munsellValue,
  srgbOfLinear,
  xyzOfLab,
  type LeanName,
} from '../../core/colour/index.js';

function reference<T>(name: string): T {
  return JSON.parse(readFileSync(new URL(`../reference/${name}`, import.meta.url), 'utf8')) as T;
}

const culoriLab = converter('lab65');
const culoriXyz = converter('xyz65');

function expectNear(found: readonly number[], wanted: readonly number[], digits: number): void {
  found.forEach((v, i) => expect(v).toBeCloseTo(wanted[i], digits));
}

const byte = fc.integer({ min: 0, max: 255 });

describe('the sRGB tables (IEC 61966-2-1)', () => {
  it('values of the standard: ends, the knee at 0.04045, code 128', () => {
    expect(LINEAR_OF_SRGB[0]).toBe(0);
    expect(LINEAR_OF_SRGB[255]).toBe(1);
    expect(LINEAR_OF_SRGB[10]).toBeCloseTo(10 / 255 / 12.92, 15);
    // 128: ((128/255 + 0.055) / 1.055)^2.4 = 0.2158605001
    expect(LINEAR_OF_SRGB[128]).toBeCloseTo(0.2158605001, 9);
    expect(LUMINANCE_OF_RGB.reduce((a, b) => a + b)).toBeCloseTo(1, 14);
  });

  it('every byte comes back', () => {
    for (let b = 0; b <= 255; b++) expect(byteOfLinear(LINEAR_OF_SRGB[b])).toBe(b);
    expect(byteOfLinear(-1)).toBe(0);
    expect(byteOfLinear(2)).toBe(255);
    expect(byteOfLinear(NaN)).toBe(0);
    expect(srgbOfLinear(-0.5)).toBe(-srgbOfLinear(0.5));
  });
});

describe('lightness', () => {
  it('constants of CIE 15: 903.3 below 0.008856, cube root above', () => {
    expect(lightnessOfLuminance(0)).toBe(0);
    expect(lightnessOfLuminance(1)).toBe(100);
    expect(lightnessOfLuminance(216 / 24389)).toBeCloseTo(8, 12);
    // the perceptual middle grey of 18.4 %: 116 x 0.184^(1/3) - 16 = 49.98
    expect(lightnessOfLuminance(0.184)).toBeCloseTo(49.979, 2);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (L) => {
        expect(lightnessOfLuminance(luminanceOfLightness(L))).toBeCloseTo(L, 10);
      }),
    );
    expect(() => lightnessOfLuminance(-0.1)).toThrow(/luminance is -0.1/);
    expect(() => luminanceOfLightness(NaN)).toThrow(RangeError);
  });

  it('white is 100, black is 0, one grey by hand', () => {
    expect(lightnessOf('white')).toBeCloseTo(100, 10);
    expect(lightnessOf('#000')).toBe(0);
    // #808080: Y = 0.2158605001, 116 Y^(1/3) - 16 = 53.585
    expect(lightnessOf('#808080')).toBeCloseTo(53.585, 3);
  });

  const written = [
    'red',
    'RebeccaPurple',
    '#7a5c3e',
    '#abc',
    'rgb(122 92 62)',
    'rgba(122, 92, 62, 1)',
    'rgb(48% 36% 24%)',
    'hsl(30deg 33% 36%)',
    'hsla(200, 80%, 40%, 1)',
    'hwb(200 20% 30%)',
    'lab(52% 40 -30)',
    'lch(52% 50 200)',
    'oklab(0.6 0.1 -0.1)',
    'oklch(60% 0.15 40)',
    'color(srgb 0.2 0.4 0.6)',
    'color(srgb-linear 0.2 0.4 0.6)',
    'color(display-p3 0.2 0.8 0.1)',
    'color(a98-rgb 0.2 0.8 0.1)',
    'color(prophoto-rgb 0.2 0.6 0.3)',
    'color(rec2020 0.3 0.6 0.1)',
    'color(xyz 0.3 0.4 0.2)',
    'color(xyz-d50 0.3 0.4 0.2)',
    'color(xyz-d65 0.3 0.4 0.2)',
    'lab(50 none none)',
    'color(srgb none 0.5 0.5)',
    '  tan  ',
  ];
  it.each(written)('agrees with culori on %s', (css) => {
    const wanted = culoriLab(css.trim()) as Lab65;
    expectNear(labOf(css), [wanted.l, wanted.a ?? 0, wanted.b ?? 0], 6);
    expect(lightnessOf(css)).toBeCloseTo(wanted.l, 6);
  });

  it('agrees with culori on any 8-bit colour', () => {
    fc.assert(
      fc.property(byte, byte, byte, (r, g, b) => {
        const wanted = culoriLab({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
        expectNear(labOfSrgb(r, g, b), [wanted.l, wanted.a, wanted.b], 9);
        expectNear(labOf(`rgb(${r} ${g} ${b})`), [wanted.l, wanted.a, wanted.b], 9);
      }),
    );
  });

  it('agrees with colorjs.io 0.7.1 on sRGB and Display-P3', () => {
    const data = reference<{
      lab: [string, Lab][];
      p3: { p3: number[]; lab_d65: number[] }[];
    }>('colours.json');
    expect(data.lab.length).toBe(20);
    for (const [hex, lab] of data.lab) expectNear(labOf(hex), lab, 9);
    for (const { p3, lab_d65: lab } of data.p3) {
      expectNear(labOf(`color(display-p3 ${p3.join(' ')})`), lab, 6);
    }
  });

  it('lays alpha over white in linear light', () => {
    // half of black over white is Y = 0.5: 116 x 0.5^(1/3) - 16 = 76.069
    expect(lightnessOf('rgb(0 0 0 / 50%)')).toBeCloseTo(76.069, 3);
    expect(lightnessOf('transparent')).toBeCloseTo(100, 10);
    expect(labOf('rgb(255 0 0 / 0)')[1]).toBeCloseTo(0, 9);
    const y = culoriXyz('teal')!.y;
    expect(lightnessOf('rgb(0 128 128 / 25%)')).toBeCloseTo(
      116 * Math.cbrt(0.25 * y + 0.75) - 16,
      6,
    );
  });

  it('names a string that is no colour', () => {
    for (const css of [
      '',
      'beigish',
      'fff',
      '123',
      'rgb(1 2)',
      '#12345',
      'constructor',
      'currentcolor',
    ]) {
      expect(() => lightnessOf(css)).toThrow(RangeError);
    }
    expect(() => lightnessOf('beigish')).toThrow(/css is "beigish"/);
    expect(() => labOf(7 as unknown as string)).toThrow(TypeError);
  });
});

describe('Lab', () => {
  it('XYZ and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        (L, a, b) => expectNear(labOfXyz(xyzOfLab([L, a, b])), [L, a, b], 8),
      ),
    );
  });

  it('a colour sRGB can show comes back as it was', () => {
    fc.assert(
      fc.property(byte, byte, byte, (r, g, b) => {
        const hex = formatHex({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
        expect(cssOfLab(labOfSrgb(r, g, b))).toEqual({ css: hex, outOfGamut: false });
      }),
    );
  });

  it('a colour sRGB cannot show keeps its lightness and hue and says so', () => {
    for (const css of [
      'color(display-p3 0 1 0)',
      'color(display-p3 1 0 0)',
      'color(rec2020 0 0 1)',
      'lab(60 90 -80)',
    ]) {
      const lab = labOf(css);
      const shown = cssOfLab(lab);
      expect(shown.outOfGamut).toBe(true);
      const back = culoriLab(shown.css) as Lab65;
      expect(Math.abs(back.l - lab[0])).toBeLessThan(0.4);
      const hue = (Math.atan2(back.b, back.a) * 180) / Math.PI;
      const wanted = (Math.atan2(lab[2], lab[1]) * 180) / Math.PI;
      expect(Math.abs(hue - wanted)).toBeLessThan(1.5);
      expect(Math.hypot(back.a, back.b)).toBeLessThan(Math.hypot(lab[1], lab[2]));
    }
    expect(cssOfLab([120, 0, 0])).toEqual({ css: '#ffffff', outOfGamut: true });
    expect(cssOfLab([-5, 0, 0])).toEqual({ css: '#000000', outOfGamut: true });
    expect(cssOfLab([100, 0, 0])).toEqual({ css: '#ffffff', outOfGamut: false });
  });

  it('hue and chroma', () => {
    expect(lchOf([50, 0, 0])).toEqual({ L: 50, C: 0, h: 0 });
    expect(lchOf([50, 3, 4]).C).toBe(5);
    expect(lchOf([50, 0, -10]).h).toBe(270);
    expect(lchOf([50, -10, 0]).h).toBe(180);
  });

  it('refuses what is no Lab or no byte', () => {
    expect(() => cssOfLab([50, 0] as unknown as Lab)).toThrow(TypeError);
    expect(() => lchOf([50, NaN, 0])).toThrow(/lab\[1\] is NaN/);
    expect(() => labOfSrgb(256, 0, 0)).toThrow(/r is 256/);
    expect(() => labOfSrgb(0, 0.5, 0)).toThrow(RangeError);
    expectNear(labOfLinear(1, 1, 1), [100, 0, 0], 9);
  });
});

describe('CIEDE2000', () => {
  it('the 34 pairs of Sharma, Wu & Dalal 2005', () => {
    const { pairs } = reference<{ pairs: number[][] }>('ciede2000.json');
    expect(pairs.length).toBe(34);
    pairs.forEach(([L1, a1, b1, L2, a2, b2, wanted], i) => {
      const found = deltaE2000([L1, a1, b1], [L2, a2, b2]);
      // the table prints four decimals
      expect(Math.abs(found - wanted), `pair ${i + 1}`).toBeLessThan(0.5e-4 + 1e-9);
      expect(Math.abs(deltaE2000([L2, a2, b2], [L1, a1, b1]) - wanted)).toBeLessThan(0.5e-4 + 1e-9);
    });
  });

  it('agrees with culori, is symmetric, is 0 for the same', () => {
    const wanted = differenceCiede2000();
    fc.assert(
      fc.property(byte, byte, byte, byte, byte, byte, (r, g, b, R, G, B) => {
        const one = labOfSrgb(r, g, b);
        const two = labOfSrgb(R, G, B);
        const found = deltaE2000(one, two);
        expect(found).toBeCloseTo(
          wanted(
            { mode: 'lab65', l: one[0], a: one[1], b: one[2] },
            { mode: 'lab65', l: two[0], a: two[1], b: two[2] },
          ),
          8,
        );
        expect(deltaE2000(two, one)).toBeCloseTo(found, 8);
        expect(deltaE2000(one, one)).toBe(0);
      }),
    );
  });

  it('refuses what is no Lab, naming it', () => {
    expect(() => deltaE2000([50, 0, 0], [50, Infinity, 0])).toThrow(/b\[1\] is Infinity/);
    expect(() => deltaE2000('x' as unknown as Lab, [50, 0, 0])).toThrow(/a is "x"/);
  });
});

describe('Munsell value (ASTM D1535)', () => {
  const { rows } = reference<{ rows: [V: number, Y: number, L: number][] }>('munsell-value.json');

  it('the table, both ways', () => {
    expect(rows.length).toBe(21);
    for (const [V, Y, L] of rows) {
      // Y and L* are printed with six decimals
      expect(munsellValue(L)).toBeCloseTo(V, 5);
      expect(lightnessOfMunsell(V)).toBeCloseTo(L, 5);
      expect(munsellValue(lightnessOfLuminance(Y / 100))).toBeCloseTo(V, 5);
    }
  });

  it('is exact at the ends, rises, and comes back', () => {
    expect(munsellValue(0)).toBe(0);
    expect(munsellValue(100)).toBe(10);
    let before = -1;
    for (let i = 0; i <= 1000; i++) {
      const value = munsellValue(i / 10);
      expect(value).toBeGreaterThan(before);
      expect(lightnessOfMunsell(value)).toBeCloseTo(i / 10, 9);
      before = value;
    }
  });

  it('names of the npm package munsell 1.1.6 for sRGB greys', () => {
    // greys only: the package adapts to illuminant C first, which moves the Y of a strong colour
    const { munsell } = reference<{ munsell: [string, string][] }>('colours.json');
    const greys = munsell.filter(([, name]) => name.startsWith('N '));
    expect(greys.length).toBe(7);
    for (const [hex, name] of greys) {
      expect(munsellValue(lightnessOf(hex)).toFixed(1), hex).toBe(name.slice(2));
    }
  });

  it('takes white and black of any conversion', () => {
    expect(munsellValue(labOf('white')[0])).toBeCloseTo(10, 9);
    expect(munsellValue(100 + 1e-9)).toBe(10);
    expect(munsellValue(-1e-9)).toBe(0);
  });

  it('refuses what is no lightness or value', () => {
    expect(() => munsellValue(-1)).toThrow(/lightness is -1/);
    expect(() => munsellValue(100.5)).toThrow(RangeError);
    expect(() => munsellValue(undefined as unknown as number)).toThrow(TypeError);
    expect(() => lightnessOfMunsell(11)).toThrow(/value is 11/);
  });
});

describe('how light a colour seems (Fairchild & Pirrotta 1991)', () => {
  it('by hand', () => {
    // L* 50, C* 60, h 0: 2.5 - 1.25 = 1.25; |sin(-45)| = 0.707107; 0.116 x 0.707107 + 0.085 =
    // 0.167024; 1.25 x 0.167024 x 60 = 12.5268
    expect(helmholtzKohlrausch([50, 60, 0])).toBeCloseTo(62.5268, 3);
    // L* 80, C* 50, h 90 (yellow): 0.5 x 0.085 x 50 = 2.125
    expect(helmholtzKohlrausch([80, 0, 50])).toBeCloseTo(82.125, 9);
    // L* 30, C* 40, h 270 (blue): 1.75 x (0.116 + 0.085) x 40 = 14.07
    expect(helmholtzKohlrausch([30, 0, -40])).toBeCloseTo(44.07, 9);
  });

  it('a grey keeps its lightness; no colour seems darker than it is', () => {
    expect(helmholtzKohlrausch([42, 0, 0])).toBe(42);
    fc.assert(
      fc.property(byte, byte, byte, (r, g, b) => {
        const lab = labOfSrgb(r, g, b);
        expect(helmholtzKohlrausch(lab)).toBeGreaterThanOrEqual(lab[0] - 1e-9);
      }),
    );
  });
});

describe('lean', () => {
  const words: [string, LeanName][] = [
    ['red', 'red'],
    ['crimson', 'red'],
    ['firebrick', 'red'],
    ['orange', 'orange'],
    ['darkorange', 'orange'],
    ['yellow', 'yellow'],
    ['yellowgreen', 'yellow-green'],
    ['green', 'green'],
    ['seagreen', 'green'],
    ['cyan', 'blue-green'],
    ['teal', 'blue-green'],
    ['blue', 'blue'],
    ['navy', 'blue'],
    ['steelblue', 'blue'],
    ['violet', 'violet'],
    ['purple', 'violet'],
    ['blueviolet', 'violet'],
    ['mediumvioletred', 'red-violet'],
    ['grey', 'neutral'],
    ['white', 'neutral'],
    ['black', 'neutral'],
  ];
  it.each(words)('the CSS word %s leans to %s', (css, name) => {
    expect(leanOf(labOf(css)).name).toBe(name);
  });

  it('agrees with the hue families of Munsell names (npm munsell 1.1.6)', () => {
    // GY and Y are left out: the two in the list stand on the border of two families (10GY, 1GY,
    // 1Y)
    const families: Record<string, LeanName> = {
      R: 'red',
      YR: 'orange',
      G: 'green',
      BG: 'blue-green',
      PB: 'blue',
      P: 'violet',
    };
    const { munsell } = reference<{ munsell: [string, string][] }>('colours.json');
    let compared = 0;
    for (const [hex, name] of munsell) {
      const family = /^\d+([A-Z]+)/.exec(name)?.[1] ?? '';
      if (!(family in families)) continue;
      compared++;
      expect(leanOf(labOf(hex)).name, `${hex} ${name}`).toBe(families[family]);
    }
    expect(compared).toBeGreaterThanOrEqual(9);
  });

  it('a grey with a trace of colour is neutral, with a little more it leans', () => {
    expect(leanOf([60, 1, 1]).name).toBe('neutral');
    expect(leanOf([60, 0, -6])).toEqual({ hue: 270, chroma: 6, name: 'blue' });
  });
});

describe('trade facts', () => {
  // Common practice, no source: at equal strength oranges and yellows fall toward light, reds and
  // fresh greens to the middle, deep blues toward dark. The colours are CSS words of full strength,
  // in thirds of L*, chosen beforehand.
  const thirds = (css: string): string => {
    const L = lightnessOf(css);
    return L < 100 / 3 ? 'dark' : L < 200 / 3 ? 'middle' : 'light';
  };
  it.each(['yellow', 'gold', 'orange', 'darkorange'])('%s falls toward light', (css) => {
    expect(thirds(css)).toBe('light');
  });
  it.each(['red', 'crimson', 'forestgreen', 'seagreen'])('%s falls to the middle', (css) => {
    expect(thirds(css)).toBe('middle');
  });
  it.each(['blue', 'mediumblue', 'navy', 'midnightblue'])('%s falls toward dark', (css) => {
    expect(thirds(css)).toBe('dark');
  });
  it('culori reads each of these words', () => {
    for (const css of ['yellow', 'red', 'blue']) expect(parse(css)).toBeDefined();
  });
});

describe('colours written #rgb and #rrggbb', () => {
  it('are those of culori', () => {
    for (const css of ['#000', '#fff', '#8a6f5c', ' #ABCDEF ', '#0a0', '#123', '#7a5c3e']) {
      const { l, a, b } = culoriLab(css.trim())!;
      labOfHex(css)!.forEach((figure, i) => expect(figure, css).toBeCloseTo([l, a, b][i], 6));
    }
  });

  it('are all that is read', () => {
    for (const css of ['', 'tan', '#12', '#12345', '#1234567', '#ffff', '#ggg', 'x#fff', '#fff;'])
      expect(labOfHex(css), css).toBeUndefined();
  });
});

it('names of colours are those of culori', () => {
  for (const css of ['tan', 'rebeccapurple', 'White', ' gold ']) {
    const { l, a, b } = culoriLab(css.trim().toLowerCase())!;
    labOfName(css)!.forEach((figure, i) => expect(figure, css).toBeCloseTo([l, a, b][i], 6));
  }
  for (const css of ['', 'mud', 'transparent', 'toString', '#fff'])
    expect(labOfName(css), css).toBeUndefined();
});
