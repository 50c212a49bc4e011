import { expectObject, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import { deltaE2000, lchOf } from '../colour/index.js';
import type { Passage, Passages } from '../mass/index.js';
import type { Masses } from '../mass/types.js';
import { NEAR } from '../paint/index.js';
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
import { placesOf } from './order.js';
import type { BandOfPassages, MixToPaint, PassageToPaint, PassageWork } from './passage-types.js';
import { assignSwatches } from './rehearsal.js';
import type { Plan } from './types.js';

/**
 * The passages of a plan's masses, each with its swatch of the board, its number and its place; which of them run into each other and
 * which are kept apart; what board and passages lack of each other.
 *
 * A passage takes the swatch of its bucket whose lean is nearest ({@link assignSwatches}). Passages of masses that stay paper, or are kept
 * pale, have no number. Numbers follow the order of work: bands by the plan's way, masses as they are read from the top; inside a mass
 * first the washes that meet soft neighbours, which are wet, then the largest, each wash from its largest passage on. Common practice, no
 * source.
 *
 * Codes of a band: `passages.no-swatch` { band, passages }: its bucket has no swatch with a colour for so many passages;
 * `passages.swatch-far` { passage, swatch, deltaE, hue, chroma }: the nearest lean on the board is beyond {@link NEAR} (hue in degrees and
 * chroma C*ab of the photo there); `passages.swatch-unused` { swatch, band }; `passages.one-mix` { first, second, swatch }: they are kept apart
 * and yet painted with one swatch, so their border vanishes.
 *
 * @param facts - Edges and reserves, where they are known, as in `orderOfWork`.
 * @throws {TypeError | RangeError} naming the argument, passages of other masses too.
 */
export function passageWork(
  plan: Plan,
  masses: Masses,
  passages: Passages,
  facts: Omit<WorkFacts, 'passages'> = {},
): PassageWork {
  return finish(passageWorkKernel(plan, masses, passages, facts));
}

/** {@link passageWork} in slices. */
export function passageWorkKernel(
  plan: Plan,
  masses: Masses,
  passages: Passages,
  facts: Omit<WorkFacts, 'passages'> = {},
): Kernel<PassageWork> {
  expectWork(plan, masses);
  expectPassages(passages, masses);
  return workSlices(plan, masses, passages, facts);
}

function expectPassages(value: unknown, masses: Masses): void {
  const { labels, passages, borders } = expectObject('passages', value);
  if (!(labels instanceof Int32Array)) throw wrongType('passages.labels', labels, 'an Int32Array');
  if (labels.length !== masses.labels.length)
    throw outOfRange('passages.labels', labels, `${masses.labels.length} labels, as of the masses`);
  if (!Array.isArray(passages)) throw wrongType('passages.passages', passages, 'a list');
  if (!Array.isArray(borders)) throw wrongType('passages.borders', borders, 'a list');
  (passages as Passage[]).forEach(({ region }, i) => {
    if (!(region in masses.regions))
      throw outOfRange(`passages.passages[${i}].region`, region, 'a mass');
  });
}

function* workSlices(
  plan: Plan,
  masses: Masses,
  found: Passages,
  facts: Omit<WorkFacts, 'passages'>,
): Kernel<PassageWork> {
  const said = decided(plan, masses, facts);
  const beside = yield* besideKernel(masses, found);
  const spots = yield* spotsKernel(
    plan,
    { ...masses, labels: found.labels },
    found.passages.length,
  );
  const ordered = numbered(plan, masses, found, said, beside);
  const numberOf = new Map(ordered.map(({ id }, i) => [id, i + 1]));
  const pairs = (run: string): [number, number][] =>
    found.borders
      .filter((border) => border.run === run)
      .flatMap(({ passages: [a, b] }): [number, number][] => {
        const [first, second] = [numberOf.get(a), numberOf.get(b)];
        if (first === undefined || second === undefined) return [];
        return [first < second ? [first, second] : [second, first]];
      })
      .sort(([a, b], [c, d]) => a - c || b - d);

  const assigned = assignSwatches(
    plan.board,
    ordered.map(({ id, region, lab }) => ({ id, lab, band: masses.regions[region].band })),
    [plan.paper.lightness, 0, 0],
  );
  const swatches = new Map(plan.board.swatches.map((swatch) => [swatch.id, swatch]));
  const mixes = new Map<string, MixToPaint>();
  const mm2 = said.pxPerMm ** 2;
  const passages = ordered.map(({ id, region, area, lab }, i): PassageToPaint => {
    const { swatch } = assigned[i];
    const number = i + 1;
    const cm2 = area / mm2 / 100;
    const { band } = masses.regions[region];
    const part = {
      number,
      passage: id,
      region,
      band,
      at: spots[id],
      cm2,
      lab,
      beside: beside[id],
    };
    if (swatch === undefined) return part;
    let mix = mixes.get(swatch);
    if (!mix) {
      const { name, recipe } = swatches.get(swatch)!;
      mix = {
        number: mixes.size + 1,
        swatch,
        band,
        lab: assigned[i].lab,
        ...(name === undefined ? {} : { name }),
        ...(recipe === undefined ? {} : { recipe }),
        passages: [],
        cm2: 0,
      };
      mixes.set(swatch, mix);
    }
    mix.passages.push(number);
    mix.cm2 += cm2;
    return { ...part, mix: mix.number, deltaE: leansApart(lab, mix.lab) };
  });
  const work = {
    passages,
    mixes: [...mixes.values()],
    run: pairs('let-run'),
    apart: pairs('keep-apart'),
  };
  return { ...work, bands: bandsOfWork(plan, paintedBands(plan, masses), work) };
}

/** CIEDE2000 of two leans at equal L*, as swatches are chosen. */
function leansApart([, a, b]: Lab, [, c, d]: Lab): number {
  return deltaE2000([50, a, b], [50, c, d]);
}

/** The masses that each passage meets, beside its own, ascending. */
function* besideKernel({ labels: mass, map }: Masses, found: Passages): Kernel<number[][]> {
  const { width, height } = map;
  const { labels } = found;
  const beside = found.passages.map(() => new Set<number>());
  const meet = (i: number, j: number): void => {
    if (mass[i] === mass[j]) return;
    beside[labels[i]].add(mass[j]);
    beside[labels[j]].add(mass[i]);
  };
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++)
      for (let x = 0, i = y * width; x < width; x++, i++) {
        if (x + 1 < width) meet(i, i + 1);
        if (y + 1 < height) meet(i, i + width);
      }
  });
  return beside.map((masses) => [...masses].sort((a, b) => a - b));
}

