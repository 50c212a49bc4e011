/** An upright picture: straight-alpha RGBA, 8 bit, row-major, sRGB. An ImageData fits. */
export interface Pixels {
  width: number;
  height: number;
  data: Uint8ClampedArray | Uint8Array;
  /** `'srgb'` when given; anything else is refused. */
  colorSpace?: string;
}

/** A plane of lightness codes, row-major: code = floor(2.55 L* + 0.5), 0..255. */
export interface Lightness {
  width: number;
  height: number;
  data: Uint8Array;
}

/** A plane of band numbers, row-major: 0 is the darkest of `bands`. */
export interface BandMap {
  width: number;
  height: number;
  bands: number;
  data: Uint8Array;
}

/** CIELAB, D65, 2 degree observer. (CSS `lab()` is D50: convert.) */
export type Lab = [L: number, a: number, b: number];

/** A part of the upright photo, as fractions of its width and height (0..1). */
export interface Crop {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A point on the upright photo, as fractions of its width and height (0..1). */
export type Spot = [x: number, y: number];

/** A closed loop drawn on the upright photo, in fractions of its width and height; the last point joins the first. */
export type Loop = Spot[];

/** A round place whose lightness the painter does not trust, with the painter's own value for it. */
export interface DistrustedSpot {
  id: string;
  /** The middle, in fractions of the upright photo. */
  at: Spot;
  /** The radius as a fraction of the upright photo's longer side. */
  radius: number;
  /** The painter's own lightness L* (0..100) for the middle of the spot. */
  lightness: number;
  note: string;
}

/** Four corners of a sheet in picture pixels: top left, top right, bottom right, bottom left as the sheet is read. */
export type Corners = [tl: Spot, tr: Spot, br: Spot, bl: Spot];

/** A change the painter made to what was proposed. Its `kind` says which; kinds that are not known are kept as they are. */
export interface Overrule {
  kind: string;
  [field: string]: unknown;
}

/** A step of the order of work. Fields that are not known are kept as they are. */
export interface Step {
  id: string;
  /** The masses that it lays, ids of the regions it was made for. */
  regions?: number[];
  [field: string]: unknown;
}
