import { html, nothing, type TemplateResult } from 'lit';
import { createRef, ref } from 'lit/directives/ref.js';
import type { Display, Jobs, Reason, WorkStep } from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import { massesAsked, MassesInHand } from '../../shared/masses-in-hand.js';
import { feetOf } from '../../shared/measure.js';
import { reasonOf } from '../../shared/plan-store.js';
import { handOver, walledOff } from '../../shared/files.js';
import { fileNameOf } from '../save.js';
import type { StageTool } from '../stage-tool.js';
import { HandTool } from './hand-tool.js';
import { pictureOf, sideBySide, smallCopy, stripOf } from './rehearsal-pictures.js';

type Shown = Jobs['rehearsal']['out'];
type Order = Jobs['order']['out'];

/** Pixels of each picture of a strip. */
const STRIP_PIXELS = 300_000;
/** How long a slider must rest before the work starts. */
const REST_MS = 80;

/** The painting before it is painted: step by step, beside the photo, from as far as one likes. */
export class RehearsalTool extends HandTool implements StageTool {
  readonly name = 'rehearsal';
  readonly word = 'tool.rehearsal';
  readonly icon = 'brush';

  #canvas = createRef<HTMLCanvasElement>();
  #photo = createRef<HTMLCanvasElement>();
  #order?: Order;
  /** The last step that is done; undefined: all of them. */
  #step?: number;
  #distance = 0;
  #shown?: Shown;
  #seen?: Display;
  #running?: AbortController;
  #timer?: ReturnType<typeof setTimeout>;
  #busy = false;
  #fault?: Reason;
  #writing?: number;
  #release?: () => void;
  #plan?: unknown;

