import type { Crop, DistrustedSpot, Lab, Loop, Overrule, Spot, Step } from '../base/types.js';
import type { Board, Dab } from '../swatch/types.js';

export type { Dab };

/** The sheet that is painted on. */
export interface PlanPaper {
  /** Width of the painted part, mm, above 0, at most 5000. */
  widthMm: number;
  /** Height of the painted part, mm, above 0, at most 5000. */
  heightMm: number;
  /** Lightness L* of the bare dry paper (0..100). */
  lightness: number;
  /** The painter's name for the sheet. */
  name?: string;
}

/** A brush, told by the strokes it makes. */
export interface PlanBrush {
  /** The painter's name for it. */
  name: string;
  /** Width of the stroke of the tip, mm, above 0, at most 1000. */
  tipMm: number;
  /** Width of the stroke when pressed, mm, above 0, at most 1000, not below `tipMm`. */
  pressedMm: number;
}

/** A photo a plan was made from; the picture itself is stored elsewhere, under its digest. */
export interface PlanPhoto {
  /** SHA-256 of the file, 64 lower-case hexadecimal digits. */
  sha256: string;
  /** File name, plain text. */
  name: string;
  /** Upright width in pixels. */
  width: number;
  /** Upright height in pixels. */
  height: number;
  /** What the photo is good for, plain text. */
  note?: string;
}

/** What was drawn on one photo; places are fractions of that photo. */
export interface PhotoMarks {
  crop?: Crop;
  sitter?: Loop;
  distrusted?: DistrustedSpot[];
  readings?: SavedReading[];
  focus?: FocusArea[];
  overrules?: Overrule[];
  landmarks?: PlanLandmark[];
}

/** A place by which the drawing is checked: an eye, a tip, a corner. */
export interface PlanLandmark {
  /** Unique among the landmarks. */
  id: string;
  /** Fractions of the photo, upright. */
  at: Spot;
  /** What the painter calls it. */
  name?: string;
}

/** A detail that is painted after another photo than the leading one. */
export interface BorrowedDetail {
  /** Unique among the borrowed details. */
  id: string;
  /** SHA-256 of the photo it is taken from. */
  photo: string;
  /** The middle, in fractions of that photo, upright. */
  at: Spot;
  /** The radius as a fraction of that photo's longer side, above 0, at most 1. */
  radius: number;
  /** What is borrowed, plain text. */
  note: string;
}

/** Something that must be right in the painting, as a patch on an animal's coat. */
export interface Marking {
  /** Unique among the markings. */
  id: string;
  text: string;
  /** Whether the painter has seen to it. */
  done?: boolean;
}

/** What was agreed on with whoever asked for the painting. Plain texts; personal data is better kept elsewhere. */
export interface PlanBrief {
  /** Width asked for, mm, above 0, at most 5000. */
  widthMm?: number;
  /** Height asked for, mm, above 0, at most 5000. */
  heightMm?: number;
  /** The day it is due: `2026-01-31` (RFC 3339 full-date). */
  deadline?: string;
  markings?: Marking[];
  /** Whether the photos may be used: asked for, given, refused, or the painter's own photos. */
  permission?: 'asked' | 'given' | 'refused' | 'own';
  /** Who gave it, when, for what. */
  permissionNote?: string;
  /** A name for whoever asked, as short as will do: avoid addresses and other personal data, plans are passed on. */
  client?: string;
}

/** How the lightness of the photo is brought into what paint and paper reach. */
export interface PlanRange {
  /** L* of the photo's darkest tones (0..100), at least 1 below `high`. */
  low: number;
  /** L* of the photo's lightest tones (0..100). */
  high: number;
  /** -1 holds the darks (differences among them stay), 0 shares the loss, 1 holds the lights. */
  holding: number;
  /** L* of the darkest paint, dry and at full strength; 25 when absent. */
  darkest?: number;
}

/** A reading of a spot through the hole card that the painter kept. */
export interface SavedReading {
  /** Unique among the readings. */
  id: string;
  /** The middle of the hole, in fractions of the upright photo. */
  at: Spot;
  /** Diameter of the hole on the paper, mm, above 0. */
  holeMm: number;
  /** Mean lightness L* in the hole (0..100). */
  lightness: number;
  /** Mean colour in the hole: CIELAB, D65, 2 degree observer. */
  lab: Lab;
  /** The mean colour as a CSS colour. */
  css: string;
  /** Standard deviation of L* in the hole (0..100). */
  spread: number;
  /** The lightness L* the painter guessed before it was shown. */
  guess?: number;
  note?: string;
}

