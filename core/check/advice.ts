import { expectNumber, expectObject } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab, Step } from '../base/types.js';
import {
  findMixesKernel,
  mixOnPaper,
  paperReflectance,
  TUBES,
  type FoundMix,
  type Loads,
  type Mix,
  type Recipe,
  type Tube,
} from '../paint/index.js';
import type { Comparison, Correction, PlannedPainting, Progressed } from './types.js';
import { expectMasses, expectTargets } from './regions.js';

/** What to do with a mass in paint. */
export type CheckAction = 'leave' | 'glaze' | 'lift' | 'reset-accent' | 'restart';

/** Advice on one correction. */
export interface Advice {
  region: number;
  action: CheckAction;
  /** L* to lighten (+) or darken (-), from the correction. */
  shift: number;
  /** Why, with figures; the first says why this and nothing else. Never empty. */
  reasons: Reason[];
  /** The glaze to lay over what is there. */
  mix?: FoundMix;
}

export interface AdviceOptions extends Progressed {
  /** Ids of the tubes on the shelf; without any no mix is named. */
  tubes?: string[];
  /** What was laid in each band, darkest first; `null` where nothing is noted. */
  laid?: (Recipe | null)[];
  /** How strong the painter's own tubes are, by id. */
  loads?: Loads;
  /** L* of the bare paper (default 95). */
  paperLightness?: number;
  /** Pressed width of the brush, pixels of the masses: what is an accent. */
  brushPx: number;
}

/** Below this shift a mass is left as it is, L*: about the step that shows between masses apart from one another. No source. */
export const LEAVE_UNDER = 3;
/**
 * How much of the way back to paper lifting brings, by how the paint stains: common practice, no source; it differs with paper
 * and pigment, so a spot should be tried first.
 */
export const LIFTS: Readonly<Record<Tube['staining'], number>> = {
  low: 0.6,
  medium: 0.35,
  high: 0.12,
};
/** From so many layers on another one dulls and disturbs. Common practice, no source. */
export const MANY_LAYERS = 4;
/** A mass of no more than so many brush prints (pi/4 brush^2) is an accent. */
const ACCENT_PRINTS = 4;
/** A mass of at least this share of the painting that can no longer be lightened is a reason to begin again. No source. */
const LARGE = 0.1;
/** A glaze that comes no nearer than this to its target, L*, does not reach it. */
const REACHED = 1.5;
/** Corrections for which a mix is looked for, largest effect first. */
const MIXES = 8;
/** A shelf of more tubes is searched for mixes of two. */
const FEW_TUBES = 8;
/** No layer is taken to be stronger. */
const STRONGEST = 4;

/**
 * What to do about each correction, in paint, in the order of the corrections. Watercolour can be darkened at will and lightened
 * hardly, so a mass that is too light is glazed (or, when small, its accent set again), one that is too dark is lifted as far as
 * its paint lets go, and begun again only when it is large and does not.
 *
 * Reasons:
 * - `check.small-step` { shift }: too small to touch
 * - `check.too-light` { shift, area } · `check.too-dark` { shift, area }: L*, percent of the painting; first for glaze, lift, restart
 * - `check.accent` { shift }: small: set it again, last
 * - `check.accent-opaque` { shift }: a small light that is lost: only body colour or the blade brings it back
 * - `check.reserve-lost` { shift }: it was to stay paper
 * - `check.glaze` { to, strength }: the mix and its strength (percent of a heavy wash) bring it to L* `to`
 * - `check.glaze-short` { short }: the heaviest wash of the shelf still ends so many L* too light: two thin ones
 * - `check.glaze-unknown`: what lies there is not noted, so it is taken as grey
 * - `check.glaze-opaque` { tube }: it covers rather than glazes
 * - `check.re-wets` { tube }: what lies there does not stain and loosens under a wet brush: one quick stroke, no rubbing
 * - `check.no-shelf`: no tubes to look in
 * - `check.layers` { layers }: so many layers lie there already
 * - `check.lift` { percent, staining }: lifting brings back at most so much of the way to paper
 * - `check.lift-short` { short }: and leaves it so many L* too dark; darken what lies about it
 * - `check.lift-unknown`: what lies there is not noted, so it is taken to stain middling
 * - `check.cannot-lift` { short, area }: it stays so many L* too dark, on so many percent of the painting
 *
 * @throws TypeError, RangeError naming the argument
 */
