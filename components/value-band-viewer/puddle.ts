/** Shapes of ours for puddles and dabs of paint. */

type Point = [x: number, y: number];

/** A repeatable sequence in 0..1 (mulberry32). */
function chance(seed: number): () => number {
  let state = (seed * 0x9e3779b9 + 0x6d2b79f5) | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const CORNERS = 28;

/**
 * The outline of a puddle about the origin: a circle whose radius swings slowly, `r (1 + sum a_k cos(k t + p_k))`, whose area
 * is `pi r^2 (1 + sum a_k^2 / 2)`; r is chosen so that the area is the wanted one.
 * @param area at least 0
 * @param seed which shape: the same number gives the same shape at every size
 */
export function puddleOutline(area: number, seed: number): Point[] {
  const next = chance(seed);
  const waves = [2, 3, 4].map((k) => ({
    k,
    a: (0.05 + 0.07 * next()) / Math.sqrt(k / 2),
    p: 2 * Math.PI * next(),
  }));
  const swell = waves.reduce((sum, { a }) => sum + (a * a) / 2, 1);
  const radius = Math.sqrt(area / Math.PI / swell);
  return Array.from({ length: CORNERS }, (_, i): Point => {
    const t = (2 * Math.PI * i) / CORNERS;
    const r = radius * waves.reduce((sum, { k, a, p }) => sum + a * Math.cos(k * t + p), 1);
    return [r * Math.cos(t), r * Math.sin(t)];
  });
}

/** The outline of a dab: one short stroke of a flat brush, about the origin. */
export function dabOutline(width: number, height: number, seed: number): Point[] {
  const next = chance(seed);
  const count = 24;
  return Array.from({ length: count }, (_, i): Point => {
    const t = (2 * Math.PI * i) / count;
    const [c, s] = [Math.cos(t), Math.sin(t)];
    const swing = 1 - 0.06 * next();
    return [
      (width / 2) * swing * Math.sign(c) * Math.abs(c) ** 0.42,
      (height / 2) * swing * Math.sign(s) * Math.abs(s) ** 0.55,
    ];
  });
}

/** A smooth closed path through the points (Catmull-Rom as cubic Béziers). */
export function smoothPath(points: readonly Point[]): string {
  const n = points.length;
  const at = (i: number): Point => points[(i + n) % n];
  const f = (v: number): string => v.toFixed(2);
  let path = `M${f(points[0][0])} ${f(points[0][1])}`;
  for (let i = 0; i < n; i++) {
    const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    path += `C${f(b[0] + (c[0] - a[0]) / 6)} ${f(b[1] + (c[1] - a[1]) / 6)} ${f(c[0] - (d[0] - b[0]) / 6)} ${f(c[1] - (d[1] - b[1]) / 6)} ${f(c[0])} ${f(c[1])}`;
  }
  return `${path}Z`;
}
