import { expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab, Pixels } from '../base/types.js';
import {
  byteOfLinear,
  deltaE2000,
  labOfLinear,
  lchOf,
  LINEAR_OF_SRGB,
  linearOfSrgb,
} from '../colour/index.js';
import type { Passages } from '../mass/index.js';
import type { Masses } from '../mass/types.js';
import { NEAR } from '../paint/index.js';
import { borderMargin } from './compare.js';
import { depthFor, depthsKernel, expectMasses, stillToCome } from './regions.js';
import type { Progressed } from './types.js';

/** What of a plan passages are held against. */
export interface PlannedPassages {
  masses: Masses;
  /** The colour that each passage should dry to, by its id: that of its swatch, CIELAB D65; `undefined` where it has none. */
  colours: readonly (Lab | undefined)[];
}

/** Something about one passage of the painting, or about two that should differ. */
export interface PassageFinding {
  /** Ids of the passages. */
  passages: number[];
  region: number;
  /** A place well inside the first, pixels of the masses. */
  at: [x: number, y: number];
  reason: Reason;
  /** By how much it is off, times pixels. */
  effect: number;
}

/**
 * From where on a lean is told as off, CIEDE2000 at equal L*. Ours, no source: what is seen as another colour (5), and 3 more for what
 * the colours of a photo stray by when only its white is known.
 */
export const LEAN_SHOWS = NEAR + 3;

/**
 * The passages of a painting against their swatches, by lean alone: whether values are right is told mass by mass (`comparePainting`).
 *
 * A passage's colour is the mean of the middle half of each channel among its inner pixels, so that soft borders, lifted lights and specks do
 * not count. Passages that are to come, and those without a swatch, are passed over. Codes, largest effect first:
 * - `check.passage-lean` { passage, deltaE, hue, painted }: its hue is off; `hue` as planned and `painted`, degrees
 * - `check.passage-greyer`, `check.passage-purer` { passage, deltaE, chroma, painted }: its chroma is off; C*ab at the planned lean
 * - `check.passage-vanished` { first, second, deltaE, planned }: two that should be kept apart no longer differ (below 5 and half of what was
 *   planned, CIEDE2000): a ribbon painted like its sleeve
 *
 * @param painting - Upright, filled, in its paper's white, of the size of the masses (`rectify`).
 * @param options - How far the work has come; `leans` false leaves leans out, for photos whose white is not known.
 * @throws {TypeError | RangeError} naming the argument.
 */
export function passageFindings(
  plan: PlannedPassages,
  passages: Passages,
  painting: Pixels,
  options: Progressed & { leans?: boolean } = {},
): PassageFinding[] {
  return finish(passageFindingsKernel(plan, passages, painting, options));
}

/** {@link passageFindings} in slices. */
export function* passageFindingsKernel(
  plan: PlannedPassages,
  passages: Passages,
  painting: Pixels,
  options: Progressed & { leans?: boolean } = {},
): Kernel<PassageFinding[]> {
  const { masses, colours } = expectObject('plan', plan) as unknown as PlannedPassages;
  expectMasses('plan.masses', masses);
  const { labels, passages: list, borders } = expectPassages(passages, masses);
  if (!Array.isArray(colours)) throw wrongType('plan.colours', colours, 'a list of colours');
  if (colours.length !== list.length)
    throw outOfRange('plan.colours', colours, `${list.length} colours, one a passage`);
  expectRaster('painting', painting, 4);
  const { width, height } = masses.map;
  if (painting.width !== width || painting.height !== height)
    throw outOfRange(
      'painting',
      `${painting.width} x ${painting.height}`,
      `the size of the masses, ${width} x ${height}`,
    );
  expectObject('options', options);
  const ahead = stillToCome(options, masses.regions.length);

  const painted = yield* coloursKernel({ ...masses, labels }, list.length, painting);
  const findings: PassageFinding[] = [];
  for (const { id, region, area, at } of list) {
    const wanted = colours[id];
    if (options.leans === false || wanted === undefined || ahead[region] === 1) continue;
    const found = leanFinding(id, wanted, painted[id]);
    if (found)
      findings.push({ passages: [id], region, at, reason: found.reason, effect: found.off * area });
  }
  for (const { passages: pair, run } of borders) {
    if (run !== 'keep-apart') continue;
    const [a, b] = pair.map((id) => list[id]);
    if (ahead[a.region] === 1) continue;
    const [first, second] = pair.map((id) => colours[id] ?? list[id].lab);
    const planned = deltaE2000(first, second);
    const deltaE = deltaE2000(painted[a.id], painted[b.id]);
    if (planned < NEAR || deltaE >= Math.min(NEAR, planned / 2)) continue;
    const [small, large] = a.area <= b.area ? [a, b] : [b, a];
    findings.push({
      passages: [small.id, large.id],
      region: a.region,
      at: small.at,
      reason: reason('check.passage-vanished', {
        first: small.id,
        second: large.id,
        deltaE,
        planned,
      }),
      effect: (planned - deltaE) * small.area,
    });
  }
  return findings.sort((p, q) => q.effect - p.effect || p.passages[0] - q.passages[0]);
}

