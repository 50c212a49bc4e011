import type { TemplateResult } from 'lit';
import type { BoardView } from './board-view.js';

/** What a board can be taken out as: W3C community group design tokens (JSON), CSS custom properties, a drawing. */
export type SwatchFormat = 'design-tokens' | 'css' | 'svg';

/** Carries the swatches of a board to other programs and back. */
export interface BoardExchange {
  render(view: BoardView, close: () => void): TemplateResult;
  /** Forgets what was looked at. */
  clear(): void;
  /** The board as a file, named after the board. */
  fileOf(format: SwatchFormat): File;
  /** Lays the swatches of a file in, in one step of undo; resolves with how many came. Rejects with `SwatchesError`, or `AbortError` when given up. */
  bring(file: string | Blob, signal?: AbortSignal): Promise<number>;
}
