/** The tags that a layer may have, and their attributes: shapes, plain groups and words about them. No styles, links or scripts. */
const TAGS = 'svg|g|path|rect|circle|title|desc|metadata';
const ATTRIBUTES = new Set(
  (
    'xmlns version viewBox width height x y cx cy r rx ry d id class role aria-label transform opacity fill fill-rule fill-opacity ' +
    'stroke stroke-width stroke-opacity stroke-linecap stroke-linejoin stroke-dasharray stroke-miterlimit'
  ).split(' '),
);

const PIECE = new RegExp(`<(/?)(${TAGS})((?:\\s+[\\w:-]+="[^"<]*")*)\\s*(/?)>|([^<]+)`, 'y');
const ATTRIBUTE = /([\w:-]+)="([^"<]*)"/g;
/** An entity other than those of XML itself and of single characters would have to be declared somewhere. */
const STRANGE = /&(?!(?:amp|lt|gt|quot|apos|#\d{1,7}|#x[\da-f]{1,6});)/i;
/** What loads, runs or leads somewhere. */
const REACHING = /url\s*\(|script:|data:|&#/i;
const DEEPEST = 32;

const namesOnly = (text: string): boolean =>
  [...text.matchAll(ATTRIBUTE)].every(
    ([, name, value]) =>
      (ATTRIBUTES.has(name) || name.startsWith('data-')) &&
      (name === 'xmlns' ? value === 'http://www.w3.org/2000/svg' : !REACHING.test(value)),
  );

/** Whether a text is one SVG of shapes and plain groups and nothing else, so that a host may take it apart or show it. */
export function isPlainSvg(text: string): boolean {
  const open: string[] = [];
  const plain = text.replace(/^\s*<\?xml [\w\s.="-]*\?>\s*/, '').trim();
  if (STRANGE.test(plain)) return false;
  PIECE.lastIndex = 0;
  while (PIECE.lastIndex < plain.length) {
    const first = PIECE.lastIndex === 0;
    const [, ends, tag, attributes, alone, words] = PIECE.exec(plain) ?? [];
    if (words !== undefined) {
      if (open.length === 0) return false;
      continue;
    }
    if (tag === undefined || (open.length === 0 && !(first && tag === 'svg' && !ends)))
      return false;
    if (ends) {
      if (open.pop() !== tag || attributes || alone) return false;
    } else {
      if (!namesOnly(attributes) || open.length === DEEPEST) return false;
      if (!alone) open.push(tag);
      else if (first) return false;
    }
  }
  return plain !== '' && open.length === 0;
}
