import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BERNS_SCALE,
  cautionsOf,
  deltaE2000,
  isLasting,
  lastingFor,
  layerReflectance,
  lchOf,
  mixOnPaper,
  paperReflectance,
  predictionReasons,
  shelfRange,
  spectrumToLab,
  STRENGTH_APART,
  TUBES,
  TUBES_EDITION,
  TUBES_WITHOUT_DATA,
  type Part,
} from '../../core/index.js';
import { outside } from '../../core/paint/layers.js';
import masstones from '../reference/paint-masstones.json' with { type: 'json' };
import spectra from '../reference/paint-spectra.json' with { type: 'json' };

const okumura = spectra.okumura as Record<string, { ci: string; K: number[]; S: number[] }>;
const berns = spectra.berns as Record<string, { ci: string; K: number[]; S: number[] }>;

/** The paint of the tables that a tube's data are. */
const NAMES: Record<string, string> = {
  'bismuth-yellow': 'BismuthVanadateYellow',
  'hansa-yellow': 'Hansa Yellow Opaque',
  'diarylide-yellow': 'Diarylide Yellow',
  'green-gold': 'Green Gold',
  'yellow-ochre': 'Yellow Ochre',
  'raw-sienna': 'Raw Sienna',
  'burnt-sienna': 'Burnt Sienna',
  'light-red': 'Red Oxide',
  'raw-umber': 'Raw Umber',
  'burnt-umber': 'Burnt Umber',
  'cadmium-orange': 'CadmiumOrange',
  'pyrrole-orange': 'PyrroleOrange',
  'cadmium-red': 'CadmiumRedLight',
  'pyrrole-red': 'Pyrrole Red',
  'quinacridone-rose': 'QuinacridoneRed',
  'quinacridone-magenta': 'Quinacridone Magenta',
  'quinacridone-crimson': 'Quinacridone Crimson',
  'dioxazine-violet': 'Dioxazine Purple',
  ultramarine: 'Ultramarine Blue',
  'cobalt-blue': 'Cobalt Blue',
  'cerulean-blue': 'Cerulean Blue',
  'phthalo-blue': 'Phthalo Blue (Green Shade)',
  'phthalo-blue-red-shade': 'PhthaloBlueRedShade',
  'indanthrone-blue': 'Anthraquinone Blue',
  'phthalo-green': 'Phthalo Green (Blue Shade)',
  'phthalo-green-yellow-shade': 'PhthaloGreenYellowShade',
  'chromium-oxide-green': 'Chromium Oxide Green',
  'ivory-black': 'BoneBlack',
  'carbon-black': 'Carbon Black',
  'titanium-white': 'Titanium White',
};

const alone = (tube: string): Part[] => [{ tube, parts: 1 }];
const median = (numbers: number[]): number =>
  [...numbers].sort((a, b) => a - b)[(numbers.length - 1) / 2];

