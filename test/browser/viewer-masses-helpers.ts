/** What the tests of masses in the viewer share: a picture whose shapes are known, and a plan on which a pixel is a millimetre. */
import 'axe-core';
import type Axe from 'axe-core';
import { converter } from 'culori';
import { newPlan, type Plan } from '../../core/index.js';
import {
  massesAsked,
  MassesInHand,
  type MassWork,
} from '../../components/shared/masses-in-hand.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import { ValueBandViewer } from '../../components/value-band-viewer/value-band-viewer.js';

ValueBandViewer.define();

const { axe } = globalThis as unknown as { axe: typeof Axe };

export const WIDTH = 240;
export const HEIGHT = 160;

/**
 * Dark, middle and light, 80 pixels wide each; the dark runs softly into the middle over 20 pixels. In the light a disc and a narrow
 * strip of paper white, in the dark a small white dot, in the middle a small black one.
 */
export async function photo(): Promise<Blob> {
  const canvas = new OffscreenCanvas(WIDTH, HEIGHT);
  const context = canvas.getContext('2d')!;
  const fall = context.createLinearGradient(0, 0, WIDTH, 0);
  const at = (x: number, grey: number): void =>
    fall.addColorStop(x / WIDTH, `rgb(${grey} ${grey} ${grey})`);
  at(0, 50);
  at(70, 50);
  at(90, 125);
  at(160, 125);
  at(160, 190);
  at(240, 190);
  context.fillStyle = fall;
  context.fillRect(0, 0, WIDTH, HEIGHT);
  const disc = (x: number, y: number, radius: number, colour: string): void => {
    context.fillStyle = colour;
    context.beginPath();
    context.arc(x, y, radius, 0, 2 * Math.PI);
    context.fill();
  };
  disc(200, 45, 20, '#fafafa');
  context.fillStyle = '#fafafa';
  context.fillRect(175, 110, 50, 10);
  disc(40, 40, 4, '#fafafa');
  disc(120, 120, 4, '#0a0a0a');
  return canvas.convertToBlob({ type: 'image/png' });
}

const rgb = converter('rgb');
/** A colour of CIELAB as the canvas takes it. */
export function css(l: number, a: number, b: number): string {
  const { r, g, b: blue } = rgb({ mode: 'lab65', l, a, b });
  return `rgb(${[r, g, blue].map((part) => Math.round(255 * part)).join(' ')})`;
}

/**
 * Dark, middle and light, 80 pixels wide each, of neutral greys; the middle leans to green above and to red below, of one L*. In the
 * light a small vivid red spot, 8 by 8 pixels.
 */
export async function coloured(): Promise<Blob> {
  const canvas = new OffscreenCanvas(WIDTH, HEIGHT);
  const context = canvas.getContext('2d')!;
  const fill = (colour: string, ...box: [number, number, number, number]): void => {
    context.fillStyle = colour;
    context.fillRect(...box);
  };
  fill(css(20, 0, 0), 0, 0, 80, HEIGHT);
  fill(css(52, -28, 14), 80, 0, 80, 80);
  fill(css(52, 28, 14), 80, 80, 80, 80);
  fill(css(77, 0, 0), 160, 0, 80, HEIGHT);
  fill(css(45, 62, 40), 196, 76, 8, 8);
  return canvas.convertToBlob({ type: 'image/png' });
}

/** A plan on which the picture is 240 mm wide: a pixel is a millimetre. */
export const plan = (partial: Partial<Plan> = {}): Plan =>
  newPlan({
    paper: { widthMm: WIDTH, heightMm: HEIGHT, lightness: 95 },
    brushes: [
      { name: 'round', tipMm: 4, pressedMm: 12 },
      { name: 'fine', tipMm: 1, pressedMm: 4 },
    ],
    brush: 0,
    photoLimits: [36, 66],
    paperLimit: 90,
    ...partial,
  });

