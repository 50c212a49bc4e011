import { html, type TemplateResult } from 'lit';
import {
  accentPlan,
  leanOf,
  type Accent,
  type AccentPlan,
  type AccentsFound,
  type Board,
  type Plan,
  type PlannedAccent,
} from '../shared/core.js';
import type { MassWork } from '../shared/masses-in-hand.js';
import { dab } from './dab.js';
import { pxPerMmOf } from './mass-facts.js';
import type { ToolHost } from './stage-tool.js';
import { bandName, part } from './tracing-part.js';
import type { TracingsShown } from './tracings-shown.js';

const plans = new WeakMap<AccentsFound, { board: Board; plan: AccentPlan }>();

/** What the plan makes of the photo's accents; worked out anew when the board changed. */
export function accentsPlanned(plan: Plan, work: MassWork, found: AccentsFound): AccentPlan {
  const { board, brushes, brush = 0 } = plan;
  const known = plans.get(found);
  if (known?.board === board) return known.plan;
  const { width, height } = work.masses.map;
  const brushPx = (brushes[brush] ?? brushes[0]).pressedMm * pxPerMmOf(plan, work.masses);
  const made = { board, plan: accentPlan(board, found, { width, height, brushPx }) };
  plans.set(found, made);
  return made.plan;
}

const sentencesOf = (parts: readonly string[]): string => parts.filter(Boolean).join(' ');

/** The photo's accents, and the swatches that the board has for accents. */
export function accents(shown: TracingsShown, work: MassWork, plan: Plan): TemplateResult {
  const { host } = shown;
  const found = shown.accents.found?.out;
  if (!found) return part(host, 'accents', host.words('tracing.accents-working'));
  const own = shown.accents.isOf(work);
  const { planned, swatches } = accentsPlanned(plan, work, found);
  const { length } = found.accents;
  const words = host.words(length > 0 ? 'tracing.accents-key' : 'tracing.accents-none', {
    accents: length,
  });
  const listed = part(host, 'accents', words, {
    label: host.words('tracing.each-accent'),
    items: found.accents.map((accent) =>
      accentItem(shown, work, accent, own, nameOf(host, plan, swatches[accent.id])),
    ),
  });
  if (planned.length === 0)
    return length > 0
      ? html`${listed}
          <p class="soft">${host.words('accent.none-planned')}</p>`
      : listed;
  return html`${listed}
    <div class="tracing">
      <details open>
        <summary>${host.words('accent.planned', { swatches: planned.length })}</summary>
        <ol class="traced-list">
          ${planned.map((accent) => html`<li>${plannedItem(shown, plan, accent)}</li>`)}
        </ol>
      </details>
    </div>`;
}

/** The name of a swatch of the board; none without one. */
function nameOf(host: ToolHost, { board }: Plan, id: string | undefined): string {
  const swatch = id === undefined ? undefined : board.swatches.find((each) => each.id === id);
  if (!swatch) return '';
  return swatch.name || (swatch.lab ? host.words(`lean.${leanOf(swatch.lab).name}`) : swatch.id);
}

/** What pure colour in place of the neutral costs in value. */
export const costWords = (host: Pick<ToolHost, 'words'>, cost: number): string =>
  host.words(
    Math.abs(cost) < 1
      ? 'accent.cost-none'
      : cost > 0
        ? 'accent.cost-lighter'
        : 'accent.cost-darker',
    { cost: Math.abs(cost) },
  );

/** An accent of the photo: the button shows where its hue is and might be repeated. */
function accentItem(
  shown: TracingsShown,
  { masses }: MassWork,
  accent: Accent,
  own: boolean,
  swatch: string,
): TemplateResult {
  const { host } = shown;
  const { id, lab, band, region, vividness, valueCost, repeats, mightRepeat } = accent;
  const about = own ? masses.regions[region]?.band : undefined;
  const sentences = [
    about === undefined || about === band
      ? host.words('accent.band', { band: bandName(host, band) })
      : host.words('accent.band-other', {
          band: bandName(host, band),
          about: bandName(host, about),
        }),
    host.words('accent.vivid', { chroma: vividness.chroma, surround: vividness.surround }),
    costWords(host, valueCost),
    repeats.length > 0
      ? host.words('accent.repeated', { accents: repeats.map((each) => each + 1).join(', ') })
      : host.words(mightRepeat.length > 0 ? 'accent.might' : 'accent.alone', {
          places: mightRepeat.length,
        }),
    swatch && host.words('accent.on-board', { swatch }),
  ];
  const name = host.words('accent.name', {
    number: id + 1,
    lean: host.words(`lean.${leanOf(lab).name}`),
  });
  return html`${inHandButton(shown, id, lab, name)}
    <div>${sentencesOf(sentences)}</div>`;
}

/** Takes an accent in hand, or lets it go: its places are drawn. */
function inHandButton(
  shown: TracingsShown,
  id: number | string,
  lab: Accent['lab'],
  name: string,
): TemplateResult {
  const chosen = shown.accent === id;
  return html`<button
    type="button"
    class="quiet accent"
    aria-pressed=${chosen ? 'true' : 'false'}
    @click=${() => shown.chooseAccent(chosen ? undefined : id)}
  >
    ${dab(lab)}<span>${name}</span>
  </button>`;
}

/** An accent swatch of the board: where the photo uses it, whether it is repeated, and where it might be. */
function plannedItem(shown: TracingsShown, plan: Plan, accent: PlannedAccent): TemplateResult {
  const { host } = shown;
  const { lab, band, bucket, among, chroma, seemsLighter, uses, echoes, mightRepeat } = accent;
  const inBand = mightRepeat.filter((place) => place.inBand).length;
  const across = mightRepeat.some((place) => place.across);
  const sentences = [
    band === bucket
      ? host.words('accent.in-bucket', { band: bandName(host, band) })
      : host.words('accent.out-of-bucket', {
          band: bandName(host, band),
          bucket: bandName(host, bucket),
        }),
    among
      ? `${host.words('accent.vivid', { chroma, surround: among.chroma })} ${costWords(host, among.valueCost)}`
      : host.words('accent.no-neutrals'),
    seemsLighter >= 1 ? host.words('accent.seems-lighter', { by: seemsLighter }) : '',
    uses.length > 0
      ? host.words('accent.used', {
          times: uses.length,
          accents: uses.map((id) => id + 1).join(', '),
        })
      : host.words('accent.not-used'),
    echoes.length > 0
      ? host.words('accent.echoed', {
          swatches: echoes.map((id) => nameOf(host, plan, id)).join(', '),
        })
      : '',
    placesInWords(host, mightRepeat.length, inBand, across),
  ];
  return html`${inHandButton(shown, accent.swatch, lab, nameOf(host, plan, accent.swatch))}
    <div>${sentencesOf(sentences)}</div>`;
}

function placesInWords(host: ToolHost, places: number, inBand: number, across: boolean): string {
  if (places === 0) return host.words('accent.nowhere');
  const where = host.words('accent.places', { places });
  const band = host.words(
    inBand === places
      ? 'accent.places-in-band'
      : inBand > 0
        ? 'accent.places-some'
        : 'accent.places-out',
  );
  return sentencesOf([where, band, across ? host.words('accent.places-across') : '']);
}
