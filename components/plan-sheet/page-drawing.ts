import type { Crop, Spot } from '../shared/core.js';

const SVG = 'http://www.w3.org/2000/svg';

/** A tag with its attributes, or what stands between tags. */
const PARTS = /<(\/?)([a-zA-Z]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>|([^<]+)/g;
const ATTRIBUTES = /([\w:-]+)="([^"]*)"/g;

const plain = (text: string): string =>
  text.replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)));

/**
 * A page as nodes of this document. Pages are written by the core in a plain form (tags, quoted attributes, numeric references), so that
 * they are read here part by part: no parser of the platform is asked, which pages under strict policies refuse.
 */
export function drawingOf(page: string, owner: Document): SVGSVGElement {
  const root = owner.createDocumentFragment();
  const open: Node[] = [root];
  for (const [, closes, name, attributes, empty, text] of page.matchAll(PARTS)) {
    const parent = open[open.length - 1];
    if (text !== undefined) parent.appendChild(owner.createTextNode(plain(text)));
    else if (closes) open.pop();
    else {
      const element = owner.createElementNS(SVG, name);
      for (const [, key, value] of attributes.matchAll(ATTRIBUTES))
        if (key !== 'xmlns') element.setAttribute(key, plain(value));
      parent.appendChild(element);
      if (!empty) open.push(element);
    }
  }
  return root.firstElementChild as SVGSVGElement;
}

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
