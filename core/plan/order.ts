import { finish, type Kernel } from '../base/kernel.js';
import type { Spot } from '../base/types.js';
import type { Masses } from '../mass/types.js';
import {
  decided,
  expectWork,
  paintedBands,
  pairsLaid,
  spotsKernel,
  wetGroups,
  type Decided,
  type WorkFacts,
} from './decided.js';
import type { KeptMark } from './kept-marks.js';
import { checked } from './findings.js';
import { bareStep, type StepRole, type WorkStep } from './steps.js';
import type { Plan } from './types.js';

/**
 * The order of work by common practice (no source): reserves before any paint, masking on dry paper, then by the plan's `way`:
 * `direct` lays the darkest darks, the middles, the second darks and the lights with their form, each final; `light-to-dark` lays the
 * bands from the lightest on. Kept dark marks come last, with the tone of lights that are darker than the lightest band. Masses whose edges are soft or lost are painted in one wet session; between
 * sessions paint dries, so that hard edges hold.
 *
 * Every mass is laid in exactly one step, or is a reserve that stays paper. It works from plan and masses alone; edges, reserves and
 * ground that are known better go into `facts`. With passages a step that lays masses lists theirs with their mixes, in painting order; those
 * that are kept apart dry between, unless that would let a soft edge dry: masses that are wet together stay so.
 *
 * Codes. Waits: `order.wait-masking-dry`, `.wait-tint-dry`, `.wait-hard-edges` (`edges`), `.wait-before-mask`, `.wait-before-unmask`,
 * `.wait-before-marks`. Hints: `order.hint-masking` (masking fluid: dry paper, air, its label first), `.hint-wet-together` (`edges`),
 * `.hint-hard-while-wet` (`edges` that stay hard although all is wet: leave a hair of dry paper), `.hint-large-session` (`cm2`),
 * `.hint-tint-below` (`masses`: the tint shows through all that is laid over it), `.hint-passages-run` (`count`, `passages`: their numbers
 * as `1–3; 5–6`, they run into each other while wet), `.hint-passages-apart` (`count`, `passages` as `1/4; 2/4`: the first dries
 * before the second is laid). Warnings and their consequence:
 * `order.warn-covers-reserve` (`masses`, `mm2`: the white of the paper is gone), `.warn-before-masking` (`masses`, `marks`: they will be
 * painted over before they are masked), `.warn-after-unmasking` (`masses`, `marks`: too late for their masking, they must be painted
 * around), `.warn-on-masking` (`masses`: paint on masking comes off with it), `.warn-narrow-reserve` (`masses`, `widthMm`, `brushMm`: the
 * brush runs over it), `.warn-tint-after-paint` (`masses`: the tint draws colour from them into the light), `.warn-soft-dried` (`edges`:
 * the first side has dried, the edge turns hard), `.warn-covers-marks` (`marks`: they are painted over), `.warn-still-masked`
 * (masking is never taken off; left for long it stains or tears the paper), `.warn-passages-wet` (`count`, `passages` as `1/4`: kept apart,
 * but soft neighbours or washes that join them keep both wet, so they bleed unless a hair of dry paper is left between).
 *
 * @throws {TypeError} when plan or masses are no such thing.
 */
export function orderOfWork(plan: Plan, masses: Masses, facts: WorkFacts = {}): WorkStep[] {
  return finish(orderKernel(plan, masses, facts));
}

/** {@link orderOfWork} in slices. The masses must not change until it is done. */
export function orderKernel(plan: Plan, masses: Masses, facts: WorkFacts = {}): Kernel<WorkStep[]> {
  expectWork(plan, masses);
  return orderSlices(plan, masses, facts);
}

function* orderSlices(plan: Plan, masses: Masses, facts: WorkFacts): Kernel<WorkStep[]> {
  const said = decided(plan, masses, facts);
  const inside = yield* spotsKernel(plan, masses);
  return checked(proposed(plan, masses, said, inside), masses, said);
}

/** The places of the bands in the order, and what they are. */
export function placesOf(bands: number, direct: boolean): { band: number; role: StepRole }[] {
  const all = Array.from({ length: bands }, (_, band) => band);
  const roleOf = (band: number): StepRole => {
    if (band === 0) return 'darkest';
    if (bands >= 4 && band === 1) return 'second-darks';
    return band <= Math.floor(bands / 2) && band < bands - 1 ? 'middles' : 'lights';
  };
  const rank: StepRole[] = ['darkest', 'middles', 'second-darks', 'lights'];
  const order = direct
    ? all.sort((a, b) => rank.indexOf(roleOf(a)) - rank.indexOf(roleOf(b)) || a - b)
    : all.reverse();
  return order.map((band) => ({ band, role: roleOf(band) }));
}

interface Layer {
  place: number;
  regions: number[];
}

/**
 * The laid masses in sessions of layers. Masses that must be wet together share a session, the one of their earliest band; of
 * groups that begin with the same band those with a hard border between them get sessions of their own.
 */
