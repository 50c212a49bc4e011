import { describe, expect, it } from 'vitest';
import { formatHex } from 'culori';
import {
  deltaE2000,
  layerReflectance,
  lightnessOf,
  mixOnPaper,
  paperReflectance,
  spectrumToLab,
  type Lab,
} from '../../core/index.js';
import { inside, INNER_SURFACE, outside, OUTER_SURFACE } from '../../core/paint/layers.js';
import { labOfReflectance } from '../../core/paint/spectra.js';
import curtis from '../reference/curtis-1997.json' with { type: 'json' };
import tables from '../reference/kubelka-munk.json' with { type: 'json' };
import spectra from '../reference/paint-spectra.json' with { type: 'json' };
import masstones from '../reference/paint-masstones.json' with { type: 'json' };
import washes from '../reference/paint-washes.json' with { type: 'json' };
import patches from '../reference/spectrum-lab.json' with { type: 'json' };

const okumura = spectra.okumura as Record<string, { K: number[]; S: number[] }>;
const berns = spectra.berns as Record<string, { K: number[]; S: number[] }>;
const film = (K: number, S: number): number => layerReflectance(K, S, Infinity, 0);
const mean = (rows: readonly (readonly number[])[], shares: readonly number[]): number[] =>
  rows[0].map((_, i) => rows.reduce((sum, row, n) => sum + shares[n] * row[i], 0));

describe('layerReflectance', () => {
  // 40-digit arithmetic, verified by integrating the two-flux equations of Kubelka and Munk.
  it('is the finite layer of the table to 1e-11', () => {
    expect(tables.layers.length).toBeGreaterThan(50);
    for (const [K, S, x, ground, R] of tables.layers)
      expect(Math.abs(layerReflectance(K, S, x, ground) - R)).toBeLessThan(1e-11);
    for (const [K, S, x, ground, R] of tables.pairs)
      expect(Math.abs(layerReflectance(K, S, x, ground) - R)).toBeLessThan(1e-11);
  });

  it('is the opaque film of the table', () => {
    for (const [ratio, R] of tables.films) {
      expect(Math.abs(film(ratio, 1) - R)).toBeLessThan(1e-12);
      // (A layer that does not absorb never gets there.)
      if (ratio > 0)
        expect(Math.abs(layerReflectance(ratio * 3, 3, 1e7, 0.4) - R)).toBeLessThan(1e-9);
    }
  });

  it('has the limits of the theory', () => {
    // S -> 0: Lambert's law twice through the layer; K -> 0: light is only scattered (Kubelka 1948).
    for (const [K, x, ground] of [
      [0.3, 2, 0.8],
      [5, 0.1, 0.3],
      [40, 1, 0.9],
    ]) {
      const lambert = ground * Math.exp(-2 * K * x);
      expect(layerReflectance(K, 0, x, ground)).toBeCloseTo(lambert, 13);
      expect(layerReflectance(K, 1e-14, x, ground)).toBeCloseTo(lambert, 10);
      const scattered = (K * x + ground * (1 - K * x)) / (1 + K * x * (1 - ground));
      expect(layerReflectance(0, K, x, ground)).toBeCloseTo(scattered, 13);
      expect(layerReflectance(1e-16, K, x, ground)).toBeCloseTo(scattered, 10);
    }
    expect(layerReflectance(1, 1, 0, 0.7)).toBeCloseTo(0.7, 15);
    expect(layerReflectance(0, 0, 1e9, 0.7)).toBe(0.7);
    expect(layerReflectance(0, 0, Infinity, 0.7)).toBe(0.7);
    expect(layerReflectance(2, 0, Infinity, 0.7)).toBe(0);
    expect(layerReflectance(0, 2, Infinity, 0.7)).toBe(1);
    expect(layerReflectance(1e3, 1e3, 1e6, 0.5)).toBeCloseTo(2 - Math.sqrt(3), 13);
  });

  // Laying x and then y of one paint is laying x + y.
  it('adds up', () => {
    for (const [K, S] of [
      [0.2, 0.01],
      [3, 0.5],
      [1e-5, 2],
    ])
      for (const x of [0.01, 0.5, 4])
        expect(layerReflectance(K, S, x, layerReflectance(K, S, 1.7 * x, 0.83))).toBeCloseTo(
          layerReflectance(K, S, 2.7 * x, 0.83),
          12,
        );
  });

  it('has no seam where it changes form', () => {
    const at = (x: number): number => layerReflectance(1, 0, x, 0.8);
    const slope = (x: number): number => (at(x + 1e-7) - at(x - 1e-7)) / 2e-7;
    expect(slope(1)).toBeCloseTo(-2 * 0.8 * Math.exp(-2), 6);
  });

  it('refuses what is no layer, naming it', () => {
    expect(() => layerReflectance(-1, 1, 1, 0.5)).toThrow(/K is -1/);
    expect(() => layerReflectance(1, Number.NaN, 1, 0.5)).toThrow(/S is NaN/);
    expect(() => layerReflectance(1, 1, -0.1, 0.5)).toThrow(/thickness is -0.1/);
    expect(() => layerReflectance(1, 1, Number.NaN, 0.5)).toThrow(RangeError);
    expect(() => layerReflectance(1, 1, 1, 1.2)).toThrow(/ground is 1.2/);
    expect(() => layerReflectance(1, 1, 1, '0' as never)).toThrow(TypeError);
  });

  // Curtis et al. 1997, figure 5: layers worked out from the table apart from this package, to six digits.
  it('gives the worked layers of twelve watercolour pigments', () => {
    expect(curtis.layers.length).toBe(144);
    for (const [, , K, S, x, ground, R] of curtis.layers as [string, string, ...number[]][])
      expect(Math.abs(layerReflectance(K, S, x, ground) - R)).toBeLessThan(6e-7);
  });

  // Two-constant mixtures: K and S are means by concentration, then the opaque film.
  it('gives the two-constant mixtures of an independent library', () => {
    expect(tables.mixtures.length).toBeGreaterThan(5);
    for (const { c, R } of tables.mixtures) {
      const K = mean(tables.mixtureK, c);
      const S = mean(tables.mixtureS, c);
      R.forEach((r, i) => expect(Math.abs(film(K[i], S[i]) - r)).toBeLessThan(1e-12));
    }
  });
});

