/** A point in CSS pixels of the stage. */
export type Point = [x: number, y: number];

/** A sheet whose lower corner is turned over. */
export interface Fold {
  /** What stays flat. */
  flat: Point[];
  /** What the lifted part uncovers. */
  open: Point[];
  /** The lifted part, turned over the crease: the back of the sheet. */
  flap: Point[];
  /** The ends of the crease on the sheet's border; missing when nothing, or all, is lifted. */
  crease?: [Point, Point];
}

/** Twice the signed area of a polygon. */
function twiceArea(points: readonly Point[]): number {
  let sum = 0;
  for (let i = 0; i < points.length; i++) {
    const [x, y] = points[i];
    const [nx, ny] = points[(i + 1) % points.length];
    sum += x * ny - nx * y;
  }
  return sum;
}

/** The area of a polygon. */
export function areaOf(points: readonly Point[]): number {
  return Math.abs(twiceArea(points)) / 2;
}

/** The part of a polygon where `side` is at least 0 (Sutherland & Hodgman 1974, one edge); `side` is linear. */
function clipped(points: readonly Point[], side: (p: Point) => number): Point[] {
  const kept: Point[] = [];
  for (let i = 0; i < points.length; i++) {
    const a = points[i];
    const b = points[(i + 1) % points.length];
    const sa = side(a);
    const sb = side(b);
    if (sa >= 0) kept.push(a);
    if ((sa > 0 && sb < 0) || (sa < 0 && sb > 0)) {
      const t = sa / (sa - sb);
      kept.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
    }
  }
  return kept;
}

/**
 * The sheet with a corner brought to another place: the crease is the perpendicular bisector of the way from the one to the
 * other, and what lies nearer to the corner is turned over it.
 * @param width @param height of the sheet
 * @param corner where the corner lies at rest
 * @param to where it was brought to
 */
export function foldOf(width: number, height: number, corner: Point, to: Point): Fold {
  const sheet: Point[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const dx = to[0] - corner[0];
  const dy = to[1] - corner[1];
  const length = Math.hypot(dx, dy);
  if (length < 1e-9) return { flat: sheet, open: [], flap: [] };
  const nx = dx / length;
  const ny = dy / length;
  const mx = (corner[0] + to[0]) / 2;
  const my = (corner[1] + to[1]) / 2;
  const beyond = ([x, y]: Point): number => (x - mx) * nx + (y - my) * ny;
  const flat = clipped(sheet, beyond);
  const open = clipped(sheet, (p) => -beyond(p));
  const flap = open.map((p): Point => {
    const d = 2 * beyond(p);
    return [p[0] - d * nx, p[1] - d * ny];
  });
  const onCrease = open.filter((p) => Math.abs(beyond(p)) < 1e-6);
  const crease =
    onCrease.length >= 2 && flat.length >= 3
      ? ([onCrease[0], onCrease[1]] as [Point, Point])
      : undefined;
  return { flat, open, flap, crease };
}

/** A polygon as a list of coordinates, for `points=""` and, with a unit, for `polygon()`. */
export function pointsText(points: readonly Point[], unit = ''): string {
  return points
    .map(([x, y]) => `${x.toFixed(2)}${unit} ${y.toFixed(2)}${unit}`)
    .join(unit ? ', ' : ' ');
}
