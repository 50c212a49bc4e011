/** What the panel says when something is not as it should be: one sentence on what is, one on what to do. */

/** A number as people write it. */
const figure = (value) => value.toLocaleString('en');

/** @param {{ pixels: number, bytes: number }} limits what this panel takes */
const tooLarge = ({ pixels, bytes }) =>
  `The picture is too large. This panel takes up to ${figure(pixels / 1e6)} megapixels and ${figure(Math.floor(bytes / 2 ** 20))} MB: ` +
  'make a smaller copy of it in the editor, or select a part of it.';

/** Sentences by the names of errors; `host` is how the editor calls itself. */
const SENTENCES = {
  TooLarge: (host, limits) => tooLarge(limits),
  NoPicture: (host) => `${host} has no picture open. Open one there, then take it here.`,
  PictureForbidden: (host) =>
    `${host} must not hand this picture over: it comes from another site. Save it and open the saved file there.`,
  TimeoutError: (host) => `${host} did not answer in time. Try it once more.`,
  NotOffered: (host) => `${host} has no place for this.`,
  Busy: (host) => `${host} is still busy with something else. Try it in a moment.`,
  VersionUnknown: (host) =>
    `${host} speaks another version of the bridge. One of the two has to be brought up to date.`,
  PictureUnsupported: () => 'This kind of picture cannot be opened here.',
  PictureUnreadable: () => 'The picture could not be read. Save it anew in the editor.',
};

/** The sentence for an error. */
export function sentenceFor({ name, message }, host, limits) {
  return SENTENCES[name]?.(host, limits) ?? `${host} could not do this: ${message}`;
}

/** The same for layers that the editor has no room for. */
export function layersTooLarge(host, { pixels }) {
  return `The layers are too large for ${host}, which takes ${figure(pixels / 1e6)} megapixels. Lay fewer at once, or work on a selection.`;
}

/** The panel waits in a frame. */
export const WAITING = 'Waiting for the editor. It has to offer its picture to this panel.';

/** Which editors may show the panel, as the page names them. */
export function namedHosts(hosts) {
  const told = hosts.map((each) => (each === 'self' ? 'the pages of this site' : each));
  return told.length > 0
    ? `As it is, it may be shown by ${new Intl.ListFormat('en').format(told)}.`
    : 'As it is, no editor may show it.';
}

/** A page calls that is not on the list. */
export const strangerAt = (origin) =>
  `The page at ${origin} wants to use this panel, and is not on its list. Whoever runs the panel can add it there (tonewell-hosts).`;

export const lostWith = (host) =>
  `The connection with ${host} is lost. What you have set here is still there.`;

export const changedIn = (host) => `Picture or selection have changed in ${host}.`;

export const STAGES = {
  picture: 'taking the picture',
  masses: 'finding masses',
  outlines: 'drawing outlines',
  edges: 'looking at edges',
  reserves: 'looking for reserves',
  strokes: 'following the form',
};