function expectPassages(value: Passages, masses: Masses): Passages {
  const { labels, passages, borders } = expectObject('passages', value);
  if (!(labels instanceof Int32Array)) throw wrongType('passages.labels', labels, 'an Int32Array');
  if (labels.length !== masses.labels.length)
    throw outOfRange('passages.labels', labels, `${masses.labels.length} labels, as of the masses`);
  if (!Array.isArray(passages)) throw wrongType('passages.passages', passages, 'a list');
  if (!Array.isArray(borders)) throw wrongType('passages.borders', borders, 'a list');
  return value;
}

/** How far a lean is off and why; nothing where it is near enough. */
function leanFinding(
  passage: number,
  [, a, b]: Lab,
  [, c, d]: Lab,
): { off: number; reason: Reason } | undefined {
  const deltaE = deltaE2000([50, a, b], [50, c, d]);
  if (deltaE < LEAN_SHOWS) return undefined;
  const planned = lchOf([50, a, b]);
  const painted = lchOf([50, c, d]);
  const chroma = painted.C - planned.C;
  // The two parts of the difference by their usual weights (CIE94).
  const mean = Math.sqrt(painted.C * planned.C);
  const byChroma = Math.abs(chroma) / (1 + 0.045 * mean);
  const byHue =
    Math.sqrt(Math.max(0, (a - c) ** 2 + (b - d) ** 2 - chroma ** 2)) / (1 + 0.015 * mean);
  if (byHue >= byChroma)
    return {
      off: deltaE,
      reason: reason('check.passage-lean', {
        passage,
        deltaE,
        hue: planned.h,
        painted: painted.h,
      }),
    };
  return {
    off: deltaE,
    reason: reason(chroma < 0 ? 'check.passage-greyer' : 'check.passage-purer', {
      passage,
      deltaE,
      chroma: planned.C,
      painted: painted.C,
    }),
  };
}

/** The colour of the inner pixels of each part; alpha is laid over white as everywhere. */
function* coloursKernel(parts: Masses, count: number, painting: Pixels): Kernel<Lab[]> {
  const { labels, map } = parts;
  const { width, height } = map;
  const margin = borderMargin(width, height);
  const depth = yield* depthsKernel(parts, depthFor(margin));
  const deepest = new Uint8Array(count);
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) {
      const label = labels[k];
      if (!(label >= 0 && label < count))
        throw outOfRange('passages.labels', label, `a passage, 0 to ${count - 1}`);
      if (depth[k] > deepest[label]) deepest[label] = depth[k];
    }
  });
  const least = deepest.map((deep) => Math.min(margin, deep >> 1));
  const counts = new Uint32Array(3 * 256 * count);
  const { data } = painting;
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) {
      const label = labels[k];
      if (depth[k] <= least[label]) continue;
      const alpha = data[4 * k + 3] / 255;
      for (let c = 0; c < 3; c++) {
        const byte = data[4 * k + c];
        const seen = alpha === 1 ? byte : byteOfLinear(1 - alpha * (1 - LINEAR_OF_SRGB[byte]));
        counts[256 * (3 * label + c) + seen]++;
      }
    }
  });
  return Array.from({ length: count }, (_, label) => {
    const [r, g, b] = [0, 1, 2].map((c) =>
      linearOfSrgb(middleHalf(counts, 256 * (3 * label + c)) / 255),
    );
    return labOfLinear(r, g, b);
  });
}

/** The mean of the middle half of a histogram of 256 bins: of the counts between the quartiles. */
function middleHalf(counts: Uint32Array, from: number): number {
  let all = 0;
  for (let code = 0; code < 256; code++) all += counts[from + code];
  const [low, high] = [all / 4, (3 * all) / 4];
  let sum = 0;
  let below = 0;
  for (let code = 0; code < 256; code++) {
    const upTo = below + counts[from + code];
    sum += code * Math.max(0, Math.min(high, upTo) - Math.max(low, below));
    below = upTo;
  }
  return sum / (high - low);
}
