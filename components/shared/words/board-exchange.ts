import type { Words } from '../strings.js';

/** Words of a board about carrying swatches to other programs and back. */
export const boardExchangeWords: Words = {
  'exchange.close': 'Close',
  'exchange.out': 'Take out',
  'exchange.design-tokens': 'Design tokens',
  'exchange.design-tokens-about':
    'For design programs that read the W3C community group’s format. Brought back in, nothing of your board is lost.',
  'exchange.css': 'CSS custom properties',
  'exchange.css-about': 'For style sheets: a name and a colour each.',
  'exchange.svg': 'Drawing (SVG)',
  'exchange.svg-about': 'A page of swatches at true size, for drawing programs.',
  'exchange.save': 'Save as a file',
  'exchange.copy': 'Copy',
  'exchange.saved': '{name} is on its way to your downloads.',
  'exchange.copied': 'Copied.',
  'exchange.by-hand':
    'This page may not copy or save for you. Here is the text: select all of it and copy it yourself.',
  'exchange.text': 'The text to copy',
  'exchange.value': 'Value {value, 1} (L* {lightness, 1})',
  'exchange.value-about': 'Value {value, 1} (L* {lightness, 1} ± {about, 1})',
  'exchange.wet': 'read wet',
  'exchange.accent': 'accent',
  'exchange.recipe': 'Mix {recipe}',
  'exchange.in': 'Bring in',
  'exchange.in-about':
    'Design tokens, or CSS custom properties such as -\u2060-\u2060sky: #9db7c9. You see what comes before it comes.',
  'exchange.open': 'Choose a file',
  'exchange.paste': 'Or put the text here',
  'exchange.coming':
    '{count, plural, =0 {Nothing new in it.} one {One swatch is ready to come in.} other {# swatches are ready to come in.}}',
  'exchange.present':
    '{count, plural, one {One is on the board already.} other {# are on the board already.}}',
  'exchange.more': '{count, plural, one {and one more} other {and # more}}',
  'exchange.left': 'Not as it was written:',
  'exchange.reading': 'The swatches are being read.',
  'exchange.stop': 'Stop',
  'exchange.lay': 'Lay them in',
  'exchange.put-aside': 'Put aside',
  'exchange.laid':
    '{count, plural, one {One swatch has come in.} other {# swatches have come in.}} Undo takes {count, plural, one {it} other {them}} back.',
  'exchange.unreadable': 'This file cannot be opened. Choose it once more, or copy its text.',

  'swatches.empty':
    'There are no colours in it that can be read. It takes design tokens (JSON), or CSS such as -\u2060-\u2060sky: #9db7c9.',
  'swatches.not-json-text':
    'This JSON is not whole. Take it out of the other program once more, or copy all of it.',
  'swatches.not-json':
    'This is no JSON as files have it. Take it out of the other program once more.',
  'swatches.not-finite':
    'A number in it is too large. Correct it in the other program and take it out once more.',
  'swatches.wrong-type':
    'This is no file of design tokens: those begin with a brace. Choose another file.',
  'swatches.too-large': 'This is more than can be read here. Bring in a part of it.',
  'swatches.too-deep':
    'Its groups lie more than {limit} deep. Take out fewer levels in the other program.',
  'swatches.forbidden-key':
    'It holds a name that is not safe ({key}). Give it another name in the other program.',
  'swatches.too-many':
    'A board holds {limit} swatches; with these it would be {found}. Bring in fewer, or take some off the board first.',
  'swatches.no-buckets': 'There is no bucket to lay them into. Give the board its bands first.',
  'swatches.colour-unreadable':
    '{name}: “{found}” is no colour that is understood here, so it is left out. Written as #rrggbb it can come.',
  'swatches.space-unknown':
    '{name}: the colour space “{found}” is not known here, so it is left out. In sRGB it can come.',
  'swatches.component-range':
    '{name}: {found} lies outside {expected}, so it is left out. Correct it in the other program.',
  'swatches.reference-missing':
    '{name}: it refers to {found}, which is not in the file, so it is left out. Bring both in together.',
  'swatches.reference-circle':
    '{name}: it refers to itself in the end, so it is left out. Give it a colour of its own.',
  'swatches.reference-far':
    '{name}: it refers to another by more than {limit} steps, so it is left out. Refer to the colour itself.',
  'swatches.type-missing':
    '{name}: nothing says that it is a colour, so it is left out. Give it the type “color”.',
  'swatches.token-unclear':
    '{name}: it is two things at once, so it is left out. Keep either its value or what is in it.',
  'swatches.transparent': '{name}: there is nothing to see in it (transparent), so it is left out.',
  'swatches.again':
    '{name}: it has another colour further down, for another theme. The first one is taken.',
  'swatches.own-notes':
    '{name}: it was changed in another program. It comes as it is now, without notes about its paint.',
  'swatches.more': '{count, plural, one {and one thing more} other {and # things more}}',
};
