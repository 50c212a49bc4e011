import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { icon } from '../shared/icons.js';
import { feetOf } from '../shared/measure.js';
import { recipeInWords } from '../shared/paint-words.js';
import { put } from '../shared/put.js';
import { AFAR, type Made } from './checking.js';
import type { Desk } from './desk.js';
import { findingsOf, type Finding, type Found } from './findings.js';
import { thirdOf } from './geometry.js';
import { greyOf } from './greys.js';
import { reservesIn } from './planned.js';
import { stepsOf, valueOf } from './sentences.js';

/** So many masses and edges are listed at first. */
const MASSES = 8;
const EDGES = 3;
/** Reasons whose sentence the head of a finding says already. */
const SAID = new Set([
  'check.too-light',
  'check.too-dark',
  'check.small-step',
  'check.island-lighter',
  'check.island-darker',
]);
/** A difference below this is called a touch, L*. */
const TOUCH = 4;

/** The painting with what is off, and the list: drawing, reserves, masses, islands, edges, from afar. */
export function renderFindings(desk: Desk): TemplateResult | typeof nothing {
  const { made, say } = desk;
  if (!made) return nothing;
  if (desk.refused) return renderRefused(desk, made);
  const found = findingsOf(made);
  return html`<div class="two">
    ${renderPicture(desk, made, found)}
    <section class="findings" part="findings">
      ${renderHead(desk, made)} ${renderLight(desk, made)} ${renderDrawingPart(desk)}
      ${part(
        desk,
        'reserves',
        html`${renderList(desk, found.reserves)}
        ${
          found.reserves.length === 0
            ? html`<p class="soft">
                ${say(hasReserves(made) ? 'checking.reserves-kept' : 'checking.reserves-none')}
              </p>`
            : nothing
        }`,
      )}
      ${part(desk, 'masses', renderMasses(desk, made, found))}
      ${part(
        desk,
        'islands',
        found.islands.length > 0
          ? renderList(desk, found.islands)
          : html`<p class="soft">${say('checking.islands-none')}</p>`,
      )}
      ${
        found.passages.length > 0
          ? part(desk, 'passages', renderList(desk, found.passages.slice(0, MASSES)))
          : nothing
      }
      ${part(desk, 'edges', renderEdges(desk, made, found))}
      ${part(desk, 'afar', renderAfar(desk, made))} ${renderKeep(desk)}
    </section>
  </div>`;
}

const hasReserves = ({ masses, steps }: Made): boolean => reservesIn(masses, steps).length > 0;

function part(desk: Desk, name: string, body: unknown): TemplateResult {
  return html`<section class="part" data-part=${name}>
    <h3>${desk.say(`checking.part-${name}`)}</h3>
    ${body}
  </section>`;
}

/** Why there are no findings, and what to do. */
function renderRefused(desk: Desk, made: Made): TemplateResult {
  const { say } = desk;
  return html`<div class="two">
    <section class="seen">
      <div class="stage" part="stage" ${put({ '--_ratio': String(desk.aspect) })}>
        <canvas
          data-canvas="painting"
          role="img"
          aria-label=${say('checking.picture-alt')}
        ></canvas>
      </div>
    </section>
    <section class="findings" part="findings" data-refused>
      <p class="lead">${say('checking.refused')}</p>
      ${made.report.warnings.map(
        (warning) =>
          html`<p class="warning" part="warning" data-code=${warning.code}>
            ${desk.tell(warning)}
          </p>`,
      )}
      <p class="soft">${say('checking.refused-kept')}</p>
      <div class="buttons">
        <button type="button" data-back @click=${() => desk.show('photo')}>
          ${say('checking.view-photo')}
        </button>
        <button type="button" class="quiet" data-anyway @click=${() => desk.set({ anyway: true })}>
          ${say('checking.show-anyway')}
        </button>
      </div>
    </section>
  </div>`;
}

function renderHead(desk: Desk, made: Made): TemplateResult {
  const { say } = desk;
  const [first, ...rest] = made.report.summary;
  return html`<div class="head">
    <p class="lead">${desk.tell(first)}</p>
    ${rest.map((finding) => html`<p class="soft">${desk.tell(finding)}</p>`)}
    ${
      desk.stale
        ? html`<div class="working">
            <span class="soft">${say('checking.stale')}</span>
            <button type="button" data-check @click=${() => desk.check(true)}>
              ${say('checking.check-again')}
            </button>
          </div>`
        : nothing
    }
    ${desk.renderStatus()}
  </div>`;
}

function renderLight(desk: Desk, made: Made): TemplateResult | typeof nothing {
  const { warnings } = made.report;
  if (warnings.length === 0) return nothing;
  return part(
    desk,
    'light',
    warnings.map(
      (warning) =>
        html`<p class="warning" part="warning" data-code=${warning.code}>${desk.tell(warning)}</p>`,
    ),
  );
}

