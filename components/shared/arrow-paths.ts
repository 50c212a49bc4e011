import type { Arrow } from './core.js';

/** Half the opening of an arrow's head, and its length against the stroke's. */
const HEAD_ANGLE = 0.45;
const HEAD_LENGTH = 0.16;

const short = (value: number): number => Math.round(value * 10) / 10;

/** Arrows as SVG path data in their pixels: the lines, and heads for those whose sense is known. */
export function arrowPaths(all: readonly Arrow[]): { lines: string; heads: string } {
  let lines = '';
  let heads = '';
  for (const { line, sensed } of all) {
    const n = line.length;
    for (let i = 0; i < n; i += 2)
      lines += `${i === 0 ? 'M' : 'L'}${short(line[i])} ${short(line[i + 1])}`;
    if (!sensed || n < 4) continue;
    const back = Math.max(0, n - 8);
    const angle = Math.atan2(line[n - 1] - line[back + 1], line[n - 2] - line[back]);
    let long = 0;
    for (let i = 2; i < n; i += 2)
      long += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
    const size = long * HEAD_LENGTH;
    const barb = (turn: number): string =>
      `${short(line[n - 2] - size * Math.cos(angle + turn))} ${short(line[n - 1] - size * Math.sin(angle + turn))}`;
    heads += `M${barb(HEAD_ANGLE)}L${short(line[n - 2])} ${short(line[n - 1])}L${barb(-HEAD_ANGLE)}`;
  }
  return { lines, heads };
}
