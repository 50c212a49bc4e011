import type { MassesState } from '../shared/masses-in-hand.js';
import type { TracingName } from './controls.js';
import type { Following } from './following.js';
import type { ToolHost } from './stage-tool.js';

/** What the tracings need of their viewer. */
export interface TracingHost extends ToolHost {
  /** The tracings that are laid over the picture. */
  readonly traced: readonly TracingName[];
  /** Whether the picture is shown as masses. */
  readonly massed: boolean;
  trace(names: readonly TracingName[]): void;
}

/** What the drawings and the panel of the tracings show, and what a person may do there. */
export interface TracingsShown {
  readonly host: TracingHost;
  readonly state: MassesState;
  readonly strokes: Following<'strokes'>;
  readonly passages: Following<'passages'>;
  readonly accents: Following<'accents'>;
  /** The mass in hand. */
  readonly picked?: number;
  /** The accent in hand: the number of the photo's, or the id of a swatch that is meant for one. */
  readonly accent?: number | string;
  toggle(name: TracingName): void;
  pick(mass: number | undefined): void;
  step(by: 1 | -1): void;
  chooseAccent(accent: number | string | undefined): void;
  stop(): void;
  again(): void;
}
