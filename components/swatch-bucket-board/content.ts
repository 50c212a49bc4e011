import type { WrittenSwatch } from './board-data.js';

/** What an element's content says: the JSON of a board, else swatches one by one. Text is never taken for markup. */
export function writtenSwatches(host: HTMLElement): { json?: string; swatches: WrittenSwatch[] } {
  const script = [...host.children].find(
    (child) => child.localName === 'script' && child.getAttribute('type') === 'application/json',
  );
  if (script) return { json: script.textContent ?? '', swatches: [] };
  const swatches = [...host.querySelectorAll<HTMLDataElement>('data[value]')].map(
    (item): WrittenSwatch => ({
      css: item.value,
      name: item.textContent ?? '',
      bucket: item.dataset.bucket,
      note: item.dataset.note,
      accent: item.dataset.accent !== undefined && item.dataset.accent !== 'false',
      wet: item.dataset.wet !== undefined && item.dataset.wet !== 'false',
    }),
  );
  return { swatches };
}
