import type { Reason } from '../base/reason.js';
import type { Loop, Overrule } from '../base/types.js';
import type { Background, Edge, Masses, MassTree } from '../mass/index.js';
import type { TonesInput } from './inputs.js';

/** What selects the masses of a picture. */
export interface MassesInput extends TonesInput {
  /** Codes between the bands, ascending; a pixel is above when code > threshold. */
  thresholds: number[];
  /** Pressed width of the brush on a paper as wide as `paperWidthMm`, which the crop fills. */
  brushMm: number;
  paperWidthMm: number;
  /** Loops that are kept finer, in fractions of the upright photo; all of them by the smallest brush named. */
  focus?: { loop: Loop; brushMm: number }[];
  /** The plan's overrules, in fractions of the upright photo. */
  overrules?: Overrule[];
  /** What becomes of the ground about the sitter's loop; as in the photo when absent or without a loop. */
  background?: Background;
  /** Whether the lightest band is bare paper: its masses are then reserves. */
  bare?: boolean;
}

/** Masses with the tree they are of and the overrules that apply to its plane. */
export interface MassesFound {
  tree: MassTree;
  masses: Masses;
  overrules: Overrule[];
  pxPerMm: number;
  /** The masses of the ground that is laid by itself. */
  ground: number[];
}

/** Edges, and the overrules that none of them could follow. */
export interface EdgesFound {
  edges: Edge[];
  unmet: { overrule: number; reason: Reason }[];
}
