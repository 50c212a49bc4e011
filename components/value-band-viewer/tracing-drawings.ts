import { nothing, svg, type SVGTemplateResult } from 'lit';
import {
  cssOfLab,
  type Accent,
  type AccentsFound,
  type Jobs,
  type KeptLight,
  type Plan,
} from '../shared/core.js';
import { arrowPaths } from '../shared/arrow-paths.js';
import type { MassWork } from '../shared/masses-in-hand.js';
import { accentsPlanned } from './accents-told.js';
import type { TracingName } from './controls.js';
import type { StageView } from './stage-tool.js';
import type { TracingsShown } from './tracings-shown.js';

/** A mark is drawn at least this large, CSS pixels. */
const LEAST_MARK = 5;
/** Dabs of passages that are shown: the largest. */
export const MOST_DABS = 60;
/** Distance of the dots and lines in a light that is kept, CSS pixels. */
const PATTERN = 6;

export type LightMethod = Exclude<KeptLight['method'], 'paint'>;
export const LIGHT_METHODS: readonly LightMethod[] = ['bare', 'tint', 'mask'];

/** Where pixels of the masses are on the stage. */
interface Placed {
  left: number;
  top: number;
  /** CSS pixels for a pixel of the masses. */
  sx: number;
  sy: number;
}

export function placed(plan: Plan, { masses }: MassWork, view: StageView): Placed {
  const { crop = { x: 0, y: 0, width: 1, height: 1 } } = plan;
  const { width, height } = masses.map;
  const [left, top] = view.toStage([crop.x, crop.y]);
  const [right, bottom] = view.toStage([crop.x + crop.width, crop.y + crop.height]);
  return { left, top, sx: (right - left) / width, sy: (bottom - top) / height };
}

/** All tracings that are asked for, as far as they are known. */
export function drawnOver(
  shown: TracingsShown,
  view: StageView,
  ids: string,
): SVGTemplateResult | typeof nothing {
  const { host, picked } = shown;
  const { work, plan } = shown.state;
  if (!work || !plan || host.traced.length === 0) return nothing;
  const has = (name: TracingName): boolean => host.traced.includes(name);
  const { lines } = work;
  const on = placed(plan, work, view);
  const { left, top, sx, sy } = on;
  // The stage has no size before it is laid out.
  if (!(sx > 0 && sy > 0)) return nothing;
  const strokes = has('strokes') ? shown.strokes.found?.out : undefined;
  const passages = has('passages') ? shown.passages.found?.out : undefined;
  const accents = has('accents') ? shown.accents.found?.out : undefined;
  return svg`<g class="traced" transform=${`matrix(${sx} 0 0 ${sy} ${left} ${top})`}>
      ${has('reserves') ? lightPatterns(ids, PATTERN / sx) : nothing}
      ${has('reserves') ? lightMasses(work, ids) : nothing}
      ${has('masses') ? outlinesOf(work, has('edges')) : nothing}
      ${has('edges') ? svg`${twice(lines.hard, 'trace trace-edge')}${twice(lines.soft, 'trace trace-edge trace-soft')}` : nothing}
      ${passages ? svg`${twice(passages.lines.apart, 'trace trace-apart')}${twice(passages.lines.run, 'trace trace-run')}` : nothing}
      ${strokes ? arrows(strokes) : nothing}
      ${picked !== undefined && lines.outlines[picked] ? twice(lines.outlines[picked], 'trace trace-picked') : nothing}
    </g>
    <g class="traced">
      ${has('reserves') ? lightPatterns(`${ids}-mark`, PATTERN) : nothing}
      ${has('reserves') ? lightMarks(work, on, `${ids}-mark`) : nothing}
      ${passages ? dabs(passages, on) : nothing}
      ${has('marks') ? markRings(work, on, view) : nothing}
      ${accents ? accentFrames(accents.accents, accentInHand(shown, work, accents), on, view) : nothing}
    </g>`;
}

