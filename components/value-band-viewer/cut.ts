import {
  byteOfLinear,
  defaultTones,
  luminanceOfLightness,
  thresholdOfLimit,
  type Plan,
} from '../shared/core.js';

/** Where the plan cuts the codes of the photo. */
export interface Cut {
  /** Codes between the bands, strictly rising. */
  thresholds: number[];
  /** The code above which the paper is left bare. */
  paper?: number;
}

/** The plan's limits as codes; limits that fall on one code are parted. */
export function cutOf(plan: Plan): Cut {
  const { photoLimits, paperLimit } = plan;
  const count = photoLimits.length;
  const thresholds: number[] = [];
  photoLimits.forEach((limit, i) => {
    const least = i > 0 ? thresholds[i - 1] + 1 : 0;
    thresholds.push(Math.max(least, Math.min(255 - count + i, thresholdOfLimit(limit))));
  });
  if (paperLimit === undefined) return { thresholds };
  return { thresholds, paper: Math.max(thresholds.at(-1) ?? 0, thresholdOfLimit(paperLimit)) };
}

/** Whether two cuts are the same. */
export function sameCut(a: Cut, b: Cut): boolean {
  return a.paper === b.paper && a.thresholds.join() === b.thresholds.join();
}

/** The share of each band, darkest first, and of the bare paper when there is one; all 0 without counts. */
export function sharesOfCut(
  histogram: Uint32Array | undefined,
  { thresholds, paper }: Cut,
): number[] {
  const counts = new Array<number>(thresholds.length + (paper === undefined ? 1 : 2)).fill(0);
  let total = 0;
  for (let code = 0, band = 0; histogram && code < 256; code++) {
    while (band < thresholds.length && code > thresholds[band]) band++;
    counts[paper !== undefined && code > paper ? thresholds.length + 1 : band] += histogram[code];
    total += histogram[code];
  }
  return counts.map((count) => (total > 0 ? count / total : 0));
}

/** L* that each band is shown at, the bare paper (white) last when there is one. */
export function tonesOf({ thresholds, paper }: Cut): number[] {
  const tones = thresholds.length > 0 ? defaultTones(thresholds) : [50];
  return paper === undefined ? tones : [...tones, 100];
}

/** What the rest fades to: pale paper round a dark band, a quiet grey round a light one; and how much of its tone is left. */
const PALE = 240;
const DIM = 84;
const TRACE = 0.14;

/** The palette that shows the bands, or one of them alone with the rest laid aside: opaque RGBA words as `recolour` takes them. */
export function paletteOf(cut: Cut, only?: number): Uint32Array {
  const { thresholds, paper } = cut;
  const tones = tonesOf(cut);
  const greys = tones.map((tone) => byteOfLinear(luminanceOfLightness(tone)));
  const alone = only !== undefined && only < tones.length;
  const ground = alone && tones[only] < 62 ? PALE : DIM;
  let band = 0;
  return Uint32Array.from({ length: 256 }, (_, code) => {
    while (band < thresholds.length && code > thresholds[band]) band++;
    const shown = paper !== undefined && code > paper ? tones.length - 1 : band;
    const aside = alone && shown !== only;
    const grey = aside ? Math.round(ground * (1 - TRACE) + greys[shown] * TRACE) : greys[shown];
    return (0xff000000 | (grey * 0x010101)) >>> 0;
  });
}

/** The same palette for planes of band numbers (0 the darkest; bare paper is the last). */
export function palettePerBand(cut: Cut, only?: number): Uint32Array {
  const palette = paletteOf(cut, only);
  const { thresholds, paper } = cut;
  const codes = [...thresholds, ...(paper === undefined ? [] : [paper]), 255];
  // The code of a limit still belongs to the band below it.
  return Uint32Array.from(
    { length: 256 },
    (_, band) => palette[codes[Math.min(band, codes.length - 1)]],
  );
}
