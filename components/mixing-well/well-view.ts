import type {
  BoardSwatch,
  FoundMix,
  Grade,
  Lab,
  Mix,
  OwnDrying,
  Part,
  Plan,
  ProvenMix,
  Reason,
  Recipe,
  ShelfRange,
  ShelfTube,
  TintReading,
  TubeFit,
  Wetness,
} from '../shared/core.js';
import type { MassesState } from '../shared/masses-in-hand.js';
import type { LengthUnit } from '../shared/measure.js';
import type { Ground, Strip } from './mixture.js';

/** The dried layer below the mix. */
export interface Below {
  label: string;
  recipe: Recipe;
}

/** What is in the well, worked out. */
export interface Now {
  ground: Ground;
  /** Tubes of which there is some. */
  parts: Part[];
  /** On the paper; missing while the well is empty. */
  mix?: Mix;
  /** Over the dried layer, where one is chosen. */
  overMix?: Mix;
  /** The dried layers below, lowest first, and the colour of the uppermost. */
  below: Mix[];
  /** The one that is judged: on the paper or over the layer. */
  judged?: Mix;
  judgedOver: Mix[];
  strip?: Strip;
}

/** A piece of work under way. */
export interface Running {
  progress: number;
  stop: () => void;
}

/** What is asked for when mixes are looked for. */
export interface Finding {
  /** `css`, `value`, `reading <id>` or `swatch <id>`. */
  source: string;
  css: string;
  value: number;
  most: number;
  fault: string;
  running?: Running;
  found?: {
    lab?: Lab;
    css: string;
    mixes: FoundMix[];
    why: Reason[];
    /** What was painted and read before and comes near. */
    proven: ProvenMix[];
  };
}

/** What is asked for when a family is looked for. */
export interface FamilyAsked {
  band: number;
  value: number;
  count: number;
  fault: string;
  running?: Running;
  found?: FamilyFound;
}

/** A family, and the value that was asked for where the tubes do not go so far. */
export interface FamilyFound {
  value: number;
  asked?: number;
  mixes: Mix[];
}

/** How much is asked for. */
export interface AmountAsked {
  /** In square centimetres or inches, as typed. */
  area: string;
  wetness: Wetness;
  /** Whether the masses of the photo are asked for. */
  masses: boolean;
  /** The mass that the area was taken from. */
  region: number;
}

/** A reading of a dab as it is typed in. */
export interface TypedReading {
  css: string;
  strength: number;
}

/** The strength of one tube being fitted. */
export interface Fitting {
  tube: string;
  rows: TypedReading[];
  typing: boolean;
  fault: string;
  busy: boolean;
  fit?: TubeFit;
}

/** What the shelf reaches, as far as it was asked for. */
export interface ReachAsked {
  running?: Running;
  fault: string;
  found?: ShelfRange;
}

/** What does something that is told of: the shelf, the way to the bucket, the well, a mix or the mixes that were found. */
export type DoneBy = 'shelf' | 'send' | 'well' | 'reach' | Mix | readonly Mix[];

/** What was just done. */
export interface Done {
  words: string;
  by: DoneBy;
  undoable: boolean;
}

export type Tool = 'find' | 'family' | 'amount' | 'reach';

/** Everything that the parts of the well show, and what they ask for. */
export interface WellView {
  readonly plan: Plan;
  readonly shelf: readonly ShelfTube[];
  readonly now: Now;
  readonly tied: boolean;
  /** Spoonfuls as they stand in the well, none left of some tubes. */
  readonly parts: readonly Part[];
  readonly strength: number;
  readonly under?: Below;
  /** Whether the mix is judged over the dried layer. */
  readonly onLayer: boolean;
  /** The tube that is told about. */
  readonly about: string;
  /** The pan that the tab key stops at. */
  readonly here: string;
  readonly choosing: boolean;
  readonly tool: Tool;
  readonly finding: Finding;
  readonly family: FamilyAsked;
  readonly amount: AmountAsked;
  readonly reach: ReachAsked;
  readonly fitting?: Fitting;
  readonly bucket: number;
  readonly done?: Done;
  readonly canUndo: boolean;
  readonly unit: LengthUnit;
  readonly masses: MassesState;
  /** How the painter's own paint dries, by dabs read wet and dry. */
  readonly drying: OwnDrying;
  /** How far the painter's own dabs of one recipe lie apart, CIEDE2000, once that is known. */
  readonly spread?: number;

  say(key: string, values?: Record<string, string | number>): string;
  /** A finding about paint in words. */
  paint(reason: Reason): string;
  /** A value with one decimal, in the reader's way of writing. */
  figure(value: number): string;
  /** A number with at most so many decimals. */
  number(value: number, digits: number): string;
  /** A day (`2026-01-31`) in the reader's way of writing. */
  day(date: string): string;
  name(tube: string): string;
  bandName(band: number): string;
  grade(mix: { deltaE: number }): Grade;

  // The shelf
  begin(): void;
  choose(open: boolean): void;
  tell(tube: string): void;
  stand(tube: string): void;
  put(tube: string): void;
  take(tube: string): void;
  sell(sold: boolean): void;
  // The well
  add(tube: string): void;
  spoon(tube: string, spoons: number, settled?: boolean): void;
  /** One spoonful more or less; broken ones are made whole. */
  dose(tube: string, by: 1 | -1): void;
  water(strength: number, settled?: boolean): void;
  /** So many times the liquid; below 1 there is less of it. */
  thin(times: number): void;
  empty(): void;
  lay(under: Below | undefined): void;
  judgeOver(on: boolean): void;
  aim(bucket: number): void;
  send(): void;
  undo(): void;
  // Asking
  turnTo(tool: Tool): void;
  setFinding(change: Partial<Finding>): void;
  find(): void;
  setFamily(change: Partial<FamilyAsked>): void;
  findFamily(): void;
  takeUp(recipe: Recipe): void;
  sendMixes(sent: Mix | readonly Mix[]): BoardSwatch[];
  setAmount(change: Partial<AmountAsked>): void;
  findReach(): void;
  planReach(): void;
  // A tube's own strength
  openFit(tube: string): void;
  /** Changes what is typed of a dab; the one after the last is added. */
  setReading(place: number, change: Partial<TypedReading>): void;
  fit(readings: TintReading[] | 'typed'): void;
  keepFit(fit: TubeFit | undefined): void;
}
