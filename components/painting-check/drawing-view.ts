import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { DrawingCheck, Spot } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import type { Desk } from './desk.js';
import { clamped, inPainting, onPhoto } from './geometry.js';
import { renderHandles, type Handle } from './handles.js';
import type { Mark } from './landmarks.js';

/** Landmarks on photo and painting, how far the one lies from the other, and what that says of the drawing. */
export function renderDrawing(desk: Desk): TemplateResult | typeof nothing {
  const { made, say, landmarks, drawing } = desk;
  if (!made) return nothing;
  const { marks } = landmarks;
  const { corners } = made.report;
  const ratio = put({ '--_ratio': String(desk.aspect) });
  const handlesOf = (at: (mark: Mark) => Spot, where: string): Handle[] =>
    marks.map((mark, i) => ({
      id: mark.id,
      at: at(mark),
      name: `${mark.name}, ${where}`,
      kind: 'mark',
      sign: String(i + 1),
    }));
  const place = (event: MouseEvent): void => {
    if ((event.target as HTMLElement).closest('.handle')) return;
    const rect = (event.currentTarget as HTMLElement).getBoundingClientRect();
    landmarks.add([
      clamped((event.clientX - rect.left) / rect.width),
      clamped((event.clientY - rect.top) / rect.height),
    ]);
  };
  const seen = ({ planned, painted }: Mark): Spot =>
    painted ? inPainting(corners, painted) : planned;
  return html`<div class="drawing" part="drawing">
    <p class="soft">${say('checking.drawing-hint')}</p>
    <div class="pair">
      <figure>
        <figcaption>${say('checking.drawing-photo')}</figcaption>
        <div
          class="stage"
          part="stage"
          data-stage="planned"
          role="group"
          aria-label=${say('checking.drawing-photo')}
          @pointerup=${place}
          ${ratio}
        >
          <canvas
            data-canvas="planned"
            role="img"
            aria-label=${say('checking.drawing-photo')}
          ></canvas>
          ${renderHandles(
            handlesOf(({ planned }) => planned, say('checking.drawing-photo')),
            say,
            (id, planned, end) => landmarks.plan(id, planned, end),
          )}
        </div>
      </figure>
      <figure>
        <figcaption>${say('checking.drawing-painting')}</figcaption>
        <div
          class="stage"
          part="stage"
          data-stage="painting"
          role="group"
          aria-label=${say('checking.drawing-painting')}
          ${ratio}
        >
          <canvas
            data-canvas="painting"
            role="img"
            aria-label=${say('checking.drawing-painting')}
          ></canvas>
          <svg
            class="over"
            viewBox="0 0 ${1000 * desk.aspect} 1000"
            preserveAspectRatio="none"
            aria-hidden="true"
          >
            ${drawing ? arrows(desk, drawing, seen) : nothing}
          </svg>
          ${renderHandles(handlesOf(seen, say('checking.drawing-painting')), say, (id, spot) => {
            landmarks.paint(id, onPhoto(corners, spot));
            desk.host.requestUpdate();
          })}
        </div>
      </figure>
    </div>
    <div class="buttons">
      <button type="button" data-add @click=${() => landmarks.add([0.5, 0.5])}>
        ${icon('plus')}<span>${say('checking.drawing-add')}</span>
      </button>
    </div>
    ${drawing ? renderSum(desk, drawing) : nothing}
    ${marks.length > 0 ? renderMarks(desk, drawing) : nothing}
  </div>`;
}

