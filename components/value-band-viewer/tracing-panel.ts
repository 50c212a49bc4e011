import { html, nothing, type TemplateResult } from 'lit';
import {
  assignSwatches,
  leanOf,
  type KeptLight,
  type Lab,
  type Plan,
  type Reason,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import type { MassWork } from '../shared/masses-in-hand.js';
import { accents } from './accents-told.js';
import { TRACINGS, type TracingName } from './controls.js';
import { dab } from './dab.js';
import { cm2Of, factsOf, placeOf, pxPerMmOf } from './mass-facts.js';
import type { ToolHost } from './stage-tool.js';
import { LIGHT_METHODS, lightPatterns } from './tracing-drawings.js';
import { bandName, part } from './tracing-part.js';
import type { TracingsShown } from './tracings-shown.js';

/** Passages and lights that are listed: the largest. */
const MOST_LISTED = 12;

const CM2_IN_SQUARE_INCH = 6.4516;

/** An area of the paper in words. */
export function areaInWords(host: ToolHost, cm2: number): string {
  const inch = host.lengthUnit !== 'mm';
  return host.words(inch ? 'area.in' : 'area.mm', { area: inch ? cm2 / CM2_IN_SQUARE_INCH : cm2 });
}

const brushName = ({ store }: ToolHost): string => {
  const { brushes, brush = 0 } = store.plan;
  return (brushes[brush] ?? brushes[0])?.name ?? '';
};

/** A mass in words: its place, band, area, size in brushes, edges, and how it is kept. */
export function massInWords({ host }: TracingsShown, work: MassWork, id: number): string {
  const facts = factsOf(host.store.plan, work, id);
  if (!facts) return '';
  const { areaCm2, share, brushWidths, edges, kept, place, count, band } = facts;
  const figures = {
    band: bandName(host, band),
    place,
    count,
    area: areaInWords(host, areaCm2),
    share: 100 * share,
    widths: brushWidths,
    brush: brushName(host),
  };
  const parts = [host.words('mass.facts', figures), host.words('mass.edges', edges)];
  if (kept) {
    const width = host.lengthOf(kept.narrowestMm);
    parts.push(host.words(`mass.kept-${kept.how}`, { width }));
    if (kept.narrow && kept.how === 'bare') parts.push(host.words('mass.kept-narrow'));
  }
  return parts.join(' ');
}

/** The choice of tracings, how far the work is, and what each of them tells. */
export function tracingPanel(shown: TracingsShown, ids: string): TemplateResult {
  const { host } = shown;
  const { traced } = host;
  return html`<div class="tracings" part="tracings">
    <div class="group" role="group" aria-label=${host.words('tracing.label')}>
      ${TRACINGS.map(
        (name) =>
          html`<button
            type="button"
            aria-pressed=${traced.includes(name) ? 'true' : 'false'}
            @click=${() => shown.toggle(name)}
          >
            ${host.words(`tracing.${name}`)}
          </button>`,
      )}
    </div>
    ${told(shown, ids)}
  </div>`;
}

function told(shown: TracingsShown, ids: string): TemplateResult | typeof nothing {
  const { host } = shown;
  const { traced, massed } = host;
  const { status, progress, work, error } = shown.state;
  if (traced.length === 0 && !massed)
    return html`<p class="soft">${host.words('tracing.hint')}</p>`;
  const fault = error ?? faultOf(shown);
  const again = html`<button type="button" @click=${() => shown.again()}>
    ${host.words('tracing.again')}
  </button>`;
  if (fault)
    return html`<div class="trouble" role="alert">
      <span>${host.sentenceOf(fault)}</span>
      ${again}
    </div>`;
  if (status === 'stopped')
    return html`<div class="group">
      <span class="soft">${host.words('tracing.stopped')}</span>
      ${again}
    </div>`;
  if (!work)
    return html`<div class="group">
      <span class="soft" aria-live="off">
        ${host.words('tracing.working', { brush: brushName(host), done: 100 * progress })}
      </span>
      ${status === 'working' ? html`<button type="button" @click=${() => shown.stop()}>${host.words('tracing.stop')}</button>` : nothing}
    </div>`;
  return html`${unmet(shown, work)} ${card(shown, work)}
  ${TRACINGS.filter((name) => traced.includes(name)).map((name) => PARTS[name](shown, work, host.store.plan, ids))}`;
}

function faultOf({ host, strokes, passages, accents }: TracingsShown): Reason | undefined {
  return [
    host.traced.includes('strokes') ? strokes.error : undefined,
    host.traced.includes('passages') ? passages.error : undefined,
    host.traced.includes('accents') ? accents.error : undefined,
  ].find((error) => error !== undefined);
}

/** Changes made by hand that no longer fit. */
function unmet({ host, strokes }: TracingsShown, work: MassWork): TemplateResult | typeof nothing {
  const ofStrokes = host.traced.includes('strokes') && strokes.isOf(work) && strokes.found;
  const missed = [...(work.masses.unmet ?? []), ...(ofStrokes ? ofStrokes.out.unmet : [])];
  if (missed.length === 0) return nothing;
  return html`<div>
    <p>${host.words('tracing.unmet', { changes: missed.length })}</p>
    <ul>
      ${missed.map(({ reason }) => html`<li>${host.sentenceOf(reason)}</li>`)}
    </ul>
  </div>`;
}

type Part = (shown: TracingsShown, work: MassWork, plan: Plan, ids: string) => TemplateResult;

/** What each tracing tells below the picture. */
const PARTS: Record<TracingName, Part> = {
  masses: ({ host }, { masses }) =>
    part(
      host,
      'masses',
      host.words('tracing.count', { masses: masses.regions.length, brush: brushName(host) }),
    ),
  edges: ({ host }) =>
    part(
      host,
      'edges',
      host.words(host.traced.includes('masses') ? 'tracing.edges-key-faint' : 'tracing.edges-key'),
    ),
  reserves,
  marks,
  strokes: ({ host, strokes }) =>
    part(
      host,
      'strokes',
      host.words(strokes.found ? 'tracing.strokes-key' : 'tracing.strokes-working'),
    ),
  passages,
  accents,
};

function reserves(
  { host }: TracingsShown,
  work: MassWork,
  plan: Plan,
  ids: string,
): TemplateResult {
  const { advice, masses } = work;
  const scale = pxPerMmOf(plan, masses);
  const kept = advice.lights.filter(({ method }) => method !== 'paint');
  const cm2 = (share: number): string =>
    areaInWords(host, cm2Of(share * masses.labels.length, scale));
  const legend = LIGHT_METHODS.filter((each) => kept.some(({ method }) => method === each)).map(
    (method) =>
      html`<span class="light-key">
        <svg class="dab" viewBox="0 0 20 20" aria-hidden="true">
          ${lightPatterns(`${ids}-key-${method}`, 6)}
          <rect width="20" height="20" fill="url(#${ids}-key-${method}-${method})"></rect>
        </svg>
        ${host.words(`tracing.light-${method}`, { lights: kept.filter((each) => each.method === method).length })}
      </span>`,
  );
  const left = [
    kept.length > 0
      ? host.words('tracing.bare-left', {
          share: 100 * advice.bareShare,
          area: cm2(advice.bareShare),
        })
      : '',
    advice.tintedShare > 0
      ? host.words('tracing.tint-left', {
          share: 100 * advice.tintedShare,
          area: cm2(advice.tintedShare),
        })
      : '',
  ];
  const cautions = advice.cautions.filter(
    ({ code }) => code !== 'reserve.none' || kept.length === 0,
  );
  const told = [...left.filter(Boolean), ...cautions.map((each) => host.sentenceOf(each))];
  return part(host, 'reserves', told.join(' '), {
    label: host.words('tracing.lights', { lights: advice.lights.length }),
    items: advice.lights
      .slice()
      .sort((a, b) => b.area - a.area)
      .slice(0, MOST_LISTED)
      .map((light) => lightInWords(host, work, plan, light)),
    ...(legend.length > 0 ? { key: html`<p class="light-keys">${legend}</p>` } : {}),
  });
}

/** A light in words: which it is, how it is kept and what follows. */
function lightInWords(host: ToolHost, work: MassWork, plan: Plan, light: KeptLight): string {
  const { masses, marks: kept } = work;
  const { region, mark, method, reasons, asked, area } = light;
  const scale = pxPerMmOf(plan, masses);
  const name =
    mark === undefined
      ? host.words('light.mass', {
          place: placeOf(masses, region),
          area: areaInWords(host, cm2Of(area, scale)),
        })
      : host.words('light.mark', {
          number: kept[mark].number,
          size: host.lengthOf((2 * Math.sqrt(area / Math.PI)) / scale),
        });
  const how = host.words(asked ? 'light.asked' : 'light.proposed', {
    light: name,
    how: host.words(`light.${method}`),
  });
  const why = reasons.map(({ code, values }) => {
    const { widthPx, share } = values as { widthPx?: number; share?: number };
    return host.words(code, {
      width: host.lengthOf((widthPx ?? 0) / scale),
      share: 100 * (share ?? 0),
    });
  });
  return [how, ...why].join(' ');
}

function marks({ host }: TracingsShown, work: MassWork, plan: Plan): TemplateResult {
  const { marks: kept, masses } = work;
  const scale = pxPerMmOf(plan, masses);
  const markings = new Map((plan.brief?.markings ?? []).map(({ id, text }) => [id, text]));
  return part(
    host,
    'marks',
    host.words(kept.length > 0 ? 'tracing.marks-key' : 'tracing.marks-none', {
      marks: kept.length,
    }),
    {
      label: host.words('tracing.each-mark'),
      items: kept.map(({ light, area, method, marking }) =>
        [
          host.words(light ? 'mark.light' : 'mark.dark', {
            size: host.lengthOf((2 * Math.sqrt(area / Math.PI)) / scale),
            how: host.words(light ? `light.${method}` : 'mark.last'),
          }),
          marking === undefined ? '' : (markings.get(marking) ?? ''),
        ]
          .filter(Boolean)
          .join(' '),
      ),
    },
  );
}

function passages(shown: TracingsShown, work: MassWork, plan: Plan): TemplateResult {
  const { host, picked } = shown;
  const found = shown.passages.found?.out;
  if (!found) return part(host, 'passages', host.words('tracing.passages-working'));
  const own = shown.passages.isOf(work);
  const inMass = own && picked !== undefined;
  const listed = found.passages
    .filter(({ region }) => !inMass || region === picked)
    .sort((a, b) => b.area - a.area)
    .slice(0, MOST_LISTED);
  const swatches = passageSwatches(plan, work, listed, own);
  const items = listed.map(({ lab, area }, i) => {
    const swatch = plan.board.swatches.find(({ id }) => id === swatches[i]);
    return html`<span class="dabs">${dab(lab)}${dab(swatch?.lab)}</span> ${host.words(
        swatch ? 'passage.swatch' : 'passage.no-swatch',
        {
          lean: host.words(`lean.${leanOf(lab).name}`),
          share: (100 * area) / work.masses.labels.length,
          swatch: swatch?.name || host.words(`lean.${leanOf(swatch?.lab ?? lab).name}`),
        },
      )}`;
  });
  const words = host.words('tracing.passages-key', {
    passages: found.passages.length,
    masses: work.masses.regions.length,
  });
  const label = host.words(inMass ? 'tracing.passages-of-mass' : 'tracing.passages-largest');
  return part(host, 'passages', words, { label, items });
}

/** Ids of the swatches that lean nearest, in the buckets of the passages' masses. */
function passageSwatches(
  { board }: Plan,
  { masses }: MassWork,
  listed: readonly { id: number; region: number; lab: Lab }[],
  own: boolean,
): (string | undefined)[] {
  if (!own) return [];
  const wanted = listed.map(({ id, region, lab }) => ({
    id,
    lab,
    band: masses.regions[region].band,
  }));
  return assignSwatches(board, wanted).map(({ swatch }) => swatch);
}

/** Tracings of which the single masses are told. */
const OF_MASSES: readonly TracingName[] = ['masses', 'edges', 'strokes', 'passages'];

function card(shown: TracingsShown, work: MassWork): TemplateResult | typeof nothing {
  const { host, picked } = shown;
  if (!OF_MASSES.some((name) => host.traced.includes(name))) return nothing;
  const words = picked === undefined ? '' : massInWords(shown, work, picked);
  return html`<div class="mass-card" role="group" aria-label=${host.words('mass.label')}>
    <p>${words || host.words('mass.hint')}</p>
    <div class="group">
      <button type="button" @click=${() => shown.step(-1)}>${host.words('mass.previous')}</button>
      <button type="button" @click=${() => shown.step(1)}>${host.words('mass.next')}</button>
      ${
        picked === undefined
          ? nothing
          : html`<button type="button" class="quiet" @click=${() => shown.pick(undefined)}>
              ${icon('close')}<span>${host.words('mass.leave')}</span>
            </button>`
      }
    </div>
  </div>`;
}
