import type { Crop, DistrustedSpot, Lab, Lightness, Loop } from '../base/types.js';
import type { Reason } from '../base/reason.js';
import type { SpotReading } from '../picture/index.js';

/** How far a long piece of work has come. */
export interface Progress {
  /** `'read' | 'decode' | 'reduce' | 'squint' | 'step-back' | 'report'`; more may come. */
  stage: string;
  /** 0..1 within the stage. */
  done: number;
}

/** What the core knows of an opened picture; the client wraps it in a {@link PictureHandle}. */
export interface PictureInfo {
  id: string;
  /** Size of the upright photo in pixels. */
  width: number;
  height: number;
  /** `'jpeg' | 'png' | 'webp' | 'avif' | 'gif' | 'bmp' | 'svg' | 'pixels' | 'unknown'`. */
  format: string;
  /** What the painter should know of the file, e.g. that only the first of several frames is used. */
  warnings: Reason[];
  /** A quick, small copy to show at once, before the exact working copy is made; see {@link Display}. */
  preview: Display;
}

/** A copy to look at: lightness codes, and colours where the platform can make an ImageBitmap (else RGBA bytes). */
export interface Display {
  plane: Lightness;
  /** Colours of the same size; close it when done with it. */
  bitmap?: ImageBitmap;
  /** Opaque sRGB RGBA, where there is no ImageBitmap (Node). */
  rgba?: Uint8ClampedArray;
}

/** What selects the part and the state of a picture that a job works on. */
export interface PictureInput {
  picture: string;
  /** The part of the upright photo to work on; all of it when missing. */
  crop?: Crop;
  /** Upper limit of the working copy, in pixels (default 4 000 000). */
  maxPixels?: number;
}

/** Lightness and counts of a working copy. */
export interface Tones {
  plane: Lightness;
  /** 256 counts of the plane's codes, inside the sitter's loop when there is one. */
  histogram: Uint32Array;
}

/** The working copy: at most `maxPixels`, area-averaged in linear light. */
export interface WorkingCopy extends Tones {
  bitmap?: ImageBitmap;
  rgba?: Uint8ClampedArray;
}

/** The painter's own corrections and choice of area, which change lightness and counts. */
export interface TonesInput extends PictureInput {
  sitter?: Loop;
  distrusted?: DistrustedSpot[];
}

/** A reading through a hole. */
export interface Reading extends SpotReading {
  /** Present when the hole lies on a spot that the painter does not trust: the painter's own value, used as `lightness`. */
  distrusted?: { id: string; note: string; measured: number };
  /** L** of Fairchild & Pirrotta 1991: how light the eye may take it for. */
  apparent: number;
  /** Lightness codes of the working copy inside the same hole would say the same; `lab` is of the full resolution. */
  lab: Lab;
}