describe('TUBES', () => {
  it('are the published K and S to four digits, the second set scaled', () => {
    for (const tube of TUBES) {
      const name = NAMES[tube.standIn ?? tube.id];
      const paint = tube.source === 'okumura2005' ? okumura[name] : berns[name];
      const scale = tube.source === 'okumura2005' ? 1 : BERNS_SCALE;
      expect(tube.K.length).toBe(36);
      expect(tube.S.length).toBe(36);
      for (let i = 0; i < 36; i++) {
        expect(Math.abs(tube.K[i] - scale * paint.K[i])).toBeLessThan(5.01e-4 * scale * paint.K[i]);
        expect(Math.abs(tube.S[i] - scale * paint.S[i])).toBeLessThan(5.01e-4 * scale * paint.S[i]);
      }
    }
  });

  // Ratios of absorption over the eleven pigments that both sets hold, computed apart from this package.
  it('scale the second set by the median ratio of the shared paints', () => {
    const ratios = spectra.ratios.map(([, , , ratio]) => ratio as number);
    expect(ratios.length).toBe(11);
    expect(BERNS_SCALE).toBe(median(ratios));
    expect(STRENGTH_APART).toEqual({
      low: Math.min(...ratios),
      median: median(ratios),
      high: Math.max(...ratios),
    });
  });

  // The ratios again from the tables themselves: where the paint absorbs, Okumura's K over Berns's (their median over 400..700 nm).
  it('have about the ratios of the tables', () => {
    for (const [ci, inBerns, inOkumura, ratio] of spectra.ratios as [
      string,
      string,
      string,
      number,
    ][]) {
      if (ci === 'PW6') continue; // hardly absorbs: its ratio says little
      const [a, b] = [okumura[inOkumura].K, berns[inBerns].K];
      const [num, den] = [2, 3].map((power) =>
        b.slice(2, 33).reduce((sum, k, i) => sum + (power === 2 ? k * a[i + 2] : k * k), 0),
      );
      expect(num / den / ratio).toBeGreaterThan(0.8);
      expect(num / den / ratio).toBeLessThan(1.25);
    }
  });

  it('have permanent ids that tell them apart', () => {
    const ids = [...TUBES.map(({ id }) => id), ...TUBES_WITHOUT_DATA.map(({ id }) => id)];
    expect(new Set(ids).size).toBe(ids.length);
    expect(TUBES.filter(({ standIn }) => standIn === undefined).length).toBeGreaterThanOrEqual(24);
    for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    for (const { colourIndex } of [...TUBES, ...TUBES_WITHOUT_DATA])
      for (const name of colourIndex) expect(name).toMatch(/^P(Y|O|R|V|B|G|Br|Bk|W)\d+(:\d)?$/);
    expect(TUBES_EDITION).not.toBe('');
  });

  it('stand for others by name only', () => {
    for (const { id, standIn, cautions, K } of TUBES) {
      const told = cautions.find(({ code }) => code === 'paint.stand-in');
      if (standIn === undefined) expect(told).toBeUndefined();
      else {
        expect(told?.values).toEqual({ tube: standIn });
        const other = TUBES.find((each) => each.id === standIn)!;
        expect(other.standIn).toBeUndefined();
        expect(other.id).not.toBe(id);
        expect(K).toEqual(other.K);
      }
    }
    for (const { near, cautions } of TUBES_WITHOUT_DATA) {
      expect(near.length).toBeGreaterThan(0);
      for (const id of near) expect(TUBES.map((tube) => tube.id)).toContain(id);
      expect(cautions.map(({ code }) => code)).toContain('paint.no-data');
    }
  });

  // From memory and common practice; the label (ASTM D4236) comes first.
  it('carry cautions for metals that hurt, from their Colour Index names', () => {
    const metal: Record<string, string> = {
      PY35: 'paint.cadmium',
      PO20: 'paint.cadmium',
      PR108: 'paint.cadmium',
      PB28: 'paint.cobalt',
      'PB36:1': 'paint.cobalt',
      PY40: 'paint.cobalt',
      PY41: 'paint.lead',
      PY150: 'paint.nickel',
      PG17: 'paint.chromium',
      PG18: 'paint.chromium',
    };
    for (const { colourIndex, cautions } of [...TUBES, ...TUBES_WITHOUT_DATA])
      for (const name of colourIndex)
        if (metal[name]) {
          const caution = cautions.find(({ code }) => code === metal[name]);
          expect(caution?.values.label).toBe('ASTM D4236');
        }
    expect(cautionsOf(alone('cadmium-red'))).toEqual([
      { code: 'paint.cadmium', values: { label: 'ASTM D4236', paint: 'cadmium-red' } },
    ]);
    expect(cautionsOf([...alone('ultramarine'), ...alone('ultramarine')])).toEqual([]);
  });

  it('pass through a structured clone with their figures', () => {
    const [first] = structuredClone(TUBES.slice(0, 1));
    expect(first.K).toEqual(TUBES[0].K);
    expect(first.fullLoad).toBe(TUBES[0].fullLoad);
  });
});

