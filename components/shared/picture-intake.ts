import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { html, nothing, type TemplateResult } from 'lit';
import { CoreError, reason, type Pixels, type PictureSource, type Reason } from './core.js';
import { icon } from './first-icons.js';
import { reasonOf, type PlanStore } from './plan-store.js';
import { PictureChangeEvent } from './events/picture-change.js';

/** Anything that an element takes as its picture. */
export type PictureLike =
  Blob | ImageBitmap | ImageData | Pixels | HTMLCanvasElement | OffscreenCanvas | HTMLImageElement;

/** What the intake needs of its element. */
export interface IntakeHost extends ReactiveControllerHost, HTMLElement {
  readonly store: PlanStore;
}

type Say = (key: string, values?: Record<string, string | number>) => string;

/**
 * Brings pictures into an element: by address, by property, by file chooser, drop, paste and camera. A failed one is told
 * by `store.picture.error`; the picture in hand stays.
 */
export class PictureIntake implements ReactiveController {
  /** Whether something that may be a picture is being dragged over the element. */
  over = false;
  #host: IntakeHost;
  #storeOf: () => PlanStore;
  #latest = 0;

  /** @param store - where the pictures go: that of the host's plan unless the host keeps them apart. */
  constructor(host: IntakeHost, store: () => PlanStore = () => host.store) {
    this.#host = host;
    this.#storeOf = store;
    host.addController(this);
  }