/** From where each landmark was planned to where it came to lie. */
function arrows(desk: Desk, { displacements }: DrawingCheck, seen: (mark: Mark) => Spot) {
  const { widthMm, heightMm } = desk.made!.plan.paper;
  return displacements.map(({ name, x, y, distance }): SVGTemplateResult | typeof nothing => {
    const mark = desk.landmarks.marks.find(({ id }) => id === name);
    if (!mark) return nothing;
    const [hx, hy] = seen(mark);
    const wide = 1000 * desk.aspect;
    const [tx, ty] = [(hx - x / widthMm) * wide, (hy - y / heightMm) * 1000];
    const [ex, ey] = [hx * wide, hy * 1000];
    const long = Math.hypot(ex - tx, ey - ty);
    if (distance < 0.1 || long < 1) return nothing;
    const angle = Math.atan2(ey - ty, ex - tx);
    const size = Math.min(16, long * 0.5);
    const barb = (turn: number): string =>
      `${(ex - size * Math.cos(angle + turn)).toFixed(1)} ${(ey - size * Math.sin(angle + turn)).toFixed(1)}`;
    const d = `M${tx.toFixed(1)} ${ty.toFixed(1)}L${ex.toFixed(1)} ${ey.toFixed(1)}M${barb(0.45)}L${ex.toFixed(1)} ${ey.toFixed(1)}L${barb(-0.45)}`;
    return svg`<path class="line-under strong" d=${d}/><path class="line strong" d=${d}/>`;
  });
}

/** How far the landmarks lie off, and what of it is the whole drawing's. */
function renderSum(desk: Desk, drawing: DrawingCheck): TemplateResult {
  const { say, host } = desk;
  const { displacements, spread, shift, turn, scale } = drawing;
  const length = (mm: number): string => host.lengthOf(Math.abs(mm));
  return html`<p class="lead">
      ${say(displacements.length > 2 ? 'checking.drawing-sum' : 'checking.drawing-few', {
        count: displacements.length,
        far: length(Math.max(...displacements.map(({ distance }) => distance))),
        spread: length(spread),
      })}
    </p>
    ${
      displacements.length > 2
        ? html`<p class="soft">
            ${say('checking.drawing-whole', {
              shift: length(Math.hypot(...shift)),
              turn,
              scale: 100 * scale,
            })}
          </p>`
        : nothing
    }`;
}

/** The landmarks, farthest within the drawing first, those without a twin last. */
function renderMarks(desk: Desk, drawing: DrawingCheck | undefined): TemplateResult {
  const { say, host, landmarks } = desk;
  const { marks } = landmarks;
  const length = (mm: number): string => host.lengthOf(Math.abs(mm));
  const found = drawing?.displacements ?? [];
  const order = [
    ...found.map(({ name }) => name),
    ...marks.filter(({ painted }) => !painted).map(({ id }) => id),
  ];
  const told = (id: string): unknown => {
    const off = found.find(({ name }) => name === id);
    if (!off) return html`<span class="soft">${say('checking.drawing-open')}</span>`;
    const { x, y, distance, within } = off;
    const sentence = say('checking.drawing-off', {
      distance: length(distance),
      sideways: say(x < 0 ? 'checking.drawing-left' : 'checking.drawing-right', {
        length: length(x),
      }),
      upright: say(y < 0 ? 'checking.drawing-up' : 'checking.drawing-down', { length: length(y) }),
    });
    return found.length > 2
      ? html`${sentence}.
          <span class="soft">${say('checking.drawing-within', { within: length(within) })}</span>`
      : html`${sentence}.`;
  };
  return html`<ul class="list marks">
      ${repeat(
        order,
        (id) => id,
        (id) => {
          const i = marks.findIndex((mark) => mark.id === id);
          const { name } = marks[i];
          return html`<li class="mark" data-mark=${id}>
            <span class="number">${i + 1}</span>
            <label class="field">
              <span>${say('checking.drawing-name')}</span>
              <input
                type="text"
                maxlength="60"
                .value=${name}
                @change=${(event: Event) =>
                  landmarks.rename(id, (event.target as HTMLInputElement).value)}
              />
            </label>
            <p data-off>${told(id)}</p>
            <button type="button" class="quiet" @click=${() => landmarks.remove(id)}>
              ${icon('close')}<span>${say('checking.drawing-remove', { name })}</span>
            </button>
          </li>`;
        },
      )}
    </ul>
    <p class="soft small">${say('checking.drawing-too-late')}</p>`;
}
