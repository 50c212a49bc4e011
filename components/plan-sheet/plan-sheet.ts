import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import {
  withStepDone,
  withStepMoved,
  type SheetPaper,
  type SheetParts,
  type Step,
  type WorkStep,
} from '../shared/core.js';
import { KitErrorEvent } from '../shared/events/kit-error.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { StepChangeEvent, type StepAct } from '../shared/events/step-change.js';
import { handOver, walledOff } from '../shared/files.js';
import { icon } from '../shared/first-icons.js';
import { NearViewport } from '../shared/near-viewport.js';
import { LaterPart } from '../shared/later-part.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import type { StorePlanEvent } from '../shared/plan-store.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import type { Words } from '../shared/strings.js';
import { printedFirstWords } from '../shared/words/printed-first.js';
import { PagesInHand, type PagesAsked } from './pages-in-hand.js';
import { styles } from './plan-sheet.styles.js';
import type { StepDrag } from './step-drag.js';
import type * as Work from './work.js';

/** What can be drawn in the picture, by the words of `show`. */
const PARTS = [
  'hatching',
  'outlines',
  'reserves',
  'strokes',
  'marks',
  'accents',
  'numbers',
] as const;
type PartName = (typeof PARTS)[number];
/** Stages of the work that have words of their own. */
const STAGES = [
  'masses',
  'outlines',
  'edges',
  'reserves',
  'accents',
  'passages',
  'strokes',
  'pages',
];
/** Transfer squares that are offered, mm. */
const SQUARES = [10, 20, 25, 50, 100];

/**
 * @summary The printed plan: one page at true size with picture, values, dabs and order of work, the outlines to trace on as many more
 * as they need; and the order of work as a list to tick off and to rearrange.
 *
 * It prints the pages alone, at true size, and hands each page out as an SVG file. Tied to a plan it shows that plan's photo; alone it
 * has a plan of its own and takes a photo.
 *
 * @tag plan-sheet
 *
 * @slot - What is shown before the element is ready or without script.
 *
 * @fires {StepChangeEvent} step-change - A person ticked off a step or changed the order of work.
 * @fires {PictureChangeEvent} picture-change - A person opened another picture.
 * @fires {ReadyEvent} ready - The pages of a picture are made for the first time.
 * @fires {KitErrorEvent} error - A picture could not be opened, or the pages could not be made; `message` is the sentence that is shown.
 *
 * @csspart frame - All of the element.
 * @csspart preview - The page and its buttons.
 * @csspart mat - The grey about the page.
 * @csspart page - The page.
 * @csspart print-button - Prints all pages.
 * @csspart save-button - Saves the page that is shown.
 * @csspart save-all-button - Saves all pages.
 * @csspart order - The order of work with its buttons.
 * @csspart undo - The button that takes back; a page whose plan has one of its own may leave it out.
 * @csspart redo - The button that does it again.
 * @csspart steps - The list of steps.
 * @csspart step - A step.
 * @csspart number - Its number, by which it is dragged.
 * @csspart wait - What has to be waited for before it.
 * @csspart warning - What goes wrong when it is done at this place.
 * @csspart choices - Paper and what is drawn.
 * @csspart empty - What is shown while there is no picture.
 * @csspart open-button - Opens a file.
 * @csspart camera-button - Takes a photo.
 * @csspart paste-button - Pastes a picture.
 * @csspart trouble - The sentence of a fault.
 * @csspart progress - How far the opening has come.
 * @csspart icon - A drawing beside a word.
 *
 * @cssproperty --tonewell-paper - Background of the page.
 * @cssproperty --tonewell-sheet - Background of controls.
 * @cssproperty --tonewell-ink - Text.
 * @cssproperty --tonewell-ink-soft - Lesser text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of controls.
 * @cssproperty --tonewell-press - Background of a control under the pointer.
 * @cssproperty --tonewell-surround - Neutral grey about the page.
 * @cssproperty --tonewell-font - Typeface.
 */
export class PlanSheet extends TonewellElement {
  static override readonly tag = 'plan-sheet';
  static override readonly words: Words = printedFirstWords;
  static override readonly styles = [tokens, controls, styles];

