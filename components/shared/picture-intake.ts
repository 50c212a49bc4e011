import {
  nothing,
  type CSSResult,
  type ReactiveController,
  type ReactiveControllerHost,
  type TemplateResult,
} from 'lit';
import { CoreError, partOf, reason, type Pixels, type PictureSource, type Reason } from './core.js';
import { PictureChangeEvent } from './events/picture-change.js';
import { LaterPart, type LaterHost } from './later-part.js';
import type * as Hands from './picture-hands.js';
import { reasonOf, type PictureState, type PlanStore } from './plan-store.js';
import type * as ShownPictures from './shown-pictures.js';
import type { Words } from './strings.js';
import type { Say } from './usual-bands.js';

/** Anything that an element takes as its picture. */
export type PictureLike =
  Blob | ImageBitmap | ImageData | Pixels | HTMLCanvasElement | OffscreenCanvas | HTMLImageElement;

type Template = TemplateResult | typeof nothing;

/** What an element hears for it. */
const HEARD = ['dragover', 'dragleave', 'drop', 'paste'] as const;

/** What the intake needs of its element. */
export interface IntakeHost extends LaterHost, ReactiveControllerHost, HTMLElement {
  readonly store: PlanStore;
  adopt(words: Words, looks: readonly CSSResult[]): void;
  fireError(reason: Reason, words: Reason): void;
}

/**
 * Brings pictures into an element: by address, by property, by drop and paste, and by what a later part shows (file chooser, camera,
 * clipboard). A failed one is told by `store.picture.error`; the picture in hand stays.
 */
export class PictureIntake<Part extends typeof Hands = typeof Hands> implements ReactiveController {
  /** Whether something that may be a picture is being dragged over the element. */
  over = false;
  readonly #host: IntakeHost;
  readonly #storeOf: () => PlanStore;
  readonly #later: LaterPart<Part>;
  #part?: Part;
  #latest = 0;
  readonly #told = new WeakSet<Reason>();

