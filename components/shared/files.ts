/** How long the browser may take to fetch what was handed to it, in milliseconds. */
const FETCH_MS = 60_000;

/** Hands a file to the reader's own downloads. */
export function handOver(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), FETCH_MS);
}

/**
 * Whether the page is walled off: shown in a frame that is sandboxed to an origin of its own. Nothing can be kept there, and what is
 * handed over may be dropped without a word, which no page can find out.
 */
export function walledOff(): boolean {
  return globalThis.origin === 'null' && location.protocol !== 'file:';
}
