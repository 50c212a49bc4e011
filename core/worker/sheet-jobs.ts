import type { Corners, Loop, Spot } from '../base/types.js';
import { jpegTables, type JpegTables } from '../picture/index.js';
import {
  readSwatch,
  sheetKernel,
  type SheetLight,
  type SheetReading,
  type SheetSwatch,
} from '../swatch/index.js';
import { sliced } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** A dab with its place on the upright photo. */
export interface PlacedSwatch extends SheetSwatch {
  /** `quad` in fractions of the photo's width and height. */
  at: Corners;
}

/** A reading with places in fractions of the photo beside those in its pixels, and the light for reading more. */
export interface PlacedSheet extends SheetReading {
  /** `corners` in fractions of the photo's width and height. */
  at: Corners;
  swatches: PlacedSwatch[];
  /** Absent when there was too little bare paper. */
  light?: SheetLight;
}

/** Jobs about test sheets. */
export interface SheetJobs {
  /** Reads a photographed test sheet. `corners` are fractions of the upright photo; found when absent. */
  sheet: {
    in: { picture: string; corners?: Corners; paperLightness?: number };
    out: PlacedSheet;
  };
  /**
   * Reads what lies inside one or several loops as one dab, by the light of the same sheet; loops are fractions of the upright photo. Of a
   * dab that was moved, drawn, joined (all its loops) or split (one call for each part).
   */
  sheetDab: {
    in: { picture: string; light: SheetLight; loops: Loop[]; paperLightness?: number };
    out: PlacedSwatch;
  };
}

const scaled = <Points extends Spot[]>(points: Points, x: number, y: number): Points =>
  points.map(([px, py]) => [px * x, py * y]) as Points;

/** A swatch read on a copy, in pixels and fractions of the photo. */
function placed(
  swatch: SheetSwatch,
  copy: { width: number; height: number },
  photo: { width: number; height: number },
): PlacedSwatch {
  const at = scaled(swatch.quad, 1 / copy.width, 1 / copy.height);
  return { ...swatch, at, quad: scaled(at, photo.width, photo.height) };
}

/** A file's tables stand before its frame: in its first so many bytes, unless a large thumbnail goes before. */
const HEAD = 1 << 17;

/** How coarsely the file of a photo keeps tones; undefined when it is no JPEG file. */
async function jpegOf(blob: Blob | undefined): Promise<JpegTables | undefined> {
  return blob && jpegTables(new Uint8Array(await blob.slice(0, HEAD).arrayBuffer()));
}

export function sheetHandlers(workshop: Workshop): Handlers<SheetJobs> {
  return {
    sheet: async ({ picture, corners, paperLightness }, watch) => {
      const photo = workshop.picture(picture);
      const { pixels } = await workshop.working({ picture }, watch);
      const { width, height } = pixels;
      const { reading, light } = await sliced(
        sheetKernel(pixels, {
          paperLightness,
          corners: corners && scaled(corners, width, height),
          jpeg: await jpegOf(photo.blob),
        }),
        watch,
        'sheet',
      );
      const at = scaled(reading.corners, 1 / width, 1 / height);
      return {
        ...reading,
        at,
        corners: scaled(at, photo.width, photo.height),
        swatches: reading.swatches.map((swatch) => placed(swatch, pixels, photo)),
        light,
      };
    },

    sheetDab: async ({ picture, light, loops, paperLightness }, watch) => {
      const photo = workshop.picture(picture);
      const { pixels } = await workshop.working({ picture }, watch);
      const { width, height } = pixels;
      const swatch = readSwatch(
        pixels,
        light,
        loops.map((loop) => scaled(loop, width, height)),
        { paperLightness, jpeg: await jpegOf(photo.blob) },
      );
      return placed(swatch, pixels, photo);
    },
  };
}
