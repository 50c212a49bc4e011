import type { Words } from '../../strings.js';

/** Namen der Farbneigungen. */
export const leanWords: Words = {
  'lean.neutral': 'neutral',
  'lean.red': 'Rot',
  'lean.orange': 'Orange',
  'lean.yellow': 'Gelb',
  'lean.yellow-green': 'Gelbgrün',
  'lean.green': 'Grün',
  'lean.blue-green': 'Blaugrün',
  'lean.blue': 'Blau',
  'lean.violet': 'Violett',
  'lean.red-violet': 'Rotviolett',
};