/** The passages that are painted, in their order. */
function numbered(
  plan: Plan,
  masses: Masses,
  { passages, borders }: Passages,
  said: Decided,
  beside: readonly number[][],
): Passage[] {
  const painted = paintedBands(plan, masses);
  const partners = new Map<number, Set<number>>();
  for (const [a, b] of pairsLaid(said.soft, said))
    for (const [from, to] of [
      [a, b],
      [b, a],
    ])
      partners.set(from, (partners.get(from) ?? new Set()).add(to));
  const isSoft = ({ id, region }: Passage): boolean =>
    beside[id].some((other) => partners.get(region)?.has(other));
  const run = borders.filter(({ run }) => run === 'let-run').map(({ passages: pair }) => pair);
  const near = passages.map((): number[] => []);
  for (const [a, b] of run) {
    near[a].push(b);
    near[b].push(a);
  }
  const wash = wetGroups(passages.length, run);
  const washes = new Map<number, Passage[]>();
  for (const passage of passages)
    washes.set(wash[passage.id], [...(washes.get(wash[passage.id]) ?? []), passage]);
  const larger = (a: Passage, b: Passage): number => b.area - a.area || a.id - b.id;
  const total = (members: readonly Passage[]): number =>
    members.reduce((sum, { area }) => sum + area, 0);
  const inMass = new Map<number, { soft: boolean; area: number; members: Passage[] }[]>();
  for (const members of washes.values()) {
    const { region } = members[0];
    const list = inMass.get(region) ?? [];
    list.push({ soft: members.some(isSoft), area: total(members), members });
    inMass.set(region, list);
  }
  const places = placesOf(painted, plan.way !== 'light-to-dark').map(({ band }) => band);
  const placeOf = (region: number): number => places.indexOf(masses.regions[region].band);
  return [...inMass]
    .filter(([region]) => !said.reserves.has(region) && placeOf(region) >= 0)
    .sort(([a], [b]) => placeOf(a) - placeOf(b) || a - b)
    .flatMap(([, list]) =>
      list
        .sort(
          (a, b) =>
            Number(b.soft) - Number(a.soft) || b.area - a.area || a.members[0].id - b.members[0].id,
        )
        .flatMap(({ members }) => fromLargest(members.sort(larger), near, passages, larger)),
    );
}

/** The passages of one wash from the largest on, each beside one before it. */
function fromLargest(
  [first]: readonly Passage[],
  near: readonly number[][],
  passages: readonly Passage[],
  larger: (a: Passage, b: Passage) => number,
): Passage[] {
  const order = [first];
  const seen = new Set([first.id]);
  for (const { id } of order)
    for (const next of near[id].map((other) => passages[other]).sort(larger))
      if (!seen.has(next.id)) {
        seen.add(next.id);
        order.push(next);
      }
  return order;
}

function bandsOfWork(
  plan: Plan,
  painted: number,
  { passages, mixes, apart }: Omit<PassageWork, 'bands'>,
): BandOfPassages[] {
  const used = new Set(mixes.map(({ swatch }) => swatch));
  return Array.from({ length: painted }, (_, band): BandOfPassages => {
    const own = passages.filter((passage) => passage.band === band);
    const unused = plan.board.swatches
      .filter(
        ({ id, bucket, wet, accent, lab }) =>
          bucket === band && !wet && !accent && lab !== undefined && !used.has(id),
      )
      .map(({ id }) => id);
    const without = own.filter(({ mix }) => mix === undefined);
    const distant = own.filter(({ deltaE = 0 }) => deltaE > NEAR);
    const reasons: Reason[] = [];
    if (without.length > 0)
      reasons.push(reason('passages.no-swatch', { band, passages: without.length }));
    for (const { number, deltaE, mix, lab } of distant) {
      const { h: hue, C: chroma } = lchOf(lab);
      const { swatch } = mixes[mix! - 1];
      reasons.push(
        reason('passages.swatch-far', { passage: number, swatch, deltaE: deltaE!, hue, chroma }),
      );
    }
    for (const swatch of unused) reasons.push(reason('passages.swatch-unused', { swatch, band }));
    for (const [first, second] of apart) {
      const { mix, band: of } = passages[first - 1];
      if (of === band && mix !== undefined && mix === passages[second - 1].mix)
        reasons.push(reason('passages.one-mix', { first, second, swatch: mixes[mix - 1].swatch }));
    }
    const far = [...without, ...distant].map(({ number }) => number).sort((a, b) => a - b);
    return { band, unused, far, reasons };
  });
}