describe('the surface', () => {
  // Saunderson 1942: R = k1 + (1 - k1)(1 - k2) Ri / (1 - k2 Ri).
  it('is Saunderson’s, and undone exactly', () => {
    for (let i = 0; i <= 100; i++) {
      const R = i / 100;
      const measured =
        OUTER_SURFACE + ((1 - OUTER_SURFACE) * (1 - INNER_SURFACE) * R) / (1 - INNER_SURFACE * R);
      expect(outside(R)).toBeCloseTo(measured, 15);
      expect(inside(outside(R))).toBeCloseTo(R, 13);
    }
    expect(outside(1)).toBeCloseTo(1, 14);
    expect(inside(0.01)).toBe(0);
  });

  // Independent of the table of K and S: measured reflectances of opaque paint of the same thesis.
  it('brings the opaque films to the measured masstones within 1 dE00', () => {
    const measured = Object.entries(masstones.masstones);
    expect(measured.length).toBe(8);
    for (const [name, percent] of measured) {
      const { K, S } = okumura[name];
      const predicted = Float64Array.from(K, (k, i) => outside(film(k, S[i])));
      const real = Float64Array.from(percent, (p) => p / 100);
      expect(deltaE2000(labOfReflectance(predicted), labOfReflectance(real))).toBeLessThan(1);
    }
  });
});

describe('spectrumToLab', () => {
  // Tables in CIE Lab of XYZ by ASTM E308 (weights 360..780 nm); ours add the weights of the missing bands to 380 and 730 nm, as E308
  // says. The patches differ between 730 and 780 nm by up to 0.2 in reflectance, whose weights together are 0.008 of X 95.
  it('gives the colours by ASTM E308 of 24 measured patches within 0.02 dE00', () => {
    const white = [95.047, 100, 108.883]; // D65 of the E308 tables
    const f = (t: number): number =>
      t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116;
    const labOf = ([X, Y, Z]: number[]): Lab => {
      const [x, y, z] = [f(X / white[0]), f(Y / white[1]), f(Z / white[2])];
      return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
    };
    expect(patches.patches.length).toBe(24);
    for (const { reflectance, e308, argyll } of patches.patches) {
      const lab = spectrumToLab(Float64Array.from(reflectance));
      expect(deltaE2000(lab, labOf(e308))).toBeLessThan(0.02);
      expect(deltaE2000(lab, labOf(argyll))).toBeLessThan(0.02);
    }
  });

  it('makes even spectra neutral, with the L* of CIE 15', () => {
    for (const R of [1, 0.5, 0.2, 0.005]) {
      const [L, a, b] = spectrumToLab(new Float64Array(36).fill(R));
      expect(L).toBeCloseTo(R > 216 / 24389 ? 116 * Math.cbrt(R) - 16 : (24389 / 27) * R, 10);
      expect(Math.hypot(a, b)).toBeLessThan(1e-10);
    }
  });

  it('refuses what is no spectrum', () => {
    expect(() => spectrumToLab(new Float64Array(31))).toThrow(/36 bands/);
    expect(() => spectrumToLab([0.5] as never)).toThrow(TypeError);
    expect(() => spectrumToLab(new Float64Array(36).fill(1.5))).toThrow(/reflectance\[0\] is 1.5/);
  });
});

