/** What the tests of access share: elements in all their states, and what is asked of each. */
import { expect } from 'chai';
import type Axe from 'axe-core';
import 'axe-core';
import { defineAll } from '../../components/define-all.js';
import type { LightnessPicker } from '../../components/lightness-picker/lightness-picker.js';
import type { MixingWell } from '../../components/mixing-well/mixing-well.js';
import type { PaintingCheck } from '../../components/painting-check/painting-check.js';
import type { PaintingPlan } from '../../components/painting-plan/painting-plan.js';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import type { SwatchSheetReader } from '../../components/swatch-sheet-reader/swatch-sheet-reader.js';
import type { ValueBandViewer } from '../../components/value-band-viewer/value-band-viewer.js';
import type { PlanSheet } from '../../components/plan-sheet/plan-sheet.js';
import type { TonewellElement } from '../../components/shared/tonewell-element.js';
import type { Reason } from '../../components/shared/core.js';
import {
  another,
  checked,
  CORNERS,
  shot,
  withPainting,
  withPlan,
} from './painting-check-helpers.js';
import { FAULTY, ORDERED } from './swatch-bucket-board-helpers.js';
import { read as readSheet, sheetPhoto } from './swatch-sheet-reader-helpers.js';

defineAll();

/** As a plain script axe puts itself on the page. */
const { axe } = globalThis as unknown as { axe: typeof Axe };

/** WCAG 2.2 A and AA by axe's own tags, and what axe calls best practice. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** A state of an element: how it is reached. */
export interface State {
  name: string;
  reach(): Promise<TonewellElement>;
}

