import type { Reason } from '../base/reason.js';
import type { BandMap, Spot } from '../base/types.js';

/** A connected shape of one band, at least as big as the brush can state. */
export interface Region {
  /** Its place in {@link Masses.regions}, and its label. */
  id: number;
  /** 0 is the darkest. */
  band: number;
  /** Pixels. */
  area: number;
  /** Mean L* of the picture inside it (0..100). */
  mean: number;
  /** Smallest upright rectangle, pixels. */
  bounds: [x: number, y: number, w: number, h: number];
  /** Ids of the regions that share a side with it, ascending. */
  neighbours: number[];
}

/** A small light or dark that the masses leave out, as a catchlight or a nostril. */
export interface Mark {
  /** Its middle, pixel coordinates (a pixel's centre is at .5). */
  x: number;
  y: number;
  /** Pixels. */
  area: number;
  /** The band its own lightness lies in; not that of the region about it. */
  band: number;
  /** Its mean L* less that of the region about it: above 0 a light, below 0 a dark. */
  contrast: number;
  /** The region it lies in. */
  region: number;
}

/** The picture in shapes that a brush can state. */
export interface Masses {
  /** Band of each pixel's region. */
  map: BandMap;
  /** Region of each pixel, row-major; 4-adjacency. */
  labels: Int32Array;
  /** `regions[i].id === i`. */
  regions: Region[];
  /** Most telling first. */
  marks: Mark[];
  /** Overrules that no longer make sense here, by their place in the list, and why. */
  unmet?: { overrule: number; reason: Reason }[];
}

/** Mass at `from` and its neighbour at `to` become one mass of the band of `from`. */
export interface JoinOverrule {
  kind: 'join';
  from: Spot;
  to: Spot;
}

/** The mass that most of the line runs through is cut along it; both ends are carried on to the mass's border. */
export interface SplitOverrule {
  kind: 'split';
  line: Spot[];
}

/** The mass at a spot moves to another band. */
export interface BandOverrule {
  kind: 'band';
  at: Spot;
  /** 0 is the darkest. */
  band: number;
}

/** A mass keeps its shape and band whatever the limits become. */
export interface LockOverrule {
  kind: 'lock';
  at: Spot;
  band: number;
  /** Its outline: rings, holes wound the other way. */
  rings: Spot[][];
}

/** The border of two masses is what the painter says. */
export interface EdgeOverrule {
  kind: 'edge';
  between: [Spot, Spot];
  edge: 'hard' | 'soft' | 'lost';
}

/** How a light is kept; `paint` gives the reserve up. */
export interface ReserveOverrule {
  kind: 'reserve';
  at: Spot;
  method: 'bare' | 'tint' | 'mask' | 'paint';
}

/** A mark is kept or dropped; one that was not proposed is pinned (`light` and `radius` say what it is). */
export interface MarkOverrule {
  kind: 'mark';
  at: Spot;
  keep: boolean;
  /** The marking of the brief that it stands for. */
  marking?: string;
  /** Pinned by hand: whether it is a light. */
  light?: boolean;
  /** Pinned by hand: radius as a fraction of the picture's longer side. */
  radius?: number;
}

/** The painter's own stroke, root to tip; it says which way the strokes of its mass run. */
export interface StrokeOverrule {
  kind: 'stroke';
  from: Spot;
  to: Spot;
}

/** Whether two neighbouring passages may run into each other. */
export interface PassageOverrule {
  kind: 'passage';
  between: [Spot, Spot];
  run: 'let-run' | 'keep-apart';
}

/** What a painter may change. Spots are fractions of the picture that the plane shows (0..1). */
export type MassOverrule =
  | JoinOverrule
  | SplitOverrule
  | BandOverrule
  | LockOverrule
  | EdgeOverrule
  | ReserveOverrule
  | MarkOverrule
  | StrokeOverrule
  | PassageOverrule;

/** What {@link massesOf} is told. */
export interface MassOptions {
  /** Codes between the bands, ascending; a pixel is above when code > threshold. */
  thresholds: number[];
  /** Pressed width of the brush in pixels of the plane, above 0. */
  brushPx: number;
  /** Where a smaller brush states finer shapes: a mask (non-zero counts) and that brush's width in pixels. */
  focus?: { mask: Uint8Array; brushPx: number };
  /** Overrules of other kinds than masses' own are left alone. */
  overrules?: { kind: string }[];
}

/** The outline of one region. */
export interface Outline {
  region: number;
  /** x, y pairs in pixel-corner coordinates, closed (the last point joins the first), holes wound the other way. */
  rings: Float32Array[];
}

/** The border of two neighbouring regions. */
export interface Edge {
  regions: [number, number];
  kind: 'hard' | 'soft' | 'lost';
  /** How broad the step between them is in the picture, pixels. */
  widthPx: number;
  /** Difference of L* across it. */
  contrast: number;
  /** Pixels. */
  lengthPx: number;
}

/** A light that stays paper, or is kept for a pale tint. */
export interface Reserve {
  region: number;
  /** Pixels. */
  area: number;
  /** Narrowest width, pixels. */
  narrowestPx: number;
  /** Whether it is too narrow to paint around with this brush. */
  mask: boolean;
}