  readonly #intake = new PictureIntake(this);
  readonly #viewport = new NearViewport(this, () => this.#near());
  readonly #part = new LaterPart(
    this,
    () => import('./work.js'),
    (work) => this.#takeUp(work),
  );
  #work?: typeof Work;
  #drag?: StepDrag;
  readonly #made = new PagesInHand(() => this.#told());

  /** The page that is shown, from 0. */
  @state() private shown = 0;
  /** The steps after an act of the person, until the work that follows it is done. */
  @state() private acted?: readonly WorkStep[];
  /** The sentence to tell where a file or the print may be held back. */
  @state() private heldBack: '' | 'files.walled' | 'printed.print-refused' = '';

  #drawn?: { page: string; node: SVGSVGElement };
  #readyFor?: unknown;
  #begun?: string | PictureLike;
  #focusNext?: string;
  #inSight?: Element;

  /** Address of the picture, for an element that stands alone. */
  @property() src = '';

  /** The picture itself: a Blob or File, an ImageBitmap, ImageData, a canvas or an image; goes before `src`. */
  @property({ attribute: false }) picture: PictureLike | null = null;

  /** Paper in the printer: `A4` or `letter`; by the unit of lengths when it is not given. */
  @property({ reflect: true }) paper: SheetPaper | '' = '';

  /** Mirrored, for transfer from the back. */
  @property({ type: Boolean, reflect: true }) mirrored = false;

  /** Transfer squares of so many mm on the paper, 5 to 500; 0 for none. */
  @property({ type: Number, reflect: true }) squares = 0;

  /** Whether passages are drawn and told, each with its mix. */
  @property({ type: Boolean, reflect: true }) passages = false;

  /** Whether the last page is the plan's value card, to paint and to cut out. */
  @property({ type: Boolean, reflect: true }) card = false;

  /** What is drawn in the picture: some of `hatching outlines reserves strokes marks accents numbers`. All when it is not given. */
  @property({ reflect: true }) show: string | null = null;

  /** The pages as SVG texts, as far as they are made. */
  get pages(): readonly string[] {
    const { pages, paper } = this.#made.state;
    if (!this.card || !this.#work || pages.length === 0) return pages;
    return [...pages, this.#work.valueCardOf(this.store.plan, paper, this.#words)];
  }

  /** The order of work as it stands. */
  get steps(): readonly WorkStep[] {
    return this.acted ?? this.#made.state.steps;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.requestUpdate();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#made.leave();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    const focused = this.shadowRoot?.activeElement ?? undefined;
    this.#inSight = focused && inWindow(focused) ? focused : undefined;
    this.shown = Math.max(0, Math.min(this.shown, this.pages.length - 1));
  }

  protected override updated(changes: PropertyValues<this>): void {
    super.updated(changes);
    // Steps that are made anew above what has the focus do not push it out of the window.
    const held = this.#inSight;
    if (held?.isConnected && !inWindow(held)) held.scrollIntoView({ block: 'nearest' });
    if (changes.has('src') || changes.has('picture')) this.#begin();
    // After this update: what is asked for may be told at once.
    queueMicrotask(() => this.#ask());
    const next = this.#focusNext;
    this.#focusNext = undefined;
    if (next) this.renderRoot.querySelector<HTMLElement>(next)?.focus();
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    if (!event) this.acted = undefined;
    else if (event.plan.steps !== event.previous.steps && event.label !== 'steps')
      this.acted = undefined;
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    void this.#intake.tellFault(this.store.picture);
  }

  /** Prints all pages, and nothing else of the document. */
  print(): void {
    const { pages } = this;
    if (!this.#work || pages.length === 0) return;
    const { paper } = this.#made.state;
    this.heldBack = '';
    void this.#work.printPages(pages, paper, this.ownerDocument).then((begun) => {
      if (!begun) this.heldBack = 'printed.print-refused';
    });
  }

  override render(): TemplateResult {
    const say = this.#words;
    const { status } = this.store.picture;
    const { pages } = this.#made.state;
    return html`<div class="frame" part="frame">
      ${this.#intake.renderTrouble((reason) => this.tell(reason), say)}
      ${this.#intake.renderProgress(say)} ${this.#part.renderFailure(say)}
      ${
        this.#work && pages.length > 0
          ? html`<div class="work">
              ${this.#renderPreview(this.#work)} ${this.#renderOrder(this.#work)}
              ${this.#renderChoices()}
            </div>`
          : status === 'empty' || status === 'failed'
            ? this.#renderEmpty()
            : this.#work
              ? this.#renderComing()
              : html`<div class="room"></div>`
      }
    </div>`;
  }

  readonly #words = (key: string, values?: Record<string, string | number>): string =>
    this.say(key, values);

  #takeUp(work: typeof Work): void {
    const { printedWords, paintWords, tubesWords, unitsFilesWords, workStyles } = work;
    this.adopt({ ...unitsFilesWords, ...printedWords, ...paintWords, ...tubesWords }, workStyles);
    this.#work = work;
    this.#drag = new work.StepDrag(this);
  }

  #near(): void {
    void this.#part.fetch();
    this.#begin();
    this.#ask();
  }

  /** Opens what the page gives, once the element is near the viewport. */
  #begin(): void {
    if (!this.#viewport.near) return;
    const wanted = this.picture ?? this.src;
    if (!wanted || wanted === this.#begun) return;
    this.#begun = wanted;
    const keepPlan = this.store.picture.handle === undefined;
    if (typeof wanted === 'string') void this.#intake.load(wanted, keepPlan);
    else void this.#intake.take(wanted, undefined, keepPlan);
  }

  get #parts(): readonly PartName[] {
    if (this.show === null) return PARTS;
    const wanted = this.show.split(/[\s,]+/);
    return PARTS.filter((part) => wanted.includes(part));
  }

  get #printer(): SheetPaper {
    if (this.paper === 'A4' || this.paper === 'letter') return this.paper;
    return this.lengthUnit === 'in' ? 'letter' : 'A4';
  }

  #ask(): void {
    const work = this.#work;
    if (!work || !this.#viewport.near || !this.isConnected) return;
    this.#made.ask(() => {
      const parts = this.#parts;
      const show: SheetParts = {
        hatching: parts.includes('hatching'),
        outlines: parts.includes('outlines'),
        reserves: parts.includes('reserves'),
        arrows: parts.includes('strokes'),
        marks: parts.includes('marks'),
        accents: parts.includes('accents'),
        numbers: parts.includes('numbers'),
      };
      const options: PagesAsked = {
        paper: this.#printer,
        language: this.locale,
        strings: this.#strings(work),
        show,
        ...(this.mirrored ? { mirrored: true } : {}),
        ...(this.squares >= 5 && this.squares <= 500 ? { squaresMm: this.squares } : {}),
      };
      const { store, passages } = this;
      return { store, options, strokes: show.arrows, passages };
    });
  }

  /** The tubes that the recipes of the board name. */
  get #tubes(): string[] {
    const recipes = this.store.plan.board.swatches.flatMap(({ recipe }) => recipe ?? []);
    return [...new Set(recipes.flatMap(({ parts }) => parts.map(({ tube }) => tube)))];
  }

  #strings({ printedStrings, tubeName, TUBES }: typeof Work): Record<string, string> {
    const strings = printedStrings(this.#words);
    // Not only of tubes in recipes: cautions name others that last or whose data stand in.
    for (const id of new Set([...TUBES.map((tube) => tube.id), ...this.#tubes]))
      strings[`tube.${id}`] = tubeName(id, this.#words);
    return strings;
  }

  #told(): void {
    const { status, error } = this.#made.state;
    if (status === 'ready') {
      this.acted = undefined;
      const { handle } = this.store.picture;
      if (handle && handle !== this.#readyFor) {
        this.#readyFor = handle;
        void this.updateComplete.then(() => this.dispatchEvent(new ReadyEvent()));
      }
    }
    if (status === 'failed' && error)
      this.dispatchEvent(new KitErrorEvent(this.#faultWords(), error));
    this.requestUpdate();
  }

  #faultWords(): string {
    const { error } = this.#made.state;
    if (!error) return '';
    const own = this.say(error.code, error.values);
    const { message = error.code } = error.values;
    return own === error.code || error.code === 'RangeError' || error.code === 'TypeError'
      ? this.say('printed.failed', { message })
      : own;
  }

  // The page

  #renderEmpty(): TemplateResult {
    const say = this.#words;
    return html`<div class=${`empty${this.#intake.over ? ' over' : ''}`} part="empty">
      <p class="lead">${say('printed.empty')}</p>
      <p class="soft">${say('printed.empty-how')}</p>
      <div class="buttons bringing">${this.#intake.renderButtons(say)}</div>
    </div>`;
  }

  /** How far the work is, what went wrong, and the way on. */
  #renderStatus(): TemplateResult {
    const { status, stage, done } = this.#made.state;
    const say = this.#words;
    const again = html`<button type="button" data-again @click=${() => this.#made.again()}>
      ${say('printed.again')}
    </button>`;
    if (status === 'stopped') {
      const key = this.#made.state.pages.length > 0 ? 'stale' : 'stopped';
      return html`<div class="working"><span>${say(`printed.${key}`)}</span>${again}</div>`;
    }
    if (status === 'failed')
      return html`<div class="working" role="alert">
        <span>${this.#faultWords()}</span>${again}
      </div>`;
    if (status !== 'working') return html`<div class="working" part="progress"></div>`;
    const known = STAGES.includes(stage);
    return html`<div class="working" part="progress">
      <span class="soft"
        >${say('printed.working', { stage: say(known ? `printed.stage-${stage}` : 'printed.stage') })}</span
      >
      <progress aria-label=${say('printed.label')} max="1" .value=${done}></progress>
      <button type="button" class="quiet" data-stop @click=${() => this.#made.stop()}>
        ${icon('close')}<span>${say('printed.stop')}</span>
      </button>
    </div>`;
  }

  /** A blank page where the page will be, with the room that all of it takes, so that nothing moves when it comes. */
  #renderComing(): TemplateResult {
    const say = this.#words;
    return html`<div class="work">
      <div class="preview">
        <div class="buttons coming"></div>
        <p class="soft small">${say('printed.print-hint')}</p>
        <div class="mat">
          <div class=${`page blank ${this.#printer}`}>${this.#renderStatus()}</div>
        </div>
        <div class="pager coming"></div>
        <div class="status"></div>
      </div>
      <section class="order" aria-labelledby="order-title">
        <h3 id="order-title">${say('steps.label')}</h3>
        <p class="soft small">${say('steps.hint')}</p>
        <div class="pager coming"></div>
        <div class="steps coming"></div>
      </section>
      ${this.#renderChoices()}
    </div>`;
  }

  #renderPreview({ drawingOf }: typeof Work): TemplateResult {
    const { pages } = this;
    const { status } = this.#made.state;
    const say = this.#words;
    const page = pages[this.shown];
    if (this.#drawn?.page !== page)
      this.#drawn = { page, node: drawingOf(page, this.ownerDocument) };
    const of = { page: this.shown + 1, pages: pages.length };
    const kind =
      this.shown === 0 ? 'first' : this.shown < this.#made.state.pages.length ? 'more' : 'card';
    const what = say(`printed.page-${kind}`);
    return html`<section class="preview" part="preview" aria-label=${say('printed.label')}>
      <div class="buttons">
        <button type="button" part="print-button" data-print @click=${() => this.print()}>
          ${icon('note')}<span>${say('printed.print')}</span>
        </button>
        <button type="button" part="save-button" data-save @click=${() => this.#save([this.shown])}>
          ${icon('save')}<span>${say('printed.save')}</span>
        </button>
        ${
          pages.length > 1
            ? html`<button
                type="button"
                part="save-all-button"
                data-save-all
                @click=${() => this.#save(pages.map((_, i) => i))}
              >
                ${icon('save')}<span>${say('printed.save-all')}</span>
              </button>`
            : nothing
        }
      </div>
      <p class="soft small">${say('printed.print-hint')}</p>
      ${this.heldBack ? html`<p class="small" role="alert">${say(this.heldBack)}</p>` : nothing}
      <div class=${`mat${status === 'ready' ? '' : ' stale'}`} part="mat">
        <div
          class="page"
          part="page"
          role="img"
          aria-label=${say('printed.page-alt', { ...of, what })}
        >
          ${this.#drawn.node}
        </div>
      </div>
      ${
        pages.length > 1
          ? html`<div class="pager">
              <button
                type="button"
                data-before
                ?disabled=${this.shown === 0}
                @click=${() => this.#turn(this.shown - 1)}
              >
                ${say('printed.before')}
              </button>
              <span class="of">${say('printed.page', of)}</span>
              <button
                type="button"
                data-next
                ?disabled=${this.shown === pages.length - 1}
                @click=${() => this.#turn(this.shown + 1)}
              >
                ${say('printed.next')}
              </button>
            </div>`
          : nothing
      }
      <div class="status">${status === 'ready' ? nothing : this.#renderStatus()}</div>
    </section>`;
  }

  #turn(to: number): void {
    const { pages } = this;
    // The button that was pressed may now be off: the focus goes to the other one.
    const pressed = to < this.shown ? 'before' : 'next';
    this.shown = Math.min(pages.length - 1, Math.max(0, to));
    const off = pressed === 'before' ? this.shown === 0 : this.shown === pages.length - 1;
    if (off) this.#focusNext = pressed === 'before' ? '[data-next]' : '[data-before]';
    this.announce(this.say('printed.page', { page: this.shown + 1, pages: pages.length }));
  }

  #save(places: readonly number[]): void {
    const { pages } = this;
    const title = this.store.plan.title.replace(/[\\/:*?"<>|\s\u0000-\u001f]+/g, ' ').trim();
    const name = title.slice(0, 100) || this.say('page.untitled');
    for (const place of places) {
      const text = `<?xml version="1.0" encoding="UTF-8"?>\n${pages[place]}\n`;
      const file = new Blob([text], { type: 'image/svg+xml' });
      handOver(file, pages.length > 1 ? `${name} ${place + 1}.svg` : `${name}.svg`);
    }
    this.heldBack = walledOff() ? 'files.walled' : '';
    this.announce(this.say('printed.saved', { pages: places.length }));
  }

  // The order of work

  #renderOrder({ renderSteps }: typeof Work): TemplateResult {
    const say = this.#words;
    const { steps } = this;
    const done = steps.filter((step) => step.done).length;
    const wrong = steps.filter(({ warnings }) => warnings.length > 0).length;
    const moved = steps.some((step) => step.moved);
    return html`<section class="order" part="order" aria-labelledby="order-title">
      <h3 id="order-title">${say('steps.label')}</h3>
      <p class="soft small">${say('steps.hint')}</p>
      <div class="buttons">
        <button
          type="button"
          part="undo"
          data-undo
          ?disabled=${!this.store.canUndo}
          @click=${() => this.#back('undo')}
        >
          ${icon('undo')}<span>${say('steps.undo')}</span>
        </button>
        <button
          type="button"
          part="redo"
          data-redo
          ?disabled=${!this.store.canRedo}
          @click=${() => this.#back('redo')}
        >
          ${icon('redo')}<span>${say('steps.redo')}</span>
        </button>
        ${
          moved
            ? html`<button type="button" data-restore @click=${() => this.#restore()}>
                ${say('steps.restore')}
              </button>`
            : nothing
        }
      </div>
      <p class="small">
        ${say('steps.count', { done, steps: steps.length })}
        ${wrong > 0 ? say('steps.warnings', { count: wrong }) : nothing}
      </p>
      ${renderSteps({
        steps,
        plan: this.store.plan,
        drag: this.#drag?.now,
        say,
        lengthOf: (mm) => this.lengthOf(mm),
        tick: (id, ticked) => this.#tick(id, ticked),
        move: (id, to) => this.#move(id, to),
        grip: (event, id) => this.#drag?.down(event, id),
        point: (step) => this.#point(step),
      })}
    </section>`;
  }

  /** Shows where the masses of a step are, while its picture is in sight. */
  #point(step?: WorkStep): void {
    if (!this.#work || !this.#drawn || this.shown !== 0) return;
    const { crop = { x: 0, y: 0, width: 1, height: 1 } } = this.store.plan;
    this.#work.pointAt(this.#drawn.node, step?.at ?? [], crop, this.mirrored);
  }

  /** @internal A step was let go at a place. */
  dropped(id: string, to: number): void {
    this.#move(id, to);
  }

  #tick(id: string, done: boolean): void {
    this.#act(withStepDone(this.steps, id, done), done ? 'done' : 'not-done', id);
    const step = this.steps.find((each) => each.id === id);
    if (step)
      this.announce(
        this.say(done ? 'steps.ticked' : 'steps.unticked', {
          step: this.#stepName(step),
        }),
      );
  }

  #stepName(step: WorkStep): string {
    return this.#work?.stepName(step, this.store.plan, this.#words) ?? '';
  }

  #move(id: string, to: number): void {
    const { steps } = this;
    const from = steps.findIndex((step) => step.id === id);
    if (from < 0 || to < 0 || to >= steps.length || from === to) return;
    this.#act(withStepMoved(steps, id, to), 'move', id);
    // The list is drawn anew in another order: the focus goes with the step, to a button that is not off.
    const button =
      to < from ? (to === 0 ? 'later' : 'earlier') : to === steps.length - 1 ? 'earlier' : 'later';
    this.#focusNext = `[data-${button}="${CSS.escape(id)}"]`;
    this.announce(
      this.say('steps.moved', {
        step: this.#stepName(steps[from]),
        number: to + 1,
        steps: steps.length,
      }),
    );
  }

  #restore(): void {
    const steps = this.steps.map((step) => {
      const next = { ...step };
      delete next.moved;
      return next;
    });
    this.#act(steps, 'order');
    this.#focusNext = '[data-undo]';
    this.announce(this.say('steps.restored'));
  }

  #act(steps: readonly WorkStep[], what: StepAct, step = ''): void {
    this.acted = steps;
    this.store.change('steps', (plan) => ({ ...plan, steps: steps.map(keptPart) }));
    this.dispatchEvent(new StepChangeEvent(this.steps, what, step));
  }

  #back(what: 'undo' | 'redo'): void {
    if (what === 'undo' ? !this.store.canUndo : !this.store.canRedo) return;
    if (what === 'undo') this.store.undo();
    else this.store.redo();
    const off = what === 'undo' ? !this.store.canUndo : !this.store.canRedo;
    if (off) this.#focusNext = what === 'undo' ? '[data-redo]' : '[data-undo]';
    this.dispatchEvent(new StepChangeEvent(this.steps, what));
    this.announce(this.say(what === 'undo' ? 'steps.undone' : 'steps.redone'));
  }

  // What is printed

  #renderChoices(): TemplateResult {
    const say = this.#words;
    const parts = this.#parts;
    const squares = [...new Set([...SQUARES, ...(this.squares > 0 ? [this.squares] : [])])].sort(
      (a, b) => a - b,
    );
    return html`<section class="choices" part="choices" aria-labelledby="choices-title">
      <h3 id="choices-title">${say('printed.choices')}</h3>
      <div class="field">
        <span id="paper-label">${say('printed.paper')}</span>
        <div class="segments" role="group" aria-labelledby="paper-label">
          ${(['A4', 'letter'] as const).map(
            (paper) =>
              html`<button
                type="button"
                data-paper=${paper}
                aria-pressed=${this.#printer === paper ? 'true' : 'false'}
                @click=${() => (this.paper = paper)}
              >
                ${say(`printed.paper-${paper}`)}
              </button>`,
          )}
        </div>
      </div>
      <label class="check">
        <input
          type="checkbox"
          data-mirrored
          .checked=${this.mirrored}
          @change=${(event: Event) => (this.mirrored = (event.target as HTMLInputElement).checked)}
        />
        <span>${say('printed.mirrored')}</span>
      </label>
      <label class="check">
        <input
          type="checkbox"
          data-passages
          .checked=${this.passages}
          @change=${(event: Event) => (this.passages = (event.target as HTMLInputElement).checked)}
        />
        <span>${say('printed.passages')}</span>
      </label>
      <label class="check">
        <input
          type="checkbox"
          data-card
          .checked=${this.card}
          @change=${(event: Event) => (this.card = (event.target as HTMLInputElement).checked)}
        />
        <span>${say('printed.card')}</span>
      </label>
      <label class="field">
        <span>${say('printed.squares')}</span>
        <select
          data-squares
          @change=${(event: Event) =>
            (this.squares = Number((event.target as HTMLSelectElement).value))}
        >
          <option value="0" ?selected=${this.squares === 0}>${say('printed.squares-none')}</option>
          ${squares.map(
            (mm) =>
              html`<option value=${mm} ?selected=${this.squares === mm}>
                ${say('printed.squares-of', { length: this.lengthOf(mm) })}
              </option>`,
          )}
        </select>
      </label>
      <fieldset>
        <legend>${say('printed.show')}</legend>
        ${PARTS.map(
          (part) =>
            html`<label class="check">
              <input
                type="checkbox"
                data-show=${part}
                .checked=${parts.includes(part)}
                @change=${(event: Event) =>
                  this.#choose(part, (event.target as HTMLInputElement).checked)}
              />
              <span>${say(`printed.show-${part}`)}</span>
            </label>`,
        )}
      </fieldset>
    </section>`;
  }

  #choose(part: PartName, wanted: boolean): void {
    const parts = PARTS.filter((each) => (each === part ? wanted : this.#parts.includes(each)));
    this.show = parts.length === PARTS.length ? null : parts.join(' ');
  }
}

/** Whether all of an element lies between the upper and the lower edge of the window. */
function inWindow(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= element.ownerDocument.documentElement.clientHeight;
}

/** What of a step is kept with the plan: what is found about it at its place is found anew. */
function keptPart(step: WorkStep): Step {
  const {
    soft: _soft,
    session: _session,
    waits: _waits,
    hints: _hints,
    warnings: _warnings,
    passages: _passages,
    ...kept
  } = step;
  return kept;
}

declare global {
  interface HTMLElementTagNameMap {
    'plan-sheet': PlanSheet;
  }
}
