import type {
  Corners,
  Dab,
  Lab,
  Loop,
  Plan,
  Reason,
  Recipe,
  Spot,
  TubeFit,
  SheetPaper,
} from '../shared/core.js';
import type { PictureState } from '../shared/plan-store.js';
import type { ReadDab, SheetState, Wet } from './dabs-state.js';
import type { Line } from './geometry.js';
import type { Mapping } from './sending.js';

/** What is worked at below the picture. */
export const PANELS = ['board', 'drying', 'tube', 'card', 'memory'] as const;
export type Panel = (typeof PANELS)[number];

/** What a pointer does on the picture: pick a dab, draw one, draw the line that parts one. */
export type Doing = 'pick' | 'add' | 'part';

/** A recipe being typed. */
export interface Typing {
  rows: readonly { tube: string; parts: string }[];
  /** Times let down with water: 1 is the heaviest wash. */
  times: number;
  fault: string;
}

/** One tube from its masstone to pale tints. */
export interface TubeAsked {
  /** -1: all dabs. */
  column: number;
  tube: string;
  /** Times let down, by dab id; by their order where nothing was said. */
  times: Readonly<Record<string, number>>;
  busy: boolean;
  fault: string;
  fit?: TubeFit;
}

/** What is looked for among remembered dabs. */
export interface MemoryAsked {
  text: string;
  band: number;
  tube: string;
  /** Munsell values as typed; empty for no bound. */
  from: string;
  to: string;
  most: number;
  /** The band that proven mixes are asked for. */
  proven: number;
}

/** Where dabs lie, and what is done about it. */
export interface Shaping {
  readonly doing: Doing;
  readonly line?: Line;
  /** A loop while it is being drawn. */
  readonly drawing?: Loop;
  /** A dab's loops, while it is being moved too. */
  shownLoops(dab: ReadDab): readonly Loop[];
  do(what: Doing): void;
  placeDab(id: string, loops: readonly Loop[], settled: boolean): void;
  stepDab(id: string, by: Spot): void;
  growDab(id: string, by: number): void;
  revert(): void;
  draw(loop: Loop | undefined, settled: boolean): void;
  layInMiddle(): void;
  drop(id: string): void;
  join(id: string, other: string): void;
  setLine(line: Line): void;
  turnLine(): void;
  part(id: string): void;
}

/** Dabs on their way to the board, and wet ones held against the same ones dry. */
export interface Boarding {
  readonly mapping: Mapping;
  map(column: number, bucket: number | undefined): void;
  send(): void;
  pair(id: string, earlier: string): void;
  pairAll(key: string): void;
}

/** How strong one tube is. */
export interface Tubes {
  readonly asked: TubeAsked;
  ask(change: Partial<TubeAsked>): void;
  fit(): void;
  keep(): void;
}

/** Remembered dabs. */
export interface Memory {
  readonly asked: MemoryAsked;
  ask(change: Partial<MemoryAsked>): void;
  forget(id: string): void;
  predicted(dab: Dab): Lab | undefined;
}

/** What the views need of the desk. */
export interface SheetView {
  readonly plan: Plan;
  readonly picture: PictureState;
  readonly aspect: number;
  readonly state?: SheetState;
  readonly panel: Panel;
  readonly picked: string;
  readonly nearer: boolean;
  /** Corners while they are being moved. */
  readonly shownCorners?: Corners;
  /** How far a reading has come, 0..1; missing while none is under way. */
  readonly progress?: number;
  /** Whether one dab is being read. */
  readonly busy: boolean;
  readonly fault: string;
  readonly done: string;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly cornersFound: boolean;
  readonly typing?: Typing;
  readonly dabs: readonly Dab[];
  /** Whether the panel shown was asked for by name. */
  readonly asked: boolean;
  /** Whether what was done last can be taken back from the plan. */
  readonly canUndoPlan: boolean;
  /** The paper that pages are printed on. */
  readonly printer: SheetPaper;

  // Duties of their own
  readonly shaping: Shaping;
  readonly boarding: Boarding;
  readonly tubes: Tubes;
  readonly memory: Memory;

  say(key: string, values?: Record<string, string | number>): string;
  tell(reason: Reason): string;
  paint(reason: Reason): string;
  number(value: number, digits: number, sign?: boolean): string;
  value(lightness: number): string;
  bandName(band: number): string;
  tubeName(id: string): string;
  recipe(recipe: Recipe): string;
  day(date: string): string;
  numberOf(id: string): number;

  turnTo(panel: Panel): void;
  pick(id: string, focus?: boolean): void;
  setNearer(on: boolean): void;
  read(corners?: Corners): Promise<void>;
  stop(): void;
  forgive(): void;
  undo(): void;
  redo(): void;
  undoPlan(): void;
  /** Tells what was done. */
  report(text: string, planUndo?: boolean): void;
  // Corners
  dragCorner(corner: number, to: Spot, settled: boolean): void;
  stepCorner(corner: number, by: Spot): void;
  resetCorners(): void;
  // What is known of dabs
  putInColumn(id: string, column: number): void;
  name(id: string, name: string): void;
  wetten(id: string, wet: Wet | undefined): void;
  wettenAll(wet: Wet): void;
  takeRecipe(id: string, recipe: Recipe | undefined): void;
  type(typing: Typing | undefined): void;
  typed(id: string): void;
}
