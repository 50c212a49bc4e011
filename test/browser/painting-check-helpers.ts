/** A plan with four flat shapes and photographs of its painting whose corners, tones and areas are known from how they are drawn. */
import { PaintingCheck } from '../../components/painting-check/painting-check.js';
import type { Corners, Spot } from '../../core/index.js';
import { frames, place, until } from './access-helpers.js';

PaintingCheck.define();

/** L* of the shapes: ground, dark, light, what stays paper. */
export interface Tones {
  ground: number;
  dark: number;
  light: number;
  paper: number;
}

export const PLANNED: Tones = { ground: 60, dark: 30, light: 85, paper: 98 };
export const PAPER = { widthMm: 300, heightMm: 225, lightness: 95 };

/** x, y, width, height in fractions of the picture. */
export const SHAPES: Record<'dark' | 'light' | 'paper', [number, number, number, number]> = {
  dark: [0.1, 0.15, 0.25, 0.5],
  light: [0.45, 0.1, 0.4, 0.3],
  paper: [0.5, 0.55, 0.3, 0.3],
};

/** The sRGB grey of an L* (CIE 15 for Y, IEC 61966-2-1 for the byte). */
export function grey(lightness: number): string {
  const y = lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / (24389 / 27);
  const byte = Math.round(255 * (y <= 0.0031308 ? 12.92 * y : 1.055 * y ** (1 / 2.4) - 0.055));
  return `rgb(${byte}, ${byte}, ${byte})`;
}

function draw(context: OffscreenCanvasRenderingContext2D, tones: Tones, w: number, h: number) {
  context.fillStyle = grey(tones.ground);
  context.fillRect(0, 0, w, h);
  for (const name of ['dark', 'light', 'paper'] as const) {
    const [x, y, width, height] = SHAPES[name];
    context.fillStyle = grey(tones[name]);
    context.fillRect(x * w, y * h, width * w, height * h);
  }
}

/** The photo that the plan is made from. */
export function planPhoto(): Promise<Blob> {
  const canvas = new OffscreenCanvas(480, 360);
  draw(canvas.getContext('2d')!, PLANNED, 480, 360);
  return canvas.convertToBlob({ type: 'image/png' });
}

const [WIDTH, HEIGHT] = [1000, 800];
const [ANGLE, LEFT, TOP] = [0.03, 120, 90];
const MARGIN = 50;
const [ACROSS, DOWN] = [680, 510];

const onPhoto = (x: number, y: number): Spot => [
  (LEFT + x * Math.cos(ANGLE) - y * Math.sin(ANGLE)) / WIDTH,
  (TOP + x * Math.sin(ANGLE) + y * Math.cos(ANGLE)) / HEIGHT,
];

/** Where the painted part lies in {@link shot}. */
export const CORNERS: Corners = [
  onPhoto(MARGIN, MARGIN),
  onPhoto(MARGIN + ACROSS, MARGIN),
  onPhoto(MARGIN + ACROSS, MARGIN + DOWN),
  onPhoto(MARGIN, MARGIN + DOWN),
];

/** What befalls the photo; the canvas is as large as it, its origin in the upper left corner of the painted part. */
export type Befall = (context: OffscreenCanvasRenderingContext2D) => void;

/** The size of the painted part in the photo, and of the rim about it, pixels. */
export const PAINTED = { width: ACROSS, height: DOWN, rim: MARGIN };

/** A photograph of the painting on a dark table, a little turned. */
export function shot(
  tones: Partial<Tones> = {},
  mirrored = false,
  befall: Befall = () => undefined,
): Promise<Blob> {
  const canvas = new OffscreenCanvas(WIDTH, HEIGHT);
  const context = canvas.getContext('2d')!;
  context.fillStyle = grey(25);
  context.fillRect(0, 0, WIDTH, HEIGHT);
  context.translate(LEFT, TOP);
  context.rotate(ANGLE);
  context.fillStyle = grey(95);
  context.fillRect(0, 0, ACROSS + 2 * MARGIN, DOWN + 2 * MARGIN);
  context.translate(MARGIN, MARGIN);
  if (mirrored) {
    context.translate(ACROSS, 0);
    context.scale(-1, 1);
  }
  draw(context, { ...PLANNED, paper: 95, ...tones }, ACROSS, DOWN);
  befall(context);
  return canvas.convertToBlob({ type: 'image/png' });
}

