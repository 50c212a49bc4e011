import { reason, type Advice, type Reason, type Spot } from '../shared/core.js';
import type { Made } from './checking.js';
import { placeIn } from './geometry.js';

/** Something that is off in one place, as the list and the picture show it. */
export interface Finding {
  id: string;
  kind: 'reserve' | 'mass' | 'island' | 'passage' | 'edge';
  /** Its number in list and picture; edges have none. */
  number?: number;
  regions: number[];
  /** A place in it, pixels of the masses. */
  at: Spot;
  /** L* to lighten (+) or darken (-); 0 for edges. */
  shift: number;
  /** L* that was planned. */
  target: number;
  /** Pixels; of an edge pixels along it. */
  size: number;
  /** What to do about it: an action of the core, `glaze-now` and so on for islands, `soften` or `firm`. */
  act: string;
  reasons: readonly Reason[];
  mix?: Advice['mix'];
}

export interface Found {
  reserves: Finding[];
  masses: Finding[];
  /** Masses that are off by less than shows. */
  left: number;
  /** Masses that look too dark by no more than the shadow on them accounts for. */
  shaded: number;
  islands: Finding[];
  passages: Finding[];
  edges: Finding[];
}

const known = new WeakMap<Made, Found>();

/** What a check found, in the order in which it is put right: reserves, masses by what they matter, islands, edges. */
export function findingsOf(made: Made): Found {
  let found = known.get(made);
  if (!found) known.set(made, (found = listed(made)));
  return found;
}

function listed({ report, masses, targets }: Made): Found {
  const lost = new Set(report.comparison.lostReserves);
  const areas = new Map(report.comparison.corrections.map(({ region, area }) => [region, area]));
  const target = (region: number): number => targets[masses.regions[region].band];
  let number = 0;
  const ofAdvice =
    (kind: 'reserve' | 'mass') =>
    ({ region, shift, action, reasons, mix }: Advice): Finding => ({
      id: `mass-${region}`,
      kind,
      number: ++number,
      regions: [region],
      at: placeIn(masses, region),
      shift,
      target: target(region),
      size: areas.get(region) ?? masses.regions[region].area,
      act: action,
      reasons,
      mix,
    });
  const advice = report.advice.filter(({ action }) => action !== 'leave');
  const shaded = report.advice.filter(
    ({ reasons }) => reasons[0].code === 'check.in-shadow',
  ).length;
  const reserves = advice.filter(({ region }) => lost.has(region)).map(ofAdvice('reserve'));
  const wrong = advice.filter(({ region }) => !lost.has(region)).map(ofAdvice('mass'));
  const islands = report.islands.map(
    ({ region, at, area, lightness, glaze, reasons }, i): Finding => ({
      id: `island-${i}`,
      kind: 'island',
      number: ++number,
      regions: [region],
      at,
      shift: target(region) - lightness,
      target: target(region),
      size: area,
      act: `glaze-${glaze}`,
      reasons,
    }),
  );
  const passages = (report.passages ?? []).map(
    ({ region, at, reason: { code, values } }, i): Finding => ({
      id: `passage-${i}`,
      kind: 'passage',
      number: ++number,
      regions: [region],
      at,
      shift: 0,
      target: 0,
      size: 0,
      act: code.slice('check.'.length),
      // Passages go by their numbers in this list, which the picture shows too.
      reasons: [
        reason(code === 'check.passage-vanished' ? 'checking.passage-vanished' : code, {
          ...values,
          passage: number,
        }),
      ],
    }),
  );
  const edges = report.edges.map(({ regions, action, lengthPx, reasons }, i): Finding => ({
    id: `edge-${i}`,
    kind: 'edge',
    regions: [...regions],
    at: [0, 0],
    shift: 0,
    target: 0,
    size: lengthPx,
    act: action,
    reasons,
  }));
  return {
    reserves,
    masses: wrong,
    left: report.advice.length - advice.length - shaded,
    shaded,
    islands,
    passages,
    edges,
  };
}
