import type { Crop, Spot } from '../shared/core.js';

const SVG = 'http://www.w3.org/2000/svg';

/**
 * Rings on the picture of the first page, one at each spot (fractions of the upright photo); those of before go. They are on the screen
 * only: what is printed or saved is drawn anew.
 */
export function pointAt(
  page: SVGSVGElement,
  spots: readonly Spot[],
  { x: left, y: top, width, height }: Crop,
  mirrored: boolean,
): void {
  page.querySelector('[data-pointed]')?.remove();
  const frame = page.querySelector('#page-1-frame');
  if (!frame || spots.length === 0) return;
  const [x, y, w, h] = ['x', 'y', 'width', 'height'].map((name) =>
    Number(frame.getAttribute(name)),
  );
  const group = page.ownerDocument.createElementNS(SVG, 'g');
  group.setAttribute('data-pointed', '');
  for (const [u, v] of spots) {
    const across = (u - left) / width;
    for (const [stroke, thick] of [
      ['#fff', 2.2],
      ['#000', 1],
    ]) {
      const ring = page.ownerDocument.createElementNS(SVG, 'circle');
      ring.setAttribute('cx', String(x + w * (mirrored ? 1 - across : across)));
      ring.setAttribute('cy', String(y + (h * (v - top)) / height));
      ring.setAttribute('r', '3.4');
      ring.setAttribute('fill', 'none');
      ring.setAttribute('stroke', String(stroke));
      ring.setAttribute('stroke-width', String(thick));
      group.append(ring);
    }
  }
  page.append(group);
}
