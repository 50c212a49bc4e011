import { html, nothing, type TemplateResult } from 'lit';
import { ref } from 'lit/directives/ref.js';
import { repeat } from 'lit/directives/repeat.js';
import { icon } from '../shared/icons.js';
import { titleOf, type Desk } from './desk.js';
import { fileButton } from './file-button.js';
import { roomOnDevice } from './keeper.js';
import { SmallPictures } from './small-pictures.js';
import type { Listed } from './storage.js';

/** The plans on this device: open, begin, duplicate, delete and take that back. */
export class ShelfView {
  #desk: Desk;
  #plans?: Listed[];
  /** Deleted while the list is open: can be taken back. */
  #deleted = new Set<string>();
  #room?: { used: number; room: number };
  #pictures = new SmallPictures();

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  /** Reads the list anew; deleted plans keep their place in it while they can be taken back. */
  async refresh(): Promise<void> {
    const { keeper } = this.#desk;
    try {
      const listed = await keeper.list();
      const gone = (this.#plans ?? []).filter(({ key }) => this.#deleted.has(key));
      this.#plans = [...listed, ...gone].sort((a, b) => b.saved.getTime() - a.saved.getTime());
      this.#room = await roomOnDevice();
      await keeper.lookLasting();
    } catch (thrown) {
      this.#plans = [];
      await keeper.tell(thrown);
    }
    this.#desk.update();
  }

  /** The list is closed or the page goes: what was deleted is forgotten. */
  close(): void {
    for (const key of this.#deleted)
      void this.#desk.keeper.storage.forget(key).catch(() => undefined);
    this.#deleted.clear();
    this.#plans = undefined;
  }

  render(): TemplateResult {
    const { say, keeper } = this.#desk;
    return html`<div class="row">
        <button type="button" @click=${this.#fresh}>
          ${icon('plus')}<span>${say('plan.shelf-new')}</span>
        </button>
        ${fileButton(say('plan.shelf-open-file'), (file) => void this.#desk.openFile(file))}
      </div>
      ${
        this.#plans?.length === 0
          ? html`<p class="soft">
              ${say(keeper.closed ? 'plan.shelf-closed' : 'plan.shelf-empty')}
            </p>`
          : html`<ul class="plans" part="plans">
              ${repeat(
                this.#plans ?? [],
                ({ key }) => key,
                (plan) => (this.#deleted.has(plan.key) ? this.#gone(plan) : this.#plan(plan)),
              )}
            </ul>`
      }
      ${keeper.closed ? nothing : html`<p class="soft small">${this.#lasting()}</p>`}`;
  }

  #plan(plan: Listed): TemplateResult {
    const { say, keeper } = this.#desk;
    const title = titleOf(this.#desk, plan.title);
    const inHand = plan.key === keeper.key;
    const date = new Intl.DateTimeFormat(this.#desk.locale, {
      dateStyle: 'medium',
      timeStyle: 'short',
    }).format(plan.saved);
    return html`<li class="plan">
      <button
        type="button"
        class="quiet face"
        aria-current=${inHand ? 'true' : nothing}
        data-key=${plan.key}
        @click=${() => void this.#open(plan)}
      >
        <span class="picture">
          ${
            plan.picture
              ? html`<canvas
                  width="1"
                  height="1"
                  aria-hidden="true"
                  ${ref((canvas) => void this.#pictures.draw(canvas, plan.picture!))}
                ></canvas>`
              : nothing
          }
        </span>
        <span class="names">
          <span class="name">${title}</span>
          <span class="soft small">${say('plan.shelf-changed', { date })}</span>
          ${inHand ? html`<span class="small mark">${say('plan.shelf-in-hand')}</span>` : nothing}
        </span>
      </button>
      <span class="acts">
        <button
          type="button"
          class="quiet"
          aria-label=${say('plan.shelf-copy-of', { title })}
          @click=${() => void this.#copy(plan)}
        >
          ${icon('copy')}<span>${say('plan.shelf-copy')}</span>
        </button>
        <button
          type="button"
          class="quiet"
          aria-label=${say('plan.shelf-delete-of', { title })}
          @click=${() => void this.#delete(plan)}
        >
          ${icon('bin')}<span>${say('plan.shelf-delete')}</span>
        </button>
      </span>
    </li>`;
  }

  #gone(plan: Listed): TemplateResult {
    const { say } = this.#desk;
    const title = titleOf(this.#desk, plan.title);
    return html`<li class="plan gone">
      <span>${say('plan.shelf-deleted', { title })}</span>
      <button type="button" data-back=${plan.key} @click=${() => void this.#putBack(plan)}>
        ${icon('undo')}<span>${say('plan.undo')}</span>
      </button>
    </li>`;
  }

  #lasting(): string {
    const { say, keeper } = this.#desk;
    const words =
      keeper.lasting === undefined
        ? say('plan.shelf-unasked')
        : say(keeper.lasting ? 'plan.shelf-lasting' : 'plan.shelf-not-lasting');
    return this.#room ? `${words} ${say('plan.shelf-room', this.#room)}` : words;
  }

  #fresh = async (): Promise<void> => {
    if (await this.#desk.fresh()) await this.refresh();
  };

  async #open({ key }: Listed): Promise<void> {
    if (key !== this.#desk.keeper.key) await this.#desk.open(key);
    await this.refresh();
  }

  async #copy(plan: Listed): Promise<void> {
    const { say, keeper } = this.#desk;
    const title = titleOf(this.#desk, plan.title);
    try {
      if (plan.key === keeper.key) await keeper.save();
      await keeper.storage.duplicate(plan.key, () => say('plan.shelf-copy-title', { title }));
      this.#desk.announce(say('plan.shelf-copied', { title }));
    } catch (thrown) {
      await keeper.tell(thrown);
    }
    await this.refresh();
  }

  /** Deletes a plan. Of the plan in hand the next one in the list takes the place, or a new one. */
  async #delete(plan: Listed): Promise<void> {
    const { keeper, say } = this.#desk;
    try {
      if (plan.key === keeper.key) {
        const next = this.#plans?.find(({ key }) => key !== plan.key && !this.#deleted.has(key));
        const taken = next ? await this.#desk.open(next.key) : await this.#desk.fresh();
        if (!taken) return;
      }
      await keeper.storage.putAside(plan.key);
      this.#deleted.add(plan.key);
      this.#desk.announce(say('plan.shelf-deleted', { title: titleOf(this.#desk, plan.title) }));
    } catch (thrown) {
      await keeper.tell(thrown);
    }
    await this.refresh();
    await this.#focus('data-back', plan.key);
  }

  async #putBack(plan: Listed): Promise<void> {
    try {
      await this.#desk.keeper.storage.putBack(plan.key);
      this.#deleted.delete(plan.key);
      this.#desk.announce(
        this.#desk.say('plan.shelf-back', { title: titleOf(this.#desk, plan.title) }),
      );
    } catch (thrown) {
      await this.#desk.keeper.tell(thrown);
    }
    await this.refresh();
    await this.#focus('data-key', plan.key);
  }

  async #focus(attribute: string, key: string): Promise<void> {
    await this.#desk.shown();
    this.#desk
      .root()
      ?.querySelector<HTMLElement>(`[${attribute}="${CSS.escape(key)}"]`)
      ?.focus();
  }
}
