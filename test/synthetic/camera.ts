/**
 * A camera for tests: takes a flat scene (a painted sheet, a painting) given in linear light and photographs it with the faults of a
 * phone held over a table. Everything is worked in linear light until the last step. It shares no code with the package, so that it can
 * stand as outside truth; the same seed gives the same bytes on every machine.
 *
 * Sources: sRGB transfer, IEC 61966-2-1. Four points to four points, Heckbert 1989, "Fundamentals of texture mapping and image
 * warping", section 2.2.3. Photon noise is Poisson, read noise Gaussian (Janesick 2007, "Photon transfer"). Random numbers: mulberry32,
 * Box-Muller. JPEG by jpeg-js. Vignette: 1 - v r^2, r = 1 in the picture's corners (first term of the cos^4 law).
 */
import jpeg from 'jpeg-js';

export type Point = [x: number, y: number];
export type Quad = [tl: Point, tr: Point, br: Point, bl: Point];
export type Rgb = [r: number, g: number, b: number];

/** A flat scene: reflectance as linear sRGB, three numbers a pixel (white 1; below 0 is a colour outside sRGB). */
export interface Scene {
  width: number;
  height: number;
  light: Float32Array;
}

/** 8-bit sRGB, opaque. */
export interface Photograph {
  width: number;
  height: number;
  data: Uint8ClampedArray;
}

/** A soft-edged round patch of the photograph; middle and radius in fractions of its width (both axes: of its own side). */
export interface Patch {
  at: Point;
  /** Fractions of the photograph's width, across and down. */
  radius: Point;
  /** 0: a hard edge; 1: fades from the middle on. */
  softness: number;
}

export interface CameraOptions {
  seed: number;
  width: number;
  height: number;
  /** Where the scene's corners fall in the photograph, pixels; the whole photograph when absent. */
  corners?: Quad;
  /** What lies about the scene: linear sRGB; black when absent. */
  table?: Rgb;
  /** Streaks of the table (wood grain), as a share of its light. */
  grain?: number;
  /** Multiplies all light; 1 keeps white at 255. */
  exposure?: number;
  /** Channel gains of the light, linear. */
  cast?: Rgb;
  /** Light falls off across the photograph: lost at the right and lower edge, as shares. */
  falloff?: Point;
  /** Share of light lost in the corners. */
  vignette?: number;
  /** Cast shadows: `depth` is the share of light lost in the middle. */
  shadows?: (Patch & { depth: number })[];
  /** Reflections: `light` is added, linear, in the colour of the light. */
  glares?: (Patch & { light: number })[];
  /** Standard deviation of a Gaussian blur, pixels. */
  blurPx?: number;
  /** Electrons at full white and read noise in electrons. */
  noise?: { electrons: number; read: number };
  /** JPEG quality 1..100; no JPEG when absent. */
  jpeg?: number;
}

/** Uniform numbers 0..1 from a seed (mulberry32). */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Standard normal numbers (Box-Muller). */
export function normalOf(random: () => number): () => number {
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    const angle = 2 * Math.PI * random();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
}

/** IEC 61966-2-1. */
export const encoded = (light: number): number =>
  light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;

/** A scene of one colour. */
export function blankScene(width: number, height: number, [r, g, b]: Rgb): Scene {
  const light = new Float32Array(3 * width * height);
  for (let k = 0; k < light.length; k += 3) light.set([r, g, b], k);
  return { width, height, light };
}

/** The 8-bit picture of a scene as it is. */
export function pixelsOfScene({ width, height, light }: Scene): Photograph {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let i = 0; i < width * height; i++) {
    for (let c = 0; c < 3; c++) data[4 * i + c] = byteOf(light[3 * i + c]);
    data[4 * i + 3] = 255;
  }
  return { width, height, data };
}

const byteOf = (light: number): number =>
  light <= 0 ? 0 : light >= 1 ? 255 : Math.floor(255 * encoded(light) + 0.5);

/** The nine coefficients that carry the unit square to a quad: Heckbert 1989. */
export function unitToQuad(quad: Quad): number[] {
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = quad;
  const dx1 = x1 - x2;
  const dx2 = x3 - x2;
  const sx = x0 - x1 + x2 - x3;
  const dy1 = y1 - y2;
  const dy2 = y3 - y2;
  const sy = y0 - y1 + y2 - y3;
  const det = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / det;
  const h = (dx1 * sy - sx * dy1) / det;
  return [x1 - x0 + g * x1, x3 - x0 + h * x3, x0, y1 - y0 + g * y1, y3 - y0 + h * y3, y0, g, h, 1];
}

/** A point of the unit square on the quad's plane. */
export function onQuad(quad: Quad, u: number, v: number): Point {
  const m = unitToQuad(quad);
  const w = m[6] * u + m[7] * v + 1;
  return [(m[0] * u + m[1] * v + m[2]) / w, (m[3] * u + m[4] * v + m[5]) / w];
}

const adjugate = ([a, b, c, d, e, f, g, h, i]: number[]): number[] => [
  e * i - f * h,
  c * h - b * i,
  b * f - c * e,
  f * g - d * i,
  a * i - c * g,
  c * d - a * f,
  d * h - e * g,
  b * g - a * h,
  a * e - b * d,
];

/** How much of a patch lies on a point, 0..1. */
function patchAt({ at, radius, softness }: Patch, x: number, y: number): number {
  const r = Math.hypot((x - at[0]) / radius[0], (y - at[1]) / radius[1]);
  if (r >= 1) return 0;
  const t = softness <= 0 ? 1 : Math.min(1, (1 - r) / softness);
  return t * t * (3 - 2 * t);
}

