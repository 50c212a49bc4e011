/** Which way the brush goes: direction of the form, streamlines, arrows. */
export type * from './types.js';
