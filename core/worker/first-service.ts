import { loopMask } from '../geometry/index.js';
import {
  cropPixels,
  fitWithin,
  lightnessKernel,
  photoReportKernel,
  readingOf,
  reduceKernel,
  sniffPicture,
  trustedPlane,
  type RowSource,
} from '../picture/index.js';
import { breaksOff, endsWhole } from '../picture/broken-off.js';
import { helmholtzKohlrausch } from '../colour/index.js';
import {
  histogramOf,
  squintKernel,
  squintPixelsKernel,
  stepBackKernel,
  stepBackPixelsKernel,
} from '../value/index.js';
import { CoreError, reason, type Reason } from '../base/reason.js';
import { expectRaster, wrongType } from '../base/check.js';
import type { Crop, DistrustedSpot, Lightness, Pixels } from '../base/types.js';
import { ByteCache } from './cache.js';
import type {
  Display,
  FirstJobs,
  Jobs,
  LateJobs,
  PictureInfo,
  PictureInput,
  Settled,
  Tones,
  TonesInput,
} from './jobs.js';
import {
  BitmapRaster,
  bitmapOf,
  coloursOf,
  MAX_PIXELS,
  MAX_SIDE,
  PixelRaster,
  readable,
  type Raster,
} from './raster.js';
import { edgesOf, edgesOn, massesOf, massHandlers } from './mass-jobs.js';
import { PART_OF, type LoadPart, type PartName } from './parts.js';
import { Cancellable, sliced, type Watch } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** The most pixels of the working copy unless told otherwise. */
export const WORKING_PIXELS = 4_000_000;
/** The most pixels of the quick first copy. */
export const PREVIEW_PIXELS = 500_000;
const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/** Sources that {@link FirstService.open} takes. */
export type PictureSource = Blob | ImageBitmap | Pixels;

interface Picture {
  id: string;
  width: number;
  height: number;
  maxPixels: number;
  /** What it can be decoded from again; bare pixels have none until `original` makes one. */
  blob?: Blob;
  /** Bare pixels and bitmaps stay here: they cannot be decoded again. */
  kept?: Raster;
}

const small =
  typeof navigator !== 'undefined' &&
  ((navigator as { deviceMemory?: number }).deviceMemory ?? 8) <= 2;

/**
 * The core's work behind one door: it opens pictures and runs jobs, in a worker or in the page. It never throws across
 * the door: each answer is a {@link Settled}.
 */
export class FirstService {
  #pictures = new Map<string, Picture>();
  #cache = new ByteCache((small ? 96 : 256) * 1024 * 1024);
  #running = new Map<string, Cancellable>();
  #parts = new Map<PartName, Promise<Partial<Handlers<LateJobs>>>>();
  #load: LoadPart;

  /** @param load fetches the jobs that the service does not bring along. */
  constructor(load: LoadPart) {
    this.#load = load;
  }

