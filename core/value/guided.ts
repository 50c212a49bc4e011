import { byRows, type Kernel } from '../base/kernel.js';
import { stage } from './stage.js';

// Running sums throughout: columns hold the sums over the rows of the window, a row's window slides
// over the columns, so the time does not grow with the radius. Windows are cut at the picture's
// border.

/**
 * Adds a row of the guide, its square, the channel and their product to the column sums, or takes
 * it away.
 */
function addPairs(
  guide: Uint8Array,
  channel: Uint8Array,
  start: number,
  width: number,
  sign: number,
  sums: Float64Array,
): void {
  for (let x = 0, k = 0; x < width; x++, k += 4) {
    const g = guide[start + x];
    const p = channel[start + x];
    sums[k] += sign * g;
    sums[k + 1] += sign * g * g;
    sums[k + 2] += sign * p;
    sums[k + 3] += sign * g * p;
  }
}

/**
 * One row of the lines `slope * guide + offset` that fit the channel to the guide in each window.
 */
function fitRow(
  sums: Float64Array,
  width: number,
  radius: number,
  rows: number,
  epsilon: number,
  start: number,
  slope: Float32Array,
  offset: Float32Array,
): void {
  let g = 0;
  let gg = 0;
  let p = 0;
  let gp = 0;
  for (let k = 0; k < 4 * Math.min(radius, width); k += 4) {
    g += sums[k];
    gg += sums[k + 1];
    p += sums[k + 2];
    gp += sums[k + 3];
  }
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      g += sums[4 * enter];
      gg += sums[4 * enter + 1];
      p += sums[4 * enter + 2];
      gp += sums[4 * enter + 3];
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      g -= sums[4 * leave];
      gg -= sums[4 * leave + 1];
      p -= sums[4 * leave + 2];
      gp -= sums[4 * leave + 3];
    }
    const part =
      1 / (rows * ((enter < width ? enter : width - 1) - (leave < 0 ? 0 : leave + 1) + 1));
    const meanG = g * part;
    const meanP = p * part;
    const a = (gp * part - meanG * meanP) / (gg * part - meanG * meanG + epsilon);
    slope[start + x] = a;
    offset[start + x] = meanP - a * meanG;
  }
}

/** Adds a row of the guide and its square to the column sums, or takes it away. */
function addSquares(
  guide: Uint8Array,
  start: number,
  width: number,
  sign: number,
  sums: Float64Array,
): void {
  for (let x = 0, k = 0; x < width; x++, k += 2) {
    const g = guide[start + x];
    sums[k] += sign * g;
    sums[k + 1] += sign * g * g;
  }
}

/** {@link fitRow} where the channel is the guide itself: half the sums. */
function fitOwnRow(
  sums: Float64Array,
  width: number,
  radius: number,
  rows: number,
  epsilon: number,
  start: number,
  slope: Float32Array,
  offset: Float32Array,
): void {
  let g = 0;
  let gg = 0;
  for (let k = 0; k < 2 * Math.min(radius, width); k += 2) {
    g += sums[k];
    gg += sums[k + 1];
  }
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      g += sums[2 * enter];
      gg += sums[2 * enter + 1];
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      g -= sums[2 * leave];
      gg -= sums[2 * leave + 1];
    }
    const part =
      1 / (rows * ((enter < width ? enter : width - 1) - (leave < 0 ? 0 : leave + 1) + 1));
    const mean = g * part;
    const variance = gg * part - mean * mean;
    const a = variance / (variance + epsilon);
    slope[start + x] = a;
    offset[start + x] = mean - a * mean;
  }
}

/** Adds a row of the fitted lines to the column sums, or takes it away. */
function addLines(
  slope: Float32Array,
  offset: Float32Array,
  start: number,
  width: number,
  sign: number,
  sums: Float64Array,
): void {
  for (let x = 0, k = 0; x < width; x++, k += 2) {
    sums[k] += sign * slope[start + x];
    sums[k + 1] += sign * offset[start + x];
  }
}

/**
 * One row of the result: the mean line of the windows around each pixel, at the guide's value
 * there.
 */
function lineRow(
  sums: Float64Array,
  guide: Uint8Array,
  width: number,
  radius: number,
  rows: number,
  start: number,
  out: Float32Array,
): void {
  let a = 0;
  let b = 0;
  for (let k = 0; k < 2 * Math.min(radius, width); k += 2) {
    a += sums[k];
    b += sums[k + 1];
  }
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      a += sums[2 * enter];
      b += sums[2 * enter + 1];
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      a -= sums[2 * leave];
      b -= sums[2 * leave + 1];
    }
    const n = rows * ((enter < width ? enter : width - 1) - (leave < 0 ? 0 : leave + 1) + 1);
    out[start + x] = (a * guide[start + x] + b) / n;
  }
}

/**
 * Slides a window down the picture: `add(y, sign)` for rows that enter and leave, `row(y, rows)`
 * for each row in turn.
 */
function* slide(
  width: number,
  height: number,
  radius: number,
  add: (y: number, sign: number) => void,
  row: (y: number, rows: number) => void,
): Kernel<void> {
  for (let y = 0; y < Math.min(radius, height); y++) add(y, 1);
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++) {
      const enter = y + radius;
      const leave = y - radius - 1;
      if (enter < height) add(enter, 1);
      if (leave >= 0) add(leave, -1);
      row(y, Math.min(height - 1, enter) - Math.max(0, leave + 1) + 1);
    }
  });
}

/**
 * The guided filter (He, Sun & Tang 2010, "Guided image filtering"): in each window of `2 radius +
 * 1` pixels a side the channel p is fitted by a line of the guide I, `a = cov(I, p) / (var(I) +
 * epsilon)`, `b = mean(p) - a mean(I)`; a pixel takes the mean line of the windows it lies in.
 * @param epsilon more than 0, in squared codes: variance below it counts as detail
 */
export function* guidedKernel(
  guide: Uint8Array,
  channel: Uint8Array,
  width: number,
  height: number,
  radius: number,
  epsilon: number,
): Kernel<Float32Array> {
  const slope = new Float32Array(width * height);
  const offset = new Float32Array(width * height);
  const own = guide === channel;
  const sums = new Float64Array((own ? 2 : 4) * width);
  const fit = own ? fitOwnRow : fitRow;
  yield* stage(
    slide(
      width,
      height,
      radius,
      (y, sign) => {
        if (own) addSquares(guide, y * width, width, sign, sums);
        else addPairs(guide, channel, y * width, width, sign, sums);
      },
      (y, rows) => fit(sums, width, radius, rows, epsilon, y * width, slope, offset),
    ),
    0,
    0.6,
  );
  const out = new Float32Array(width * height);
  const lines = new Float64Array(2 * width);
  yield* stage(
    slide(
      width,
      height,
      radius,
      (y, sign) => addLines(slope, offset, y * width, width, sign, lines),
      (y, rows) => lineRow(lines, guide, width, radius, rows, y * width, out),
    ),
    0.6,
    1,
  );
  return out;
}
