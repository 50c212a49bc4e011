/**
 * The protocol between an editor (the host) and a panel of the kit, over one MessagePort.
 *
 * Each side first sends `hello` with the versions it speaks, its name and its limits; the highest version that both speak
 * counts. Then the panel asks (`picture`) and hands over (`layers`, `readings`, `swatches`), and each of these is answered; `progress`
 * and the host's `changed` are told without an answer. `cancel` gives a request up, `ping` and `pong` tell that a side lives, `close`
 * ends the connection. A message is a plain object with a `kind`; a request also has an `id`, which its `answer` repeats.
 *
 * Lengths and places are in the host's own units (its picture's pixels as a rule), y down. What does not have the form that is
 * written here is answered with an error (`Malformed`, `TooLarge`), or not at all where it is no request.
 */

/** The versions of the protocol that this copy of the kit speaks. */
export const VERSIONS: readonly number[] = [1];

/** What one side takes in one message. */
export interface Limits {
  /** Pixels of a picture or of a layer. */
  pixels: number;
  /** Bytes of a message's pictures, PNG files and SVG texts together; for a Blob those of the file. */
  bytes: number;
}

/** What a side takes where it says nothing else: as many pixels as the kit opens, and 256 MiB. */
export const LIMITS: Limits = { pixels: 50_000_000, bytes: 2 ** 28 };

/** An upright rectangle in the host's units. */
export interface Rect {
  x: number;
  y: number;
  /** Above 0. */
  width: number;
  /** Above 0. */
  height: number;
}

/** A size on paper. */
export interface PhysicalSize {
  widthMm: number;
  heightMm: number;
}

/** What is selected in the host. */
export interface Selection {
  bounds: Rect;
  /** Its outline where it is no rectangle: closed rings of x, y, x, y, …, even-odd; at most 20 000 numbers. */
  rings?: number[][];
}

/** Straight-alpha sRGB pixels, RGBA, 8 bits each, row by row. */
export interface PixelBuffer {
  width: number;
  height: number;
  /** `4 * width * height` bytes. */
  data: ArrayBuffer;
}

/** What the panel asks for: all of the picture, or the selection alone where there is one. */
export interface PictureAsked {
  part: 'all' | 'selection';
}

/** The host's picture. Pixels and bitmaps are handed over: the sender no longer has them. A Blob is a picture file. */
export interface OfferedPicture {
  image: ImageBitmap | PixelBuffer | Blob;
  /** The part of the host's picture that the image shows; it may have fewer or more pixels than that part has units. */
  area: Rect;
  /** What is selected now, whichever part was asked for. */
  selection?: Selection;
  /** How the host calls it. */
  name?: string;
  /** The host's own mark for this state of the picture; layers made from it bring it back. */
  revision?: string;
  /** How large `area` is on paper, where the host knows. */
  size?: PhysicalSize;
}

/** What a layer shows: flat bands, shapes that the brush can state, their outlines, lights that are kept, strokes. */
export type LayerKind = 'bands' | 'masses' | 'outlines' | 'reserves' | 'strokes';

export const LAYER_KINDS: readonly LayerKind[] = [
  'bands',
  'masses',
  'outlines',
  'reserves',
  'strokes',
];

/** A layer for the host's picture. */
export interface Layer {
  kind: LayerKind;
  /** For people. */
  name: string;
  form: 'png' | 'svg';
  /** The bytes of the PNG file, handed over; or the text of the SVG, of shapes and plain groups only. */
  data: ArrayBuffer | string;
  /** The rectangle of the host's picture that the layer covers, edge to edge. */
  place: Rect;
  /** How large it is to be painted. */
  size?: PhysicalSize;
  /** The host's mark for the picture that it was made from. */
  revision?: string;
}

/** A spot that was read. */
export interface SpotReading {
  /** The middle of the spot and its diameter, in the host's units. */
  at: [x: number, y: number];
  diameter: number;
  /** L*, 0..100. */
  lightness: number;
  /** Munsell value, 0..10. */
  value: number;
  /** The name of the band it lies in. */
  band: string;
  /** CIELAB, D65, 2 degree observer. */
  lab: [L: number, a: number, b: number];
  /** The colour as `#rrggbb`. */
  css: string;
  /** Which hue it leans to, in words. */
  lean?: string;
}

/** One band of the board, the darkest first. */
export interface SwatchBand {
  name: string;
  /** L* from which and up to which it is meant to reach. */
  floor: number;
  ceiling: number;
}

/** One colour of the board. */
export interface SwatchColour {
  name: string;
  /** Its place in `bands`. */
  band: number;
  /** L*, 0..100. */
  lightness: number;
  /** The colour as `#rrggbb`. */
  css: string;
  /** Not yet dry: it will dry lighter. */
  wet?: boolean;
  /** Out of its band's value on purpose. */
  accent?: boolean;
}

/** The board: bands and the colours chosen for them. */
export interface Swatches {
  bands: SwatchBand[];
  swatches: SwatchColour[];
  /** The same as the text of a file of design tokens (Design Tokens Community Group, 2025.10), for hosts that read such files. */
  tokens?: string;
}

/** How far the panel has come with what it works on. */
export interface PanelProgress {
  /** What is worked on, in words. */
  stage: string;
  /** 0..1; 1 when it is done or given up. */
  done: number;
}

/** What a host can take beside giving its picture. */
export type Taking = 'layers' | 'readings' | 'swatches';

export const TAKINGS: readonly Taking[] = ['layers', 'readings', 'swatches'];

/** The other side, as it has introduced itself. */
export interface Peer {
  /** The version that both sides speak. */
  version: number;
  name: string;
  limits: Limits;
  /** What a host takes; empty for a panel. */
  takes: readonly Taking[];
}

/**
 * Why something was not done; `name` is stable:
 *
 * - `Malformed`: a message or an argument is not of the form that this file writes down
 * - `TooLarge`: more pixels or bytes than the other side takes
 * - `Unknown`: a kind of request that the other side does not know
 * - `NotOffered`: the host takes no layers, readings or swatches
 * - `NoPicture`, `PictureForbidden`: the host has no picture, or pixels it may not read (from another origin)
 * - `Busy`: too many requests at once
 * - `Failed`: the other side tried and could not
 * - `VersionUnknown`: no version that both sides speak
 * - `Silent`: no answer to the greeting, or nothing heard for a while
 * - `Closed`: the other side has ended the connection
 * - `TimeoutError`, `AbortError`: this request took too long, or was given up
 */
export class BridgeError extends Error {
  constructor(name: string, message: string) {
    super(message);
    this.name = name;
  }
}