  async open(
    job: string,
    id: string,
    source: PictureSource,
    options: { maxPixels?: number },
    onProgress?: (stage: string, done: number) => void,
  ): Promise<Settled<PictureInfo>> {
    const opened = await this.#settle(job, onProgress, async (watch) =>
      this.#open(id, source, options, watch),
    );
    if (!opened.ok) this.close(id);
    return opened;
  }

  async run<K extends keyof Jobs>(
    job: string,
    name: K,
    input: Jobs[K]['in'],
    onProgress?: (stage: string, done: number) => void,
  ): Promise<Settled<Jobs[K]['out']>> {
    return this.#settle(job, onProgress, async (watch) => {
      const handler = (await this.#handler(name)) as (
        input: Jobs[K]['in'],
        watch: Watch,
      ) => Promise<Jobs[K]['out']>;
      watch.check();
      return handler(input, watch);
    });
  }

  /** Gives a running job up; an unknown number is ignored (the job has ended). */
  cancel(job: string): void {
    this.#running.get(job)?.cancel();
  }

  /** Lets go of a picture and all that was kept of it. */
  close(id: string): void {
    this.#pictures.get(id)?.kept?.release();
    this.#pictures.delete(id);
    this.#cache.deleteAll(`${id} `);
  }

  /** Answers at once: tells that the worker lives. */
  ping(): true {
    return true;
  }

  async #handler(name: keyof Jobs): Promise<unknown> {
    if (Object.hasOwn(this.#first, name)) return this.#first[name as keyof FirstJobs];
    if (Object.hasOwn(PART_OF, name)) {
      const job = name as keyof LateJobs;
      return (await this.#part(PART_OF[job]))[job];
    }
    throw new CoreError(
      'JobUnknown',
      `The core has no job named ${JSON.stringify(String(name))}.`,
      {
        job: String(name),
      },
    );
  }

  /** The handlers of a part, fetched with the first call; one that could not be fetched is asked for again by the next. */
  #part(name: PartName): Promise<Partial<Handlers<LateJobs>>> {
    let part = this.#parts.get(name);
    if (!part) {
      part = this.#load(name).then(({ handlers }) => handlers(this.#workshop));
      part.catch(() => this.#parts.delete(name));
      this.#parts.set(name, part);
    }
    return part;
  }

  async #settle<T>(
    job: string,
    onProgress: ((stage: string, done: number) => void) | undefined,
    work: (watch: Watch) => Promise<T>,
  ): Promise<Settled<T>> {
    let told = 0;
    let toldStage = '';
    const watch = new Cancellable((stage, done) => {
      const now = performance.now();
      if (now - told < 60 && stage === toldStage) return;
      told = now;
      toldStage = stage;
      onProgress?.(stage, done);
    });
    this.#running.set(job, watch);
    try {
      const value = await work(watch);
      watch.check();
      return { ok: true, value };
    } catch (thrown) {
      return { ok: false, error: plainError(thrown) };
    } finally {
      this.#running.delete(job);
    }
  }

  async #open(
    id: string,
    source: PictureSource,
    options: { maxPixels?: number },
    watch: Watch,
  ): Promise<PictureInfo> {
    const maxPixels = Math.max(1, Math.min(options.maxPixels ?? WORKING_PIXELS, 2 ** 26));
    const warnings: Reason[] = [];
    let format = 'pixels';
    let raster: Raster;
    let blob: Blob | undefined;
    if (typeof Blob !== 'undefined' && source instanceof Blob) {
      blob = source;
      watch.tell('read', 0);
      format = await judgeFile(source, warnings);
      watch.check();
      watch.tell('decode', 0);
      raster = await decode(source, format);
    } else if (typeof ImageBitmap !== 'undefined' && source instanceof ImageBitmap) {
      raster = new BitmapRaster(source);
    } else {
      expectPixels(source);
      raster = new PixelRaster(source as Pixels);
    }
    try {
      watch.check();
      const { width, height } = raster;
      if (width * height > MAX_PIXELS || width > MAX_SIDE || height > MAX_SIDE)
        throw tooLarge(width, height);
      if (Math.max(width, height) / Math.min(width, height) > 20)
        warnings.push(reason('picture.thin', { width, height }));
      if (width * height < 10_000) warnings.push(reason('picture.small', { width, height }));
      this.close(id);
      this.#pictures.set(id, {
        id,
        width,
        height,
        maxPixels,
        blob,
        kept: blob ? undefined : raster,
      });
      const preview = await previewOf(raster, watch);
      if (blob) this.#keepFull(id, raster);
      return { id, width, height, format, warnings, preview };
    } catch (thrown) {
      raster.release();
      this.#pictures.delete(id);
      throw thrown;
    }
  }

  #keepFull(id: string, raster: Raster): void {
    this.#cache.set(`${id} full`, raster, raster.bytes, () => raster.release());
  }

  #picture(id: string): Picture {
    const picture = this.#pictures.get(id);
    if (!picture)
      throw new CoreError('PictureLost', 'This picture is no longer open; open it again.', {
        picture: String(id),
      });
    return picture;
  }

  /** Uses the full picture, decoding it again when it was let go. */
  async #withFull<T>(
    picture: Picture,
    watch: Watch,
    use: (raster: Raster) => T | Promise<T>,
  ): Promise<T> {
    let raster = picture.kept ?? this.#cache.get<Raster>(`${picture.id} full`);
    if (!raster) {
      watch.tell('decode', 0);
      raster = await decode(picture.blob!, 'unknown');
      this.#keepFull(picture.id, raster);
    }
    raster.retain();
    try {
      watch.check();
      return await use(raster);
    } finally {
      raster.release();
    }
  }

  /** The area-averaged working copy: colours and lightness, kept per crop. */
  async #working(
    input: PictureInput,
    watch: Watch,
  ): Promise<{ pixels: Pixels; plane: Lightness; key: string }> {
    const picture = this.#picture(input.picture);
    const crop = input.crop ?? WHOLE;
    const max = input.maxPixels ?? picture.maxPixels;
    const key = `${picture.id} working ${max} ${crop.x} ${crop.y} ${crop.width} ${crop.height}`;
    const kept = this.#cache.get<{ pixels: Pixels; plane: Lightness }>(key);
    if (kept) return { ...kept, key };
    const made = await this.#withFull(picture, watch, (raster) => {
      const target = workingSize(picture, crop, max);
      return sliced(reduceKernel(raster as RowSource, target, crop), watch, 'reduce');
    });
    this.#cache.set(key, made, made.pixels.data.length + made.plane.data.length);
    return { ...made, key };
  }

  async #tones(
    input: TonesInput,
    watch: Watch,
  ): Promise<Tones & { pixels: Pixels; where?: Uint8Array }> {
    const { pixels, plane: measured } = await this.#working(input, watch);
    const { width, height } = measured;
    const picture = this.#picture(input.picture);
    const crop = input.crop ?? WHOLE;
    const plane = input.distrusted?.length
      ? trustedPlane(measured, spotsOn(input.distrusted, picture, crop, measured))
      : { width, height, data: measured.data.slice() };
    watch.check();
    const loop = input.sitter;
    const where =
      loop && loop.length >= 3
        ? loopMask(
            loop.map(
              ([x, y]) =>
                [((x - crop.x) / crop.width) * width, ((y - crop.y) / crop.height) * height] as [
                  number,
                  number,
                ],
            ),
            width,
            height,
          )
        : undefined;
    const inside = where?.includes(1) ? where : undefined;
    return { pixels, plane, where: inside, histogram: histogramOf(plane, inside) };
  }

  #workshop: Workshop = {
    picture: (id) => this.#picture(id),
    working: (input, watch) => this.#working(input, watch),
    tones: (input, watch) => this.#tones(input, watch),
    masses: (input, watch) => massesOf(input, this.#workshop, watch),
    edges: edgesOf,
    edgesOn,
    full: (id, watch, use) => this.#withFull(this.#picture(id), watch, use),
    cache: this.#cache,
  };

  #first: Handlers<FirstJobs> = {
    ...massHandlers(this.#workshop),

    working: async (input, watch) => {
      const { pixels, plane, histogram } = await this.#tones(input, watch);
      return { plane, histogram, ...coloursOf(pixels) };
    },

    tones: async (input, watch) => {
      const { plane, histogram } = await this.#tones(input, watch);
      return { plane, histogram };
    },

    report: async (input, watch) => {
      const { pixels, plane, where } = await this.#tones(input, watch);
      const picture = this.#picture(input.picture);
      const crop = input.crop ?? WHOLE;
      const fullScale = (picture.width * crop.width) / plane.width;
      const brushPx = (input.brushMm / input.paperWidthMm) * plane.width;
      return sliced(
        photoReportKernel(pixels, plane, { where, brushPx, fullScale }),
        watch,
        'report',
      );
    },

    reading: async (input, watch) => {
      const picture = this.#picture(input.picture);
      return this.#withFull(picture, watch, (raster) => {
        const longer = Math.max(raster.width, raster.height);
        const cx = Math.min(raster.width - 1e-6, Math.max(0, input.at[0] * raster.width));
        const cy = Math.min(raster.height - 1e-6, Math.max(0, input.at[1] * raster.height));
        const radius = Math.min(longer / 2, Math.max(0.5, input.radius * longer));
        const x = Math.max(0, Math.floor(cx - radius));
        const y = Math.max(0, Math.floor(cy - radius));
        const part = raster.part(
          x,
          y,
          Math.min(raster.width, Math.ceil(cx + radius)) - x,
          Math.min(raster.height, Math.ceil(cy + radius)) - y,
        );
        const reading = readingOf(part, { x: cx - x, y: cy - y, radius });
        const spot =
          input.distrusted && distrustedAt(input.distrusted, input.at, raster.width, raster.height);
        const apparent = helmholtzKohlrausch(reading.lab);
        if (!spot) return { ...reading, apparent };
        return {
          ...reading,
          apparent,
          lightness: spot.lightness,
          distrusted: { id: spot.id, note: spot.note, measured: reading.lightness },
        };
      });
    },

    squint: async (input, watch) => {
      const { pixels, plane } = await this.#shown(input, watch);
      const options = { amount: input.amount, brushPx: input.brushPx };
      if (!input.colour)
        return { plane: await sliced(squintKernel(plane, options), watch, 'squint') };
      const made = await sliced(squintPixelsKernel(pixels, plane, options), watch, 'squint');
      return { plane: made.plane, ...coloursOf(made.pixels) };
    },

    stepBack: async (input, watch) => {
      const { pixels, plane } = await this.#shown(input, watch);
      const options = {
        pxPerMm: plane.width / input.paperWidthMm,
        distance: input.distance,
        acuity: input.acuity,
      };
      const seen = await sliced(stepBackKernel(plane, options), watch, 'step-back');
      if (!input.colour) return { plane: seen };
      return {
        plane: seen,
        ...coloursOf(await sliced(stepBackPixelsKernel(pixels, options), watch, 'step-back')),
      };
    },

    original: async (input) => {
      const picture = this.#picture(input.picture);
      if (picture.blob) return picture.blob;
      const kept = picture.kept!;
      if (typeof OffscreenCanvas === 'undefined') {
        throw new CoreError('CoreUnavailable', 'This runtime cannot write a picture file.', {});
      }
      const { canvas, context } = readable(kept.width, kept.height);
      context.fillStyle = '#fff';
      context.fillRect(0, 0, kept.width, kept.height);
      if (kept instanceof BitmapRaster) context.drawImage(kept.bitmap, 0, 0);
      else context.drawImage(bitmapOf(kept.part(0, 0, kept.width, kept.height))!, 0, 0);
      picture.blob = await canvas.convertToBlob({ type: 'image/png' });
      return picture.blob;
    },
  };

  /** The tones with the painter's corrections, for the squint and the step back. */
  async #shown(input: TonesInput, watch: Watch): Promise<{ pixels: Pixels; plane: Lightness }> {
    const { pixels, plane } = await this.#tones({ ...input, sitter: undefined }, watch);
    return { pixels, plane };
  }
}