  takenUp(): void {
    this.#release = MassesInHand.of(this.store).hold();
    this.store.addEventListener('plan', this.#look);
    this.store.addEventListener('picture', this.#look);
    this.#plan = undefined;
    this.#look();
  }

  laidDown(): void {
    this.#running?.abort();
    clearTimeout(this.#timer);
    this.store.removeEventListener('plan', this.#look);
    this.store.removeEventListener('picture', this.#look);
    this.#release?.();
    this.#drop();
    this.#order = undefined;
    this.#busy = false;
    this.#fault = undefined;
    this.#writing = undefined;
  }

  renderPanel(): TemplateResult {
    const lead = html`<p class="tool-lead">${this.say('tool.rehearsal.lead')}</p>`;
    if (this.#fault)
      return html`<div class="tool">
        ${lead}
        <div class="trouble" role="alert">
          <span>${this.host.sentenceOf(this.#fault)}</span>
          <button type="button" @click=${() => this.#soon(0)}>
            ${this.say('tool.rehearsal.again')}
          </button>
        </div>
      </div>`;
    queueMicrotask(this.#draw);
    const shown = this.#shown;
    return html`<div class="tool">
      ${lead}
      <div class="rehearsal">
        <figure>
          <canvas
            ${ref(this.#canvas)}
            width="1"
            height="1"
            role="img"
            aria-label=${this.say('tool.rehearsal.painting')}
          ></canvas>
          <figcaption class="tool-note">${this.say('tool.rehearsal.painting')}</figcaption>
        </figure>
        <figure>
          <canvas
            ${ref(this.#photo)}
            width="1"
            height="1"
            role="img"
            aria-label=${this.say('tool.rehearsal.photo')}
          ></canvas>
          <figcaption class="tool-note">${this.say('tool.rehearsal.photo')}</figcaption>
        </figure>
      </div>
      <p class="tool-note rehearsal-told">${this.#told(shown)}</p>
      ${this.#renderSteps()} ${this.#renderDistance()}
      <div class="tool-row">
        <button type="button" ?disabled=${!shown} @click=${this.#savePicture}>
          ${icon('save')}<span>${this.say('tool.rehearsal.save')}</span>
        </button>
        <button
          type="button"
          ?disabled=${!this.#order || this.#writing !== undefined}
          @click=${this.#saveStrip}
        >
          ${icon('steps')}<span
            >${this.#writing === undefined ? this.say('tool.rehearsal.strip') : this.say('tool.rehearsal.writing', { step: this.#writing })}</span
          >
        </button>
      </div>
    </div>`;
  }

  #told(shown: Shown | undefined): string {
    if (!shown) return this.say(this.photo ? 'tool.rehearsal.working' : 'tool.rehearsal.no-photo');
    if (this.#busy) return this.say('tool.rehearsal.working');
    const { bare, parts } = shown;
    return bare > 0
      ? this.say('tool.rehearsal.bare', { bare, parts })
      : this.say('tool.rehearsal.full');
  }

  #renderSteps(): TemplateResult | typeof nothing {
    const steps = this.#order?.steps;
    if (!steps || steps.length === 0) return nothing;
    const step = this.#step ?? steps.length - 1;
    const text =
      step < 0
        ? this.say('tool.rehearsal.paper')
        : this.say('tool.rehearsal.step', {
            step: step + 1,
            steps: steps.length,
            what: this.#nameOf(steps[step]),
          });
    return html`<div class="tool-field">
      <label for="tool-step">${this.say('tool.rehearsal.steps')}</label>
      <input
        id="tool-step"
        type="range"
        min="-1"
        max=${steps.length - 1}
        step="1"
        .value=${String(step)}
        aria-valuetext=${text}
        @input=${(event: Event) => {
          const to = (event.target as HTMLInputElement).valueAsNumber;
          this.#step = to === steps.length - 1 ? undefined : to;
          this.#soon(REST_MS);
        }}
      />
      <output for="tool-step" aria-live="off">${text}</output>
    </div>`;
  }

  #renderDistance(): TemplateResult {
    const metres = this.#distance;
    const text =
      metres === 0
        ? this.say('look.near')
        : this.host.lengthUnit === 'mm'
          ? this.say('look.metres', { distance: metres })
          : this.say('look.feet', { distance: feetOf(metres) });
    return html`<div class="tool-field">
      <label for="tool-distance">${this.say('look.back')}</label>
      <input
        id="tool-distance"
        type="range"
        min="0"
        max="10"
        step="0.5"
        .value=${String(metres)}
        aria-valuetext=${text}
        @input=${(event: Event) => {
          this.#distance = (event.target as HTMLInputElement).valueAsNumber;
          this.#soon(REST_MS);
        }}
      />
      <output for="tool-distance" aria-live="off">${text}</output>
    </div>`;
  }

  /** A step in words. */
  #nameOf({ kind, band, text }: WorkStep): string {
    if (kind === 'own') return text || this.say('step.own');
    const name = band === undefined ? '' : this.plan.board.bands[band]?.name;
    return this.say(`step.${kind}`, { band: name || this.say('band.paper') });
  }

  #look = (): void => {
    const { plan, picture } = this.store;
    if (!picture.exact || plan === this.#plan) return;
    this.#plan = plan;
    this.#order = undefined;
    this.#soon(REST_MS);
  };

  #soon(after: number): void {
    clearTimeout(this.#timer);
    this.#busy = true;
    this.#fault = undefined;
    this.#timer = setTimeout(() => void this.#make(), after);
    this.host.requestUpdate();
  }

  async #make(): Promise<void> {
    this.#running?.abort();
    const running = (this.#running = new AbortController());
    const { signal } = running;
    const { plan } = this;
    try {
      this.#order ??= await this.store.run('order', { ...massesAsked(plan), plan }, { signal });
      if (this.#step !== undefined && this.#step >= this.#order.steps.length - 1)
        this.#step = undefined;
      const distance = this.#distance;
      const shown = await this.#rehearse(this.#step, { distance, signal });
      const seen =
        distance > 0
          ? await this.store.run(
              'stepBack',
              { distance, paperWidthMm: plan.paper.widthMm, colour: true },
              { signal },
            )
          : undefined;
      if (signal.aborted) return;
      this.#drop();
      this.#shown = shown;
      this.#seen = seen;
    } catch (thrown) {
      if (signal.aborted) return;
      this.#fault = reasonOf(thrown);
    }
    this.#busy = false;
    if (this.#shown) this.host.speak(this.#told(this.#shown));
    this.host.requestUpdate();
  }

  #rehearse(
    step: number | undefined,
    { distance = 0, signal }: { distance?: number; signal?: AbortSignal } = {},
  ): Promise<Shown> {
    const { plan } = this;
    const { steps, marks } = this.#order!;
    const input = {
      ...massesAsked(plan),
      board: plan.board,
      paper: [plan.paper.lightness, 0, 0] as [number, number, number],
      steps: steps.map(({ regions }) => ({ regions })),
      ...(step === undefined ? {} : { upToStep: step }),
      marks: marks.map(({ x, y, area, light, toned }) => ({ x, y, area, light, toned })),
      distance,
    };
    return this.store.run('rehearsal', input, { signal });
  }

  #draw = (): void => {
    const { plane, bitmap } = this.store.picture;
    pictureOf(this.#canvas.value, this.#shown);
    pictureOf(this.#photo.value, this.#seen ?? (plane && { plane, bitmap }));
  };

  #savePicture = async (): Promise<void> => {
    const { plane, bitmap } = this.store.picture;
    if (!this.#shown || !plane) return;
    const photo = this.#seen ?? { plane, bitmap };
    await this.#save(() => sideBySide(photo, this.#shown!), this.say('tool.rehearsal.file'));
  };

  #saveStrip = async (): Promise<void> => {
    const { steps } = this.#order ?? {};
    if (!steps) return;
    const pictures: { image: HTMLCanvasElement; text: string }[] = [];
    await this.#save(async () => {
      for (let step = -1; step < steps.length; step++) {
        if (step >= 0 && steps[step].regions.length === 0 && step < steps.length - 1) continue;
        this.#writing = step + 1;
        this.host.requestUpdate();
        const text =
          step < 0 ? this.say('tool.rehearsal.paper') : `${step + 1}. ${this.#nameOf(steps[step])}`;
        // Rehearsed as it is shown: in a smaller copy of the photo other masses would be found than those that the steps name.
        const shown = await this.#rehearse(step);
        pictures.push({ image: smallCopy(shown, STRIP_PIXELS), text });
        shown.bitmap?.close();
      }
      return stripOf(pictures);
    }, this.say('tool.rehearsal.strip-file'));
    this.#writing = undefined;
    this.host.requestUpdate();
  };

  async #save(make: () => Promise<Blob>, name: string): Promise<void> {
    try {
      handOver(await make(), fileNameOf(this.store.picture.name, [name]));
      if (walledOff()) this.#fault = { code: 'files.walled', values: {} };
    } catch (thrown) {
      this.#fault = reasonOf(thrown);
    }
    this.host.requestUpdate();
  }

  #drop(): void {
    this.#shown?.bitmap?.close();
    this.#seen?.bitmap?.close();
    this.#shown = this.#seen = undefined;
  }
}
