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