describe('the full load', () => {
  // Its definition, computed here by the layer and the surface alone.
  it('is where the tube on paper of L* 95 has gone 90 % of the way to its film, the first and only such place', () => {
    const paper = paperReflectance()[0];
    // Saunderson's correction the other way round, by bisection.
    let [low, high] = [0, 1];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (outside(middle) < paper) low = middle;
      else high = middle;
    }
    for (const { K, S, fullLoad } of TUBES) {
      const at = (x: number): number =>
        spectrumToLab(
          Float64Array.from(K, (k, i) => outside(layerReflectance(k, S[i], x, low))),
        )[0];
      const goal = 95 + 0.9 * (at(Infinity) - 95);
      expect(Math.abs(at(fullLoad) - goal)).toBeLessThan(1e-6);
      const sign = Math.sign(at(Infinity) - 95);
      for (let x = 1e-3; x < 1; x *= 1.1) expect(sign * (at(x * fullLoad) - goal)).toBeLessThan(0);
      for (let x = 1.01; x < 1e4; x *= 1.3)
        expect(sign * (at(x * fullLoad) - goal)).toBeGreaterThan(0);
    }
  });

  // A yellow, an orange, a cadmium red scatter more red light than the paper: their L* passes that of the film by up to 1 and comes back.
  it('is reached by a lightness that only falls (or, for white, only rises)', () => {
    for (const { id } of TUBES) {
      const L = Array.from(
        { length: 60 },
        (_, i) => mixOnPaper(alone(id), { strength: i / 59 }).lab[0],
      );
      const sign = Math.sign(L[59] - L[0]);
      for (let i = 1; i < 60; i++) expect(sign * (L[i] - L[i - 1])).toBeGreaterThan(-0.02);
    }
  });
});