export function adviceOn(
  comparison: Comparison,
  plan: PlannedPainting,
  options: AdviceOptions,
): Advice[] {
  return finish(adviceKernel(comparison, plan, options));
}

/** {@link adviceOn} in slices. */
export function* adviceKernel(
  comparison: Comparison,
  plan: PlannedPainting,
  options: AdviceOptions,
): Kernel<Advice[]> {
  expectObject('comparison', comparison);
  expectObject('plan', plan);
  expectMasses('plan.masses', plan.masses);
  expectTargets('plan.targets', plan.targets, plan.masses.map.bands);
  expectObject('options', options);
  const brush = expectNumber('options.brushPx', options.brushPx, Number.MIN_VALUE, 1e6);
  const paper = expectNumber('options.paperLightness', options.paperLightness ?? 95, 1, 100);
  const { regions, labels } = plan.masses;
  const known = new Map(TUBES.map((tube) => [tube.id, tube]));
  const lost = new Set(comparison.lostReserves);
  const advice: Advice[] = [];
  let mixes = 0;
  for (const [i, correction] of comparison.corrections.entries()) {
    const { region, shift, area } = correction;
    const recipe = options.laid?.[regions[region].band] ?? undefined;
    const laid = recipe?.parts.every(({ tube }) => known.has(tube)) ? recipe : undefined;
    const there: There = {
      lightness: plan.targets[regions[region].band] - shift,
      paper,
      share: area / labels.length,
      accent: area <= ACCENT_PRINTS * (Math.PI / 4) * brush * brush,
      lost: lost.has(region),
      layers: layersOn(region, options),
      laid,
      tubes: laid ? laid.parts.map(({ tube }) => known.get(tube)!) : [],
    };
    if (Math.abs(shift) < LEAVE_UNDER && !there.lost)
      advice.push({
        region,
        shift,
        action: 'leave',
        reasons: [reason('check.small-step', { shift: tenth(shift) })],
      });
    else if (shift > 0) advice.push(lighten(correction, there));
    else if (mixes++ < MIXES) advice.push(yield* darken(correction, there, options));
    else advice.push(darkenUnmixed(correction, there));
    yield (i + 1) / comparison.corrections.length;
  }
  return advice;
}

/** What is known of a mass as it is. */
interface There {
  /** L* now, and of the bare paper. */
  lightness: number;
  paper: number;
  /** Its share of the painting. */
  share: number;
  accent: boolean;
  lost: boolean;
  layers: number;
  laid?: Recipe;
  tubes: Tube[];
}

const tenth = (value: number): number => Math.round(10 * value) / 10;
const percent = (share: number): number => Math.round(100 * share);

/** How many steps that are done name a region. */
function layersOn(region: number, { order, upToStep }: Progressed): number {
  if (order === undefined) return 0;
  const done = upToStep === undefined ? order : order.slice(0, upToStep + 1);
  return done.filter((step: Step) => step.regions?.includes(region)).length;
}

function lighten({ region, shift }: Correction, there: There): Advice {
  const { paper, lightness, share, accent, lost, layers, tubes } = there;
  const figures = { shift: tenth(shift), area: percent(share) };
  const reasons: Reason[] = [
    lost
      ? reason('check.reserve-lost', { shift: tenth(shift) })
      : reason('check.too-dark', figures),
  ];
  const ladder: Tube['staining'][] = ['low', 'medium', 'high'];
  const staining =
    ladder.findLast((stain) => tubes.some((tube) => tube.staining === stain)) ?? 'medium';
  const most = LIFTS[staining] * Math.max(0, paper - lightness);
  const short = shift - most;
  if (tubes.length === 0) reasons.push(reason('check.lift-unknown'));
  reasons.push(reason('check.lift', { percent: percent(LIFTS[staining]), staining }));
  if (layers >= MANY_LAYERS) reasons.push(reason('check.layers', { layers }));
  if (short <= LEAVE_UNDER) return { region, shift, action: 'lift', reasons };
  if (accent)
    return {
      region,
      shift,
      action: 'reset-accent',
      reasons: [reason('check.accent-opaque', { shift: tenth(shift) }), ...reasons],
    };
  if (share >= LARGE && short > 2 * LEAVE_UNDER)
    return {
      region,
      shift,
      action: 'restart',
      reasons: [
        reason('check.cannot-lift', { short: tenth(short), area: percent(share) }),
        ...reasons,
      ],
    };
  reasons.push(reason('check.lift-short', { short: tenth(short) }));
  return { region, shift, action: 'lift', reasons };
}

