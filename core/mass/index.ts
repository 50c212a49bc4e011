/** Brush-sized masses, their marks, outlines, edges and reserves. */
export type * from './types.js';