function sessionsOf(
  laid: readonly number[],
  placeOfMass: (id: number) => number,
  count: number,
  said: Decided,
): Layer[][] {
  const group = wetGroups(count, pairsLaid(said.soft, said));
  const groups = new Map<number, { first: number; last: number; members: number[] }>();
  for (const id of laid) {
    const place = placeOfMass(id);
    const found = groups.get(group[id]);
    if (found) {
      found.first = Math.min(found.first, place);
      found.last = Math.max(found.last, place);
      found.members.push(id);
    } else groups.set(group[id], { first: place, last: place, members: [id] });
  }
  const apart = new Map<number, Set<number>>();
  for (const [a, b] of pairsLaid(said.hard, said)) {
    const [p, q] = [group[a], group[b]];
    if (p === q) continue;
    for (const [from, to] of [
      [p, q],
      [q, p],
    ])
      apart.set(from, (apart.get(from) ?? new Set()).add(to));
  }
  const ordered = [...groups.entries()].sort(
    ([p, a], [q, b]) => a.first - b.first || a.last - b.last || p - q,
  );
  const level = new Map<number, number>();
  const sessions = new Map<string, { first: number; level: number; members: number[] }>();
  for (const [key, { first, members }] of ordered) {
    let own = 0;
    for (const other of apart.get(key) ?? [])
      if (groups.get(other)?.first === first && level.has(other))
        own = Math.max(own, (level.get(other) as number) + 1);
    level.set(key, own);
    const name = `${first} ${own}`;
    const session = sessions.get(name) ?? { first, level: own, members: [] };
    session.members.push(...members);
    sessions.set(name, session);
  }
  return joined(
    [...sessions.values()]
      .sort((a, b) => a.first - b.first || a.level - b.level)
      .map(({ members }) => members),
    said,
  ).map((members) => layersOf(members, placeOfMass));
}

/** Sessions with no hard border to the one before go on without drying. What is taken from under masking begins a session. */
function joined(sessions: readonly number[][], said: Decided): number[][] {
  const neighbours = new Map<number, number[]>();
  for (const [a, b] of said.hard) {
    neighbours.set(a, [...(neighbours.get(a) ?? []), b]);
    neighbours.set(b, [...(neighbours.get(b) ?? []), a]);
  }
  const result: number[][] = [];
  let uncovered = false;
  for (const session of sessions) {
    const last = result.at(-1);
    const wet = new Set(last);
    const uncovers: boolean = !uncovered && session.some((id) => said.shielded.has(id));
    uncovered ||= uncovers;
    const dries = session.some((id) => (neighbours.get(id) ?? []).some((other) => wet.has(other)));
    if (last && !dries && !uncovers) last.push(...session);
    else result.push([...session]);
  }
  return result;
}

function layersOf(members: readonly number[], placeOfMass: (id: number) => number): Layer[] {
  const layers = new Map<number, number[]>();
  for (const id of members) {
    const place = placeOfMass(id);
    layers.set(place, [...(layers.get(place) ?? []), id]);
  }
  return [...layers]
    .map(([place, regions]) => ({ place, regions: regions.sort((a, b) => a - b) }))
    .sort((a, b) => a.place - b.place);
}

/** The steps in the proposed order, without findings. */
function proposed(plan: Plan, masses: Masses, said: Decided, inside: readonly Spot[]): WorkStep[] {
  const { reserves, shielded, ground } = said;
  const direct = plan.way !== 'light-to-dark';
  const painted = paintedBands(plan, masses);
  const places = placesOf(painted, direct);
  const kept = (method: string): number[] =>
    [...reserves].filter(([, how]) => how === method).map(([id]) => id);
  const lights = said.marks.filter(({ light }) => light);
  const numbers = (marks: readonly KeptMark[]): number[] => marks.map(({ number }) => number);
  const steps: WorkStep[] = [];

  const left = { keeps: kept('bare'), marks: numbers(lights.filter((m) => m.method === 'bare')) };
  if (left.keeps.length + left.marks.length > 0) steps.push(bareStep('keep', 'keep', left));
  const masked = kept('mask');
  const maskedMarks = numbers(lights.filter((m) => m.method === 'mask'));
  if (masked.length + shielded.size + maskedMarks.length > 0)
    steps.push(bareStep('mask', 'mask', { keeps: [...masked, ...shielded], marks: maskedMarks }));
  const tinted = kept('tint');
  if (tinted.length > 0) steps.push(bareStep('tint', 'tint', { regions: tinted }));

  // The ground is a layer of its own: a wash goes first, a dark one follows the darkest darks or, light to dark, the end.
  const groundPlace = plan.background === 'wash' ? -0.5 : direct ? 0.5 : places.length - 0.5;
  const place = new Map(places.map(({ band }, i) => [band, i]));
  const placeOfMass = (id: number): number =>
    ground.has(id)
      ? groundPlace
      : (place.get(Math.min(masses.regions[id].band, painted - 1)) as number);
  const laid = masses.regions.map(({ id }) => id).filter((id) => !reserves.has(id));
  const times = new Map<string, number>();
  const named = (name: string): string => {
    const time = (times.get(name) ?? 0) + 1;
    times.set(name, time);
    return time === 1 ? name : `${name}-${time}`;
  };
  let covered = shielded.size > 0;
  for (const session of sessionsOf(laid, placeOfMass, masses.regions.length, said)) {
    if (covered && session.some(({ regions }) => regions.some((id) => shielded.has(id)))) {
      steps.push(bareStep('unmask-lights', 'unmask', { keeps: [...shielded] }));
      covered = false;
    }
    for (const layer of session) {
      if (!Number.isInteger(layer.place)) {
        steps.push(bareStep(named('ground'), 'ground', { regions: layer.regions }));
        continue;
      }
      const { band, role } = places[layer.place];
      steps.push(bareStep(named(`lay-${band}`), 'lay', { band, role, regions: layer.regions }));
    }
  }
  if (masked.length + maskedMarks.length > 0)
    steps.push(bareStep('unmask', 'unmask', { keeps: masked, marks: maskedMarks }));
  const last = numbers(said.marks.filter(({ method, toned }) => method === 'paint' || toned));
  if (last.length > 0) steps.push(bareStep('marks', 'marks', { marks: last }));
  for (const step of steps) step.at = step.regions.map((id) => inside[id]);
  return steps;
}
