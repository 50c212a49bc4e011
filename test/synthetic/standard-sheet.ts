/** The invented sheet of the fault table: twenty dabs in five columns, of all kinds, with notes, ruled lines and tape. */
import { randomOf, type CameraOptions } from './camera.js';
import { scribble, type PaintedDab, type Lab3, type SheetScene } from './sheet.js';

const LABS: Lab3[][] = [
  [
    [92, 0, 1],
    [78, 0, 0],
    [55, 1, -2],
    [30, 0, 0],
  ],
  [
    [88, -2, 8],
    [70, 4, 30],
    [52, 18, 28],
    [34, 14, 12],
  ],
  [
    [85, -4, -5],
    [66, -6, -18],
    [46, 2, -28],
    [27, 4, -20],
  ],
  [
    [82, 6, 2],
    [64, 22, 8],
    [44, 34, 14],
    [26, 18, 6],
  ],
  [
    [80, -8, 10],
    [60, -16, 20],
    [42, -12, 14],
    [20, 0, 1],
  ],
];

export const STANDARD_DABS: PaintedDab[] = LABS.flatMap((column, i) =>
  column.map((lab, j): PaintedDab => ({
    at: [0.13 + 0.185 * i, 0.15 + 0.22 * j],
    radius: [0.055, 0.06],
    lab,
    waver: [0, 0.12, 0.2][(i + j) % 3],
    rectangle: (i + 2 * j) % 5 === 0,
    soft: [0.02, 0.08, 0.35][(2 * i + j) % 3],
    rim: (i + j) % 2 === 0 ? 6 : 0,
    grain: (i + j) % 4 === 1 ? 0.08 : 0.01,
  })),
);

export function standardSheet(seed: number, width = 1400, height = 1000): SheetScene {
  const random = randomOf(seed);
  return {
    width,
    height,
    paper: [95, 0, 0],
    dabs: STANDARD_DABS,
    seed,
    lines: [
      ...STANDARD_DABS.map(({ at }) => ({
        points: scribble([at[0] - 0.05, at[1] + 0.085], 0.08, 0.022, random),
        width: 0.0016,
        lab: [38, 0, 0] as Lab3,
      })),
      ...[1, 2, 3].map((row) => ({
        points: [
          [0.03, 0.04 + 0.22 * row],
          [0.97, 0.04 + 0.22 * row],
        ] as [number, number][],
        width: 0.0012,
        lab: [70, 0, 0] as Lab3,
      })),
    ],
    tape: [
      { box: [0, 0, 0.06, 0.05], lab: [82, 4, 22] },
      { box: [0.94, 0.95, 0.06, 0.05], lab: [82, 4, 22] },
    ],
  };
}

/** How a careful painter takes it: a phone over a table near a window, slightly tilted, warm, saved as JPEG. */
export function usualCamera(seed: number, width = 1600, height = 1200): CameraOptions {
  return {
    seed,
    width,
    height,
    corners: [
      [0.09 * width, 0.1 * height],
      [0.93 * width, 0.07 * height],
      [0.96 * width, 0.93 * height],
      [0.05 * width, 0.9 * height],
    ],
    table: [0.1, 0.07, 0.05],
    grain: 0.2,
    exposure: 0.9,
    cast: [1, 0.93, 0.8],
    falloff: [0.25, 0.1],
    vignette: 0.2,
    blurPx: 0.8,
    noise: { electrons: 6000, read: 6 },
    jpeg: 90,
  };
}
