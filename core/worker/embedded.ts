/** A worker that a build carries inside, instead of a file beside it. */
export interface Embedded {
  /** The source text of a classic worker. */
  text(): string;
  /** Whether its parts are inside too; else they lie beside the build's file. */
  readonly whole: boolean;
}

/** The worker inside, in builds of one file. In builds of many files there is none, and the worker lies beside the bundle. */
export const embedded: Embedded | undefined = undefined as Embedded | undefined;