/** Something that is no painting of this plan: stripes. */
export function another(): Promise<Blob> {
  const canvas = new OffscreenCanvas(WIDTH, HEIGHT);
  const context = canvas.getContext('2d')!;
  for (let x = 0; x < WIDTH; x += 100) {
    context.fillStyle = grey(x % 200 === 0 ? 20 : 90);
    context.fillRect(x, 0, 100, HEIGHT);
  }
  return canvas.convertToBlob({ type: 'image/png' });
}

export async function settled(element: PaintingCheck): Promise<void> {
  do await element.updateComplete;
  while (element.isUpdatePending);
  await frames();
}

export async function bare(attributes = ''): Promise<PaintingCheck> {
  const element = place(`<painting-check ${attributes}></painting-check>`).querySelector(
    'painting-check',
  )!;
  await settled(element);
  return element;
}

/** An element whose plan has its photo, bands as painted, and a shelf. */
export async function withPlan(attributes = ''): Promise<PaintingCheck> {
  const element = await bare(attributes);
  const { store } = element;
  await store.open(await planPhoto(), { name: 'shapes.png' });
  store.change('setup', (plan) => ({
    ...plan,
    title: 'Shapes',
    paper: { ...PAPER },
    photoLimits: [45, 72],
    paintLimits: [45, 72],
    paperLimit: 93,
    brushes: [{ name: 'round 10', tipMm: 2, pressedMm: 12 }],
    shelf: [{ tube: 'ultramarine' }, { tube: 'burnt-sienna' }],
    board: {
      ...plan.board,
      swatches: [PLANNED.dark, PLANNED.ground, PLANNED.light].map((lightness, bucket) => ({
        id: `s-${bucket}`,
        bucket,
        lightness,
        recipe: {
          parts: [
            { tube: 'ultramarine', parts: 3 },
            { tube: 'burnt-sienna', parts: 2 },
          ],
          strength: [0.8, 0.2, 0.05][bucket],
        },
      })),
    },
  }));
  await settled(element);
  return element;
}

/** The same with a photo of the painting, its corners set. */
export async function withPainting(
  painting: Blob,
  corners: Corners | null = CORNERS,
  attributes = '',
): Promise<PaintingCheck> {
  const element = await withPlan(attributes);
  element.corners = corners;
  element.picture = painting;
  await until(
    () => element.shadowRoot!.querySelector('[data-step] option'),
    'the photo of the painting',
  );
  await settled(element);
  return element;
}

/** The same, checked. */
export async function checked(
  painting: Blob,
  corners?: Corners,
  attributes?: string,
): Promise<PaintingCheck> {
  const element = await withPainting(painting, corners, attributes);
  await element.check();
  await settled(element);
  return element;
}

/**
 * Out of focus by some 4 pixels (standard deviation). Three means in a row are nearly a Gaussian; WebKit's canvases have no `filter`.
 */
export async function blurred(photo: Blob): Promise<Blob> {
  const bitmap = await createImageBitmap(photo);
  const { width, height } = bitmap;
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.drawImage(bitmap, 0, 0);
  const picture = context.getImageData(0, 0, width, height);
  for (const radius of [4, 4, 3]) {
    smear(picture.data, width, height, 4, 4 * width, radius);
    smear(picture.data, height, width, 4 * width, 4, radius);
  }
  context.putImageData(picture, 0, 0);
  return canvas.convertToBlob({ type: 'image/png' });
}

/** Means along lines of `length` pixels, `step` bytes apart; the lines are `next` bytes apart. */
function smear(
  data: Uint8ClampedArray,
  length: number,
  lines: number,
  step: number,
  next: number,
  radius: number,
): void {
  const line = new Float64Array(length);
  for (let start = 0; start < lines * next; start += next)
    for (let channel = start; channel < start + 3; channel++) {
      for (let i = 0; i < length; i++) line[i] = data[channel + i * step];
      const at = (i: number): number => line[Math.min(length - 1, Math.max(0, i))];
      let sum = 0;
      for (let i = -radius; i <= radius; i++) sum += at(i);
      for (let i = 0; i < length; i++) {
        data[channel + i * step] = sum / (2 * radius + 1);
        sum += at(i + radius + 1) - at(i - radius);
      }
    }
}
