/** The greys that a card comes in; `same` is the neighbouring grey: of the value that is read. */
export type CardGrey = 'light' | 'middle' | 'dark' | 'same';

/** All of them, in the order in which they are offered. */
export const GREYS = ['light', 'middle', 'dark', 'same'] as const satisfies readonly CardGrey[];
