import type { DistrustedSpot, Spot } from '../base/types.js';
import type { Reason } from '../base/reason.js';
import type { PhotoReport } from '../picture/index.js';
import type { CheckJobs } from './check-jobs.js';
import type { Display, PictureInput, Reading, Tones, TonesInput, WorkingCopy } from './inputs.js';
import type { MassJobs } from './mass-jobs.js';
import type { PageJobs } from './page-jobs.js';
import type { PaintJobs } from './paint-jobs.js';
import type { PassageJobs } from './passage-jobs.js';
import type { RehearsalJobs } from './rehearsal-jobs.js';
import type { SheetJobs } from './sheet-jobs.js';
import type { StrokeJobs } from './stroke-jobs.js';

export type * from './inputs.js';

/** Every job: what it takes and what it gives. */
export interface Jobs extends FirstJobs, LateJobs {}

/** Jobs that open a picture and look at it; the worker brings them along. */
export interface FirstJobs extends PictureJobs, MassJobs {}

/** Jobs that are not needed to look at a picture; the worker fetches them with the first call. */
export interface LateJobs
  extends PaintJobs, SheetJobs, PassageJobs, StrokeJobs, RehearsalJobs, PageJobs, CheckJobs {}

/** Jobs about a picture's tones. */
export interface PictureJobs {
  /** Makes the exact working copy. */
  working: { in: TonesInput; out: WorkingCopy };
  /** Lightness and counts again, after the sitter's loop or a distrusted spot changed. */
  tones: { in: TonesInput; out: Tones };
  /** What the photo can tell. `brushMm` is the brush's pressed width on a paper `paperWidthMm` wide. */
  report: { in: TonesInput & { paperWidthMm: number; brushMm: number }; out: PhotoReport };
  /** A reading at full resolution. `at` and `radius` are fractions: of width and height, and of the longer side. */
  reading: {
    in: PictureInput & { at: Spot; radius: number; distrusted?: DistrustedSpot[] };
    out: Reading;
  };
  /** The picture as a squinting eye keeps it. `amount` 0 (open) to 1 (nearly shut). */
  squint: { in: TonesInput & { amount: number; brushPx: number; colour?: boolean }; out: Display };
  /** The picture as an eye sees it from some metres away, at the size of the paper. */
  stepBack: {
    in: TonesInput & { distance: number; acuity?: number; paperWidthMm: number; colour?: boolean };
    out: Display;
  };
  /** The original file (or a PNG made of bare pixels), for keeping. */
  original: { in: { picture: string }; out: Blob };
}

/** What the worker answers: a value or an error in plain data (an Error cannot carry its reason across). */
export type Settled<T> =
  { ok: true; value: T } | { ok: false; error: { name: string; message: string; reason: Reason } };
