/**
 * Markup that a reader wrote, made into nodes without handing a word of it to the page's own parser: a small strict reader that
 * knows elements, attributes, texts and comments, takes what is on a list and says in which line something is wrong.
 */

/** Plain elements that may stand around those of the kit. */
const PLAIN = new Set(
  'b button data div em fieldset figcaption figure form h3 img label legend li ol output p small span strong ul'.split(
    ' ',
  ),
);
/** Elements that hold nothing and have no end tag. */
const EMPTY = new Set(['img']);
const PLAIN_ATTRIBUTES = new Set(
  'alt class dir for height hidden id lang loading name role slot title type value width'.split(
    ' ',
  ),
);
const LETTERS = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: ' ' };

/** What cannot be used, with the line it stands in (from 1). */
export class MarkupError extends Error {
  constructor(line, message) {
    super(`Line ${line}: ${message}`);
    this.name = 'MarkupError';
    this.line = line;
  }
}

const plainText = (text) =>
  text.replace(/&(#x[\da-f]+|#\d+|\w+);/gi, (all, name) => {
    if (!name.startsWith('#')) return LETTERS[name] ?? all;
    const code = /^#x/i.test(name) ? parseInt(name.slice(2), 16) : Number(name.slice(1));
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : all;
  });

/** Whether an address stays on this server. */
function isOwn(value) {
  try {
    return new URL(value, location.href).origin === location.origin;
  } catch {
    return false;
  }
}

/** Whether an attribute may be set: those of the manifest on the kit's elements, a few on all. */
function takes(tag, name, own) {
  if (/^on|^style$/.test(name)) return false;
  if (/^(data|aria)-[a-z-]+$/.test(name) || PLAIN_ATTRIBUTES.has(name)) return true;
  return own[tag]?.includes(name) || (tag === 'img' && name === 'src');
}

/**
 * Reads markup.
 * @param {string} text
 * @param {Record<string, string[]>} own the kit's elements with their attributes
 * @returns {DocumentFragment}
 * @throws {MarkupError}
 */
export function readMarkup(text, own) {
  const root = document.createDocumentFragment();
  const open = [];
  let at = 0;
  const line = (place = at) => text.slice(0, place).split('\n').length;
  const fail = (message, place) => {
    throw new MarkupError(line(place), message);
  };
  const into = () => open.at(-1)?.element ?? root;

  const attribute = (tag, element, start) => {
    const [whole, name, , quoted, double, single, bare] =
      /^([^\s"'<>/=]+)(\s*=\s*("([^"]*)"|'([^']*)'|([^\s"'<>=`]+))?)?/.exec(text.slice(at)) ?? [];
    if (!whole) fail(`“${text[at]}” cannot stand inside the tag <${tag}>.`);
    if (whole.includes('=') && quoted === undefined)
      fail(`the value of ${name} has no closing quotation mark.`);
    if (!takes(tag, name, own)) fail(`<${tag}> takes no attribute ${name} here.`);
    if (element.hasAttribute(name)) fail(`${name} stands twice in <${tag}>.`, start);
    const value = plainText(double ?? single ?? bare ?? '');
    if (name === 'src' && !isOwn(value)) fail('pictures have to come from this server.');
    element.setAttribute(name, value);
    at += whole.length;
  };

  const startTag = (tag) => {
    const start = at;
    if (tag.includes('-') ? !own[tag] : !PLAIN.has(tag))
      fail(
        tag.includes('-')
          ? `<${tag}> is no element of the kit. Look at the list above.`
          : `<${tag}> is not taken here; plain ones such as <p>, <form>, <img> are.`,
      );
    const element = document.createElement(tag);
    at += tag.length + 1;
    for (;;) {
      at += /^\s*/.exec(text.slice(at))[0].length;
      if (at >= text.length) fail(`the tag <${tag} has no “>” at its end.`, start);
      if (text.startsWith('/>', at) || text[at] === '>') break;
      attribute(tag, element, start);
    }
    const closed = text[at] === '/';
    if (closed && !EMPTY.has(tag))
      fail(`<${tag} /> does not end it: write </${tag}> where it ends.`, start);
    at += closed ? 2 : 1;
    into().append(element);
    if (!EMPTY.has(tag)) open.push({ tag, element, start });
  };

  const endTag = (tag) => {
    const last = open.at(-1);
    if (!last) fail(`</${tag}> ends what was never begun.`);
    if (last.tag !== tag)
      fail(`</${tag}> comes before <${last.tag}> of line ${line(last.start)} has ended.`);
    at = text.indexOf('>', at) + 1;
    open.pop();
  };

  while (at < text.length) {
    if (text.startsWith('<!--', at)) {
      const end = text.indexOf('-->', at + 4);
      if (end < 0) fail('a comment has no “-->” at its end.');
      at = end + 3;
      continue;
    }
    const [, ending, tag] = /^<(\/?)([a-z][a-z\d-]*)/i.exec(text.slice(at, at + 80)) ?? [];
    if (tag && ending) {
      if (!/^<\/[^\s<>]+\s*>/.test(text.slice(at))) fail(`</${tag} has no “>” at its end.`);
      endTag(tag.toLowerCase());
    } else if (tag) startTag(tag.toLowerCase());
    else {
      if (text[at] === '<') fail('a “<” that begins no tag is written &lt;.');
      const next = text.indexOf('<', at);
      const end = next < 0 ? text.length : next;
      into().append(plainText(text.slice(at, end)));
      at = end;
    }
  }
  const left = open.at(-1);
  if (left) fail(`<${left.tag}> is never ended: write </${left.tag}>.`, left.start);
  return root;
}
