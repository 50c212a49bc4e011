import type { Reason } from '../base/reason.js';
import type { Corners, Lab } from '../base/types.js';
import type { JpegTables } from '../picture/index.js';

/** One dab of a test sheet. */
export interface SheetSwatch {
  /** The dab's rectangle, upright on the sheet, in picture pixels: top left, top right, bottom right, bottom left. */
  quad: Corners;
  /** CIELAB (D65) under a light that makes the bare paper neutral with the L* that was said. */
  lab: Lab;
  /** Standard deviation of L* over the dab's middle: granulation, runs, and the camera's noise. */
  spread: number;
  /** Half the width of the L* range in which its lightness is known to lie, about 95 % sure (JCGM 100, coverage factor 2). */
  uncertainty: number;
  /** Column on the sheet, from 0 at the left. */
  column: number;
  /** What is doubtful about this dab: codes of {@link SHEET_DOUBTS}; absent when nothing is. */
  reasons?: Reason[];
}

/** What a photographed test sheet says. */
export interface SheetReading {
  /** The sheet's corners in picture pixels: top left, top right, bottom right, bottom left. They may lie outside the picture. */
  corners: Corners;
  paper: {
    /** The bare paper read as a dab is read: its L* is the one that was said, its chroma what the fit could not take out. */
    lab: Lab;
    /** How far bare paper departs from the fitted light: robust standard deviation, L*. */
    residual: number;
    /** The bare paper in the middle of the sheet as photographed: CIELAB (D65), paper and light together. */
    seen: Lab;
    /** Share of the sheet that was taken for bare paper, 0..1. */
    share: number;
  };
  /** By column from the left, each from the top down. */
  swatches: SheetSwatch[];
  /** What is wrong with the photo or the sheet: codes of {@link SHEET_CODES}. */
  warnings: Reason[];
  /** What no photo of paper can tell, and what this one leaves open: codes of {@link SHEET_LIMITS}. */
  limits: Reason[];
}

/**
 * Warnings of a sheet and their figures. Shares are 0..1, lengths are shares of the sheet's shorter side, lightness is L*.
 *
 * | code | figures | |
 * | --- | --- | --- |
 * | `sheet.not-found` | | No sheet stands out from what lies about it: the whole picture was read as the sheet |
 * | `sheet.cut-off` | `sides` | So many sides or corners of the sheet lie outside the picture |
 * | `sheet.mirrored` | | The corners go round the wrong way: the photo is mirrored or two corners changed places |
 * | `sheet.small` | `pixels` | The sheet's shorter side has so few picture pixels that notes may be taken for dabs |
 * | `sheet.no-paper` | `share` | Too little bare paper to know the light; nothing was read |
 * | `sheet.dark` | `lightness` | The paper was photographed so dark that noise rules |
 * | `sheet.noise` | `spread` | Single points of bare paper differ by so much L* (standard deviation): a grainy photo, or light that rakes the tooth |
 * | `sheet.coloured-paper` | `chroma`, `hue` | Paper or light has a colour, which of the two cannot be told; colours are read as if it were the light |
 * | `sheet.uneven` | `residual` | The light is less even than can be followed |
 * | `sheet.falls-off` | `share` | The darkest corner of the sheet has so little of the light of the lightest |
 * | `sheet.shadow` | `share`, `dabs` | A shadow lies on such a share of the sheet; so many dabs that stand out in it, and others, were left out |
 * | `sheet.glare` | `share`, `dabs` | Such a share of the sheet reflects the light; so many dabs in or near it were left out |
 * | `sheet.wet-glare` | `count` | So many dabs have far lighter spots: reflections of a wet wash, or paper that sparkles through; these were left out of the reading |
 * | `sheet.clipping` | `share` | Such a share of the bare paper is overexposed |
 * | `sheet.dark-clipping` | `count` | So many dabs are underexposed |
 * | `sheet.blur` | `width` | The sharpest edge is so wide that notes may be taken for dabs |
 * | `sheet.compressed` | `quality` | The JPEG file (libjpeg quality, 1..100) keeps tones in steps that leave the typical dab less sure than all else does |
 * | `sheet.maybe-shadow` | `count` | So many dabs may be shadows with a hard edge: see their reasons |
 * | `sheet.at-edge` | `count` | So many painted shapes that touch the edge of the sheet were left out: tape, table or cut-off dabs |
 * | `sheet.no-dabs` | | Nothing that looks like a dab |
 */
export const SHEET_CODES = [
  'sheet.not-found',
  'sheet.cut-off',
  'sheet.mirrored',
  'sheet.small',
  'sheet.no-paper',
  'sheet.dark',
  'sheet.noise',
  'sheet.coloured-paper',
  'sheet.uneven',
  'sheet.falls-off',
  'sheet.shadow',
  'sheet.glare',
  'sheet.wet-glare',
  'sheet.clipping',
  'sheet.dark-clipping',
  'sheet.blur',
  'sheet.compressed',
  'sheet.maybe-shadow',
  'sheet.at-edge',
  'sheet.no-dabs',
] as const;
export type SheetCode = (typeof SHEET_CODES)[number];

/**
 * What can be doubtful about one dab.
 *
 * | code | figures | |
 * | --- | --- | --- |
 * | `dab.gamut` | | Its colour lies at or beyond the edge of sRGB, where a camera cuts it: hue and chroma are only the nearest that the file can hold, and the value may be a little lighter than it is |
 * | `dab.maybe-shadow` | | It has the paper's own colour with less light, is as even as paper and unlike the others in size or form: a shadow with a hard edge looks so |
 */
export const SHEET_DOUBTS = ['dab.gamut', 'dab.maybe-shadow'] as const;
export type SheetDoubt = (typeof SHEET_DOUBTS)[number];

/**
 * What a photo of a sheet cannot tell.
 *
 * | code | figures | |
 * | --- | --- | --- |
 * | `sheet.no-rim` | | No rim of the paper is seen, so the whole picture was read as the sheet: a close photo, or a table as light as the paper |
 * | `sheet.paper-assumed` | `lightness` | The paper is taken as neutral with this L*; were it darker or coloured, so would be every dab |
 * | `sheet.brighteners` | | Brighteners in paper and paint that glow in bluish light are part of what is seen |
 * | `sheet.camera-tone` | | The camera's own contrast curve is taken to be that of sRGB; a phone that lifts or deepens darks shifts them |
 * | `sheet.camera-colour` | | Three camera channels under one light: lightness is surer than hue and chroma, strong colours least |
 * | `sheet.as-paper` | `contrast` | Dabs that differ from the paper by less than this L* are not told from it |
 * | `sheet.empty-place` | `column`, `place` | The other dabs leave a place free here (`place` from 0 at the top): bare paper or a dab as light as it |
 */
export const SHEET_LIMITS = [
  'sheet.no-rim',
  'sheet.paper-assumed',
  'sheet.brighteners',
  'sheet.camera-tone',
  'sheet.camera-colour',
  'sheet.as-paper',
  'sheet.empty-place',
] as const;
export type SheetLimit = (typeof SHEET_LIMITS)[number];

/** How {@link readSheet} is told more. */
export interface SheetReadingOptions {
  /** L* of the bare dry paper (50..100); 95 when absent. */
  paperLightness?: number;
  /** The sheet's corners in picture pixels; found when absent. */
  corners?: Corners;
  /** How coarsely the file keeps tones, when it is a JPEG file (`jpegTables`). */
  jpeg?: JpegTables;
}
