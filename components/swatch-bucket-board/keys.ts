import type { Step } from './board-moves.js';

/** The step that a key stands for while a swatch is picked up; darker buckets lie toward the start of the line. */
export function stepOfKey(key: string, rtl: boolean): Step | undefined {
  switch (key) {
    case 'ArrowUp':
      return 'earlier';
    case 'ArrowDown':
      return 'later';
    case 'ArrowLeft':
      return rtl ? 'lighter' : 'darker';
    case 'ArrowRight':
      return rtl ? 'darker' : 'lighter';
    case 'Home':
      return 'first';
    case 'End':
      return 'last';
    default:
      return undefined;
  }
}