  /**
   * @param store - where the pictures go: that of the host's plan unless the host keeps them apart.
   * @param load - brings what is shown, for an element that has looks or words of its own for it.
   */
  constructor(
    host: IntakeHost,
    store: () => PlanStore = () => host.store,
    load = () => import('./picture-hands.js') as Promise<typeof Hands> as Promise<Part>,
  ) {
    this.#host = host;
    this.#storeOf = store;
    this.#later = new LaterPart(host, load, (part) => {
      host.adopt(part.words, part.looks);
      this.#part = part;
    });
    host.addController(this);
  }

  /** Where the pictures go. */
  get store(): PlanStore {
    return this.#storeOf();
  }

  /** What is shown of it; asked for when it is first needed. */
  get part(): Part | undefined {
    if (!this.#part && !this.#later.failed) void this.#later.fetch();
    return this.#part;
  }

  hostConnected(): void {
    for (const type of HEARD) this.#host.addEventListener(type, this);
  }

  hostDisconnected(): void {
    for (const type of HEARD) this.#host.removeEventListener(type, this);
  }

  /** Opens a picture that the page gives; fires nothing but `ready` or `error` through the element. Settles once a fault is told. */
  take(
    source: PictureLike,
    name = source instanceof File ? source.name : '',
    keepPlan = false,
  ): Promise<boolean> {
    this.store.prepare();
    return this.#open(++this.#latest, () => plainSource(source), source, { name, keepPlan });
  }

  /** Opens the picture at an address, as {@link take} does. The first one of an element yields to a plan that was kept with its own photo. */
  async load(src: string, keepPlan = false): Promise<boolean> {
    const turn = ++this.#latest;
    const { store } = this;
    await store.settled;
    if (turn === 1 && store.restored) return false;
    this.store.prepare();
    const { baseURI } = this.#host.ownerDocument;
    return this.#open(turn, () => fetched(src, baseURI), undefined, {
      name: nameOf(src),
      keepPlan,
    });
  }

  /** Opens a picture that a person gave; fires `picture-change` once it is in hand. */
  async given(file: Blob): Promise<void> {
    const name = file instanceof File ? file.name : '';
    if (await this.take(file, name)) this.#host.dispatchEvent(new PictureChangeEvent(name, file));
  }

  /** Fires the element's `error` event for a fault of its picture, once, and when there are words for it. */
  async tellFault({ error }: PictureState): Promise<void> {
    if (!error || this.#told.has(error)) return;
    this.#told.add(error);
    await this.#later.fetch();
    this.#host.fireError(error, this.#part ? error : reason('part.failed'));
  }

  /** Buttons that bring a picture: a file, the camera, the clipboard. */
  renderButtons(say: Say): Template {
    return this.part?.renderButtons(this, say) ?? nothing;
  }

  /** The sentence of a fault, with the way on; nothing when all is well. */
  renderTrouble(tell: (reason: Reason) => string, say: Say): Template {
    const { error, status } = this.store.picture;
    if (this.#later.failed && (error || status === 'empty')) return this.#later.renderFailure(say);
    return (error && this.part?.renderTrouble(this, tell, say)) || nothing;
  }

  /** How far the opening has come, with a way to give it up; nothing when none is under way. */
  renderProgress(say: Say): Template {
    const opening = this.store.picture.status === 'opening';
    return (opening && this.part?.renderProgress(this, say)) || nothing;
  }

  handleEvent(event: DragEvent | ClipboardEvent): void {
    const { type } = event;
    if (type === 'paste') this.#pasted(event as ClipboardEvent);
    else this.#dragged(event as DragEvent);
  }

  /** Opens a picture unless a later one has come meanwhile; bitmaps made for it are let go. */
  async #open(
    turn: number,
    plain: () => Promise<PictureSource>,
    own: PictureLike | undefined,
    options: { name: string; keepPlan: boolean },
  ): Promise<boolean> {
    let source: PictureSource | undefined;
    let opened = false;
    try {
      source = await plain();
      if (turn === this.#latest) opened = await this.store.open(source, options);
    } catch (thrown) {
      if (turn === this.#latest) this.store.fail(reasonOf(thrown));
    }
    if (source !== own) (source as Partial<ImageBitmap> | undefined)?.close?.();
    if (this.store.picture.error) await this.#later.fetch();
    return opened;
  }

  #dragged(event: DragEvent): void {
    const { type, dataTransfer } = event;
    if (type === 'dragleave') {
      if (!this.#host.contains(event.relatedTarget as Node | null)) this.#setOver(false);
    } else if (type === 'dragover') {
      const types = dataTransfer?.types;
      if (!types?.includes('Files') && !types?.includes('text/uri-list')) return;
      event.preventDefault();
      dataTransfer!.dropEffect = 'copy';
      this.#setOver(true);
    } else this.#dropped(event);
  }

  #dropped(event: DragEvent): void {
    this.#setOver(false);
    const { dataTransfer } = event;
    const file = dataTransfer?.files[0];
    const address = dataTransfer
      ?.getData('text/uri-list')
      .split(/\r?\n/)
      .find((line) => line !== '' && !line.startsWith('#'));
    if (!file && !address) return;
    event.preventDefault();
    event.stopPropagation();
    if (file) void this.given(file);
    else void this.load(address!);
  }

  #pasted(event: ClipboardEvent): void {
    const file = [...(event.clipboardData?.files ?? [])].find(({ type }) =>
      type.startsWith('image/'),
    );
    if (!file) return;
    event.preventDefault();
    void this.given(file);
  }

  #setOver(over: boolean): void {
    if (over === this.over) return;
    this.over = over;
    this.#host.requestUpdate();
  }
}

/** What is needed for pictures that are no file in hand. */
const shownPictures = (): Promise<typeof ShownPictures> => partOf(import('./shown-pictures.js'));

/**
 * A picture in the form that the core opens; a canvas is taken as it is now.
 * @throws CoreError `PictureEmpty`, and as {@link ShownPictures.shownPicture} does
 */
async function plainSource(source: PictureLike): Promise<PictureSource> {
  if (source instanceof HTMLImageElement) return (await shownPictures()).shownPicture(source);
  if (source instanceof HTMLCanvasElement || source instanceof OffscreenCanvas) {
    if (source.width > 0 && source.height > 0) return createImageBitmap(source);
    throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
  }
  // The engine converts wide gamut to sRGB when the bitmap is read; one that knows sRGB only does not tell.
  if (source instanceof ImageData && (source.colorSpace ?? 'srgb') !== 'srgb')
    return createImageBitmap(source);
  return source;
}

/**
 * The file at an address. Where a policy forbids fetching but lets pictures in, the picture itself is asked for.
 * @throws CoreError `PictureMissing` (no such file), and as {@link ShownPictures.drawnPicture} does
 */
async function fetched(src: string, base: string): Promise<PictureSource> {
  const missing = (status: number): CoreError =>
    new CoreError('PictureMissing', `There is no picture at ${src}.`, { address: src, status });
  if (!URL.canParse(src, base)) throw missing(0);
  const address = new URL(src, base);
  let answer: Response;
  try {
    answer = await fetch(address);
    if (answer.ok) return await answer.blob();
  } catch {
    return (await shownPictures()).drawnPicture(address);
  }
  throw missing(answer.status);
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