function darkenUnmixed({ region, shift }: Correction, { share, accent, layers }: There): Advice {
  const reasons = [reason('check.too-light', { shift: tenth(-shift), area: percent(share) })];
  if (layers >= MANY_LAYERS) reasons.push(reason('check.layers', { layers }));
  if (!accent) return { region, shift, action: 'glaze', reasons };
  reasons.unshift(reason('check.accent', { shift: tenth(-shift) }));
  return { region, shift, action: 'reset-accent', reasons };
}

function* darken(
  correction: Correction,
  there: There,
  { tubes, loads }: AdviceOptions,
): Kernel<Advice> {
  const advice = darkenUnmixed(correction, there);
  const shelf = (tubes ?? []).filter((id) => TUBES.some((tube) => tube.id === id));
  const own = there.tubes.map(({ id }) => id);
  const from = own.length > 0 ? own : shelf;
  if (from.length === 0) {
    advice.reasons.push(reason('check.no-shelf'));
    return advice;
  }
  const target = there.lightness + correction.shift;
  const ground = groundOf(there, loads);
  if (ground.unknown) advice.reasons.push(reason('check.glaze-unknown'));
  const [mix] = yield* findMixesKernel(
    { lab: ground.colourAt(target) },
    {
      tubes: from,
      maxTubes: from.length > FEW_TUBES ? 2 : 3,
      count: 1,
      paper: ground.paper,
      over: ground.over,
      loads,
    },
  );
  advice.mix = mix;
  const strength = percent(mix.strength);
  advice.reasons.push(reason('check.glaze', { to: tenth(mix.lab[0]), strength }));
  if (mix.lab[0] - target > REACHED)
    advice.reasons.push(reason('check.glaze-short', { short: tenth(mix.lab[0] - target) }));
  const opaque = mix.parts.find(
    ({ tube }) => TUBES.find(({ id }) => id === tube)?.transparency === 'opaque',
  );
  if (opaque) advice.reasons.push(reason('check.glaze-opaque', { tube: opaque.tube }));
  const loose = there.tubes.find(({ staining }) => staining === 'low');
  if (loose) advice.reasons.push(reason('check.re-wets', { tube: loose.id }));
  return advice;
}

/** What a glaze is laid on. */
interface Ground {
  paper: Float64Array;
  over: Mix[];
  unknown: boolean;
  /** The colour that it should come to at a lightness. */
  colourAt(lightness: number): Lab;
}

/**
 * The noted paint at the strength that has the lightness that was measured, to come to what more of the same would be, so that the mass
 * keeps its lean; or else a grey sheet of that lightness, to stay grey.
 */
function groundOf({ laid, lightness, paper: bare }: There, loads: Loads | undefined): Ground {
  const paper = paperReflectance({ lightness: bare });
  const grey: Ground = {
    paper: paperReflectance({ lightness: Math.min(100, Math.max(0, lightness)) }),
    over: [],
    unknown: true,
    colourAt: (wanted) => [wanted, 0, 0],
  };
  if (!laid) return grey;
  const at = (strength: number): Mix => mixOnPaper(laid.parts, { strength, paper, loads });
  const strengthFor = (wanted: number): number => {
    let weak = 0;
    let strong = STRONGEST;
    for (let i = 0; i < 30; i++) {
      const middle = (weak + strong) / 2;
      if (at(middle).lab[0] > wanted) weak = middle;
      else strong = middle;
    }
    return strong;
  };
  if (at(STRONGEST).lab[0] > lightness + 1) return grey;
  const colourAt = (wanted: number): Lab => {
    const [, a, b] = at(strengthFor(wanted)).lab;
    return [wanted, a, b];
  };
  const over = lightness >= bare - 0.5 ? [] : [at(strengthFor(lightness))];
  return { paper, over, unknown: false, colourAt };
}