describe('paperReflectance', () => {
  it('has exactly the L* asked for, 95 when none is', () => {
    expect(spectrumToLab(paperReflectance())[0]).toBeCloseTo(95, 12);
    for (const lightness of [0, 5, 60, 88, 92.5, 100]) {
      const paper = paperReflectance({ lightness });
      expect(paper).toBeInstanceOf(Float64Array);
      expect(paper.length).toBe(36);
      expect(spectrumToLab(paper)[0]).toBeCloseTo(lightness, 12);
    }
    expect(() => paperReflectance({ lightness: 101 })).toThrow(/options\.lightness is 101/);
  });
});

describe('washes and mixes over paper', () => {
  // Computed apart from this package with plain sums at 10 nm instead of the E2022 weights; these differ by up to 0.08 in XYZ.
  it('are those of the same model computed elsewhere', () => {
    let seen = 0;
    for (const {
      set,
      name,
      film: [L, a, b],
      steps,
    } of washes.washes) {
      const paint = (set === 'okumura2005' ? okumura : berns)[name];
      if (!paint) continue;
      const laid = (x: number): Lab =>
        labOfReflectance(
          Float64Array.from(paint.K, (k, i) => layerReflectance(k, paint.S[i], x, 0.88)),
        );
      expect(deltaE2000(laid(Infinity), [L, a, b])).toBeLessThan(0.15);
      for (const [x, ...lab] of steps) {
        expect(deltaE2000(laid(x), lab as Lab)).toBeLessThan(0.15);
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(60);
  });

  // The paper of these is 0.85 as measured outside, an assumption of those who computed them.
  it('take the surface as elsewhere', () => {
    const ground = inside(0.85);
    let seen = 0;
    for (const { mix, x, surface, internal } of washes.mixes) {
      const parts = mix.split(' + ').map((part) => {
        const [, share, name] = part.match(/^([\d.]+) (.*)$/)!;
        return { share: Number(share), paint: okumura[name] };
      });
      if (parts.some(({ paint }) => paint === undefined)) continue;
      const shares = parts.map(({ share }) => share);
      const K = mean(
        parts.map(({ paint }) => paint.K),
        shares,
      );
      const S = mean(
        parts.map(({ paint }) => paint.S),
        shares,
      );
      const inner = Float64Array.from(K, (k, i) => layerReflectance(k, S[i], x, ground));
      expect(deltaE2000(labOfReflectance(inner), internal as Lab)).toBeLessThan(0.15);
      const outer = inner.map(outside);
      expect(deltaE2000(labOfReflectance(outer), surface as Lab)).toBeLessThan(0.15);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(40);
  });
});

describe('the CSS colour of a mix', () => {
  // culori (npm, MIT) as the outside judge of single colours.
  it('has the L* of the mix, and is culori’s where sRGB holds it', () => {
    for (const [tube, strength] of [
      ['burnt-sienna', 0.4],
      ['raw-umber', 1],
      ['phthalo-green', 0.3],
      ['ultramarine', 0.6],
      ['pyrrole-red', 1],
    ] as const) {
      const mix = mixOnPaper([{ tube, parts: 1 }], { strength });
      expect(Math.abs(lightnessOf(mix.css) - mix.lab[0])).toBeLessThan(0.5);
      if (mix.outOfGamut) continue;
      const [l, a, b] = mix.lab;
      expect(formatHex({ mode: 'lab65', l, a, b })).toBe(mix.css);
    }
    expect(mixOnPaper([{ tube: 'phthalo-green', parts: 1 }], { strength: 0.3 }).outOfGamut).toBe(
      true,
    );
    expect(mixOnPaper([{ tube: 'raw-umber', parts: 1 }]).outOfGamut).toBe(false);
  });
});