/** Size of the working copy of a crop. */
function workingSize(
  picture: { width: number; height: number },
  crop: Crop,
  maxPixels: number,
): { width: number; height: number } {
  const part = cropPixels(picture.width, picture.height, crop);
  return fitWithin(part.width, part.height, maxPixels);
}

/** Distrusted spots, from fractions of the photo to pixels of a working copy. */
function spotsOn(
  spots: DistrustedSpot[],
  picture: { width: number; height: number },
  crop: Crop,
  plane: Lightness,
) {
  const scale = plane.width / (picture.width * crop.width);
  const longer = Math.max(picture.width, picture.height);
  return spots
    .map(({ at, radius, lightness }) => ({
      x: ((at[0] - crop.x) / crop.width) * plane.width,
      y: ((at[1] - crop.y) / crop.height) * plane.height,
      radius: radius * longer * scale,
      lightness,
    }))
    .filter(
      ({ x, y, radius }) =>
        x > -radius && y > -radius && x < plane.width + radius && y < plane.height + radius,
    );
}

/** The last distrusted spot that holds a point. */
export function distrustedAt(
  spots: DistrustedSpot[],
  at: [number, number],
  width: number,
  height: number,
): DistrustedSpot | undefined {
  const longer = Math.max(width, height);
  return spots.findLast(
    (spot) =>
      Math.hypot((spot.at[0] - at[0]) * width, (spot.at[1] - at[1]) * height) <=
      spot.radius * longer,
  );
}

