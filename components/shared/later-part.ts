import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';

/** A part of an element that comes when it is asked for; one that could not be had may be asked for again. */
export class LaterPart<Module> {
  /** Whether the last try failed. */
  failed = false;
  readonly #host: ReactiveControllerHost;
  readonly #load: () => Promise<Module>;
  readonly #take: (module: Module) => void;
  #coming?: Promise<void>;

  /** @param take - takes the part up; called once. What it changes is shown with the host's next update. */
  constructor(
    host: ReactiveControllerHost,
    load: () => Promise<Module>,
    take: (module: Module) => void,
  ) {
    this.#host = host;
    this.#load = load;
    this.#take = take;
  }

  /** Settles once the part that was asked for is here or has failed; at once when nobody asked. */
  get settled(): Promise<void> {
    return this.#coming ?? Promise.resolve();
  }

  /** Brings the part; settles as {@link settled} does, and never rejects. */
  fetch(): Promise<void> {
    return (this.#coming ??= this.#bring());
  }

  async #bring(): Promise<void> {
    this.failed = false;
    try {
      this.#take(await this.#load());
    } catch {
      this.failed = true;
      this.#coming = undefined;
    }
    this.#host.requestUpdate();
  }

  /** What is told when the part could not be had. */
  renderFailure(say: (key: string) => string): TemplateResult | typeof nothing {
    if (!this.failed) return nothing;
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${say('part.failed')}</span>
      <button type="button" @click=${() => this.fetch()}>${say('part.again')}</button>
    </div>`;
  }
}