const allOutlines = new WeakMap<MassWork, string>();

/** The outlines of all masses; where edges are drawn too, a faint line tells where one is lost. */
function outlinesOf(work: MassWork, faint: boolean): SVGTemplateResult {
  let d = allOutlines.get(work);
  if (d === undefined) allOutlines.set(work, (d = work.lines.outlines.join('')));
  return faint
    ? svg`<path class="trace trace-mass trace-faint" d=${d}/>`
    : twice(d, 'trace trace-mass');
}

/** A line that is seen on any ground: a light one under a dark one. */
function twice(d: string, kind: string): SVGTemplateResult {
  return svg`<path class="trace-under" d=${d}/><path class=${kind} d=${d}/>`;
}

/** The patterns of the three ways to keep a light: dots for bare paper, lines for a tint, crossed lines for masking. */
export function lightPatterns(ids: string, step: number): SVGTemplateResult {
  const half = step / 2;
  const rising = `M0 ${step}L${step} 0`;
  const crossed = `${rising}M0 0L${step} ${step}`;
  const lines = (method: LightMethod, d: string): SVGTemplateResult =>
    svg`<pattern id="${ids}-${method}" patternUnits="userSpaceOnUse" width=${step} height=${step}>
      <path class="light-cast" stroke-width=${step / 3} d=${d}/><path class="light-line" stroke-width=${step / 8} d=${d}/>
    </pattern>`;
  return svg`<defs>
    <pattern id="${ids}-bare" patternUnits="userSpaceOnUse" width=${step} height=${step}>
      <circle class="light-cast-dot" cx=${half} cy=${half} r=${step / 4.5}/>
      <circle class="light-dot" cx=${half} cy=${half} r=${step / 8}/>
    </pattern>
    ${lines('tint', rising)}${lines('mask', crossed)}
  </defs>`;
}

function lightMasses({ advice, lines }: MassWork, ids: string): SVGTemplateResult[] {
  return advice.lights
    .filter(({ mark, method }) => mark === undefined && method !== 'paint')
    .map(({ region, method }) => {
      const d = lines.outlines[region] ?? '';
      return svg`<path d=${d} fill="url(#${ids}-${method})"/>${twice(d, `trace trace-reserve trace-${method}`)}`;
    });
}

function lightMarks({ advice, marks }: MassWork, on: Placed, ids: string): SVGTemplateResult[] {
  return advice.lights
    .filter(({ mark, method }) => mark !== undefined && method !== 'paint')
    .map(({ mark, method }) => {
      const { x, y, area } = marks[mark!];
      const [cx, cy, r] = [on.left + x * on.sx, on.top + y * on.sy, radiusOf(area, on.sx)];
      return svg`<circle cx=${cx} cy=${cy} r=${r} fill="url(#${ids}-${method})"/>${ring(cx, cy, r, `trace trace-reserve trace-${method}`)}`;
    });
}

const radiusOf = (area: number, scale: number): number =>
  Math.max(LEAST_MARK, Math.sqrt(area / Math.PI) * scale + 2);

function ring(cx: number, cy: number, r: number, kind: string): SVGTemplateResult {
  return svg`<circle class="trace-under" cx=${cx} cy=${cy} r=${r}/><circle class=${kind} cx=${cx} cy=${cy} r=${r}/>`;
}

/** A number beside what it is of, on the side where there is room. */
function numberBeside(
  x: number,
  y: number,
  r: number,
  number: number,
  view: StageView,
): SVGTemplateResult {
  const before = x + r + 28 > view.width;
  return svg`<text class="trace-number ${before ? 'before' : ''}" x=${x + (before ? -r - 4 : r + 4)} y=${y}>${number}</text>`;
}

function markRings({ marks }: MassWork, on: Placed, view: StageView): SVGTemplateResult[] {
  return marks.map(({ x, y, area, light, number }) => {
    const [cx, cy, r] = [on.left + x * on.sx, on.top + y * on.sy, radiusOf(area, on.sx)];
    return svg`${ring(cx, cy, r, `trace trace-mark ${light ? 'mark-light' : 'mark-dark'}`)}${numberBeside(cx, cy, r, number, view)}`;
  });
}