/** Photographs a scene. */
export function photograph(scene: Scene, options: CameraOptions): Photograph {
  const { width, height } = options;
  const light = projected(scene, options);
  for (let y = 0, k = 0; y < height; y++) {
    for (let x = 0; x < width; x++, k += 3) {
      const u = (x + 0.5) / width;
      const v = (y + 0.5) / height;
      let gain = options.exposure ?? 1;
      if (options.falloff) gain *= 1 - options.falloff[0] * u - options.falloff[1] * v;
      if (options.vignette) gain *= 1 - options.vignette * 2 * ((u - 0.5) ** 2 + (v - 0.5) ** 2);
      for (const shadow of options.shadows ?? []) gain *= 1 - shadow.depth * patchAt(shadow, u, v);
      let glare = 0;
      for (const patch of options.glares ?? []) glare += patch.light * patchAt(patch, u, v);
      for (let c = 0; c < 3; c++)
        light[k + c] = (options.cast?.[c] ?? 1) * (gain * light[k + c] + glare);
    }
  }
  if (options.blurPx) blur(light, width, height, options.blurPx);
  if (options.noise) addNoise(light, options.noise, options.seed);
  const shot = pixelsOfScene({ width, height, light });
  return options.jpeg === undefined ? shot : throughJpeg(shot, options.jpeg);
}

/** The scene as it falls on the sensor: each pixel is the mean of 2 x 2 bilinear samples (more where the scene is finer). */
function projected(scene: Scene, options: CameraOptions): Float32Array {
  const { width, height } = options;
  const quad: Quad = options.corners ?? [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const back = adjugate(unitToQuad(quad));
  const random = randomOf(options.seed ^ 0x51ab);
  const streaks = Float64Array.from({ length: height }, () => random() - 0.5);
  const table = options.table ?? [0, 0, 0];
  const finer =
    scene.width / Math.max(1, Math.hypot(quad[1][0] - quad[0][0], quad[1][1] - quad[0][1]));
  const n = Math.max(2, Math.min(6, Math.ceil(2 * finer)));
  const out = new Float32Array(3 * width * height);
  const sum = [0, 0, 0];
  for (let y = 0, k = 0; y < height; y++) {
    const grain = 1 + (options.grain ?? 0) * streaks[y];
    for (let x = 0; x < width; x++, k += 3) {
      sum.fill(0);
      for (let s = 0; s < n * n; s++) {
        const px = x + ((s % n) + 0.5) / n;
        const py = y + (Math.floor(s / n) + 0.5) / n;
        const w = back[6] * px + back[7] * py + back[8];
        const u = (back[0] * px + back[1] * py + back[2]) / w;
        const v = (back[3] * px + back[4] * py + back[5]) / w;
        if (u >= 0 && u <= 1 && v >= 0 && v <= 1) addSample(scene, u, v, sum);
        else for (let c = 0; c < 3; c++) sum[c] += table[c] * grain;
      }
      for (let c = 0; c < 3; c++) out[k + c] = sum[c] / (n * n);
    }
  }
  return out;
}

function addSample({ width, height, light }: Scene, u: number, v: number, sum: number[]): void {
  const x = Math.min(width - 1, Math.max(0, u * width - 0.5));
  const y = Math.min(height - 1, Math.max(0, v * height - 0.5));
  const x0 = Math.floor(x);
  const y0 = Math.floor(y);
  const x1 = Math.min(width - 1, x0 + 1);
  const y1 = Math.min(height - 1, y0 + 1);
  const fx = x - x0;
  const fy = y - y0;
  for (let c = 0; c < 3; c++) {
    const top = (1 - fx) * light[3 * (y0 * width + x0) + c] + fx * light[3 * (y0 * width + x1) + c];
    const low = (1 - fx) * light[3 * (y1 * width + x0) + c] + fx * light[3 * (y1 * width + x1) + c];
    sum[c] += (1 - fy) * top + fy * low;
  }
}

function blur(light: Float32Array, width: number, height: number, sigma: number): void {
  const reach = Math.ceil(3 * sigma);
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)),
  );
  const total = kernel.reduce((a, b) => a + b);
  const pass = (count: number, length: number, step: number, stride: number): void => {
    const line = new Float64Array(length);
    for (let i = 0; i < count; i++) {
      for (let c = 0; c < 3; c++) {
        const from = i * stride + c;
        for (let j = 0; j < length; j++) {
          let sum = 0;
          for (let t = -reach; t <= reach; t++) {
            const at = Math.min(length - 1, Math.max(0, j + t));
            sum += kernel[t + reach] * light[from + at * step];
          }
          line[j] = sum / total;
        }
        for (let j = 0; j < length; j++) light[from + j * step] = line[j];
      }
    }
  };
  pass(height, width, 3, 3 * width);
  pass(width, height, 3 * width, 3);
}

function addNoise(
  light: Float32Array,
  { electrons, read }: { electrons: number; read: number },
  seed: number,
): void {
  const random = randomOf(seed);
  const normal = normalOf(random);
  for (let k = 0; k < light.length; k++) {
    const mean = Math.max(0, light[k]) * electrons;
    // A Poisson number; above 60 electrons the normal distribution is as good.
    let count = 0;
    if (mean > 60) count = mean + Math.sqrt(mean) * normal();
    else for (let p = random(), least = Math.exp(-mean); p > least; p *= random()) count++;
    light[k] = (count + read * normal()) / electrons;
  }
}

/** Through a JPEG file and back. */
export function throughJpeg(shot: Photograph, quality: number): Photograph {
  const { width, height, data } = shot;
  const file = jpeg.encode({ width, height, data: new Uint8Array(data) }, quality).data;
  const back = jpeg.decode(file, { useTArray: true, maxMemoryUsageInMB: 2048 });
  return { width, height, data: new Uint8ClampedArray(back.data) };
}
