import {
  checkedSteps,
  keptMarks,
  orderKernel,
  passageWorkKernel,
  planSheetsKernel,
  reconcileSteps,
  type KeptMark,
  type Plan,
  type PlanSheetOptions,
  type WorkStep,
} from '../plan/index.js';
import {
  outlinesKernel,
  reservesKernel,
  type AccentsFound,
  type Edge,
  type Masses,
  type Outline,
  type Reserve,
} from '../mass/index.js';
import { directionKernel, strokesKernel, type Arrow } from '../stroke/index.js';
import type { MassesFound, MassesInput } from './mass-inputs.js';
import { accentsFor } from './passage-jobs.js';
import { passageBordersFor } from './passages-kept.js';
import { sliced, type Watch } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** What is printed. */
export interface PagesInput extends MassesInput {
  plan: Plan;
  /** Paper, words and choices; the drawing's own parts are worked out. */
  options: Omit<
    PlanSheetOptions,
    | 'outlines'
    | 'edges'
    | 'arrows'
    | 'reserves'
    | 'order'
    | 'passages'
    | 'passageWork'
    | 'passageBorders'
    | 'accents'
  > & {
    /** All words of the pages: `SHEET_STRINGS`, or those of another language under the same keys. */
    strings: Readonly<Record<string, string>>;
  };
  /** Whether strokes are drawn. */
  strokes: boolean;
  /** Whether passages are drawn and told with their swatches; not when absent. */
  passages?: boolean;
  /** Whether the board's accents are marked and told; not when absent. */
  accents?: boolean;
}

/** The printed plan. */
export interface PageJobs {
  /** The pages as SVG, the steps with what the painter made of the plan's own, and the marks that are kept. */
  pages: { in: PagesInput; out: { pages: string[]; steps: WorkStep[]; marks: KeptMark[] } };
}

/** What is drawn, kept while only steps, words and choices change. */
interface Drawing {
  masses: Masses;
  outlines: Outline[];
  edges: Edge[];
  reserves: Reserve[];
  arrows?: Arrow[];
  accents?: AccentsFound;
  found: MassesFound;
}

async function drawingOf(input: PagesInput, workshop: Workshop, watch: Watch): Promise<Drawing> {
  const {
    picture,
    strokes,
    accents,
    plan: _plan,
    options: _options,
    passages: _told,
    ...asked
  } = input;
  const key = `${picture} drawing ${JSON.stringify(asked)}`;
  const kept = workshop.cache.get<Drawing>(key);
  if (kept && (kept.arrows || !strokes) && (kept.accents || !accents)) return kept;
  const found = await workshop.masses(input, watch);
  const { masses, tree, overrules, pxPerMm } = found;
  const brushPx = input.brushMm * pxPerMm;
  const drawing: Drawing = kept ?? {
    found,
    masses,
    outlines: await sliced(outlinesKernel(masses), watch, 'outlines'),
    edges: (await workshop.edges(found, watch)).edges,
    reserves: input.bare
      ? await sliced(reservesKernel(masses, { brushPx }), watch, 'reserves')
      : [],
  };
  if (accents) drawing.accents ??= await accentsFor(input, found, workshop, watch);
  if (strokes) {
    const options = { scalePx: brushPx, masses };
    const field = await sliced(directionKernel(tree.plane, options), watch, 'strokes');
    const kernel = strokesKernel(masses, field, { brushPx, overrules });
    drawing.arrows = (await sliced(kernel, watch, 'strokes')).arrows;
  }
  workshop.cache.set(key, drawing, 5 * masses.labels.length);
  return drawing;
}

export function pageHandlers(workshop: Workshop): Handlers<PageJobs> {
  return {
    pages: async (input, watch) => {
      const { plan, options } = input;
      const drawing = await drawingOf(input, workshop, watch);
      const { masses, outlines, edges, reserves, arrows } = drawing;
      const told = input.passages
        ? await passageBordersFor(input, drawing.found, workshop, watch)
        : undefined;
      const known = { edges, reserves };
      const work = told
        ? await sliced(passageWorkKernel(plan, masses, told.passages, known), watch, 'passages')
        : undefined;
      const facts = { ...known, passages: work };
      const proposed = await sliced(orderKernel(plan, masses, facts), watch, 'pages');
      const steps = checkedSteps(reconcileSteps(plan.steps, proposed), plan, masses, facts);
      const kernel = planSheetsKernel(plan, masses, {
        ...options,
        outlines,
        edges,
        reserves,
        order: steps,
        arrows: input.strokes ? arrows : [],
        accents: input.accents ? drawing.accents : undefined,
        ...(told
          ? { passages: told.passages, passageWork: work, passageBorders: told.borders }
          : {}),
      });
      const pages = await sliced(kernel, watch, 'pages');
      return { pages, steps, marks: keptMarks(plan, masses) };
    },
  };
}
