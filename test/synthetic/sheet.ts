/**
 * An invented test sheet for tests: dabs of known colour on paper, as a flat scene in linear light. It shares no code with the package.
 *
 * Sources: CIELAB, CIE 15 (216/24389, 24389/27), D65 as x 0.3127, y 0.3290; linear sRGB, IEC 61966-2-1.
 */
import { blankScene, normalOf, randomOf, type Point, type Rgb, type Scene } from './camera.js';

export type Lab3 = [L: number, a: number, b: number];

/** Linear sRGB of CIELAB (D65); not cut. */
export function linearOf([L, a, b]: Lab3): Rgb {
  const fy = (L + 16) / 116;
  const cube = (f: number): number =>
    f ** 3 > 216 / 24389 ? f ** 3 : ((116 * f - 16) * 27) / 24389;
  const Y = L > 8 ? fy ** 3 : (L * 27) / 24389;
  const X = (0.3127 / 0.329) * cube(fy + a / 500);
  const Z = ((1 - 0.3127 - 0.329) / 0.329) * cube(fy - b / 200);
  return [
    3.2409699419045213 * X - 1.5373831775700932 * Y - 0.4986107602930032 * Z,
    -0.9692436362808794 * X + 1.8759675015077202 * Y + 0.04155505740717556 * Z,
    0.055630079696993594 * X - 0.20397695888897646 * Y + 1.0569715142428784 * Z,
  ];
}

/** A dab: an ellipse whose border wavers. Places and sizes in fractions of the sheet's width and height. */
export interface PaintedDab {
  at: Point;
  radius: Point;
  lab: Lab3;
  /** How far its border wavers, share of the radius; 0 is an ellipse; `rectangle` draws a rectangle. */
  waver?: number;
  rectangle?: boolean;
  /** Width of the soft border, share of the radius. */
  soft?: number;
  /** A dried rim: L* darker along the border. */
  rim?: number;
  /** Standard deviation of light by granulation, as a share of it. */
  grain?: number;
}

export interface SheetScene {
  width: number;
  height: number;
  paper: Lab3;
  dabs: PaintedDab[];
  /** Lines as if written with a pen or pencil: each a list of points, with its width (share of the sheet's width) and colour. */
  lines?: { points: Point[]; width: number; lab: Lab3 }[];
  /** Rectangles of tape: left, top, width, height. */
  tape?: { box: [number, number, number, number]; lab: Lab3 }[];
  seed: number;
}

/** Draws the sheet. */
export function paintedSheet(sheet: SheetScene): Scene {
  const { width, height } = sheet;
  const scene = blankScene(width, height, linearOf(sheet.paper));
  const random = randomOf(sheet.seed);
  for (const dab of sheet.dabs) drawDab(scene, dab, linearOf(sheet.paper), random);
  for (const line of sheet.lines ?? [])
    drawLine(scene, line.points, line.width, linearOf(line.lab));
  for (const { box, lab } of sheet.tape ?? []) {
    const [x, y, w, h] = box;
    fill(scene, x * width, y * height, (x + w) * width, (y + h) * height, linearOf(lab));
  }
  return scene;
}

function fill(scene: Scene, x0: number, y0: number, x1: number, y1: number, rgb: Rgb): void {
  for (let y = Math.max(0, Math.round(y0)); y < Math.min(scene.height, Math.round(y1)); y++)
    for (let x = Math.max(0, Math.round(x0)); x < Math.min(scene.width, Math.round(x1)); x++)
      scene.light.set(rgb, 3 * (y * scene.width + x));
}

function drawDab(scene: Scene, dab: PaintedDab, paper: Rgb, random: () => number): void {
  const { width, height, light } = scene;
  const [rx, ry] = [dab.radius[0] * width, dab.radius[1] * height];
  const [cx, cy] = [dab.at[0] * width, dab.at[1] * height];
  const phases = [random(), random(), random()].map((r) => 2 * Math.PI * r);
  const middle = linearOf(dab.lab);
  const rim = linearOf([Math.max(2, dab.lab[0] - (dab.rim ?? 0)), dab.lab[1], dab.lab[2]]);
  const normal = normalOf(random);
  // Grains three pixels broad.
  const columns = Math.ceil((2.8 * rx) / 3) + 2;
  const grains = Float64Array.from(
    { length: columns * (Math.ceil((2.8 * ry) / 3) + 2) },
    () => (dab.grain ?? 0) * normal(),
  );
  const soft = Math.max(1e-3, dab.soft ?? 0);
  for (let y = Math.floor(cy - 1.4 * ry); y <= cy + 1.4 * ry; y++) {
    for (let x = Math.floor(cx - 1.4 * rx); x <= cx + 1.4 * rx; x++) {
      if (x < 0 || y < 0 || x >= width || y >= height) continue;
      const dx = (x + 0.5 - cx) / rx;
      const dy = (y + 0.5 - cy) / ry;
      const angle = Math.atan2(dy, dx);
      const reach =
        1 +
        (dab.waver ?? 0) *
          (0.5 * Math.sin(2 * angle + phases[0]) +
            0.3 * Math.sin(3 * angle + phases[1]) +
            0.2 * Math.sin(5 * angle + phases[2]));
      const r = dab.rectangle ? Math.max(Math.abs(dx), Math.abs(dy)) : Math.hypot(dx, dy) / reach;
      const t = Math.min(1, Math.max(0, (1 - r) / soft));
      const cover = t * t * (3 - 2 * t);
      if (cover === 0) continue;
      const onRim = dab.rim && r > 0.88 ? 1 : 0;
      const place =
        Math.floor((y - cy + 1.4 * ry) / 3) * columns + Math.floor((x - cx + 1.4 * rx) / 3);
      const grain = 1 + Math.min(0.9, Math.max(-0.9, grains[place]));
      const k = 3 * (y * width + x);
      for (let c = 0; c < 3; c++) {
        const paint = (onRim ? rim[c] : middle[c]) * grain;
        light[k + c] = cover * paint + (1 - cover) * paper[c];
      }
    }
  }
}

function drawLine(scene: Scene, points: Point[], share: number, rgb: Rgb): void {
  const { width, height } = scene;
  const half = (share * width) / 2;
  for (let i = 0; i + 1 < points.length; i++) {
    const [x0, y0] = [points[i][0] * width, points[i][1] * height];
    const [x1, y1] = [points[i + 1][0] * width, points[i + 1][1] * height];
    const steps = Math.ceil(Math.hypot(x1 - x0, y1 - y0));
    for (let s = 0; s <= steps; s++) {
      const x = x0 + ((x1 - x0) * s) / Math.max(1, steps);
      const y = y0 + ((y1 - y0) * s) / Math.max(1, steps);
      fill(scene, x - half, y - half, x + half, y + half, rgb);
    }
  }
}

/** Scribble that stands for a word, from a place on, `wide` broad and `high` tall. */
export function scribble(at: Point, wide: number, high: number, random: () => number): Point[] {
  return Array.from({ length: 14 }, (_, i) => [
    at[0] + (wide * i) / 13,
    at[1] + high * (i % 2 === 0 ? 0.2 * random() : 0.7 + 0.3 * random()),
  ]);
}