function renderDrawingPart(desk: Desk): TemplateResult {
  const { say, drawing, host } = desk;
  const body = drawing
    ? html`<p>
          ${say(
            drawing.displacements.length > 2 ? 'checking.drawing-sum' : 'checking.drawing-few',
            {
              count: drawing.displacements.length,
              far: host.lengthOf(
                Math.max(...drawing.displacements.map(({ distance }) => distance)),
              ),
              spread: host.lengthOf(drawing.spread),
            },
          )}
        </p>
        <button type="button" @click=${() => desk.show('drawing')}>
          ${say('checking.view-drawing')}
        </button>`
    : html`<p class="soft">${say('checking.drawing-none')}</p>
        <button type="button" data-landmarks @click=${() => desk.show('drawing')}>
          ${say('checking.drawing-set')}
        </button>`;
  return part(desk, 'drawing', body);
}

function renderMasses(desk: Desk, made: Made, { masses, left, shaded }: Found): TemplateResult {
  const { say } = desk;
  const { toCome } = made.report.comparison;
  const shown = desk.allMasses ? masses : masses.slice(0, MASSES);
  return html`${
      masses.length === 0
        ? html`<p class="soft">${say('checking.masses-none')}</p>`
        : html`<p class="soft small">${say('checking.masses-hint')}</p>`
    }
    ${renderList(desk, shown)}
    <div class="buttons">
      ${
        masses.length > shown.length
          ? html`<button type="button" data-more @click=${() => desk.set({ allMasses: true })}>
              ${say('checking.masses-more', { count: masses.length - shown.length })}
            </button>`
          : nothing
      }
      ${
        masses.length > 0
          ? html`<button
              type="button"
              data-figures
              aria-pressed=${desk.figures ? 'true' : 'false'}
              @click=${() => desk.set({ figures: !desk.figures })}
            >
              ${say('checking.figures')}
            </button>`
          : nothing
      }
    </div>
    ${
      toCome.length > 0
        ? html`<p class="soft" data-to-come>
            ${say('checking.to-come', { count: toCome.length })}
          </p>`
        : nothing
    }
    ${left > 0 ? html`<p class="soft">${say('checking.leave-count', { count: left })}</p>` : nothing}
    ${
      shaded > 0
        ? html`<p class="soft" data-shaded>${say('checking.shaded-count', { count: shaded })}</p>`
        : nothing
    }`;
}

function renderEdges(desk: Desk, made: Made, { edges }: Found): TemplateResult {
  const { say } = desk;
  const isBlurred = made.report.warnings.some(({ code }) => code === 'check.blur');
  if (isBlurred && edges.length === 0)
    return html`<p class="soft">${say('checking.edges-blurred')}</p>`;
  if (edges.length === 0) return html`<p class="soft">${say('checking.edges-none')}</p>`;
  const shown = desk.allEdges ? edges : edges.slice(0, EDGES);
  return html`${renderList(desk, shown)}
  ${
    edges.length > shown.length
      ? html`<div class="buttons">
          <button type="button" @click=${() => desk.set({ allEdges: true })}>
            ${say('checking.edges-more', { count: edges.length - shown.length })}
          </button>
        </div>`
      : nothing
  }`;
}

function renderList(desk: Desk, findings: readonly Finding[]): TemplateResult | typeof nothing {
  if (findings.length === 0) return nothing;
  return html`<ul class="list">
    ${repeat(
      findings,
      ({ id }) => id,
      (finding) => renderFinding(desk, finding),
    )}
  </ul>`;
}

/** Where it is, in words. */
export function whereOf(desk: Desk, { regions, at, kind }: Finding): string {
  const { say, made } = desk;
  const { masses, plan } = made!;
  const nameOf = (region: number): string => {
    const { band } = masses.regions[region];
    return plan.board.bands[band]?.name || say('checking.bare');
  };
  if (kind === 'edge') {
    const [one, other] = regions.map(nameOf);
    return say('checking.between', { one, other });
  }
  return say('checking.where', {
    band: nameOf(regions[0]),
    place: say(`checking.place-${thirdOf(at, masses.map)}`),
  });
}