export async function until<T>(
  found: () => T | null | undefined | false,
  what: string,
): Promise<T> {
  for (let i = 0; i < 500; i++) {
    const value = found();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

export const frames = async (count = 2): Promise<void> => {
  for (let i = 0; i < count; i++) await new Promise((resolve) => requestAnimationFrame(resolve));
};

export interface Shown {
  viewer: ValueBandViewer;
  root: ShadowRoot;
  store: PlanStore;
}

/** A viewer in a page's main part, with the picture in sight. */
export async function shown(
  attributes: Record<string, string> = {},
  partial: Partial<Plan> = {},
  { width = 640, picture = photo }: { width?: number; picture?: () => Promise<Blob> } = {},
): Promise<Shown> {
  const main = document.createElement('main');
  main.append(document.createElement('h1'));
  main.firstElementChild!.textContent = 'Test';
  main.style.inlineSize = `${width}px`;
  const viewer = new ValueBandViewer();
  viewer.loading = 'eager';
  viewer.alt = 'Stripes';
  for (const [name, value] of Object.entries(attributes)) viewer.setAttribute(name, value);
  viewer.plan = new PlanStore(plan(partial));
  main.append(viewer);
  document.body.prepend(main);
  await viewer.store.open(await picture());
  await until(() => viewer.store.picture.exact, 'the picture');
  const root = viewer.shadowRoot!;
  if (attributes.controls !== 'none') await until(() => root.querySelector('.bar'), 'the desk');
  scrollTo(0, 0);
  return { viewer, root, store: viewer.store };
}

export const clear = (): void =>
  document.querySelectorAll('body > main').forEach((each) => each.remove());

export const textOf = (element: Element | null): string =>
  (element?.textContent ?? '').replace(/\s+/g, ' ').trim();

/** The button that says this; its name for screen readers counts where it has one. */
export function button(root: ParentNode, says: RegExp): HTMLButtonElement {
  const found = [...root.querySelectorAll('button')].find((each) =>
    says.test(each.getAttribute('aria-label') ?? textOf(each)),
  );
  if (!found) throw new Error(`no button ${says.source}`);
  return found;
}

/** What masses depend on. */
const askedOf = (of: Plan): string =>
  JSON.stringify([massesAsked(of), of.crop, of.distrusted, of.background && of.sitter]);

/** Waits until the masses in hand are those of the plan as it is now. */
export async function massesOf(store: PlanStore): Promise<MassWork> {
  return until(() => {
    const { status, work, plan: of } = MassesInHand.of(store).state;
    return status === 'ready' && of && askedOf(of) === askedOf(store.plan) && work;
  }, 'the masses of the plan');
}

/** The masses' plane as it is painted: grey of each pixel. */
export function painted({ root }: Shown): { width: number; height: number; greys: Uint8Array } {
  const canvas = root.querySelector<HTMLCanvasElement>('canvas.top')!;
  const { width, height } = canvas;
  const { data } = canvas.getContext('2d')!.getImageData(0, 0, width, height);
  return {
    width,
    height,
    greys: Uint8Array.from({ length: width * height }, (_, i) => data[4 * i]),
  };
}

/** How many pixels of one tone hang together (by their sides) with a place, counted by flooding. */
export function flooded(
  { width, height, greys }: ReturnType<typeof painted>,
  x: number,
  y: number,
): number {
  const seen = new Uint8Array(greys.length);
  const stack = [y * width + x];
  seen[stack[0]] = 1;
  let count = 0;
  for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
    count++;
    const column = i % width;
    for (const next of [
      column > 0 ? i - 1 : -1,
      column + 1 < width ? i + 1 : -1,
      i - width,
      i + width < width * height ? i + width : -1,
    ]) {
      if (next < 0 || seen[next] || greys[next] !== greys[i]) continue;
      seen[next] = 1;
      stack.push(next);
    }
  }
  return count;
}

/** Where a place of the picture (pixels) is on the screen. */
export function onScreen({ root }: Shown, x: number, y: number): [number, number] {
  const canvas = root.querySelector('canvas.top')!;
  canvas.scrollIntoView({ block: 'center' });
  const { left, top, width, height } = canvas.getBoundingClientRect();
  return [
    Math.round(left + ((x + 0.5) * width) / WIDTH),
    Math.round(top + ((y + 0.5) * height) / HEIGHT),
  ];
}

/** What axe finds wrong on the page's main part. */
export async function faultsOf({ viewer }: Shown): Promise<string[]> {
  await Promise.all(
    document.getAnimations().map(({ finished }) => finished.catch(() => undefined)),
  );
  const { violations } = await axe.run(viewer.closest('main')!, {
    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    rules: { region: { enabled: false } },
    resultTypes: ['violations'],
  });
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 140)} ${failureSummary ?? ''}`),
  );
}

/** Files that are handed to the reader's downloads while something is done, instead of being downloaded. */
export async function handedOver(
  act: () => void,
  within = 15_000,
): Promise<{ name: string; blob: Blob }> {
  const click = HTMLAnchorElement.prototype.click;
  try {
    return await new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error('nothing was handed over')), within);
      HTMLAnchorElement.prototype.click = function (this: HTMLAnchorElement): void {
        clearTimeout(timer);
        const { download, href } = this;
        fetch(href)
          .then(async (response) => resolve({ name: download, blob: await response.blob() }))
          .catch(reject);
      };
      act();
    });
  } finally {
    HTMLAnchorElement.prototype.click = click;
  }
}
