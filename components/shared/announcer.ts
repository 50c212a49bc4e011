/** One live region for the whole page, so that screen readers hear one voice. */
let region: HTMLElement | undefined;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Says a sentence politely; the last one of a quick series wins. */
export function announce(text: string): void {
  if (typeof document === 'undefined' || !document.body) return;
  if (!region?.isConnected) {
    region = document.createElement('div');
    region.setAttribute('role', 'status');
    region.setAttribute('aria-live', 'polite');
    const { style } = region;
    style.setProperty('position', 'fixed');
    style.setProperty('inline-size', '1px');
    style.setProperty('block-size', '1px');
    style.setProperty('overflow', 'hidden');
    style.setProperty('clip-path', 'inset(50%)');
    style.setProperty('white-space', 'nowrap');
    document.body.append(region);
  }
  const target = region;
  clearTimeout(timer);
  timer = setTimeout(() => {
    // The same sentence twice is spoken twice only when the text changes.
    target.textContent = target.textContent === text ? `${text}\u00a0` : text;
  }, 150);
}