/** A first copy to look at: the engine's own quick reduction where there is one, else exact. */
async function previewOf(raster: Raster, watch: Watch): Promise<Display> {
  const size = fitWithin(raster.width, raster.height, PREVIEW_PIXELS);
  if (!(raster instanceof BitmapRaster)) {
    const { pixels, plane } = await sliced(
      reduceKernel(raster as RowSource, size),
      watch,
      'reduce',
    );
    return { plane, ...coloursOf(pixels) };
  }
  const { canvas, context } = readable(size.width, size.height);
  context.fillStyle = '#fff';
  context.fillRect(0, 0, size.width, size.height);
  context.imageSmoothingQuality = 'low';
  context.drawImage(raster.bitmap, 0, 0, size.width, size.height);
  const pixels = context.getImageData(0, 0, size.width, size.height) as Pixels;
  const plane = await sliced(lightnessKernel(pixels), watch, 'reduce');
  return { plane, bitmap: canvas.transferToImageBitmap() };
}

/** Reads the head of a file and refuses what no engine opens; returns the format. */
async function judgeFile(blob: Blob, warnings: Reason[]): Promise<string> {
  if (blob.size === 0)
    throw new CoreError('PictureEmpty', 'The file is empty; ask for it again.', {});
  let head: Uint8Array;
  try {
    head = new Uint8Array(await blob.slice(0, 1 << 18).arrayBuffer());
  } catch {
    throw new CoreError('PictureUnreadable', 'The file could not be read; choose it again.', {
      format: 'unknown',
    });
  }
  const facts = sniffPicture(head);
  if (facts.format === 'heic' || facts.format === 'tiff' || facts.format === 'svg') {
    const format = facts.format.toUpperCase();
    throw new CoreError(
      'PictureUnsupported',
      `Browsers cannot open ${format} pictures here; save it as JPEG or PNG and open that.`,
      { format },
    );
  }
  if (
    facts.width &&
    facts.height &&
    (facts.width * facts.height > MAX_PIXELS || Math.max(facts.width, facts.height) > MAX_SIDE)
  ) {
    throw tooLarge(facts.width, facts.height);
  }
  if (await brokenOff(blob, facts.format)) throw unreadable(facts.format);
  if (facts.animated) warnings.push(reason('picture.animated', { format: facts.format }));
  return facts.format;
}

