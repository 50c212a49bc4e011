/** What the tests of the board share: placing one, reaching into it, and boards worked by hand. */
import type Axe from 'axe-core';
import 'axe-core';
import { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import type { BoardChangeEvent, KitErrorEvent } from '../../components/shared/events/index.js';

SwatchBucketBoard.define();

/** As a plain script axe puts itself on the page. */
const { axe } = globalThis as unknown as { axe: typeof Axe };

export const BANDS = [
  { name: 'dark', floor: 0, ceiling: 36 },
  { name: 'middle', floor: 36, ceiling: 66 },
  { name: 'light', floor: 66, ceiling: 95 },
];

/** Three buckets in order, by hand: 20 and 30 under 50, 60 under 80. */
export const ORDERED = {
  bands: BANDS,
  swatches: [
    { id: 'a', bucket: 0, lightness: 20, name: 'ink' },
    { id: 'b', bucket: 0, lightness: 30, name: 'slate' },
    { id: 'c', bucket: 1, lightness: 50, name: 'stone' },
    { id: 'd', bucket: 1, lightness: 60, name: 'moss' },
    { id: 'e', bucket: 2, lightness: 80, name: 'mist' },
  ],
};

/** As above, but slate has 58: lighter than stone (50) by 8, and 22 past its limit where stone keeps its own; so slate is too light. */
export const FAULTY = {
  ...ORDERED,
  swatches: ORDERED.swatches.map((each) => (each.id === 'b' ? { ...each, lightness: 58 } : each)),
};

const places: HTMLElement[] = [];

/** Places HTML that holds a board and waits for its first picture. */
export async function placed(html: string): Promise<SwatchBucketBoard> {
  const host = document.createElement('main');
  host.innerHTML = html;
  document.body.append(host);
  places.push(host);
  const board = host.querySelector<SwatchBucketBoard>('swatch-bucket-board')!;
  await settled(board);
  return board;
}

/** A board with the given data. */
export async function withBoard(data: unknown, attributes = ''): Promise<SwatchBucketBoard> {
  const board = await placed(`<swatch-bucket-board ${attributes}></swatch-bucket-board>`);
  board.board = JSON.stringify(data);
  await settled(board);
  return board;
}

export function clearPlaces(): void {
  for (const place of places.splice(0)) place.remove();
}

export async function settled(board: SwatchBucketBoard): Promise<void> {
  // What is seen of a board comes when it nears the viewport.
  while (board.isConnected && !board.shadowRoot?.querySelector('.board'))
    await new Promise(requestAnimationFrame);
  do await board.updateComplete;
  while (board.isUpdatePending);
}

export function find<T extends HTMLElement = HTMLElement>(
  board: SwatchBucketBoard,
  selector: string,
): T {
  const found = board.shadowRoot!.querySelector<T>(selector);
  if (!found) throw new Error(`There is no ${selector}`);
  return found;
}

export const all = <T extends HTMLElement = HTMLElement>(
  board: SwatchBucketBoard,
  selector: string,
): T[] => [...board.shadowRoot!.querySelectorAll<T>(selector)];

/** Ids bucket by bucket, as they are shown: `ab|cd|e`. */
export const shown = (board: SwatchBucketBoard): string =>
  all(board, '[data-bucket]')
    .map((tray) =>
      [...tray.querySelectorAll<HTMLElement>('[data-id]')]
        .map(({ dataset }) => dataset.id)
        .join(''),
    )
    .join('|');

export const text = (board: SwatchBucketBoard, selector: string): string =>
  find(board, selector).textContent!.replace(/\s+/g, ' ').trim();

export const verdictOf = (board: SwatchBucketBoard, id: string): string =>
  board.verdict.swatches.find((each) => each.id === id)!.verdict;

export async function type(
  board: SwatchBucketBoard,
  input: HTMLInputElement | HTMLTextAreaElement,
  value: string,
  event = 'input',
): Promise<void> {
  input.value = value;
  input.dispatchEvent(new Event(event, { bubbles: true }));
  await settled(board);
}

export async function press(board: SwatchBucketBoard, selector: string): Promise<void> {
  find(board, selector).click();
  await settled(board);
}

/** Collects the board's events of a type. */
export function heard<K extends 'board-change' | 'error' | 'ready'>(
  target: EventTarget,
  kind: K,
): (K extends 'board-change' ? BoardChangeEvent : K extends 'error' ? KitErrorEvent : Event)[] {
  const events: Event[] = [];
  target.addEventListener(kind, (event) => events.push(event), true); // errors do not bubble
  return events as never;
}

/** What axe finds wrong, as lines. */
export async function accessibilityFaults(board: SwatchBucketBoard): Promise<string[]> {
  await Promise.all(
    document.getAnimations().map((animation) => animation.finished.catch(() => undefined)),
  );
  const { violations } = await axe.run(board, { rules: { region: { enabled: false } } });
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 120)} ${node.failureSummary ?? ''}`),
  );
}