function renderFinding(desk: Desk, finding: Finding): TemplateResult {
  const { say, made, host } = desk;
  const { id, kind, number, shift, target, size, act, reasons, mix } = finding;
  const { pxPerMm } = made!;
  const selected = desk.selected === id;
  const where = whereOf(desk, finding);
  const painted = target - shift;
  const steps = stepsOf(shift);
  const off =
    kind === 'edge'
      ? say('checking.edge-long', { length: host.lengthOf(Math.round(size / pxPerMm)) })
      : Math.abs(shift) < TOUCH
        ? say(shift < 0 ? 'checking.a-little-light' : 'checking.a-little-dark')
        : say(shift < 0 ? 'checking.too-light' : 'checking.too-dark', { steps });
  const cm2 = size / (pxPerMm * pxPerMm) / 100;
  const area =
    host.lengthUnit === 'in'
      ? say('checking.area-in', { area: cm2 / 6.4516 })
      : say('checking.area-mm', { area: cm2 });
  const told = reasons.filter(({ code }) => !SAID.has(code)).map((reason) => desk.tell(reason));
  const toned = kind !== 'edge' && kind !== 'passage';
  const how = kind === 'edge' ? say(`checking.${act}-how`) : '';
  return html`<li
    class=${`finding${selected ? ' selected' : ''}`}
    part="correction"
    data-finding=${id}
    data-act=${act}
  >
    <button
      type="button"
      class="place"
      aria-pressed=${selected ? 'true' : 'false'}
      @click=${() => desk.select(id, where)}
    >
      ${number === undefined ? icon('cut') : html`<span class="number">${number}</span>`}
      <span class="where">${where}</span>
      ${
        !toned
          ? nothing
          : html`<span class="tones" aria-hidden="true">
              <span class="tone" ${put({ '--_tone': greyOf(target) })}></span>
              <span class="tone" ${put({ '--_tone': greyOf(painted) })}></span>
            </span>`
      }
    </button>
    ${
      kind === 'passage'
        ? nothing
        : html`<p class="off">
            <span>${off}</span>${toned ? html`<span class="soft">${area}</span>` : nothing}
          </p>`
    }
    ${
      !toned
        ? nothing
        : html`<p class="soft small">
            ${say('checking.planned-painted', { planned: valueOf(target), painted: valueOf(painted) })}
            ${desk.figures ? html`<br />${say('checking.lstar', { painted, planned: target, shift })}` : nothing}
          </p>`
    }
    <div class="advice" part="advice">
      <strong>${say(`checking.do-${act}`)}</strong>
      ${
        mix
          ? html`<span class="mix">
              <span class="dab" ${put({ '--_tone': mix.css })} aria-hidden="true"></span>
              <span
                >${say('checking.mix', { recipe: recipeInWords({ parts: mix.parts, strength: mix.strength }, say) })}</span
              >
            </span>`
          : nothing
      }
      ${[...told, how].filter(Boolean).map((sentence) => html`<p>${sentence}</p>`)}
    </div>
  </li>`;
}

function renderAfar(desk: Desk, made: Made): TemplateResult {
  const { say, host } = desk;
  const { afar } = made.report;
  const reads = say(AFAR[afar.reads], { similarity: Math.round(100 * afar.similarity) });
  return html`<p>
      ${say('checking.afar', { distance: distanceOf(desk, made.asked.distance), reads })}
    </p>
    <label class="field">
      <span>${say('checking.distance')}: ${distanceOf(desk, host.distance)}</span>
      <input
        type="range"
        min="0.5"
        max="10"
        step="0.5"
        data-distance
        .value=${String(host.distance)}
        aria-valuetext=${distanceOf(desk, host.distance)}
        @input=${(event: Event) => {
          host.distance = Number((event.target as HTMLInputElement).value);
          desk.set({ far: true });
        }}
        @change=${() => desk.stepBack()}
      />
    </label>`;
}

const distanceOf = ({ say, host }: Desk, metres: number): string =>
  host.lengthUnit === 'in'
    ? say('checking.feet', { feet: feetOf(metres) })
    : say('checking.metres', { metres });

function renderKeep(desk: Desk): TemplateResult {
  const { say, made, keptOf } = desk;
  if (keptOf === made)
    return html`<p class="soft keep" part="keep">
      ${say(desk.done ? 'checking.kept' : 'checking.kept-already')}
    </p>`;
  return html`<section class="keep" part="keep">
    <label class="field">
      <span>${say('checking.keep-note')}</span>
      <textarea
        rows="2"
        maxlength="2000"
        data-note
        .value=${desk.note}
        @input=${(event: Event) => (desk.note = (event.target as HTMLTextAreaElement).value)}
      ></textarea>
    </label>
    <p class="soft small">${say('checking.keep-hint')}</p>
    <div class="buttons">
      <button type="button" class="main" data-keep @click=${() => desk.keep()}>
        ${icon('save')}<span>${say('checking.keep')}</span>
      </button>
    </div>
  </section>`;
}

// The picture

