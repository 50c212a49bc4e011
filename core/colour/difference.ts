import type { Lab } from '../base/types.js';
import { expectLab } from './lab.js';

const RADIANS = Math.PI / 180;
const POWER_25_7 = 25 ** 7;

function hueDegrees(b: number, a: number): number {
  if (a === 0 && b === 0) return 0;
  const h = Math.atan2(b, a) / RADIANS;
  return h < 0 ? h + 360 : h;
}

/**
 * CIEDE2000 of plain numbers, unguarded, for inner loops. Sharma, Wu & Dalal 2005, "The CIEDE2000
 * color-difference formula: implementation notes, supplementary test data, and mathematical
 * observations", equations 2 to 22, with kL = kC = kH = 1. A hue difference within 1e-9 degrees of
 * 180 counts as 180: rounding must not flip the mean hue to the far side.
 */
export function ciede2000(
  L1: number,
  a1: number,
  b1: number,
  L2: number,
  a2: number,
  b2: number,
): number {
  const meanC = (Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2)) / 2;
  const meanC7 = meanC ** 7;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(meanC7 / (meanC7 + POWER_25_7)));
  const a1s = a1 * stretch;
  const a2s = a2 * stretch;
  const C1 = Math.sqrt(a1s * a1s + b1 * b1);
  const C2 = Math.sqrt(a2s * a2s + b2 * b2);
  const h1 = hueDegrees(b1, a1s);
  const h2 = hueDegrees(b2, a2s);

  const dL = L2 - L1;
  const dC = C2 - C1;
  const chromatic = C1 * C2 !== 0;
  let dh = 0;
  let meanH = h1 + h2;
  if (chromatic) {
    dh = h2 - h1;
    const near = Math.abs(dh) <= 180 + 1e-9;
    if (near) meanH = (h1 + h2) / 2;
    else {
      dh += dh > 0 ? -360 : 360;
      meanH = h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
    }
  }
  const dH = 2 * Math.sqrt(C1 * C2) * Math.sin((dh / 2) * RADIANS);

  const meanL = (L1 + L2) / 2;
  const meanCs = (C1 + C2) / 2;
  const T =
    1 -
    0.17 * Math.cos((meanH - 30) * RADIANS) +
    0.24 * Math.cos(2 * meanH * RADIANS) +
    0.32 * Math.cos((3 * meanH + 6) * RADIANS) -
    0.2 * Math.cos((4 * meanH - 63) * RADIANS);
  const spread = (meanH - 275) / 25;
  const dTheta = 30 * Math.exp(-spread * spread);
  const meanCs7 = meanCs ** 7;
  const RC = 2 * Math.sqrt(meanCs7 / (meanCs7 + POWER_25_7));
  const fromMiddle = (meanL - 50) * (meanL - 50);
  const SL = 1 + (0.015 * fromMiddle) / Math.sqrt(20 + fromMiddle);
  const SC = 1 + 0.045 * meanCs;
  const SH = 1 + 0.015 * meanCs * T;
  const RT = -Math.sin(2 * dTheta * RADIANS) * RC;
  const l = dL / SL;
  const c = dC / SC;
  const h = dH / SH;
  return Math.sqrt(l * l + c * c + h * h + RT * c * h);
}

/**
 * The CIEDE2000 colour difference of two Lab colours (D65), after Sharma, Wu & Dalal 2005.
 * @throws {TypeError} not three numbers · {RangeError} a number that is not finite
 */
export function deltaE2000(a: Lab, b: Lab): number {
  expectLab('a', a);
  expectLab('b', b);
  return ciede2000(a[0], a[1], a[2], b[0], b[1], b[2]);
}