describe('mixOnPaper', () => {
  const tubes = fc.constantFrom(...TUBES.map(({ id }) => id));
  const mixes = fc.array(
    fc.record({ tube: tubes, parts: fc.double({ min: 0.01, max: 100, noNaN: true }) }),
    { minLength: 1, maxLength: 4 },
  );
  const strengths = fc.double({ min: 0, max: 3, noNaN: true });

  it('is the layer of its definition', () => {
    fc.assert(
      fc.property(mixes, strengths, (parts, strength) => {
        const mix = mixOnPaper(parts, { strength });
        const total = parts.reduce((sum, part) => sum + part.parts, 0);
        const mean = (figure: (tube: (typeof TUBES)[number]) => number): number =>
          parts.reduce(
            (sum, part) =>
              sum + (part.parts / total) * figure(TUBES.find(({ id }) => id === part.tube)!),
            0,
          );
        const thickness = strength * mean(({ fullLoad }) => fullLoad);
        const inner =
          (paperReflectance()[0] - 0.0307805) /
          ((1 - 0.0307805) * (1 - 0.60602703) + 0.60602703 * (paperReflectance()[0] - 0.0307805));
        for (const i of [0, 7, 17, 35]) {
          const R = layerReflectance(
            mean(({ K }) => K[i]),
            mean(({ S }) => S[i]),
            thickness,
            inner,
          );
          const measured =
            0.0307805 + ((1 - 0.0307805) * (1 - 0.60602703) * R) / (1 - 0.60602703 * R);
          expect(mix.reflectance[i]).toBeCloseTo(measured, 12);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('depends on the ratios of the parts only, and leaves its arguments alone', () => {
    fc.assert(
      fc.property(mixes, strengths, (parts, strength) => {
        const copy = structuredClone(parts);
        const one = mixOnPaper(parts, { strength });
        const two = mixOnPaper(
          [...parts].reverse().map(({ tube, parts: amount }) => ({ tube, parts: amount * 7 })),
          { strength },
        );
        expect(deltaE2000(one.lab, two.lab)).toBeLessThan(1e-6);
        expect(parts).toEqual(copy);
        expect(one.parts).toEqual(copy);
        expect(one.parts).not.toBe(parts);
      }),
      { numRuns: 50 },
    );
  });

  it('is the bare paper at strength 0 and the opaque film far above 1', () => {
    const paper = paperReflectance({ lightness: 90 });
    const bare = mixOnPaper(alone('ultramarine'), { strength: 0, paper });
    expect(bare.reflectance).toEqual(paper);
    expect(bare.reflectance).not.toBe(paper);
    const dark = mixOnPaper(alone('carbon-black'), { strength: 1e6, paper }).lab;
    const darker = mixOnPaper(alone('carbon-black'), { strength: 1e6 }).lab;
    expect(deltaE2000(dark, darker)).toBeLessThan(1e-9);
    expect(mixOnPaper(alone('ultramarine')).strength).toBe(1);
  });

  // Glazing: over a dried layer a transparent wash darkens, an opaque one covers; two washes of one paint are one of both strengths.
  it('lies over dried layers, lowest first', () => {
    const first = mixOnPaper(alone('burnt-sienna'), { strength: 0.3 });
    const twice = mixOnPaper(alone('burnt-sienna'), { strength: 0.2, over: [first] });
    const once = mixOnPaper(alone('burnt-sienna'), { strength: 0.5 });
    expect(deltaE2000(twice.lab, once.lab)).toBeLessThan(1e-6);
    const blue = mixOnPaper(alone('ultramarine'), { strength: 0.3, over: [first] });
    expect(blue.lab[0]).toBeLessThan(first.lab[0]);
    const dark = mixOnPaper(alone('carbon-black'));
    const ab = mixOnPaper(alone('titanium-white'), { strength: 1, over: [dark] });
    expect(ab.lab[0]).toBeGreaterThan(dark.lab[0] + 20);
    const ba = mixOnPaper(alone('carbon-black'), {
      over: [mixOnPaper(alone('titanium-white'))],
    });
    expect(ba.lab[0]).toBeLessThan(45);
    const bare = mixOnPaper(alone('ultramarine'), { strength: 0, over: [first] });
    expect(deltaE2000(bare.lab, first.lab)).toBeLessThan(1e-9);
  });

  it('takes the strength of the painter’s own tubes', () => {
    const half = mixOnPaper(alone('cobalt-blue'), { strength: 0.8, loads: { 'cobalt-blue': 0.5 } });
    const thin = mixOnPaper(alone('cobalt-blue'), { strength: 0.4 });
    expect(deltaE2000(half.lab, thin.lab)).toBeLessThan(1e-9);
    expect(() => mixOnPaper(alone('cobalt-blue'), { loads: { 'cobalt-blue': 0 } })).toThrow(
      /options\.loads\["cobalt-blue"\] is 0/,
    );
  });

  it('refuses what cannot be mixed, naming it', () => {
    expect(() => mixOnPaper([])).toThrow(/parts is .*expected at least one part/);
    expect(() => mixOnPaper(alone('mauve-of-mars'))).toThrow(
      /parts\[0\]\.tube is "mauve-of-mars"; expected the id of a tube/,
    );
    expect(() => mixOnPaper(alone('viridian'))).toThrow(
      /none are known, near it are phthalo-green/,
    );
    for (const parts of [0, -1, Number.NaN, Infinity])
      expect(() => mixOnPaper([{ tube: 'ultramarine', parts }])).toThrow(/parts\[0\]\.parts is/);
    expect(() => mixOnPaper([{ tube: 'ultramarine', parts: '1' as never }])).toThrow(TypeError);
    expect(() => mixOnPaper('ultramarine' as never)).toThrow(TypeError);
    expect(() => mixOnPaper(alone('ultramarine'), { strength: -0.1 })).toThrow(/options\.strength/);
    expect(() => mixOnPaper(alone('ultramarine'), { strength: Number.NaN })).toThrow(RangeError);
    expect(() => mixOnPaper(alone('ultramarine'), { paper: new Float64Array(3) })).toThrow(
      /36 bands/,
    );
    expect(() => mixOnPaper(alone('ultramarine'), { over: {} as never })).toThrow(TypeError);
  });
});

describe('a tube laid on until the paper is covered', () => {
  // Okumura 2005: measured reflectances of opaque masstones, independent of the K and S that the prediction comes from. Their colour by
  // the weights of ASTM E308.
  it('has the measured masstone within 1 dE00', () => {
    const measured = masstones.masstones as Record<string, number[]>;
    const found = TUBES.filter(({ id, standIn }) => !standIn && measured[NAMES[id]] !== undefined);
    expect(found.length).toBe(8);
    for (const { id } of found) {
      const real = spectrumToLab(Float64Array.from(measured[NAMES[id]], (p) => p / 100));
      expect(deltaE2000(mixOnPaper(alone(id), { strength: 1e5 }).lab, real)).toBeLessThan(1);
    }
  });
});

describe('what the trade knows', () => {
  // Common practice, no source, for all of these.
  const chroma = (parts: Part[], strength: number): number =>
    lchOf(mixOnPaper(parts, { strength }).lab).C;
  const mix = (...pairs: [string, number][]): Part[] =>
    pairs.map(([tube, parts]) => ({ tube, parts }));
  /** The least chroma of the tubes in tenths. */
  const greyest = (tubes: string[], strength: number): number => {
    let least = Infinity;
    const [a, b, c] = tubes;
    for (let n = 1; n < 20; n++)
      for (let m = 1; m < 20 - n + (c ? 0 : 1); m++) {
        const parts = c ? mix([a, n], [b, m], [c, 20 - n - m]) : mix([a, n], [b, 20 - n]);
        least = Math.min(least, chroma(parts, strength));
      }
    return least;
  };

  it('a blue, a red and an earth neutralise each other', () => {
    for (const tubes of [
      ['ultramarine', 'pyrrole-red', 'raw-sienna'],
      ['cobalt-blue', 'light-red', 'yellow-ochre'],
      ['ultramarine', 'quinacridone-rose', 'raw-sienna'],
    ])
      expect(greyest(tubes, 0.3)).toBeLessThan(4);
  });

  it('ultramarine and burnt sienna go nearly black without a black', () => {
    const shelf = ['ultramarine', 'burnt-sienna', 'hansa-yellow', 'quinacridone-rose'];
    const { darkest } = shelfRange(['ultramarine', 'burnt-sienna']);
    expect(darkest.lab[0]).toBeLessThan(mixOnPaper(alone('carbon-black')).lab[0] + 8);
    expect(greyest(['ultramarine', 'burnt-sienna'], 1)).toBeLessThan(6);
    expect(shelfRange(shelf).low).toBeLessThanOrEqual(darkest.lab[0]);
  });

  it('complements grey each other', () => {
    for (const [a, b] of [
      ['phthalo-green', 'quinacridone-crimson'],
      ['ultramarine', 'burnt-sienna'],
      ['cobalt-blue', 'burnt-sienna'],
      ['dioxazine-violet', 'yellow-ochre'],
    ])
      expect(greyest([a, b], 0.4)).toBeLessThan(
        0.35 * Math.min(chroma(alone(a), 0.4), chroma(alone(b), 0.4)),
      );
  });

  it('cerulean is much darker than its pale washes suggest', () => {
    const [pale, full] = [0.05, 1].map(
      (strength) => mixOnPaper(alone('cerulean-blue'), { strength }).lab[0],
    );
    expect(pale).toBeGreaterThan(80);
    expect(pale - full).toBeGreaterThan(30);
  });

  it('yellow and blue make green', () => {
    const { h, C } = lchOf(
      mixOnPaper(mix(['hansa-yellow', 3], ['phthalo-blue', 1]), { strength: 0.3 }).lab,
    );
    expect(h).toBeGreaterThan(110);
    expect(h).toBeLessThan(200);
    expect(C).toBeGreaterThan(30);
  });
});

describe('lasting paints', () => {
  it('are told from those that fade; the nearest is found', () => {
    expect(isLasting(TUBES.find(({ id }) => id === 'alizarin-crimson')!)).toBe(false);
    // The data of the one stand for the other, so nothing is nearer.
    expect(lastingFor('alizarin-crimson')).toEqual({
      tube: 'quinacridone-crimson',
      deltaE: 0,
      washes: { weak: 0, middle: 0, strong: 0 },
      differs: { code: 'paint.lasting-same-data', values: {} },
    });
    const among = lastingFor('alizarin-crimson', [
      'ultramarine',
      'pyrrole-red',
      'dioxazine-violet',
    ])!;
    expect(among.tube).toBe('pyrrole-red');
    expect(lastingFor('alizarin-crimson', ['dioxazine-violet'])).toBeUndefined();
    expect(() => lastingFor('nothing')).toThrow(/id is "nothing"/);
  });

  // Against trying every tube, by the public functions alone.
  it('are compared in weak, middle and strong washes, and what differs is told', () => {
    const washes = (tube: string) =>
      [0.1, 0.3, 1].map((strength) => mixOnPaper(alone(tube), { strength }).lab);
    const codes = new Set<string>();
    for (const { id } of TUBES) {
      const { tube, deltaE, washes: off, differs } = lastingFor(id)!;
      const wanted = washes(id);
      const offs = TUBES.filter(
        (other) => other.id !== id && other.standIn === undefined && isLasting(other),
      ).map((other) => {
        const labs = washes(other.id);
        return labs.reduce((sum, lab, i) => sum + deltaE2000(wanted[i], lab) / 3, 0);
      });
      expect(deltaE).toBeCloseTo(Math.min(...offs), 9);
      expect((off.weak + off.middle + off.strong) / 3).toBeCloseTo(deltaE, 9);
      codes.add(differs.code);
      const { wash } = differs.values as { wash?: 'weak' | 'middle' | 'strong' };
      if (wash === undefined) {
        expect(Math.max(off.weak, off.middle, off.strong)).toBeLessThan(1.8);
        continue;
      }
      expect(off[wash]).toBe(Math.max(off.weak, off.middle, off.strong));
      const i = ['weak', 'middle', 'strong'].indexOf(wash);
      const [from, to] = [lchOf(wanted[i]), lchOf(washes(tube)[i])];
      if (differs.code === 'paint.lasting-lighter') expect(to.L).toBeGreaterThan(from.L);
      if (differs.code === 'paint.lasting-darker') expect(to.L).toBeLessThan(from.L);
      if (differs.code === 'paint.lasting-purer') expect(to.C).toBeGreaterThan(from.C);
      if (differs.code === 'paint.lasting-duller') expect(to.C).toBeLessThan(from.C);
      if (differs.code === 'paint.lasting-hue')
        expect(differs.values.hue as number).toBeCloseTo(to.h, 9);
    }
    expect([...codes]).toContain('paint.lasting-hue');
    expect([...codes]).toContain('paint.lasting-darker');
  });
});

describe('how far off a prediction may be', () => {
  it('is told with figures', () => {
    const first = mixOnPaper(alone('yellow-ochre'), { strength: 0.2 });
    const parts: Part[] = [...alone('ultramarine'), ...alone('cadmium-yellow')];
    const reasons = predictionReasons(parts, { strength: 0.4, over: [first] });
    expect(reasons.map(({ code }) => code)).toEqual([
      'paint.acrylic-films',
      'paint.across-sets',
      'paint.granulates',
      'paint.stand-in',
      'paint.opaque',
      'paint.re-wets',
    ]);
    const { low, high, deltaE } = reasons[0].values as Record<string, number>;
    const L = mixOnPaper(parts, { strength: 0.4, over: [first] }).lab[0];
    expect(low).toBeLessThan(L);
    expect(high).toBeGreaterThan(L);
    expect(deltaE).toBeGreaterThan(1);
    expect(reasons[1].values).toEqual({ low: 0.791, high: 2.244 });
    expect(predictionReasons(alone('pyrrole-red'), { strength: 0 })[0].values).toMatchObject({
      deltaE: 0,
    });
    expect(predictionReasons(alone('pyrrole-red')).length).toBe(1);
  });
});

/**
 * The same stack of washes by the hyperbolic formula (Kubelka 1948, Journal of the Optical Society of America 38, 448, equation 14), with
 * Saunderson's correction (1942), written out here so that the check does not lean on the code it checks.
 */
function stackedLightness(layers: { tube: string; thickness: number }[]): number {
  const [k1, k2] = [0.0307805, 0.60602703];
  const paper = paperReflectance();
  const seen = Float64Array.from(paper, (outer, i) => {
    let R = (outer - k1) / (1 - k1 - k2 + k2 * outer);
    for (const { tube, thickness } of layers) {
      const { K, S, fullLoad } = TUBES.find(({ id }) => id === tube)!;
      const a = 1 + K[i] / S[i];
      const b = Math.sqrt(a * a - 1);
      const coth = 1 / Math.tanh(b * S[i] * thickness * fullLoad);
      R = (1 - R * (a - b * coth)) / (a - R + b * coth);
    }
    return k1 + ((1 - k1) * (1 - k2) * R) / (1 - k2 * R);
  });
  return spectrumToLab(seen)[0];
}

describe('how far off a wash over dried layers may be', () => {
  interface Wash {
    tube: string;
    strength: number;
  }
  const filmsOf = (washes: Wash[]): { low: number; high: number; deltaE: number } => {
    const [top, ...below] = washes
      .map(({ tube, strength }) => mixOnPaper(alone(tube), { strength }))
      .reverse();
    const { parts, strength } = top;
    const [films] = predictionReasons(parts, { strength, over: below.reverse() });
    return films.values as { low: number; high: number; deltaE: number };
  };
  const { median } = STRENGTH_APART;
  const STACKS: [string, Wash[]][] = [
    [
      'a pale wash over a dark one',
      [
        { tube: 'ultramarine', strength: 0.5 },
        { tube: 'burnt-sienna', strength: 0.05 },
      ],
    ],
    [
      'a middle wash over a dark one',
      [
        { tube: 'burnt-umber', strength: 0.4 },
        { tube: 'ultramarine', strength: 0.3 },
      ],
    ],
    [
      'three washes',
      [
        { tube: 'yellow-ochre', strength: 0.2 },
        { tube: 'quinacridone-rose', strength: 0.3 },
        { tube: 'phthalo-blue', strength: 0.1 },
      ],
    ],
    [
      'an opaque light paint over a dark one',
      [
        { tube: 'ultramarine', strength: 0.6 },
        { tube: 'hansa-yellow', strength: 1 },
      ],
    ],
  ];

  it.each(STACKS)('holds what each layer may be for itself: %s', (_, washes) => {
    const { low, high } = filmsOf(washes);
    let [least, most] = [Infinity, -Infinity];
    for (let n = 0; n < 3 ** washes.length; n++) {
      const factors = washes.map((_wash, i) => [1 / median, 1, median][Math.floor(n / 3 ** i) % 3]);
      const L = stackedLightness(
        washes.map(({ tube, strength }, i) => ({ tube, thickness: strength * factors[i] })),
      );
      [least, most] = [Math.min(least, L), Math.max(most, L)];
    }
    expect(low).toBeCloseTo(least, 6);
    expect(high).toBeCloseTo(most, 6);
  });

  // Monte Carlo (JCGM 101:2008): each layer's strength anywhere between the two sets, evenly by ratio.
  it.each(STACKS)('holds thousands of chances: %s', (_, washes) => {
    const { low, high } = filmsOf(washes);
    let seed = 7;
    const chance = (): number => (seed = (seed * 48271) % 2147483647) / 2147483647; // Park and Miller 1988
    for (let n = 0; n < 4000; n++) {
      const L = stackedLightness(
        washes.map(({ tube, strength }) => ({
          tube,
          thickness: strength * median ** (2 * chance() - 1),
        })),
      );
      expect(L).toBeGreaterThanOrEqual(low - 1e-6);
      expect(L).toBeLessThanOrEqual(high + 1e-6);
    }
  });

  // A wash without paint is no layer: what is seen is the layer below.
  it('is that of the layer below where nothing is laid over it', () => {
    const below = { tube: 'ultramarine', strength: 0.5 };
    const alone = filmsOf([below]);
    const under = filmsOf([below, { tube: 'burnt-sienna', strength: 0 }]);
    expect(alone.high - alone.low).toBeGreaterThan(3);
    for (const what of ['low', 'high', 'deltaE'] as const)
      expect(under[what]).toBeCloseTo(alone[what], 9);
  });
});

describe('shelfRange', () => {
  const outcome = (tubes: string[], options = {}): [number, number] => {
    const { low, high } = shelfRange(tubes, options);
    return [low, high];
  };

  it('finds the darkest mix of an exhaustive search', () => {
    // Eight tubes have 28 pairs: more than are tried with every third tube.
    const shelf = [
      'ultramarine',
      'burnt-sienna',
      'pyrrole-red',
      'phthalo-green',
      'yellow-ochre',
      'quinacridone-magenta',
      'dioxazine-violet',
      'raw-umber',
    ];
    let least = Infinity;
    for (const a of shelf)
      for (const b of shelf)
        for (const c of shelf)
          for (let n = 0; a < b && b < c && n <= 12; n++)
            for (let m = 0; n + m <= 12; m++) {
              const parts = [
                { tube: a, parts: n },
                { tube: b, parts: m },
                { tube: c, parts: 12 - n - m },
              ].filter((part) => part.parts > 0);
              least = Math.min(least, mixOnPaper(parts).lab[0]);
            }
    const { low, darkest } = shelfRange(shelf);
    expect(low).toBeCloseTo(least, 9);
    expect(darkest.lab[0]).toBe(low);
    expect(darkest.strength).toBe(1);
  });

  it('never gets narrower with more tubes, and keeps its order', () => {
    const [few, more] = [
      outcome(['yellow-ochre', 'light-red']),
      outcome(['yellow-ochre', 'light-red', 'ultramarine', 'hansa-yellow']),
    ];
    expect(more[0]).toBeLessThanOrEqual(few[0]);
    expect(more[1]).toBeGreaterThanOrEqual(few[1]);
    for (const [low, high] of [few, more]) expect(low).toBeLessThan(high);
    expect(outcome(['yellow-ochre', 'yellow-ochre'])).toEqual(outcome(['yellow-ochre']));
  });

  it('gives the palest wash that still tells from the paper', () => {
    const { lightest } = shelfRange(['ultramarine', 'titanium-white']);
    expect(lightest.parts[0].tube).toBe('ultramarine');
    const bare = spectrumToLab(paperReflectance());
    expect(deltaE2000(bare, lightest.lab)).toBeCloseTo(3, 6);
    expect(shelfRange(['titanium-white']).lightest.strength).toBe(1);
  });

  it('refuses an empty shelf and unknown tubes', () => {
    expect(() => shelfRange([])).toThrow(/tubes is .*expected at least one tube/);
    expect(() => shelfRange(['prussian-blue'])).toThrow(/none are known/);
    expect(() => shelfRange('ultramarine' as never)).toThrow(TypeError);
    expect(() => shelfRange(['ultramarine'], { maxTubes: 4 })).toThrow(/options\.maxTubes is 4/);
  });
});
