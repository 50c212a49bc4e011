import { html, nothing, type TemplateResult } from 'lit';
import type { PlanStore } from './plan-store.js';

/** What a part needs of its element. */
export interface LaterHost {
  readonly store: PlanStore;
  requestUpdate(): void;
  /** A part is under way: `updateComplete` waits for it. */
  comes(part: Promise<void>): void;
}

/**
 * A part of an element that comes when it is asked for; one that could not be had may be asked for again. Some engines remember that a
 * module failed until the page is loaded again (Firefox, Chromium up to some version between 147 and 156), and a bundler gives its file an
 * address that is not ours to change: so after a second failure the page may be reloaded, once the plan is kept.
 */
export class LaterPart<Module> {
  readonly #host: LaterHost;
  readonly #load: () => Promise<Module>;
  readonly #take: (module: Module) => void;
  #coming?: Promise<void>;
  /** How many tries have failed. */
  #failures = 0;
  /** Whether a reload was asked for and would lose what has been set. */
  #unkept = false;

  /** @param take - takes the part up; called once. What it changes is shown with the host's next update. */
  constructor(host: LaterHost, load: () => Promise<Module>, take: (module: Module) => void) {
    this.#host = host;
    this.#load = load;
    this.#take = take;
  }

  /** Whether it could not be had so far. */
  get failed(): boolean {
    return this.#failures > 0;
  }

  /** Brings the part; settles once it is here or has failed, and never rejects. */
  fetch(): Promise<void> {
    if (!this.#coming) this.#host.comes((this.#coming = this.#bring()));
    return this.#coming;
  }

  async #bring(): Promise<void> {
    try {
      this.#take(await this.#load());
      this.#failures = 0;
    } catch {
      this.#failures++;
      this.#coming = undefined;
    }
    this.#host.requestUpdate();
  }

  /** Keeps the plan and loads the page again; where nothing is kept only when it is asked for once more. */
  async #reload(): Promise<void> {
    if (this.#unkept || (await this.#host.store.keep?.())) return globalThis.location.reload();
    this.#unkept = true;
    this.#host.requestUpdate();
  }

  /** What is told when the part could not be had, and what can be done. */
  renderFailure(say: (key: string) => string): TemplateResult | typeof nothing {
    if (!this.failed) return nothing;
    const again = this.#failures > 1;
    const told = this.#unkept
      ? say('part.unkept')
      : again
        ? say('part.failed-again')
        : say('part.failed');
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${told}</span>
      <button type="button" @click=${() => this.fetch()}>${say('part.again')}</button>
      ${again ? html`<button type="button" data-reload @click=${() => this.#reload()}>${say('part.reload')}</button>` : nothing}
    </div>`;
  }
}