/** A part that is kept finer than the rest, with a smaller brush. */
export interface FocusArea {
  /** Unique among the focus areas. */
  id: string;
  /** Drawn on the photo. */
  loop: Loop;
  /** The place of its brush in `brushes`. */
  brush: number;
}

/** A tube on the painter's shelf. */
export interface ShelfTube {
  /** Id of a tube. */
  tube: string;
  /** How strong the painter's own is: factor on the tube's full load, fitted from dabs (0.05..20); 1 when absent. */
  load?: number;
  /** The range the factor is known to lie in. */
  loadLow?: number;
  loadHigh?: number;
}

/** What one check of the painting found. */
export interface SavedCheck {
  /** Unique among the checks. */
  id: string;
  /** When: an instant as `2026-01-31T12:00:00Z`. */
  date: string;
  /** SHA-256 of the photo of the painting. */
  photo?: string;
  /** The step after which it was taken: its place in `steps`, from 0. */
  upToStep?: number;
  agreement: number;
  kappa: number;
  lostReserves: number;
  /** Value islands that are not in the plan. */
  islands?: number;
  /** What went wrong and why, in the painter's words. */
  note?: string;
}

/**
 * Everything a painter has decided about one painting: one immutable document. Lightness is L* (0..100), lengths are mm,
 * places are fractions of the upright photo. Fields marked `?` stay absent when they are not set.
 */
export interface Plan {
  schema: 1;
  /** The edition of the tube data the plan was made with; empty when no tubes were used. */
  tubesEdition: string;
  title: string;
  paper: PlanPaper;
  brushes: PlanBrush[];
  /** L* limits between the bands in the photo, ascending: one fewer than the board has bands. */
  photoLimits: number[];
  /** L* limits between the bands in the dry painting, ascending: as many as `photoLimits`. */
  paintLimits: number[];
  /** What the painter changed in the proposed masses; spots are fractions of the leading photo. */
  overrules: Overrule[];
  board: Board;
  steps: Step[];
  /** Plain text. */
  notes: string;
  /** The L* in the photo from which bare paper is left. */
  paperLimit?: number;
  /** How `paintLimits` follow from `photoLimits`; without it they are equal. */
  range?: PlanRange;
  /** The leading photo: the one that bands, crop, sitter and readings belong to. */
  photo?: PlanPhoto;
  /** The other photos of the same sitter, in the painter's order. The leading one counts once, should it stand here too. */
  photos?: PlanPhoto[];
  /** What was drawn on the other photos, under their SHA-256, until one of them leads again. */
  marks?: Record<string, PhotoMarks>;
  borrowed?: BorrowedDetail[];
  brief?: PlanBrief;
  /** The part of the photo that is painted. */
  crop?: Crop;
  /** A loop about the subject, inside which limits and figures are taken. */
  sitter?: Loop;
  distrusted?: DistrustedSpot[];
  readings?: SavedReading[];
  /** The place in `brushes` of the brush that states the masses; 0 when absent. */
  brush?: number;
  /** Parts of the leading photo that are kept finer. */
  focus?: FocusArea[];
  /** Places on the leading photo by which the drawing of each stage of the painting is checked. */
  landmarks?: PlanLandmark[];
  /** What becomes of the ground about the sitter; as in the photo when absent. */
  background?: 'as-photo' | 'paper' | 'wash' | 'dark';
  /** In which order values are laid: `direct` (darks first, each final) or `light-to-dark`. `direct` when absent. */
  way?: 'direct' | 'light-to-dark';
  /** The painter's tubes. */
  shelf?: ShelfTube[];
  /** Every dab that was read for this plan. */
  dabs?: Dab[];
  /** The checks of the painting, first wash to last. */
  checks?: SavedCheck[];
  /** Whether the work is meant to be sold, so that paints must last. */
  sold?: boolean;
  /** A name under which the plan is stored. */
  id?: string;
  /** When it was last changed: an instant as `2026-01-31T12:00:00Z` (RFC 3339, UTC). */
  changed?: string;
  /** Data of other programs, kept as it is. */
  extensions?: Record<string, unknown>;
}
