import { cssOfLab } from '../shared/core.js';
import type { CardGrey } from './greys.js';

/** Their lightness L*: a quarter, a half and three quarters of the way to white. Our own choice. */
const CARD_LIGHTNESS = { light: 75, middle: 50, dark: 25 } as const;

/** The lightness of a card; of `same` that of the reading, or middle while there is none. */
export function cardLightness(card: CardGrey, read?: number): number {
  return card === 'same' ? (read ?? CARD_LIGHTNESS.middle) : CARD_LIGHTNESS[card];
}

/** A neutral grey as CSS. */
export function greyOf(lightness: number): string {
  return cssOfLab([lightness, 0, 0]).css;
}

/** A canvas as sharp as the screen (up to twofold), ready to draw in CSS pixels; nothing when it has no size. */
export function drawingOn(
  canvas: HTMLCanvasElement,
  width: number,
  height: number,
): CanvasRenderingContext2D | null {
  const scale = Math.min(2, globalThis.devicePixelRatio || 1);
  const w = Math.round(width * scale);
  const h = Math.round(height * scale);
  if (w < 1 || h < 1) return null;
  if (canvas.width !== w || canvas.height !== h) {
    canvas.width = w;
    canvas.height = h;
  }
  const context = canvas.getContext('2d');
  context?.setTransform(scale, 0, 0, scale, 0, 0);
  context?.clearRect(0, 0, width, height);
  return context;
}

/** Draws the photo over the whole stage. */
export function drawPhoto(
  canvas: HTMLCanvasElement,
  bitmap: ImageBitmap,
  width: number,
  height: number,
): void {
  const context = drawingOn(canvas, width, height);
  if (!context || bitmap.width === 0) return;
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
}

/** Draws a square card with its hole and, in a corner, the hole's size as printed on it. Nothing lies between spot and grey. */
export function drawCard(
  canvas: HTMLCanvasElement,
  side: number,
  hole: number,
  lightness: number,
  print: string,
): void {
  const context = drawingOn(canvas, side, side);
  if (!context) return;
  context.fillStyle = greyOf(lightness);
  context.fillRect(0, 0, side, side);
  context.strokeStyle = greyOf(lightness > 50 ? lightness - 22 : lightness + 22);
  context.lineWidth = 1;
  context.strokeRect(0.5, 0.5, side - 1, side - 1);
  context.fillStyle = greyOf(lightness > 45 ? 8 : 92);
  context.font = '11px system-ui, sans-serif';
  context.textBaseline = 'bottom';
  if (hole < side * 0.6) context.fillText(print, 7, side - 5);
  context.globalCompositeOperation = 'destination-out';
  context.beginPath();
  context.arc(side / 2, side / 2, hole / 2, 0, 2 * Math.PI);
  context.fill();
  context.globalCompositeOperation = 'source-over';
}

/** Draws the rim of the hole alone: the card is turned away. */
export function drawRim(canvas: HTMLCanvasElement, side: number, hole: number): void {
  const context = drawingOn(canvas, side, side);
  if (!context) return;
  const radius = Math.max(3, hole / 2) + 1.5;
  for (const [width, grey] of [
    [4, greyOf(10)],
    [2, greyOf(96)],
  ] as const) {
    context.lineWidth = width;
    context.strokeStyle = grey;
    context.beginPath();
    context.arc(side / 2, side / 2, radius, 0, 2 * Math.PI);
    context.stroke();
  }
}

/** Where the hole lies on a bitmap, as fractions of its width and height, and its diameter as a fraction of its width. */
export interface HoleOnBitmap {
  x: number;
  y: number;
  diameter: number;
}

/** Draws what is seen through the hole, enlarged, on the card's grey. */
export function drawSpot(
  canvas: HTMLCanvasElement,
  side: number,
  bitmap: ImageBitmap,
  hole: HoleOnBitmap,
  lightness: number,
): void {
  const context = drawingOn(canvas, side, side);
  if (!context || bitmap.width === 0) return;
  context.fillStyle = greyOf(lightness);
  context.fillRect(0, 0, side, side);
  const size = side * 0.56;
  const scale = size / Math.max(1, hole.diameter * bitmap.width);
  const seen = size / scale;
  context.save();
  context.beginPath();
  context.arc(side / 2, side / 2, size / 2, 0, 2 * Math.PI);
  context.clip();
  context.imageSmoothingEnabled = scale < 4;
  const from = (side - size) / 2;
  context.drawImage(
    bitmap,
    hole.x * bitmap.width - seen / 2,
    hole.y * bitmap.height - seen / 2,
    seen,
    seen,
    from,
    from,
    size,
    size,
  );
  context.restore();
}