/** Whether a file ends too early; all of it is read only when its last bytes do not tell. */
async function brokenOff(blob: Blob, format: string): Promise<boolean> {
  if (format !== 'jpeg' && format !== 'png') return false;
  const bytesOf = async (part: Blob) => new Uint8Array(await part.arrayBuffer());
  return !endsWhole(await bytesOf(blob.slice(-12))) && breaksOff(await bytesOf(blob));
}

function unreadable(format: string): CoreError {
  return new CoreError(
    'PictureUnreadable',
    'The file is broken or is no picture; ask for it again or save it as JPEG or PNG.',
    { format },
  );
}

function tooLarge(width: number, height: number): CoreError {
  const megapixels = Math.round((width * height) / 1e6);
  return new CoreError(
    'PictureTooLarge',
    `The picture has ${width} x ${height} pixels; make a copy of at most 50 megapixels and open that.`,
    { width, height, megapixels },
  );
}

async function decode(blob: Blob, format: string): Promise<Raster> {
  if (typeof createImageBitmap === 'undefined') {
    throw new CoreError(
      'PictureUnsupported',
      'This runtime cannot decode picture files; give it pixels.',
      { format },
    );
  }
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(blob, {
      imageOrientation: 'from-image',
      colorSpaceConversion: 'default',
    });
  } catch {
    throw unreadable(format);
  }
  if (bitmap.width === 0 || bitmap.height === 0)
    throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
  return new BitmapRaster(bitmap);
}

function expectPixels(source: unknown): void {
  const { width, height } = (source ?? {}) as { width?: unknown; height?: unknown };
  if (width === 0 || height === 0)
    throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
  expectRaster('source', source, 4);
  const { colorSpace } = source as { colorSpace?: unknown };
  if (colorSpace !== undefined && colorSpace !== 'srgb')
    throw wrongType('source.colorSpace', colorSpace, "'srgb'");
}

/** An error as plain data; its name stays what callers branch on. Errors of parts are of a class of their own, so the form counts. */
export function plainError(thrown: unknown): { name: string; message: string; reason: Reason } {
  const {
    name = 'Error',
    message = String(thrown),
    reason: why,
  } = (thrown ?? {}) as { name?: string; message?: string; reason?: Partial<Reason> };
  const known = typeof why?.code === 'string' && typeof why.values === 'object';
  return { name, message, reason: known ? (why as Reason) : reason(name, { message }) };
}
