/** Every finding of the photo report has a sentence, and every sentence is filled. */
import { describe, expect, it } from 'vitest';
import { leanOf, lightnessPlane, photoReport, type Pixels } from '../../core/index.js';
import { sentence } from '../../components/shared/strings.js';
import { toolsWords } from '../../components/shared/words/tools.js';

type Rgb = [number, number, number];

function picture(colourAt: (x: number, y: number) => Rgb, width = 64, height = 64): Pixels {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) data.set([...colourAt(x, y), 255], 4 * (y * width + x));
  }
  return { width, height, data };
}

const grey = (v: number): Rgb => [v, v, v];
/** Even stripes; blurred ones rise and fall over eight pixels. */
const stripes =
  (low: number, high: number, soft: boolean) =>
  (x: number): Rgb => {
    const phase = (x % 32) / 32;
    const part = soft
      ? Math.min(1, Math.max(0, 0.5 + 2 * Math.sin(2 * Math.PI * phase)))
      : Number(phase < 0.5);
    return grey(Math.round(low + (high - low) * part));
  };

const pictures: Record<string, [Pixels, number]> = {
  'clipped both ways, sharp': [picture(stripes(0, 255, false)), 20],
  'whole range, soft': [picture(stripes(20, 240, true)), 20],
  flat: [picture(() => grey(128)), 20],
  'a warm light, a coarse brush': [picture((x) => (x % 2 ? [220, 170, 110] : [110, 85, 55])), 1],
  'a subject of one hue on grey': [picture((x) => (x < 40 ? [30, 90, 40] : grey(235))), 20],
};

/** All codes that the report's documentation names. */
const CODES = [
  'darks-clipped',
  'darks-kept',
  'lights-clipped',
  'lights-kept',
  'range-narrow',
  'range-full',
  'cast',
  'cast-none',
  'cast-unsure',
  'soft',
  'sharp',
  'sharpness-unsure',
  'brush-coarse',
  'brush-fine',
].map((code) => `photo.${code}`);

describe('words of the report', () => {
  it('stand for every code', () => {
    for (const code of CODES) expect(toolsWords[code], code).toMatch(/^[A-Z].*\.$/);
  });

  it('stand for every lean', () => {
    for (let hue = 0; hue < 360; hue += 5) {
      const { name } = leanOf([
        50,
        30 * Math.cos((hue * Math.PI) / 180),
        30 * Math.sin((hue * Math.PI) / 180),
      ]);
      expect(toolsWords[`photo.lean.${name}`], name).toBe(name);
    }
    expect(toolsWords[`photo.lean.${leanOf([50, 0, 0]).name}`]).toBe('neutral');
  });

  it('use no figure that the report does not give', () => {
    const seen = new Set<string>();
    for (const [name, [pixels, brushPx]] of Object.entries(pictures)) {
      for (const { code, values } of photoReport(pixels, lightnessPlane(pixels), { brushPx })
        .tellings) {
        seen.add(code);
        expect(CODES, name).toContain(code);
        const used = [...toolsWords[code].matchAll(/\{(\w+)/g)].map(([, key]) => key);
        for (const key of used) expect(values, `${name}: ${code}`).toHaveProperty(key);
        expect(sentence(code, values, 'en', toolsWords)).not.toMatch(/[{}]|NaN|undefined/);
      }
    }
    // The made pictures reach most of the codes; the rest is covered by the check above.
    expect(seen.size).toBeGreaterThanOrEqual(10);
  });
});
