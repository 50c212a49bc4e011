import type { Lightness, Pixels } from '../base/types.js';
import type { Edge } from '../mass/index.js';
import type { ByteCache } from './cache.js';
import type { PictureInput, Tones, TonesInput } from './inputs.js';
import type { EdgesFound, MassesFound, MassesInput } from './mass-inputs.js';
import type { Raster } from './raster.js';
import type { Watch } from './slices.js';

/** One handler for each job of a table. */
export type Handlers<J> = {
  [K in keyof J]: J[K] extends { in: infer In; out: infer Out }
    ? (input: In, watch: Watch) => Promise<Out>
    : never;
};

/** What the handlers of jobs may use of the service. */
export interface Workshop {
  /** Size of an opened picture, upright, and its file where it came as one. Throws `PictureLost`. */
  picture(id: string): { width: number; height: number; blob?: Blob };
  /** The area-averaged working copy of a crop; `key` names it in the cache (deleted with its picture). */
  working(
    input: PictureInput,
    watch: Watch,
  ): Promise<{ pixels: Pixels; plane: Lightness; key: string }>;
  /** The working copy with the painter's corrections; `where` is the sitter's mask. */
  tones(input: TonesInput, watch: Watch): Promise<Tones & { pixels: Pixels; where?: Uint8Array }>;
  /** The masses that an input asks for; their tree is kept for the next limits. */
  masses(input: MassesInput, watch: Watch): Promise<MassesFound>;
  /** Edges of those masses as the picture has them, or as the painter says. */
  edges(found: MassesFound, watch: Watch): Promise<EdgesFound>;
  /** Edges of those masses as another plane of their size has them. */
  edgesOn(plane: Lightness, found: MassesFound, watch: Watch): Promise<Edge[]>;
  /** Uses the full picture, decoding it again when it was let go. */
  full<T>(id: string, watch: Watch, use: (raster: Raster) => T | Promise<T>): Promise<T>;
  /** Keys that begin with the picture's id and a space go with it. */
  readonly cache: ByteCache;
}
