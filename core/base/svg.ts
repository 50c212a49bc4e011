/** SVG as text, for the drawings that leave the kit: sizes are mm. */

/**
 * A text that may stand in XML 1.0, in character data and in quoted attributes, and is read as it was: markup and line ends as numeric
 * references, what XML has no place for left out.
 */
export function escaped(text: string): string {
  return text
    .replace(
      /[\uD800-\uDBFF][\uDC00-\uDFFF]|[\uD800-\uDFFF\uFFFE\uFFFF]|[^\t\n\r\u0020-\uFFFD]/g,
      (found) => (found.length === 2 ? found : ''),
    )
    .replace(/[&<>"'\t\n\r]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

/** A length in mm as an attribute: at most a thousandth. */
export const mm = (value: number): string => String(Math.round(value * 1000) / 1000 + 0);

/** Attributes of an element; `undefined` leaves one out, numbers are mm. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element as text; attributes that are `undefined` are left out, numbers are mm. */
export function tag(name: string, attributes: Attributes, inside?: string): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(
      ([key, value]) =>
        ` ${key}="${typeof value === 'number' ? mm(value) : escaped(value as string)}"`,
    )
    .join('');
  return inside === undefined ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** A drawing at true size: `width` x `height` mm, one unit a millimetre. */
export function drawing(
  [width, height]: readonly [number, number],
  attributes: Attributes,
  inside: string,
): string {
  const size = { width: `${mm(width)}mm`, height: `${mm(height)}mm` };
  const viewBox = `0 0 ${mm(width)} ${mm(height)}`;
  const xmlns = 'http://www.w3.org/2000/svg';
  return tag('svg', { xmlns, ...size, viewBox, ...attributes }, inside);
}