export async function until(holds: () => unknown, what: string): Promise<void> {
  for (let i = 0; i < 500; i++) {
    if (holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

export const frames = async (count = 2): Promise<void> => {
  for (let i = 0; i < count; i++) await new Promise((resolve) => requestAnimationFrame(resolve));
};

export function place(html: string): HTMLElement {
  const host = document.createElement('main');
  host.innerHTML = `<h1>Studio</h1><h2>Panel</h2>${html}`;
  document.body.append(host);
  return host;
}

export function clear(): void {
  document.querySelectorAll('body > main').forEach((host) => host.remove());
}

/** A picture with darks, middles and lights in shapes. */
export async function photo(): Promise<Blob> {
  const canvas = new OffscreenCanvas(480, 360);
  const context = canvas.getContext('2d')!;
  const fill = context.createLinearGradient(0, 0, 480, 360);
  fill.addColorStop(0, '#202020');
  fill.addColorStop(1, '#f4f0e6');
  context.fillStyle = fill;
  context.fillRect(0, 0, 480, 360);
  context.fillStyle = '#7a5a48';
  context.fillRect(140, 90, 180, 180);
  return canvas.convertToBlob({ type: 'image/png' });
}

export const inside = <T extends HTMLElement = HTMLElement>(
  element: Element,
  selector: string,
): T => {
  const found = element.shadowRoot!.querySelector<T>(selector);
  if (!found) throw new Error(`no ${selector}`);
  return found;
};

/** A button inside by the beginning of its words. */
export const button = (element: Element, words: string): HTMLButtonElement => {
  const found = [...element.shadowRoot!.querySelectorAll('button')].find((each) =>
    each.textContent!.trim().startsWith(words),
  );
  if (!found) throw new Error(`no button ${words}`);
  return found;
};

async function settled<T extends TonewellElement>(element: T): Promise<T> {
  do await element.updateComplete;
  while (element.isUpdatePending);
  await frames();
  return element;
}

async function viewer(attributes = ''): Promise<ValueBandViewer> {
  const element = place(
    `<value-band-viewer loading="eager" alt="A test picture" ${attributes.includes('controls=') ? '' : 'controls="views corner ladder squint step-back zoom save tools open undo"'} ${attributes}></value-band-viewer>`,
  ).querySelector('value-band-viewer')!;
  element.picture = await photo();
  await until(() => element.store.picture.exact, 'the picture');
  await until(() => element.shadowRoot!.querySelector('.peg'), 'the ladder');
  return settled(element);
}

async function viewerWithTool(word: string): Promise<ValueBandViewer> {
  const element = await viewer();
  await until(() => element.shadowRoot!.querySelector('.tool-bar'), 'the tools');
  button(element, word).click();
  await settled(element);
  await until(() => element.shadowRoot!.querySelector('.panel'), 'the panel');
  return settled(element);
}

async function picker(attributes = ''): Promise<LightnessPicker> {
  const element = place(
    `<lightness-picker alt="A test picture" ${attributes}></lightness-picker>`,
  ).querySelector('lightness-picker')!;
  element.picture = await photo();
  await until(() => element.store.picture.exact, 'the picture');
  await element.read();
  return settled(element);
}

async function board(data?: unknown): Promise<SwatchBucketBoard> {
  const element = place('<swatch-bucket-board></swatch-bucket-board>').querySelector(
    'swatch-bucket-board',
  )!;
  await settled(element);
  if (data) element.board = JSON.stringify(data);
  return settled(element);
}

const SHELF =
  'tubes="hansa-yellow burnt-sienna alizarin-crimson cadmium-red ultramarine cerulean-blue viridian"';

async function well(attributes = SHELF): Promise<MixingWell> {
  const element = place(`<mixing-well ${attributes}></mixing-well>`).querySelector('mixing-well')!;
  await until(() => element.shadowRoot!.querySelector('.desk'), 'the desk');
  return settled(element);
}

async function mixed(attributes?: string): Promise<MixingWell> {
  const element = await well(attributes);
  element.recipe = {
    parts: [
      { tube: 'ultramarine', parts: 3 },
      { tube: 'burnt-sienna', parts: 2 },
    ],
    strength: 0.3,
    over: [{ parts: [{ tube: 'hansa-yellow', parts: 1 }], strength: 0.2 }],
  };
  return settled(element);
}

async function asked(tool: string, attributes?: string): Promise<MixingWell> {
  const element = await mixed(attributes);
  inside(element, `[data-tool=${tool}]`).click();
  await settled(element);
  inside(element, '.go').click();
  await until(() => element.shadowRoot!.querySelector('.found'), 'what was looked for');
  return settled(element);
}

/** A sheet that was read, with what is done to it. */
async function sheet(
  panel = '',
  act?: (element: SwatchSheetReader) => void,
): Promise<SwatchSheetReader> {
  const dabs = [
    [24, 30],
    [52, 58],
    [78, 86],
  ];
  const element = await readSheet(dabs, panel && `panel="${panel}"`);
  act?.(element);
  return settled(element);
}

let plans = 0;
async function plan(): Promise<PaintingPlan> {
  const element = place(
    `<painting-plan name="access ${Date.now()} ${++plans}"></painting-plan>`,
  ).querySelector('painting-plan')!;
  await element.store.settled;
  await element.store.open(await photo(), { name: 'test.png' });
  element.store.change('title', (now) => ({ ...now, title: 'Clay dog' }));
  await element.save();
  return settled(element);
}

async function planWithPanel(panel: string): Promise<PaintingPlan> {
  const element = await plan();
  inside(element, `#tab-${panel}`).click();
  await until(() => element.shadowRoot!.querySelector('#panel'), 'the panel');
  await new Promise((resolve) => setTimeout(resolve, 100));
  return settled(element);
}

async function printed(): Promise<PlanSheet> {
  const element = place('<plan-sheet></plan-sheet>').querySelector('plan-sheet')!;
  element.picture = await photo();
  await until(() => element.pages.length > 0, 'the pages');
  return settled(element);
}

const FAULT: Reason = { code: 'PictureEmpty', values: {} };

/** A check with masses off and a white lost, in one of its views. */
async function painting(
  view: string,
  act?: (element: PaintingCheck) => unknown,
): Promise<PaintingCheck> {
  const element = await checked(await shot({ dark: 45, light: 70, paper: 80 }));
  inside(element, `[data-view=${view}]`).click();
  await settled(element);
  await act?.(element);
  return settled(element);
}

/** States of the painting check. */
const CHECKS: readonly State[] = [
  { name: 'painting-check: no painting yet', reach: () => withPlan() },
  {
    name: 'painting-check: the photo and its corners',
    reach: async () => withPainting(await shot()),
  },
  {
    name: 'painting-check: white from a spot',
    async reach() {
      const element = await withPainting(await shot());
      inside(element, '[data-white=spot]').click();
      return settled(element);
    },
  },
  {
    name: 'painting-check: the painting not found',
    async reach() {
      const element = await withPainting(await another(), null);
      await until(() => !inside<HTMLButtonElement>(element, '[data-find]').disabled, 'the end');
      return settled(element);
    },
  },
  {
    name: 'painting-check: corners crossed',
    async reach() {
      const [tl, tr, br, bl] = CORNERS;
      const element = await withPainting(await shot(), [tl, br, tr, bl]);
      await element.check();
      return settled(element);
    },
  },
  {
    name: 'painting-check: no order of work',
    async reach() {
      const element = await withPlan();
      const { run } = element.store;
      element.store.run = ((job: string, ...rest: unknown[]) =>
        job === 'order'
          ? Promise.reject(new Error('out of memory'))
          : (run as (...all: unknown[]) => unknown).call(
              element.store,
              job,
              ...rest,
            )) as typeof run;
      element.picture = await shot();
      await until(() => element.shadowRoot!.querySelector('[data-steps-fault]'), 'the fault');
      return settled(element);
    },
  },
  {
    name: 'painting-check: checking',
    async reach() {
      const element = await withPainting(await shot());
      element.painting.core = () => new Promise(() => undefined);
      void element.check();
      await until(() => element.shadowRoot!.querySelector('[data-stop]'), 'the work');
      return settled(element);
    },
  },
  {
    name: 'painting-check: findings',
    reach: () =>
      painting('findings', (element) => {
        inside(element, '[data-figures]').click();
        inside(element, '[data-finding] button').click();
      }),
  },
  {
    name: 'painting-check: findings of a faulty photo',
    async reach() {
      const photo = await shot({}, false, (context) => {
        context.globalCompositeOperation = 'multiply';
        context.fillStyle = '#d0d0d0';
        context.fillRect(100, -50, 300, 400);
      });
      return settled(await checked(photo));
    },
  },
  { name: 'painting-check: refused', reach: async () => settled(await checked(await another())) },
  { name: 'painting-check: the drawing', reach: () => painting('drawing') },
  {
    name: 'painting-check: landmarks',
    reach: () =>
      painting('drawing', async (element) => {
        for (let i = 0; i < 2; i++) {
          inside(element, '[data-add]').click();
          await settled(element);
        }
        const twin = inside(element, '[data-stage=painting] .handle');
        twin.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft', shiftKey: true }));
      }),
  },
  { name: 'painting-check: no checks so far', reach: () => painting('checks') },
  {
    name: 'painting-check: checks so far',
    reach: () =>
      painting('findings', async (element) => {
        inside(element, '[data-keep]').click();
        await until(() => element.store.plan.checks?.length, 'the kept check');
        await element.check();
        await settled(element);
        inside(element, '[data-keep]').click();
        await until(() => element.store.plan.checks?.length === 2, 'the second');
        inside(element, '[data-view=checks]').click();
      }),
  },
  { name: 'painting-check: handing over', reach: () => painting('delivery') },
];

/** An element without a picture, that is opening one, or that could not. */
function without(tag: string, state: 'empty' | 'opening' | 'trouble'): State {
  return {
    name: `${tag}: ${state}`,
    async reach() {
      const element = place(`<${tag}></${tag}>`).querySelector<TonewellElement>(tag)!;
      if (state === 'opening') {
        element.store.core = () => new Promise(() => undefined);
        void element.store.open(await photo());
      }
      if (state === 'trouble') element.store.fail(FAULT);
      await new Promise((resolve) => setTimeout(resolve, 150));
      return settled(element);
    },
  };
}

const TOOLS: Record<string, string> = {
  crop: 'Crop',
  sitter: 'Sitter',
  'distrusted spots': 'Not to be trusted',
  proposals: 'Ways to part it',
  shapes: 'Shapes',
  rehearsal: 'Rehearse',
  report: 'What this photo can tell',
};

/** Every state of every element. */
export const STATES: readonly State[] = [
  ...(['empty', 'opening', 'trouble'] as const).flatMap((state) => [
    without('value-band-viewer', state),
    without('lightness-picker', state),
    without('plan-sheet', state),
    without('painting-check', state),
  ]),
  ...CHECKS,
  ...(['photo', 'greys', 'bands', 'masses'] as const).map((view) => ({
    name: `value-band-viewer: ${view}`,
    reach: () => viewer(`view="${view}"`),
  })),
  {
    name: 'value-band-viewer: corner lifted',
    async reach() {
      const element = await viewer();
      button(element, 'Lift the corner').click();
      return settled(element);
    },
  },
  {
    name: 'value-band-viewer: a band alone',
    async reach() {
      const element = await viewer();
      inside(element, '.puddle').click();
      return settled(element);
    },
  },
  {
    name: 'value-band-viewer: nearer',
    async reach() {
      const element = await viewer();
      button(element, 'Nearer').click();
      return settled(element);
    },
  },
  ...Object.entries(TOOLS).map(([name, word]) => ({
    name: `value-band-viewer: ${name}`,
    reach: () => viewerWithTool(word),
  })),
  {
    name: 'value-band-viewer: all tracings',
    async reach() {
      const element = await viewer(
        'controls="views ladder tracings" tracings="masses edges reserves marks strokes passages accents"',
      );
      await until(() => element.shadowRoot!.querySelector('.trace-run'), 'the passages');
      button(element, 'Tracings').click();
      await until(() => element.shadowRoot!.querySelector('.mass-card'), 'the panel');
      inside(element, '.mass-card button').click();
      element.shadowRoot!.querySelectorAll('details').forEach((each) => (each.open = true));
      return settled(element);
    },
  },
  {
    name: 'value-band-viewer: a marked spot',
    async reach() {
      const element = await viewerWithTool(TOOLS['distrusted spots']);
      const stage = inside(element, '.stage');
      stage.focus();
      stage.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
      return settled(element);
    },
  },
  {
    name: 'value-band-viewer: a loop about the sitter',
    async reach() {
      const element = await viewerWithTool(TOOLS.sitter);
      button(element, 'Place an oval').click();
      return settled(element);
    },
  },
  { name: 'lightness-picker: a reading', reach: () => picker() },
  { name: 'lightness-picker: details', reach: () => picker('details') },
  { name: 'lightness-picker: card turned away', reach: () => picker('card="away"') },
  { name: 'lightness-picker: same value', reach: () => picker('card="same"') },
  { name: 'lightness-picker: guessing', reach: () => picker('guess') },
  {
    name: 'lightness-picker: kept readings',
    async reach() {
      const element = await picker();
      element.keep();
      element.moveTo([0.2, 0.2]);
      await element.read();
      element.keep();
      return settled(element);
    },
  },
  { name: 'swatch-bucket-board: empty', reach: () => board() },
  { name: 'swatch-bucket-board: full', reach: () => board(ORDERED) },
  { name: 'swatch-bucket-board: faulty', reach: () => board(FAULTY) },
  {
    name: 'swatch-bucket-board: the form of a colour',
    async reach() {
      const element = await board(ORDERED);
      inside(element, '[data-add="1"]').click();
      return settled(element);
    },
  },
  {
    name: 'swatch-bucket-board: the form of a swatch',
    async reach() {
      const element = await board(FAULTY);
      button(element, 'Change').click();
      return settled(element);
    },
  },
  {
    name: 'swatch-bucket-board: the form of a bucket',
    async reach() {
      const element = await board(ORDERED);
      inside(element, '[data-band]').click();
      return settled(element);
    },
  },
  {
    name: 'swatch-bucket-board: a swatch picked up',
    async reach() {
      const element = await board(ORDERED);
      const dab = inside(element, '[data-id] .dab, [data-id] [part~=dab]');
      dab.focus();
      dab.dispatchEvent(new KeyboardEvent('keydown', { key: ' ', bubbles: true, composed: true }));
      return settled(element);
    },
  },
  ...(['empty', 'opening', 'trouble'] as const).map((state) => ({
    name: `swatch-sheet-reader: ${state}`,
    async reach(): Promise<TonewellElement> {
      const element = place('<swatch-sheet-reader></swatch-sheet-reader>').querySelector(
        'swatch-sheet-reader',
      )!;
      if (state === 'opening') {
        element.sheet.core = () => new Promise(() => undefined);
        element.picture = sheetPhoto([[50]]);
      }
      if (state === 'trouble') element.sheet.fail(FAULT);
      await new Promise((resolve) => setTimeout(resolve, 150));
      return settled(element);
    },
  })),
  ...(['board', 'drying', 'tube', 'card', 'memory'] as const).map((panel) => ({
    name: `swatch-sheet-reader: ${panel}`,
    reach: () => sheet(panel, (element) => element.send()),
  })),
  {
    name: 'swatch-sheet-reader: a dab picked, its recipe typed in',
    async reach() {
      const element = await sheet('', (each) => inside(each, '.row').click());
      const recipe = inside<HTMLSelectElement>(element, '[data-recipe]');
      recipe.value = 'type';
      recipe.dispatchEvent(new Event('change'));
      return settled(element);
    },
  },
  {
    name: 'swatch-sheet-reader: a dab parted',
    async reach() {
      const element = await sheet('', (each) => inside(each, '.row').click());
      button(element, 'Part in two').click();
      return settled(element);
    },
  },
  {
    name: 'swatch-sheet-reader: adding a dab',
    reach: () => sheet('', (element) => button(element, 'Add a dab').click()),
  },
  {
    name: 'swatch-bucket-board: mixes for a bucket',
    async reach() {
      const element = await board(ORDERED);
      const tubes = ['hansa-yellow', 'burnt-sienna', 'ultramarine', 'quinacridone-rose'];
      element.store.change('shelf', (now) => ({ ...now, shelf: tubes.map((tube) => ({ tube })) }));
      await until(() => element.shadowRoot!.querySelector('[data-complete="1"]'), 'the offer');
      inside(element, '[data-complete="1"]').click();
      await until(() => element.shadowRoot!.querySelector('[data-lay]'), 'the mixes');
      inside(element, '[data-lay]').click();
      return settled(element);
    },
  },
  { name: 'mixing-well: empty', reach: () => well('') },
  {
    name: 'mixing-well: choosing tubes',
    async reach() {
      const element = await well();
      inside(element, '.choose').click();
      return settled(element);
    },
  },
  { name: 'mixing-well: an empty well', reach: () => well() },
  { name: 'mixing-well: a mix over a layer', reach: () => mixed() },
  ...['alizarin-crimson', 'viridian'].map((tube) => ({
    name: `mixing-well: about ${tube}`,
    async reach() {
      const element = await mixed();
      inside(element, '.tick input').click();
      inside(element, `[data-about="${tube}"]`).click();
      return settled(element);
    },
  })),
  {
    name: 'mixing-well: dabs typed in',
    async reach() {
      const element = await mixed();
      inside(element, '[data-about="ultramarine"]').click();
      await settled(element);
      button(element, 'Type in dabs').click();
      await settled(element);
      button(element, 'Fit from these').click();
      return settled(element);
    },
  },
  {
    name: 'mixing-well: mixes found',
    reach: () => asked('find', `${SHELF} target="#00c040"`),
  },
  { name: 'mixing-well: what the shelf reaches', reach: () => asked('reach') },
  { name: 'mixing-well: a family found', reach: () => asked('family', `${SHELF} band="1"`) },
  {
    name: 'mixing-well: looking',
    async reach() {
      const element = await well(`${SHELF} target="tan"`);
      element.store.core = () => new Promise(() => undefined);
      inside(element, '.go').click();
      return settled(element);
    },
  },
  {
    name: 'mixing-well: how much',
    async reach() {
      const element = await mixed();
      inside(element, '[data-tool=amount]').click();
      await settled(element);
      const area = inside<HTMLInputElement>(element, '[data-area]');
      area.value = '120';
      area.dispatchEvent(new Event('input', { bubbles: true }));
      return settled(element);
    },
  },
  { name: 'plan-sheet: pages', reach: printed },
  { name: 'painting-plan: the bar', reach: plan },
  ...['shelf', 'photos', 'brief', 'file'].map((panel) => ({
    name: `painting-plan: ${panel}`,
    reach: () => planWithPanel(panel),
  })),
  {
    name: 'painting-plan: a fault',
    async reach() {
      const element = await plan();
      await element.openFile(new File(['no plan'], 'notes.json'));
      return settled(element);
    },
  },
];

/** What axe finds wrong. */
export async function faultsOf(element: Element): Promise<string[]> {
  await Promise.all(
    document.getAnimations().map(({ finished }) => finished.catch(() => undefined)),
  );
  const { violations } = await axe.run(element.closest('main')!, {
    runOnly: RULES,
    rules: { region: { enabled: false } },
    resultTypes: ['violations'],
  });
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 140)} ${failureSummary ?? ''}`),
  );
}

const CONTROLS =
  'a[href], button, input, select, textarea, summary, [tabindex="0"]:not(.stage, section)';

/** Whatever a pointer can act on. */
export function targetsOf(element: Element): HTMLElement[] {
  return [...element.shadowRoot!.querySelectorAll<HTMLElement>(CONTROLS)].filter(
    (each) =>
      each.checkVisibility({ visibilityProperty: true }) && !(each as HTMLInputElement).disabled,
  );
}

/** The area that a pointer can hit: a label belongs to its tick box. */
export function areaOf(target: HTMLElement): DOMRect {
  const label =
    target instanceof HTMLInputElement && /^(checkbox|radio|file)$/.test(target.type)
      ? target.closest('label')
      : null;
  return (label ?? target).getBoundingClientRect();
}

/** Colour channels 0..1 of a computed colour. */
export function channels(css: string): [number, number, number, number] {
  const context = new OffscreenCanvas(1, 1).getContext('2d')!;
  context.fillStyle = css;
  context.fillRect(0, 0, 1, 1);
  const [r, g, b, a] = context.getImageData(0, 0, 1, 1).data;
  return [r / 255, g / 255, b / 255, a / 255];
}

/** Contrast ratio of two opaque colours by WCAG 2.2 (relative luminance and contrast ratio, as its definitions give them). */
export function contrast(a: string, b: string): number {
  const luminance = (css: string): number => {
    const [r, g, b] = channels(css).map((c) =>
      c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

/** A colour of the kit as it is computed inside an element. */
export function token(element: Element, name: string): string {
  const probe = document.createElement('span');
  probe.style.setProperty('color', `var(${name})`);
  element.shadowRoot!.append(probe);
  const { color } = getComputedStyle(probe);
  probe.remove();
  expect(color, name).to.match(/\d/);
  return color;
}