/** The largest passages' colours in the photo. */
function dabs({ passages }: Jobs['passages']['out'], on: Placed): SVGTemplateResult[] {
  return passages
    .slice()
    .sort((a, b) => b.area - a.area)
    .slice(0, MOST_DABS)
    .map(({ at: [x, y], lab }) => {
      const [cx, cy] = [on.left + x * on.sx, on.top + y * on.sy];
      return svg`<circle class="trace-under" cx=${cx} cy=${cy} r="7"/><circle cx=${cx} cy=${cy} r="7" fill=${cssOfLab(lab).css}/><circle class="trace trace-dab" cx=${cx} cy=${cy} r="7"/>`;
    });
}

/** What is shown of the accent in hand. */
interface AccentInHand {
  /** The number of the photo's own. */
  chosen?: number;
  /** Numbers of those that have its hue. */
  same: readonly number[];
  places: readonly { at: [x: number, y: number] }[];
}

/** Of an accent of the photo, or of a swatch that is meant for accents. */
function accentInHand(
  { accent, host }: TracingsShown,
  work: MassWork,
  found: AccentsFound,
): AccentInHand {
  if (typeof accent === 'string') {
    // The plan as it is now, as in the list: that of the masses may have an older board.
    const { planned } = accentsPlanned(host.store.plan, work, found);
    const swatch = planned.find((each) => each.swatch === accent);
    return { same: swatch?.uses ?? [], places: swatch?.mightRepeat ?? [] };
  }
  const own = accent === undefined ? undefined : found.accents[accent];
  return { chosen: own?.id, same: own?.repeats ?? [], places: own?.mightRepeat ?? [] };
}

/** Accents framed, with their numbers; of the one in hand also where its hue is, or might be, repeated. */
function accentFrames(
  accents: readonly Accent[],
  { chosen, same, places }: AccentInHand,
  on: Placed,
  view: StageView,
): SVGTemplateResult[] {
  const frames = accents.map(({ id, bounds: [x, y, w, h] }) => {
    const kind = id === chosen ? 'trace-chosen' : same.includes(id) ? 'trace-repeat' : '';
    const [left, top] = [on.left + x * on.sx - FRAME, on.top + y * on.sy - FRAME];
    const [width, height] = [w * on.sx + 2 * FRAME, h * on.sy + 2 * FRAME];
    const [cx, cy] = [left + width / 2, top + height / 2];
    return svg`${twice(frameOf(left, top, width, height), `trace trace-accent ${kind}`)}${numberBeside(cx, cy, width / 2, id + 1, view)}`;
  });
  const hints = places.map(({ at: [x, y] }) =>
    twice(
      frameOf(on.left + x * on.sx - HINT / 2, on.top + y * on.sy - HINT / 2, HINT, HINT),
      'trace trace-hint',
    ),
  );
  return [...frames, ...hints];
}

/** Room about an accent in its frame, and the side of the frame about a place that hints at its hue, CSS pixels. */
const FRAME = 4;
const HINT = 16;

const frameOf = (x: number, y: number, width: number, height: number): string =>
  `M${short(x)} ${short(y)}h${short(width)}v${short(height)}h${short(-width)}Z`;

const short = (value: number): number => Math.round(value * 10) / 10;

const pathsOf = new WeakMap<object, { lines: string; heads: string }>();

function arrows(strokes: Jobs['strokes']['out']): SVGTemplateResult {
  let paths = pathsOf.get(strokes);
  if (!paths) pathsOf.set(strokes, (paths = arrowPaths(strokes.arrows)));
  return svg`${twice(paths.lines, 'trace trace-stroke')}${twice(paths.heads, 'trace trace-stroke trace-head')}`;
}
