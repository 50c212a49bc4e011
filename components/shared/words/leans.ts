import type { Words } from '../strings.js';

/** Names of leans: the families of hue. */
export const leanWords: Words = {
  'lean.neutral': 'neutral',
  'lean.red': 'red',
  'lean.orange': 'orange',
  'lean.yellow': 'yellow',
  'lean.yellow-green': 'yellow-green',
  'lean.green': 'green',
  'lean.blue-green': 'blue-green',
  'lean.blue': 'blue',
  'lean.violet': 'violet',
  'lean.red-violet': 'red-violet',
};
