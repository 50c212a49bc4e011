/** Test sheets of known lightness as photographs, and how tests handle the reader. The drawing shares no code with the package. */
import type { SwatchSheetReader } from '../../components/swatch-sheet-reader/swatch-sheet-reader.js';
import { inside, place, until } from './access-helpers.js';

type Rgb = [r: number, g: number, b: number];
type Lab3 = [L: number, a: number, b: number];

/** Linear sRGB of CIELAB (CIE 15; D65 as x 0.3127, y 0.3290; matrix of IEC 61966-2-1). */
export function linearOf([L, a, b]: Lab3): Rgb {
  const fy = (L + 16) / 116;
  const cube = (f: number): number =>
    f ** 3 > 216 / 24389 ? f ** 3 : ((116 * f - 16) * 27) / 24389;
  const Y = cube(fy);
  const X = (0.3127 / 0.329) * cube(fy + a / 500);
  const Z = ((1 - 0.3127 - 0.329) / 0.329) * cube(fy - b / 200);
  return [
    3.2409699419 * X - 1.5373831776 * Y - 0.4986107603 * Z,
    -0.9692436363 * X + 1.8759675015 * Y + 0.0415550574 * Z,
    0.0556300797 * X - 0.2039769589 * Y + 1.0569715142 * Z,
  ];
}

/** sRGB transfer, IEC 61966-2-1. */
const encoded = (light: number): number =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

/** Width and height of the pictures, and the sheet on it: its middle, its sides, and how far it is turned. */
const SIZE = { width: 800, height: 600 };
const SHEET = { x: 400, y: 300, width: 680, height: 480, turn: 0.035 };

/** A place on the sheet (fractions of its sides) in fractions of the picture. */
export function onPicture(u: number, v: number): [number, number] {
  const [dx, dy] = [(u - 0.5) * SHEET.width, (v - 0.5) * SHEET.height];
  const [cos, sin] = [Math.cos(SHEET.turn), Math.sin(SHEET.turn)];
  return [
    (SHEET.x + cos * dx - sin * dy) / SIZE.width,
    (SHEET.y + sin * dx + cos * dy) / SIZE.height,
  ];
}

/** Where dab `row` of `column` lies on the sheet, of so many. */
export const spotOf = (
  column: number,
  row: number,
  columns: number,
  rows: number,
): [number, number] => [(column + 0.5) / columns, (row + 0.5) / rows];

const RADIUS = 38;

/**
 * A photograph of a sheet of L* 95 with round dabs, by columns: a warm light that falls off from left to right, on a dark table. `null`
 * leaves a place free.
 */
export function sheetPhoto(columns: (Lab3 | number | null)[][]): ImageData {
  const { width, height } = SIZE;
  const data = new Uint8ClampedArray(4 * width * height);
  const rows = Math.max(...columns.map((column) => column.length));
  const dabs = columns.flatMap((column, i) =>
    column.flatMap((lab, j) => {
      if (lab === null) return [];
      const [x, y] = onPicture(...spotOf(i, j, columns.length, rows));
      const light = linearOf(typeof lab === 'number' ? [lab, 0, 0] : lab);
      return [{ x: x * width, y: y * height, light }];
    }),
  );
  const paper = linearOf([95, 0, 0]);
  const [cos, sin] = [Math.cos(SHEET.turn), Math.sin(SHEET.turn)];
  let noise = 12345;
  for (let y = 0, k = 0; y < height; y++) {
    for (let x = 0; x < width; x++, k += 4) {
      const [dx, dy] = [x + 0.5 - SHEET.x, y + 0.5 - SHEET.y];
      const [u, v] = [(cos * dx + sin * dy) / SHEET.width, (-sin * dx + cos * dy) / SHEET.height];
      const on = Math.abs(u) < 0.5 && Math.abs(v) < 0.5;
      let light: Rgb = on ? paper : [0.03, 0.025, 0.02];
      if (on)
        for (const dab of dabs)
          if ((x + 0.5 - dab.x) ** 2 + (y + 0.5 - dab.y) ** 2 < RADIUS ** 2) light = dab.light;
      const gain = 0.85 * (1 - (0.25 * x) / width);
      noise = (Math.imul(noise, 1664525) + 1013904223) >>> 0;
      const grain = 1.2 * (noise / 2 ** 32 - 0.5);
      data[k] = encoded(gain * light[0]) + grain;
      data[k + 1] = encoded(gain * 0.94 * light[1]) + grain;
      data[k + 2] = encoded(gain * 0.82 * light[2]) + grain;
      data[k + 3] = 255;
    }
  }
  return new ImageData(data, width, height);
}

export async function settled(element: SwatchSheetReader): Promise<SwatchSheetReader> {
  do await element.updateComplete;
  while (element.isUpdatePending);
  return element;
}

export function reader(attributes = '', content = ''): SwatchSheetReader {
  return place(`<swatch-sheet-reader ${attributes}>${content}</swatch-sheet-reader>`).querySelector(
    'swatch-sheet-reader',
  )!;
}

/** Opens a photo and waits for its reading. */
export async function opened(
  element: SwatchSheetReader,
  photo: ImageData,
): Promise<SwatchSheetReader> {
  const before = element.sheet.picture.handle;
  const read = new Promise<void>((resolve) =>
    element.addEventListener('sheet-read', () => resolve(), { once: true }),
  );
  element.picture = photo;
  await until(() => element.sheet.picture.handle !== before, 'the photo');
  await read;
  return settled(element);
}

export const read = (
  columns: (Lab3 | number | null)[][],
  attributes = '',
): Promise<SwatchSheetReader> => opened(reader(attributes), sheetPhoto(columns));

/** Waits for the next event of a kind while something is done. */
export async function after(
  element: SwatchSheetReader,
  type: 'sheet-read' | 'sheet-change',
  act: () => void | Promise<void>,
): Promise<void> {
  let came = false;
  element.addEventListener(type, () => (came = true), { once: true });
  await act();
  await until(() => came, type);
  await settled(element);
}

export const choose = (element: Element, selector: string, value: string): void => {
  const field = inside<HTMLSelectElement>(element, selector);
  field.value = value;
  field.dispatchEvent(new Event('change', { bubbles: true }));
};

export const type = (element: Element, selector: string, value: string): void => {
  const field = inside<HTMLInputElement>(element, selector);
  field.value = value;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  field.dispatchEvent(new Event('change', { bubbles: true }));
};

export const text = (element: Element, selector: string): string =>
  inside(element, selector).textContent!.replace(/\s+/g, ' ').trim();

/** L* of the dabs, by columns. */
export const values = (element: SwatchSheetReader): number[][] => {
  const columns: number[][] = [];
  for (const { column, lab } of element.reading!.swatches) (columns[column] ??= []).push(lab[0]);
  return columns;
};

/** Picks the dab of a number. */
export async function pick(element: SwatchSheetReader, number: number): Promise<void> {
  element.shadowRoot!.querySelectorAll<HTMLElement>('.row')[number - 1].click();
  await settled(element);
}
