/** Which of the small forms is open; at most one at a time. */
export type OpenForm =
  | { kind: 'add'; bucket: number }
  | { kind: 'swatch'; id: string }
  | { kind: 'band'; bucket: number }
  | { kind: 'complete'; bucket: number };

/** What a colour form holds. */
export interface NewColour {
  css: string;
  name: string;
  /** Why it cannot be laid in; empty when nothing is wrong. */
  fault: string;
}
