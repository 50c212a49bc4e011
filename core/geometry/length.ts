/**
 * The length of (dx, dy). `Math.hypot` is rounded otherwise from engine to engine (V8 gives 125.00000000000001 for 35, 120), `Math.sqrt` is not
 * (IEEE 754); where a length decides which pixel is meant, engines would part.
 */
export function lengthOf(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}
