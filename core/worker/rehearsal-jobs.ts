import { byRows, type Kernel } from '../base/kernel.js';
import type { Lab, Pixels } from '../base/types.js';
import { labOfLinear, LINEAR_OF_SRGB } from '../colour/index.js';
import { lightnessKernel } from '../picture/index.js';
import { reservesKernel, type Mark, type Masses } from '../mass/index.js';
import {
  assignSwatches,
  checkedSteps,
  keptMarks,
  orderKernel,
  passageWorkKernel,
  reconcileSteps,
  rehearseKernel,
  type KeptMark,
  type PassageWork,
  type Plan,
  type RehearsedMark,
  type RehearsedPart,
  type SoftBorder,
  type WantedColour,
  type WorkStep,
} from '../plan/index.js';
import type { Board } from '../swatch/index.js';
import { stepBackPixelsKernel } from '../value/index.js';
import type { Display } from './inputs.js';
import type { MassesInput } from './mass-inputs.js';
import { passagesFor, passagesKey } from './passages-kept.js';
import { coloursOf } from './raster.js';
import { sliced, type Watch } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** What is rehearsed. */
export interface RehearsalInput extends MassesInput {
  board: Board;
  /** Colour of the bare paper, CIELAB D65; L* 95 when absent. */
  paper?: Lab;
  /** Masses of each step of the order of work; all at once when absent. */
  steps?: { regions: number[] }[];
  /** The last step that is done, from 0; -1 shows bare paper. */
  upToStep?: number;
  /** The marks that are kept, in pixels of the masses; none when absent. */
  marks?: (Pick<Mark, 'x' | 'y' | 'area'> & Pick<KeptMark, 'light' | 'toned'>)[];
  /** Metres from which it is seen; 0 is close by. */
  distance?: number;
}

/** The job that shows the painting before it is painted. */
export interface RehearsalJobs {
  /** `parts` and `bare` tell how many parts there are and how many of them have no swatch yet. */
  rehearsal: { in: RehearsalInput; out: Display & { parts: number; bare: number } };
  /**
   * The order of work with what the painter made of the plan's own steps, and the marks that are kept, in pixels of the masses; with `passages`
   * also the passages with their swatches, and each step with its own.
   */
  order: {
    in: MassesInput & { plan: Plan; passages?: boolean };
    out: { steps: WorkStep[]; marks: KeptMark[]; passages?: PassageWork };
  };
}

/** How broad a lost edge is drawn at least, in widths of the brush: one wash. Our own choice. */
const LOST_WIDTH = 0.5;
/** How broad two passages run into each other, in widths of the brush. Our own choice. */
const RUN_WIDTH = 0.35;

export function rehearsalHandlers(workshop: Workshop): Handlers<RehearsalJobs> {
  return {
    order: async (input, watch) => {
      const found = await workshop.masses(input, watch);
      const { masses, pxPerMm } = found;
      const { edges } = await workshop.edges(found, watch);
      const brushPx = input.brushMm * pxPerMm;
      const reserves = input.bare
        ? await sliced(reservesKernel(masses, { brushPx }), watch, 'reserves')
        : [];
      const { plan } = input;
      const known = { edges, reserves };
      const passages = input.passages
        ? await sliced(
            passageWorkKernel(
              plan,
              masses,
              await passagesFor(input, found, workshop, watch),
              known,
            ),
            watch,
            'passages',
          )
        : undefined;
      const facts = { ...known, passages };
      const proposed = await sliced(orderKernel(plan, masses, facts), watch, 'order');
      const steps = checkedSteps(reconcileSteps(plan.steps, proposed), plan, masses, facts);
      const marks = keptMarks(plan, masses);
      return { steps, marks, ...(passages ? { passages } : {}) };
    },

    rehearsal: async (input, watch) => {
      const scene = await sceneFor(input, workshop, watch);
      const { masses, pixels, pxPerMm, labels, wanted, soft } = scene;
      const { width, height } = masses.map;
      const paper = input.paper ?? [95, 0, 0];
      const colours = assignSwatches(input.board, wanted, paper);
      const parts: RehearsedPart[] = wanted.map(({ id, region }, i) => ({
        id,
        region,
        lab: colours[i].lab,
      }));
      const kernel = rehearseKernel({
        width,
        height,
        labels,
        parts,
        soft,
        paper,
        steps: input.steps?.map((step, i) => ({ id: String(i), ...step })),
        upToStep: input.upToStep,
        marks: (input.marks ?? []).flatMap((mark) =>
          rehearsedMarks(mark, masses, colours, labels, pixels, paper),
        ),
      });
      let shown: Pixels = await sliced(kernel, watch, 'rehearse');
      if (input.distance) {
        const options = { pxPerMm, distance: input.distance };
        shown = await sliced(stepBackPixelsKernel(shown, options), watch, 'step-back');
      }
      const plane = await sliced(lightnessKernel(shown), watch, 'rehearse');
      const laid = colours.filter(
        ({ swatch }, i) => swatch === undefined && wanted[i].band < input.board.bands.length,
      );
      return { plane, ...coloursOf(shown), parts: parts.length, bare: laid.length };
    },
  };
}

