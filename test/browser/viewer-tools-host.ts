/** A bare host for the viewer's tools: a stage of known size, the photo on it whole, and the panel below. */
import { css, html, nothing, svg, type TemplateResult } from 'lit';
import type {
  StageTool,
  StageView,
  ToolHost,
} from '../../components/value-band-viewer/stage-tool.js';
import {
  makeTools,
  toolsStyles,
  toolsWords,
} from '../../components/value-band-viewer/tools/index.js';
import { pictureWords } from '../../components/shared/words/picture.js';
import { controls, tokens } from '../../components/shared/tokens.js';
import { TonewellElement } from '../../components/shared/tonewell-element.js';
import { type Reason, type Spot } from '../../components/shared/core.js';

export class ToolsHost extends TonewellElement implements ToolHost {
  static override readonly tag = 'tools-host';
  static override readonly words = { ...pictureWords, ...toolsWords };
  static override styles = [
    tokens,
    controls,
    toolsStyles,
    css`
      :host {
        background: var(--_paper);
      }
      .stage {
        position: relative;
        inline-size: 100%;
        max-inline-size: 600px;
        direction: ltr;
        background: var(--_surround);
        touch-action: none;
      }
      .stage > canvas,
      .stage > svg {
        position: absolute;
        inset: 0;
        inline-size: 100%;
        block-size: 100%;
      }
      .stage > .sizer {
        position: static;
        display: block;
        block-size: auto;
      }
      .panel {
        padding: 16px;
      }
    `,
  ];

  readonly tools: StageTool[] = makeTools(this);
  tool?: StageTool;
  /** What was said aloud, in order. */
  readonly said: string[] = [];

  words(key: string, values: Readonly<Record<string, string | number>> = {}): string {
    return this.say(key, values);
  }

  sentenceOf(reason: Reason): string {
    return this.tell(reason);
  }

  speak(text: string): void {
    this.said.push(text);
    this.announce(text);
  }

  takeUp(name: string | null): void {
    this.tool?.laidDown?.();
    this.tool = this.tools.find((tool) => tool.name === name);
    this.tool?.takenUp?.();
    this.requestUpdate();
  }

  get stage(): HTMLElement {
    return this.renderRoot.querySelector('.stage')!;
  }

  get view(): StageView {
    const rect = this.stage.getBoundingClientRect();
    const { width, height } = rect;
    return {
      width,
      height,
      toPhoto: (x, y): Spot => [(x - rect.left) / width, (y - rect.top) / height],
      toStage: ([x, y]) => [x * width, y * height],
      toStageLength: (fraction) => fraction * Math.max(width, height),
    };
  }

  override updated(): void {
    const canvas = this.renderRoot.querySelector<HTMLCanvasElement>('canvas.sizer');
    const { preview } = this.store.picture.handle ?? {};
    if (canvas && preview?.bitmap?.width)
      canvas.getContext('2d')!.drawImage(preview.bitmap, 0, 0, canvas.width, canvas.height);
    // The overlay needs the stage's size, which is known only once the stage is there.
    if (canvas && !this.#sized) {
      this.#sized = true;
      this.requestUpdate();
    }
  }
  #sized = false;

  override render(): TemplateResult {
    const { handle } = this.store.picture;
    const { tool } = this;
    return html`<div
        class="stage"
        tabindex="0"
        @pointerdown=${(e: PointerEvent) => tool?.pointerDown?.(e, this.view)}
        @pointermove=${(e: PointerEvent) => tool?.pointerMove?.(e, this.view)}
        @pointerup=${(e: PointerEvent) => tool?.pointerUp?.(e, this.view)}
        @pointercancel=${(e: PointerEvent) => tool?.pointerUp?.(e, this.view)}
        @keydown=${(e: KeyboardEvent) => tool?.keyDown?.(e, this.view) && e.preventDefault()}
      >
        ${handle ? html`<canvas class="sizer" width=${handle.width} height=${handle.height}></canvas>` : nothing}
        <svg>${handle && this.#sized ? (tool?.renderOverlay?.(this.view) ?? svg``) : nothing}</svg>
      </div>
      <div class="panel">${tool?.renderPanel?.() ?? nothing}</div>`;
  }
}
ToolsHost.define();
