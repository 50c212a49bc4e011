import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import type { Spot } from '../base/types.js';

/** A place the painter set in the plan and found again in the painting. */
export interface Landmark {
  /** Its name, as the painter gave it. */
  name: string;
  /** Fractions of the plan's picture. */
  planned: Spot;
  /** Fractions of the painted part, brought upright. */
  painted: Spot;
}

/** Where one landmark came to lie. */
export interface Displacement {
  name: string;
  /** To the right and down, mm on the paper, as it lies. */
  x: number;
  y: number;
  /** Their length, mm. */
  distance: number;
  /** Length of what is left when shift, turn and size of the whole drawing are allowed for, mm. */
  within: number;
}

/** How a drawing lies against its plan. */
export interface DrawingCheck {
  /** Farthest within the drawing first. */
  displacements: Displacement[];
  /** The whole drawing: mm to the right and down at the middle of the landmarks. */
  shift: [x: number, y: number];
  /** Degrees clockwise. */
  turn: number;
  /** 1 is the planned size. */
  scale: number;
  /** Root mean square of `within`, mm. */
  spread: number;
}

/**
 * The drawing before the values: how far landmarks lie from where they were planned, in mm on the paper, as they lie and within the
 * drawing (after the similarity that fits best: Umeyama 1991, "Least-squares estimation of transformation parameters between
 * two point patterns"). With one landmark, or several in one place, the similarity is a shift; two leave nothing over.
 *
 * @param paper size of the painted part, mm, above 0
 * @throws TypeError, RangeError naming the argument
 */
export function checkDrawing(
  landmarks: readonly Landmark[],
  paper: { widthMm: number; heightMm: number },
): DrawingCheck {
  if (!Array.isArray(landmarks)) throw wrongType('landmarks', landmarks, 'an array of landmarks');
  expectObject('paper', paper);
  const width = expectNumber('paper.widthMm', paper.widthMm, Number.MIN_VALUE, 1e5);
  const height = expectNumber('paper.heightMm', paper.heightMm, Number.MIN_VALUE, 1e5);
  if (landmarks.length === 0) throw outOfRange('landmarks', landmarks, 'at least one landmark');
  const inMm = (name: string, spot: Spot): Spot => {
    if (!Array.isArray(spot) || spot.length !== 2) throw wrongType(name, spot, 'a point [x, y]');
    return [
      width * expectNumber(`${name}[0]`, spot[0], -1, 2),
      height * expectNumber(`${name}[1]`, spot[1], -1, 2),
    ];
  };
  const from = landmarks.map((mark: Landmark, i) => inMm(`landmarks[${i}].planned`, mark.planned));
  const to = landmarks.map((mark: Landmark, i) => inMm(`landmarks[${i}].painted`, mark.painted));
  const a = middleOf(from);
  const b = middleOf(to);
  // In the plane the rotation of Umeyama's solution has a closed form.
  let along = 0;
  let across = 0;
  let size = 0;
  from.forEach(([x, y], i) => {
    const px = x - a[0];
    const py = y - a[1];
    const qx = to[i][0] - b[0];
    const qy = to[i][1] - b[1];
    along += px * qx + py * qy;
    across += px * qy - py * qx;
    size += px * px + py * py;
  });
  const known = size > 1e-9 && Math.hypot(along, across) > 1e-12;
  const cos = known ? along / size : 1;
  const sin = known ? across / size : 0;
  const displacements = from.map(([x, y], i) => {
    const [u, v] = to[i];
    const px = x - a[0];
    const py = y - a[1];
    return {
      name: landmarks[i].name,
      x: u - x,
      y: v - y,
      distance: Math.hypot(u - x, v - y),
      within: Math.hypot(b[0] + cos * px - sin * py - u, b[1] + sin * px + cos * py - v),
    };
  });
  const spread = Math.sqrt(
    displacements.reduce((sum, { within }) => sum + within * within, 0) / displacements.length,
  );
  displacements.sort((one, other) => other.within - one.within || other.distance - one.distance);
  return {
    displacements,
    shift: [b[0] - a[0], b[1] - a[1]],
    turn: (Math.atan2(sin, cos) * 180) / Math.PI,
    scale: Math.hypot(cos, sin),
    spread,
  };
}

function middleOf(spots: readonly Spot[]): Spot {
  return [
    spots.reduce((sum, [x]) => sum + x, 0) / spots.length,
    spots.reduce((sum, [, y]) => sum + y, 0) / spots.length,
  ];
}