/** All of a rehearsal that does not depend on board, steps and distance. */
interface Scene {
  masses: Masses;
  pixels: Pixels;
  pxPerMm: number;
  /** The passage of each pixel. */
  labels: Int32Array;
  wanted: (WantedColour & { region: number })[];
  soft: SoftBorder[];
}

/** The scene of a rehearsal: from the cache, or made and kept there, so that a step costs only the filling. */
async function sceneFor(input: MassesInput, workshop: Workshop, watch: Watch): Promise<Scene> {
  const key = `${passagesKey(input)} rehearsal`;
  const kept = workshop.cache.get<Scene>(key);
  if (kept) return kept;
  const found = await workshop.masses(input, watch);
  const { masses, pxPerMm } = found;
  const { edges } = await workshop.edges(found, watch);
  const { pixels } = await workshop.working(input, watch);
  const brushPx = input.brushMm * pxPerMm;
  const { labels, passages, borders } = await passagesFor(input, found, workshop, watch);
  const soft: SoftBorder[] = borders
    .filter(({ run }) => run === 'let-run')
    .map(({ passages: pair }) => ({ parts: pair, widthPx: RUN_WIDTH * brushPx }));
  const { width, height } = masses.map;
  const kinds = new Map(edges.map((edge) => [edge.regions.join(), edge]));
  for (const [a, b] of await sliced(meetingsKernel(labels, width, height), watch, 'passages')) {
    const [ra, rb] = [passages[a].region, passages[b].region].sort((p, q) => p - q);
    const edge = ra === rb ? undefined : kinds.get(`${ra},${rb}`);
    if (!edge || edge.kind === 'hard') continue;
    const least = edge.kind === 'lost' ? LOST_WIDTH * brushPx : 0;
    soft.push({ parts: [a, b], widthPx: Math.max(edge.widthPx, least) });
  }
  const wanted = passages.map(({ id, region, lab }) => ({
    id,
    region,
    band: masses.regions[region].band,
    lab,
  }));
  const scene = { masses, pixels, pxPerMm, labels, wanted, soft };
  workshop.cache.set(key, scene, 9 * labels.length);
  return scene;
}

/** Pairs of passages that share a side, the smaller id first. */
function* meetingsKernel(
  labels: Int32Array,
  width: number,
  height: number,
): Kernel<[number, number][]> {
  const pairs = new Map<string, [number, number]>();
  const meet = (a: number, b: number): void => {
    const pair: [number, number] = a < b ? [a, b] : [b, a];
    pairs.set(pair.join(), pair);
  };
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++)
      for (let x = 0; x < width; x++) {
        const i = y * width + x;
        if (x + 1 < width && labels[i] !== labels[i + 1]) meet(labels[i], labels[i + 1]);
        if (y + 1 < height && labels[i] !== labels[i + width]) meet(labels[i], labels[i + width]);
      }
  });
  return [...pairs.values()];
}

/**
 * A light mark is paper. A dark one takes the colour that the photo has there, no lighter than what is about it and no darker than the
 * darkest swatch; a light that gets a tone is paper first and takes its colour with the darks, no darker than what is about it.
 */
function rehearsedMarks(
  { x, y, area, light, toned }: NonNullable<RehearsalInput['marks']>[number],
  masses: Masses,
  colours: readonly { lab: Lab }[],
  labels: Int32Array,
  pixels: Pixels,
  paper: Lab,
): RehearsedMark[] {
  const kept: RehearsedMark = { x, y, area, lab: paper, kept: true };
  if (light && !toned) return [kept];
  const { width, height } = masses.map;
  const i =
    Math.min(height - 1, Math.max(0, Math.floor(y))) * width +
    Math.min(width - 1, Math.max(0, Math.floor(x)));
  const [r, g, b] = [0, 1, 2].map((c) => LINEAR_OF_SRGB[pixels.data[4 * i + c]]);
  const photo = labOfLinear(r, g, b);
  const darkest = Math.min(...colours.map(({ lab }) => lab[0]));
  const around = colours[labels[i]].lab[0];
  const lightness = light
    ? Math.min(paper[0], Math.max(around, photo[0]))
    : Math.min(around, Math.max(darkest, photo[0]));
  const put: RehearsedMark = { x, y, area, lab: [lightness, photo[1], photo[2]], kept: false };
  return light ? [kept, put] : [put];
}
