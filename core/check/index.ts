/** The painting against the plan. */
export type * from './types.js';
