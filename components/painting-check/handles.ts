import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Spot } from '../shared/core.js';
import { put } from '../shared/put.js';
import type { Say } from '../shared/usual-bands.js';
import { clamped } from './geometry.js';

/** Something on a picture that is moved by hand. */
export interface Handle {
  id: string;
  /** Fractions of the picture. */
  at: Spot;
  name: string;
  kind: 'corner' | 'ring' | 'mark';
  /** What is written on it. */
  sign?: string;
}

/** A step of the arrow keys, in fractions of the picture; with Shift the larger one. */
const SMALL = 0.0025;
const LARGE = 0.02;

/**
 * Handles over a picture, whose parent is as large as the picture: dragged by mouse, pen and finger, moved by arrow keys.
 * @param moved - called while one is moved; `end` with the last call of a drag.
 */
export function renderHandles(
  handles: readonly Handle[],
  say: Say,
  moved: (id: string, to: Spot, end: boolean) => void,
  held: (id: string | undefined) => void = () => undefined,
): TemplateResult {
  return html`${repeat(
    handles,
    ({ id }) => id,
    ({ id, at, name, kind, sign = '' }) => {
      const onKey = (event: KeyboardEvent): void => {
        const step = event.shiftKey ? LARGE : SMALL;
        const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[
          event.key
        ];
        if (!way) return;
        event.preventDefault();
        moved(id, [clamped(at[0] + way[0] * step), clamped(at[1] + way[1] * step)], true);
      };
      const onDown = (event: PointerEvent): void => {
        if (event.button !== 0) return;
        const button = event.currentTarget as HTMLElement;
        const rect = button.parentElement!.getBoundingClientRect();
        const grab: Spot = [
          event.clientX - rect.left - at[0] * rect.width,
          event.clientY - rect.top - at[1] * rect.height,
        ];
        button.setPointerCapture(event.pointerId);
        held(id);
        const placeOf = (move: PointerEvent): Spot => [
          clamped((move.clientX - rect.left - grab[0]) / rect.width),
          clamped((move.clientY - rect.top - grab[1]) / rect.height),
        ];
        const onMove = (move: PointerEvent): void => moved(id, placeOf(move), false);
        const onUp = (move: PointerEvent): void => {
          button.removeEventListener('pointermove', onMove);
          button.removeEventListener('pointerup', onUp);
          button.removeEventListener('pointercancel', onUp);
          if (move.type === 'pointerup') moved(id, placeOf(move), true);
          held(undefined);
        };
        button.addEventListener('pointermove', onMove);
        button.addEventListener('pointerup', onUp);
        button.addEventListener('pointercancel', onUp);
      };
      // By Enter or the space bar: it lies right where it is.
      const onClick = (event: MouseEvent): void => {
        if (event.detail === 0) moved(id, at, true);
      };
      return html`<button
        type="button"
        class="handle ${kind}"
        part="handle"
        data-handle=${id}
        aria-label=${say('checking.placed', { name, x: Math.round(100 * at[0]), y: Math.round(100 * at[1]) })}
        @keydown=${onKey}
        @click=${onClick}
        @pointerdown=${onDown}
        @focus=${() => held(id)}
        @blur=${() => held(undefined)}
        ${put({ '--_x': `${100 * at[0]}%`, '--_y': `${100 * at[1]}%` })}
      >
        <span class="knob" aria-hidden="true"></span
        >${sign ? html`<span class="sign" aria-hidden="true">${sign}</span>` : nothing}
      </button>`;
    },
  )}`;
}
