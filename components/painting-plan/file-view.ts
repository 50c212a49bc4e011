import { html, nothing, type TemplateResult } from 'lit';
import { photosOf, serialisePlan, type Reason } from '../shared/core.js';
import { handOver, walledOff } from '../shared/files.js';
import { icon } from '../shared/icons.js';
import { titleOf, type Desk } from './desk.js';
import { fileButton } from './file-button.js';
import { fileNameOf, planAsJson, planAsZip, type PhotoFile } from './plan-file.js';

/** Faults of a refused file that are shown. */
const MOST_FAULTS = 5;

/** The plan as a file to keep or send: with photos or without. */
export class FileView {
  #desk: Desk;
  #photos: PhotoFile[] = [];
  #inside = true;
  #busy = false;
  #done = '';

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  async refresh(): Promise<void> {
    this.#photos = await photoFiles(this.#desk).catch(() => []);
    this.#desk.update();
  }

  close(): void {
    this.#photos = [];
    this.#done = '';
  }

  render(): TemplateResult {
    const { say } = this.#desk;
    const bytes = this.#photos.reduce((sum, { blob }) => sum + blob.size, 0);
    const size = new Intl.NumberFormat(this.#desk.locale, {
      style: 'unit',
      unit: 'megabyte',
      maximumFractionDigits: 1,
    }).format(bytes / 1e6);
    return html`
      ${
        this.#photos.length > 0
          ? html`<label class="choice">
                <input type="checkbox" .checked=${this.#inside} @change=${this.#onInside} /><span
                  >${say('plan.file-photos')} <span class="soft">${size}</span></span
                >
              </label>
              <p class="soft small">${say('plan.file-photos-note')}</p>`
          : html`<p class="soft small">${say('plan.file-no-photos')}</p>`
      }
      <div class="row">
        <button type="button" ?disabled=${this.#busy} @click=${this.#save}>
          ${icon('save')}<span>${say('plan.file-save')}</span>
        </button>
        ${fileButton(say('plan.shelf-open-file'), (file) => void this.#desk.openFile(file))}
        <span class="soft small">${this.#busy ? say('plan.file-working') : this.#done}</span>
      </div>
    `;
  }

  #onInside = (event: Event): void => {
    this.#inside = (event.target as HTMLInputElement).checked;
  };

  #save = async (): Promise<void> => {
    this.#busy = true;
    this.#desk.update();
    try {
      const name = await saveAsFile(this.#desk, this.#inside ? this.#photos : []);
      this.#done = this.#desk.say('plan.file-saved', { name });
      this.#desk.announce(this.#done);
    } catch (thrown) {
      await this.#desk.keeper.tell(thrown);
    } finally {
      this.#busy = false;
      this.#desk.update();
    }
  };
}

/** The photos of the plan in hand that are at hand: kept here, or the one that is open. */
export async function photoFiles({ store, keeper }: Desk): Promise<PhotoFile[]> {
  const files: PhotoFile[] = [];
  for (const { sha256, name } of photosOf(store.plan)) {
    const kept = await keeper.storage.photo(sha256).catch(() => undefined);
    const open = sha256 === store.plan.photo?.sha256 ? store.source : undefined;
    const blob = kept?.blob ?? open;
    if (blob) files.push({ sha256, name, blob });
  }
  return files;
}

/** Hands the plan to the browser as a file, with these photos inside; returns the file's name. */
export async function saveAsFile(desk: Desk, photos: readonly PhotoFile[]): Promise<string> {
  const { plan } = desk.store;
  const blob = photos.length > 0 ? await planAsZip(plan, photos) : planAsJson(plan);
  const name = fileNameOf(plan.title, photos.length > 0 ? 'tonewell.zip' : 'json');
  handOver(blob, name);
  if (walledOff()) desk.offerText(serialisePlan(plan), fileNameOf(plan.title, 'json'));
  return name;
}

/** The sentence about a file that was not taken up, with its first faults. */
export function refusalOf(
  desk: Desk,
  faults: readonly Reason[],
  putAway: () => void,
): TemplateResult {
  const more = faults.length - MOST_FAULTS;
  return html`<div class="trouble" part="trouble" role="alert">
    <div>
      <p>${desk.say('plan.file-refused')}</p>
      <ul>
        ${faults.slice(0, MOST_FAULTS).map((fault) => html`<li>${desk.tell(fault)}</li>`)}
        ${more > 0 ? html`<li>${desk.say('plan.file-more', { count: more })}</li>` : nothing}
      </ul>
    </div>
    <button type="button" class="quiet" @click=${putAway}>
      ${icon('close')}<span>${desk.say('plan.close')}</span>
    </button>
  </div>`;
}

/** What is said once a file was taken up. */
export function takenUp(desk: Desk, title: string, photosMissing: boolean): string {
  const words = desk.say('plan.file-opened', { title: titleOf(desk, title) });
  return photosMissing ? `${words} ${desk.say('plan.file-opened-without')}` : words;
}