  get #store(): PlanStore {
    return this.#storeOf();
  }

  hostConnected(): void {
    this.#host.addEventListener('dragover', this.#onDragOver);
    this.#host.addEventListener('dragleave', this.#onDragLeave);
    this.#host.addEventListener('drop', this.#onDrop);
    this.#host.addEventListener('paste', this.#onPaste);
  }

  hostDisconnected(): void {
    this.#host.removeEventListener('dragover', this.#onDragOver);
    this.#host.removeEventListener('dragleave', this.#onDragLeave);
    this.#host.removeEventListener('drop', this.#onDrop);
    this.#host.removeEventListener('paste', this.#onPaste);
  }

  /** Opens a picture that the page gives; fires nothing but `ready` or `error` through the element. */
  async take(
    source: PictureLike,
    name = source instanceof File ? source.name : '',
    keepPlan = false,
  ): Promise<boolean> {
    const turn = ++this.#latest;
    try {
      const plain = await plainSource(source);
      try {
        if (turn !== this.#latest) return false;
        return await this.#store.open(plain, { name, keepPlan });
      } finally {
        if (plain !== source) (plain as ImageBitmap).close();
      }
    } catch (thrown) {
      if (turn === this.#latest) this.#store.fail(reasonOf(thrown));
      return false;
    }
  }

  /** Opens the picture at an address. The first one of an element yields to a plan that was kept with its own photo. */
  async load(src: string, keepPlan = false): Promise<boolean> {
    const turn = ++this.#latest;
    const store = this.#store;
    await store.settled;
    if (turn === 1 && store.restored) return false;
    try {
      const source = await fetched(src, this.#host.ownerDocument.baseURI);
      try {
        if (turn !== this.#latest) return false;
        return await this.#store.open(source, { name: nameOf(src), keepPlan });
      } finally {
        if (!(source instanceof Blob)) (source as ImageBitmap).close();
      }
    } catch (thrown) {
      if (turn === this.#latest) this.#store.fail(reasonOf(thrown));
      return false;
    }
  }

  /** Opens a picture that a person gave; fires `picture-change` once it is in hand. */
  async given(file: Blob): Promise<void> {
    const name = file instanceof File ? file.name : '';
    if (await this.take(file, name)) this.#host.dispatchEvent(new PictureChangeEvent(name, file));
  }

  /** Opens the clipboard's picture where the platform lets a button do so. */
  async pasteFromClipboard(): Promise<void> {
    try {
      for (const item of await navigator.clipboard.read()) {
        const type = item.types.find((each) => each.startsWith('image/'));
        if (type) return await this.given(await item.getType(type));
      }
      this.#store.fail(reason('picture.clipboard-empty'));
    } catch {
      this.#store.fail(reason('picture.clipboard-closed'));
    }
  }

  /** Buttons that bring a picture: a file, the camera, the clipboard. */
  renderButtons(say: Say): TemplateResult {
    return html`
      <label class="button" part="open-button">
        ${icon('open')}<span>${say('picture.open')}</span>
        <input
          class="away"
          type="file"
          accept="image/*,.heic,.heif,.tif,.tiff"
          @change=${this.#onFile}
        />
      </label>
      <label class="button" part="camera-button">
        ${icon('camera')}<span>${say('picture.camera')}</span>
        <input
          class="away"
          type="file"
          accept="image/*"
          capture="environment"
          @change=${this.#onFile}
        />
      </label>
      ${
        typeof navigator !== 'undefined' && navigator.clipboard && 'read' in navigator.clipboard
          ? html`<button
              type="button"
              part="paste-button"
              @click=${() => this.pasteFromClipboard()}
            >
              ${icon('paste')}<span>${say('picture.paste')}</span>
            </button>`
          : nothing
      }
    `;
  }

  /** The sentence of a fault, with the way on; nothing when all is well. */
  renderTrouble(tell: (reason: Reason) => string, say: Say): TemplateResult | typeof nothing {
    const { error } = this.#store.picture;
    if (!error) return nothing;
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${tell(error)}</span>
      <button type="button" class="quiet" @click=${() => this.#store.forgive()}>
        ${icon('close')}<span>${say('picture.forgive')}</span>
      </button>
    </div>`;
  }

  /** How far the opening has come, with a way to give it up; nothing when none is under way. */
  renderProgress(say: Say): TemplateResult | typeof nothing {
    const { status, progress } = this.#store.picture;
    if (status !== 'opening') return nothing;
    return html`<div class="progress" part="progress">
      <span>${say(`progress.${progress?.stage ?? 'read'}`)}</span>
      <progress
        aria-label=${say('progress.label')}
        max="1"
        value=${progress?.stage === 'reduce' ? progress.done : nothing}
      ></progress>
      <button type="button" class="quiet" @click=${() => this.#store.giveUp()}>
        ${icon('close')}<span>${say('progress.stop')}</span>
      </button>
    </div>`;
  }

  #onFile = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    if (file) void this.given(file);
  };

  #onDragOver = (event: DragEvent): void => {
    const types = event.dataTransfer?.types;
    if (!types?.includes('Files') && !types?.includes('text/uri-list')) return;
    event.preventDefault();
    event.dataTransfer!.dropEffect = 'copy';
    this.#setOver(true);
  };

  #onDragLeave = (event: DragEvent): void => {
    if (!this.#host.contains(event.relatedTarget as Node | null)) this.#setOver(false);
  };

  #onDrop = (event: DragEvent): void => {
    this.#setOver(false);
    const file = event.dataTransfer?.files[0];
    const address = event.dataTransfer
      ?.getData('text/uri-list')
      .split(/\r?\n/)
      .find((line) => line !== '' && !line.startsWith('#'));
    if (!file && !address) return;
    event.preventDefault();
    event.stopPropagation();
    if (file) void this.given(file);
    else void this.load(address!);
  };

  #onPaste = (event: ClipboardEvent): void => {
    const file = [...(event.clipboardData?.files ?? [])].find(({ type }) =>
      type.startsWith('image/'),
    );
    if (!file) return;
    event.preventDefault();
    void this.given(file);
  };

  #setOver(over: boolean): void {
    if (over === this.over) return;
    this.over = over;
    this.#host.requestUpdate();
  }
}

/** A picture in the form that the core opens. */
async function plainSource(source: PictureLike): Promise<PictureSource> {
  if (source instanceof Blob) return source;
  if (typeof ImageBitmap !== 'undefined' && source instanceof ImageBitmap) {
    if (source.width === 0) throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
    return source;
  }
  if (isElementPicture(source)) {
    if (isImageElement(source)) {
      try {
        await source.decode();
      } catch {
        throw new CoreError('PictureUnreadable', 'The picture could not be loaded.', {
          format: 'unknown',
        });
      }
    }
    const { width, height } = isImageElement(source)
      ? { width: source.naturalWidth, height: source.naturalHeight }
      : source;
    if (width === 0 || height === 0)
      throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
    return createImageBitmap(source);
  }
  if (
    typeof ImageData !== 'undefined' &&
    source instanceof ImageData &&
    (source.colorSpace ?? 'srgb') !== 'srgb' // an engine that knows sRGB only does not tell
  ) {
    return createImageBitmap(source); // the engine converts wide gamut to sRGB when the bitmap is read
  }
  return source as Pixels;
}

function isImageElement(source: PictureLike): source is HTMLImageElement {
  return typeof HTMLImageElement !== 'undefined' && source instanceof HTMLImageElement;
}

function isElementPicture(
  source: PictureLike,
): source is HTMLCanvasElement | OffscreenCanvas | HTMLImageElement {
  return (
    (typeof HTMLCanvasElement !== 'undefined' && source instanceof HTMLCanvasElement) ||
    (typeof OffscreenCanvas !== 'undefined' && source instanceof OffscreenCanvas) ||
    isImageElement(source)
  );
}

/**
 * The file at an address. Where a policy forbids fetching but lets pictures in, the picture itself is asked for.
 * @throws CoreError `PictureMissing` (no such file), `PictureForbidden` (out of reach, or its server forbids reading)
 */
async function fetched(src: string, base: string): Promise<PictureSource> {
  let address: URL;
  try {
    address = new URL(src, base);
  } catch {
    throw new CoreError('PictureMissing', `There is no picture at ${src}.`, {
      address: src,
      status: 0,
    });
  }
  let answer: Response;
  try {
    answer = await fetch(address);
  } catch {
    return drawn(address);
  }
  if (!answer.ok)
    throw new CoreError('PictureMissing', `There is no picture at ${src} (${answer.status}).`, {
      address: src,
      status: answer.status,
    });
  try {
    return await answer.blob();
  } catch {
    throw forbidden(address); // the connection broke off
  }
}

async function drawn(address: URL): Promise<ImageBitmap> {
  const image = new Image();
  image.crossOrigin = 'anonymous';
  image.src = address.href;
  try {
    await image.decode();
    return await createImageBitmap(image);
  } catch {
    throw forbidden(address);
  }
}

function forbidden({ href }: URL): CoreError {
  return new CoreError(
    'PictureForbidden',
    `The picture at ${href} cannot be reached, or its server forbids reading it.`,
    { address: href },
  );
}

function nameOf(src: string): string {
  const path = src.split(/[?#]/)[0];
  if (path.startsWith('data:') || path.startsWith('blob:')) return '';
  const last = path.slice(path.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
