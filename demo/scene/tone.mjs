/**
 * From light to picture: the soft part of the light is smoothed along surfaces, then lens, film and
 * sRGB (IEC 61966-2-1).
 */
import { hash3 } from './sdf.mjs';

/** Floats per pixel in the light buffer, in the order the workers write them. */
export const PLANES = { sharp: 0, soft: 3, paint: 6, normal: 9, depth: 12, count: 13 };

/**
 * Smooths the soft light by an a-trous filter that does not cross edges of depth or of form.
 * @param {Float32Array} light width * height * PLANES.count
 * @param {number} passes each reaches twice as far as the one before
 */
export function smoothSoftLight(light, width, height, passes) {
  const K = PLANES.count;
  const size = width * height;
  let from = new Float32Array(size * 3);
  let to = new Float32Array(size * 3);
  for (let i = 0; i < size; i++) {
    for (let c = 0; c < 3; c++) from[i * 3 + c] = light[i * K + PLANES.soft + c];
  }
  const weights = [0.4, 0.25, 0.08];
  for (let pass = 0; pass < passes; pass++) {
    const step = 1 << pass;
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const i = y * width + x;
        const g = i * K + PLANES.normal;
        const depth = light[g + 3];
        let r = 0;
        let gr = 0;
        let b = 0;
        let sum = 0;
        for (let dy = -2; dy <= 2; dy++) {
          const yy = y + dy * step;
          if (yy < 0 || yy >= height) continue;
          for (let dx = -2; dx <= 2; dx++) {
            const xx = x + dx * step;
            if (xx < 0 || xx >= width) continue;
            const j = yy * width + xx;
            const q = j * K + PLANES.normal;
            const like =
              light[g] * light[q] + light[g + 1] * light[q + 1] + light[g + 2] * light[q + 2];
            if (like < 0.6) continue;
            const off = Math.abs(light[q + 3] - depth) / (0.01 + 0.012 * step);
            if (off > 2) continue;
            const w =
              weights[Math.abs(dx)] * weights[Math.abs(dy)] * like ** 12 * (1 / (1 + off * off));
            r += from[j * 3] * w;
            gr += from[j * 3 + 1] * w;
            b += from[j * 3 + 2] * w;
            sum += w;
          }
        }
        const k = sum > 1e-6 ? 1 / sum : 0;
        to[i * 3] = k ? r * k : from[i * 3];
        to[i * 3 + 1] = k ? gr * k : from[i * 3 + 1];
        to[i * 3 + 2] = k ? b * k : from[i * 3 + 2];
      }
    }
    [from, to] = [to, from];
  }
  return from;
}

/** Sum of sharp light and smoothed soft light times the paint: linear RGB. */
export function compose(light, soft, size) {
  const K = PLANES.count;
  const out = new Float32Array(size * 3);
  for (let i = 0; i < size; i++) {
    for (let c = 0; c < 3; c++) {
      out[i * 3 + c] =
        light[i * K + PLANES.sharp + c] + soft[i * 3 + c] * light[i * K + PLANES.paint + c];
    }
  }
  return out;
}

/** Area mean of a linear picture, to `width` x `height`. */
export function reduce(linear, fromWidth, fromHeight, width, height) {
  const out = new Float32Array(width * height * 3);
  for (let y = 0; y < height; y++) {
    const y0 = (y * fromHeight) / height;
    const y1 = ((y + 1) * fromHeight) / height;
    for (let x = 0; x < width; x++) {
      const x0 = (x * fromWidth) / width;
      const x1 = ((x + 1) * fromWidth) / width;
      let sum = 0;
      for (let v = Math.floor(y0); v < y1; v++) {
        const wy = Math.min(v + 1, y1) - Math.max(v, y0);
        for (let u = Math.floor(x0); u < x1; u++) {
          const w = wy * (Math.min(u + 1, x1) - Math.max(u, x0));
          const p = (v * fromWidth + u) * 3;
          const q = (y * width + x) * 3;
          out[q] += linear[p] * w;
          out[q + 1] += linear[p + 1] * w;
          out[q + 2] += linear[p + 2] * w;
          sum += w;
        }
      }
      for (let c = 0; c < 3; c++) out[(y * width + x) * 3 + c] /= sum;
    }
  }
  return out;
}

/** A gentle film curve: a short toe, a long shoulder, black not quite empty. */
function film(x) {
  const lifted = 0.0015 + x * ((x + 0.012) / (x + 0.05)) * 1.1;
  const shoulder = 1.16 * (1 - Math.exp(-lifted / 1.02));
  return Math.min(1, shoulder);
}

const encode = (x) => (x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055);

/** Develops linear RGB into RGBA bytes; the grain is seeded, about one lightness step strong. */
export function develop(linear, width, height, exposure, grain) {
  const out = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const vx = (x / width - 0.5) * 1.5;
      const vy = y / height - 0.5;
      const falloff = 1 - 0.5 * (vx * vx + vy * vy);
      const r = linear[i * 3] * exposure * falloff;
      const g = linear[i * 3 + 1] * exposure * falloff;
      const b = linear[i * 3 + 2] * exposure * falloff;
      // The shoulder works mostly on brightness, a little on each channel, so lights keep their hue.
      const bright = 0.2126 * r + 0.7152 * g + 0.0722 * b;
      const k = bright > 1e-6 ? film(bright) / bright : 1;
      const h = hash3(x, y, 977);
      const noise = ((h & 1023) + ((h >>> 10) & 1023) + ((h >>> 20) & 1023)) / 1534.5 - 1;
      const level = (v) => {
        const toned = 0.45 * v * k + 0.55 * film(v);
        const s = encode(Math.min(1, Math.max(0, toned)));
        return Math.max(0, Math.min(255, s * 255 + noise * grain * (1.2 - 0.6 * s) + 0.5));
      };
      out[i * 4] = level(r);
      out[i * 4 + 1] = level(g);
      out[i * 4 + 2] = level(b);
      out[i * 4 + 3] = 255;
    }
  }
  return out;
}