function renderPicture(desk: Desk, made: Made, found: Found): TemplateResult {
  const { say, bands } = desk;
  const { width, height } = made.masses.map;
  const numbered = [
    ...found.reserves,
    ...shownMasses(desk, found),
    ...found.islands,
    ...found.passages.slice(0, MASSES),
  ];
  const onPress = (event: MouseEvent): void => {
    const rect = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const x = Math.floor(((event.clientX - rect.left) / rect.width) * width);
    const y = Math.floor(((event.clientY - rect.top) / rect.height) * height);
    const region = made.masses.labels[y * width + x];
    const hit = [...found.reserves, ...found.masses].find(({ regions }) => regions[0] === region);
    if (hit) desk.select(hit.id, whereOf(desk, hit));
  };
  const percent = Math.round(100 * desk.lifted);
  return html`<section class="seen follows">
    <div
      class="stage"
      part="stage"
      data-stage="findings"
      ${put({ '--_ratio': String(width / height) })}
      @pointerup=${onPress}
    >
      <canvas data-canvas="findings" role="img" aria-label=${say('checking.picture-alt')}></canvas>
      ${
        desk.traced
          ? html`<svg
                class="over"
                viewBox="0 0 ${width} ${height}"
                preserveAspectRatio="none"
                aria-hidden="true"
              >
                ${tracing(desk, made, numbered)}
              </svg>
              ${numbered.map(
                ({ id, number, at }) =>
                  html`<span
                    class=${`tag${desk.selected === id ? ' selected' : ''}`}
                    aria-hidden="true"
                    ${put({ '--_x': `${(100 * at[0]) / width}%`, '--_y': `${(100 * at[1]) / height}%` })}
                    >${number}</span
                  >`,
              )}`
          : nothing
      }
    </div>
    <div class="looks">
      <div class="segments" role="group" aria-label=${say('checking.look')}>
        ${[false, true].map(
          (each) =>
            html`<button
              type="button"
              data-look=${each ? 'bands' : 'colour'}
              aria-pressed=${bands === each ? 'true' : 'false'}
              @click=${() => desk.set({ bands: each })}
            >
              ${say(each ? 'checking.look-bands' : 'checking.look-colour')}
            </button>`,
        )}
      </div>
      <button
        type="button"
        data-far
        aria-pressed=${desk.far ? 'true' : 'false'}
        @click=${() => desk.set({ far: !desk.far })}
      >
        ${icon('eye')}<span>${say('checking.step-back')}</span>
      </button>
      <button
        type="button"
        data-traced
        aria-pressed=${desk.traced ? 'true' : 'false'}
        @click=${() => desk.set({ traced: !desk.traced })}
      >
        ${icon('tracing')}<span>${say('checking.tracing')}</span>
      </button>
    </div>
    <label class="field">
      <span
        >${say('checking.lift')}.
        ${say(bands ? 'checking.lift-bands' : 'checking.lift-colour')}</span
      >
      <input
        type="range"
        min="0"
        max="100"
        data-lift
        .value=${String(percent)}
        aria-valuetext=${say('checking.lift-of', { percent })}
        @input=${(event: Event) =>
          desk.set({ lifted: Number((event.target as HTMLInputElement).value) / 100 })}
      />
    </label>
  </section>`;
}

const shownMasses = (desk: Desk, { masses }: Found): Finding[] =>
  desk.allMasses ? masses : masses.slice(0, MASSES);

function tracing(desk: Desk, made: Made, numbered: readonly Finding[]): SVGTemplateResult {
  const { outlines, report, masses } = made;
  const step = Math.max(masses.map.width, masses.map.height) / 60;
  const all = findingsOf(made);
  const selected = [...numbered, ...all.masses, ...all.edges].find(
    ({ id }) => id === desk.selected,
  );
  const lines = [
    ...new Set(numbered.flatMap(({ kind, regions }) => (kind === 'passage' ? [] : regions))),
  ]
    .map((region) => outlines[region] ?? '')
    .join('');
  const strong = (selected?.regions ?? []).map((region) => outlines[region] ?? '').join('');
  const toCome = report.comparison.toCome.map((region) => outlines[region] ?? '').join('');
  return svg`<defs><pattern id="to-come" patternUnits="userSpaceOnUse" width=${step} height=${step}>
      <circle class="cast" cx=${step / 2} cy=${step / 2} r=${step / 5}/>
      <circle class="dot" cx=${step / 2} cy=${step / 2} r=${step / 10}/>
    </pattern></defs>
    ${toCome ? svg`<path d=${toCome} fill="url(#to-come)"/>` : nothing}
    <path class="line-under" d=${lines}/><path class="line" d=${lines}/>
    ${strong ? svg`<path class="line-under strong" d=${strong}/><path class="line strong" d=${strong}/>` : nothing}`;
}
