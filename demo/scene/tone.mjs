/**
 * From light to picture: shadows and soft light are smoothed along surfaces, then lens, film and sRGB
 * (IEC 61966-2-1).
 */
import { hash3, mix, smoothstep } from './sdf.mjs';

/** Floats per pixel in the light buffer: where each part begins. */
export const PLANES = {
  open: 0,
  shut: 3,
  mirror: 6,
  soft: 9,
  paint: 12,
  normal: 15,
  depth: 18,
  reached: 19,
  whole: 20,
  count: 21,
};

/**
 * Smooths some planes by an a-trous filter that does not cross edges of depth or of form.
 * @param {Float32Array} light width * height * PLANES.count
 * @param {number} first the first plane
 * @param {number} channels how many planes from there, 1 to 3
 * @param {number} passes each reaches twice as far as the one before
 * @returns {Float32Array} width * height * channels
 */
export function smoothPlanes(light, width, height, first, channels, passes) {
  const K = PLANES.count;
  const size = width * height;
  let from = new Float32Array(size * channels);
  let to = new Float32Array(size * channels);
  for (let i = 0; i < size; i++) {
    for (let c = 0; c < channels; c++) from[i * channels + c] = light[i * K + first + c];
  }
  const weights = [0.4, 0.25, 0.08];
  const sums = new Float64Array(channels);
  for (let pass = 0; pass < passes; pass++) {
    const step = 1 << pass;
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const i = y * width + x;
        const g = i * K + PLANES.normal;
        const depth = light[i * K + PLANES.depth];
        sums.fill(0);
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
            const off = Math.abs(light[j * K + PLANES.depth] - depth) / (0.01 + 0.012 * step);
            if (off > 2) continue;
            const near = weights[Math.abs(dx)] * weights[Math.abs(dy)];
            const w = (near * like ** 12) / (1 + off * off);
            for (let c = 0; c < channels; c++) sums[c] += from[j * channels + c] * w;
            sum += w;
          }
        }
        for (let c = 0; c < channels; c++) {
          to[i * channels + c] = sum > 1e-6 ? sums[c] / sum : from[i * channels + c];
        }
      }
    }
    [from, to] = [to, from];
  }
  return from;
}

/**
 * Puts the parts together: window light times the share of it that gets past the shadows, soft
 * light times paint, reflections. Smoothing the share, not the light, keeps the form crisp. Where a
 * pixel sees two surfaces (its mean normal is short) the light is taken as it was sampled.
 */
export function compose(light, soft, reach, size) {
  const K = PLANES.count;
  const out = new Float32Array(size * 3);
  for (let i = 0; i < size; i++) {
    const p = i * K;
    const n = p + PLANES.normal;
    const plain = smoothstep(0.93, 0.975, Math.hypot(light[n], light[n + 1], light[n + 2]));
    const share = reach[i * 2 + 1] > 1e-7 ? reach[i * 2] / reach[i * 2 + 1] : 0;
    for (let c = 0; c < 3; c++) {
      out[i * 3 + c] =
        mix(light[p + PLANES.shut + c], light[p + PLANES.open + c] * share, plain) +
        light[p + PLANES.mirror + c] +
        soft[i * 3 + c] * light[p + PLANES.paint + c];
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
