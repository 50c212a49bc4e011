import { html, nothing, type TemplateResult } from 'lit';
import { ref } from 'lit/directives/ref.js';
import { repeat } from 'lit/directives/repeat.js';
import {
  MOST_PHOTOS,
  photosOf,
  reason,
  withPhotoAdded,
  withPhotoLeading,
  withPhotoRemoved,
  type Plan,
  type PlanPhoto,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { reasonOf } from '../shared/plan-store.js';
import { BorrowedView } from './borrowed-view.js';
import type { Desk } from './desk.js';
import { fileButton } from './file-button.js';
import { photoFiles } from './file-view.js';
import { SmallPictures } from './small-pictures.js';
import { digestOf } from './storage.js';

const PICTURES = 'image/*,.heic,.heif,.tif,.tiff';
/** Pixels of the copy that is made to look at a photo that is added. */
const LOOK = 65_536;

/** The photos of one sitter: which one leads, what each is good for. */
export class PhotosView {
  #desk: Desk;
  #borrowed: BorrowedView;
  #files = new Map<string, Blob>();
  #pictures = new SmallPictures((blob) => this.#decoded(blob));

  constructor(desk: Desk) {
    this.#desk = desk;
    this.#borrowed = new BorrowedView(desk);
  }

  async refresh(): Promise<void> {
    const before = this.#files;
    // A file read anew is the same one: its picture is drawn already.
    this.#files = new Map(
      (await photoFiles(this.#desk)).map(({ sha256, blob }) => [
        sha256,
        before.get(sha256) ?? blob,
      ]),
    );
    this.#desk.update();
  }

  close(): void {
    this.#files.clear();
    this.#borrowed.close();
  }

  render(): TemplateResult {
    const { say, store, keeper } = this.#desk;
    const photos = photosOf(store.plan);
    if (photos.length === 0) return html`<p class="soft">${say('plan.photos-empty')}</p>`;
    return html`
      <ul class="photos">
        ${repeat(
          photos,
          ({ sha256 }) => sha256,
          (photo, i) => this.#photo(photo, i),
        )}
      </ul>
      <div class="row">
        ${
          keeper.key && photos.length < MOST_PHOTOS
            ? fileButton(say('plan.photos-add'), (file) => void this.#add(file), PICTURES)
            : nothing
        }
        <span class="soft small">
          ${say(keeper.key ? 'plan.photos-hint' : 'plan.photos-not-kept')}
        </span>
      </div>
    `;
  }

  #photo(photo: PlanPhoto, place: number): TemplateResult {
    const { say } = this.#desk;
    const { sha256, width, height } = photo;
    const name = photo.name || say('plan.photos-unnamed', { number: place + 1 });
    const file = this.#files.get(sha256);
    const leads = this.#desk.store.plan.photo?.sha256 === sha256;
    const borrowed = this.#borrowed.of(sha256).length > 0;
    const picture = file
      ? html`<canvas
          width="1"
          height="1"
          aria-hidden="true"
          ${ref((canvas) => void this.#pictures.draw(canvas, file))}
        ></canvas>`
      : html``;
    return html`<li class="photo" data-of=${sha256}>
      ${
        file && borrowed
          ? this.#borrowed.plate(photo, picture)
          : html`<span class="picture">${picture}</span>`
      }
      <div class="names">
        <span class="name">${name}</span>
        <span class="soft small">
          ${leads ? html`<span class="mark">${say('plan.photos-leads')}</span>` : nothing}
          ${say('plan.photos-size', { width, height })}
        </span>
        <input
          class="note"
          maxlength="2000"
          aria-label=${say('plan.photos-note-of', { name })}
          placeholder=${say('plan.photos-note')}
          .value=${photo.note ?? ''}
          @change=${(event: Event) => this.#note(sha256, (event.target as HTMLInputElement).value)}
        />
        <span class="row">
          ${
            file && !leads
              ? html`<button
                  type="button"
                  class="quiet"
                  aria-label=${say('plan.photos-lead-of', { name })}
                  @click=${() => this.#lead(sha256)}
                >
                  ${icon('check')}<span>${say('plan.photos-lead')}</span>
                </button>`
              : nothing
          }
          ${
            file
              ? nothing
              : fileButton(
                  say('plan.photos-find'),
                  (given) => void this.#find(photo, given),
                  PICTURES,
                )
          }
          ${
            leads
              ? nothing
              : html`<button
                  type="button"
                  class="quiet"
                  aria-label=${say('plan.photos-remove-of', { name })}
                  @click=${() => this.#change('remove-photo', (plan) => withPhotoRemoved(plan, sha256))}
                >
                  ${icon('bin')}<span>${say('plan.photos-remove')}</span>
                </button>`
          }
        </span>
      </div>
      ${leads && !borrowed ? nothing : this.#borrowed.list(photo, name, file !== undefined, leads)}
    </li>`;
  }

  #change(label: string, make: (plan: Plan) => Plan): void {
    this.#desk.store.change(label, make);
    void this.refresh();
  }

  #lead(sha256: string): void {
    this.#change('lead-photo', (plan) => withPhotoLeading(plan, sha256));
    const { name } = photosOf(this.#desk.store.plan)[0];
    this.#desk.announce(this.#desk.say('plan.photos-now-leads', { name }));
  }

  #note(sha256: string, words: string): void {
    const note = words.trim();
    const noted = (photo: PlanPhoto): PlanPhoto => {
      if (photo.sha256 !== sha256) return photo;
      const { note: _note, ...rest } = photo;
      return note ? { ...rest, note } : rest;
    };
    this.#change('note-photo', (plan) => ({
      ...plan,
      ...(plan.photo && { photo: noted(plan.photo) }),
      ...(plan.photos && { photos: plan.photos.map(noted) }),
    }));
  }

  /** A small copy of a photo, made by the core: a large one is decoded beside the page. */
  async #decoded(blob: Blob): Promise<ImageBitmap> {
    const handle = await (await this.#desk.store.core()).open(blob, { maxPixels: LOOK });
    handle.close();
    return handle.preview.bitmap ?? createImageBitmap(blob);
  }

  /** Keeps one more photo with the plan, once it is known that it can be opened. */
  async #add(file: File): Promise<void> {
    const { store, keeper, announce, say } = this.#desk;
    const { plan } = store;
    try {
      const handle = await (await store.core()).open(file, { maxPixels: LOOK });
      const { width, height } = handle;
      handle.preview.bitmap?.close();
      handle.close();
      const sha256 = await keeper.keepPhoto(file, file.name);
      if (!sha256 || store.plan.title !== plan.title) return;
      const photo = { sha256, name: file.name, width, height };
      this.#change('add-photo', (now) => withPhotoAdded(now, photo));
      announce(say('plan.photos-added', { name: file.name }));
    } catch (thrown) {
      keeper.say(reasonOf(thrown));
    }
  }

  /** Takes the file of a photo that is not on this device, if it is that very photo. */
  async #find(photo: PlanPhoto, file: File): Promise<void> {
    const { store, keeper } = this.#desk;
    try {
      if ((await digestOf(file)) !== photo.sha256) {
        keeper.say(reason('plan.photos-another', { name: photo.name }));
        return;
      }
      await keeper.keepPhoto(file, photo.name);
      keeper.forgive();
      if (store.plan.photo?.sha256 === photo.sha256)
        await store.open(file, { name: photo.name, keepPlan: true });
    } catch (thrown) {
      keeper.say(reasonOf(thrown));
    }
    await this.refresh();
  }
}
