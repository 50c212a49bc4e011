/**
 * The frame of an example: it takes markup from the reference page (same origin, its own parent, nobody else), builds it by a
 * strict reader and tells what became of it. No script of an example ever runs.
 */
import { MarkupError, readMarkup } from './markup.js';

const stage = document.querySelector('#stage');
const tell = (message) => parent.postMessage({ example: true, ...message }, location.origin);
const heard = new Set();

/** Listens for the kit's events, on their way down: some do not bubble. */
function listen(names) {
  for (const name of names) {
    if (heard.has(name)) continue;
    heard.add(name);
    stage.addEventListener(
      name,
      (event) => {
        const tag = event.target.localName;
        if (tag.includes('-')) tell({ event: name, of: tag, text: event.message });
      },
      true,
    );
  }
}

stage.addEventListener('submit', (event) => {
  event.preventDefault();
  const sent = [...new FormData(event.target)].map(([name, value]) => [name, String(value)]);
  tell({ sent });
});

addEventListener('message', ({ data, origin, source }) => {
  if (source !== parent || origin !== location.origin || typeof data?.markup !== 'string') return;
  listen(data.events);
  try {
    const made = readMarkup(data.markup, data.elements);
    stage.replaceChildren(made);
    tell({ shown: [...stage.querySelectorAll('*')].map(({ localName }) => localName) });
  } catch (error) {
    if (!(error instanceof MarkupError)) throw error;
    tell({ fault: error.message, line: error.line });
  }
});

new ResizeObserver(() => {
  tell({ height: Math.ceil(stage.getBoundingClientRect().bottom + scrollY) });
}).observe(stage);

if (parent !== window) tell({ open: true });
