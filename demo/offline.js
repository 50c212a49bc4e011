/**
 * The pages without a network: a service worker that asks the server first and, where nobody answers, hands out the copies it kept.
 * Nothing grows stale while the server is there. A page without a copy is answered by a word on what to do.
 */
const SHELF = 'tonewell demo 4';
const AT_HAND = [
  'index.html',
  'pages.css',
  'studio.css',
  'studio.js',
  'studio/arm.js',
  'studio/arrangement.js',
  'studio/memory.js',
  'studio/panels.js',
  'studio/wake.js',
  'mark.svg',
  'pictures/clay-dog.jpg',
  'pictures/clay-dog-900.jpg',
  '../dist/tonewell.min.js',
  '../dist/tonewell.whole.min.js',
  'article.html',
  'article.css',
  'article/bands.png',
  'article/greys.jpg',
  'article/paper.png',
  'lesson.html',
  'lesson.css',
  'lesson.js',
  'marking.html',
  'marking.js',
  'docs/tutorial.html',
  'docs/tutorial.css',
  'docs/reference.html',
  'docs/reference.js',
  'docs/examples.js',
  'docs/example.html',
  'docs/example.css',
  'docs/example.js',
  'docs/markup.js',
  'docs/builders.html',
  'docs/computed.html',
  'docs/docs.css',
  'table.html',
  'table.css',
  'table.js',
  'panel.html',
  'panel.css',
  'panel.js',
  'panel/place.js',
  'panel/tabs.js',
  'panel/words.js',
  '../dist/host/index.js',
  '../dist/custom-elements.json',
];

self.addEventListener('install', (event) => {
  event.waitUntil(fill());
});

/** Puts the pages on the shelf, and what the kit asks for later, which its own list names. */
async function fill() {
  const later = await (await fetch('../dist/later/list.json')).json();
  const shelf = await caches.open(SHELF);
  await shelf.addAll([...AT_HAND, ...later.map((file) => `../dist/${file}`)]);
}

self.addEventListener('activate', (event) => {
  const old = (name) => name.startsWith('tonewell demo') && name !== SHELF;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name)))),
  );
});

/** What is said in place of a page that is not at hand. */
function notAtHand() {
  const at = (path) => new URL(path, self.registration.scope).href;
  const body = `<!doctype html><html lang="en"><head><meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
    <title>Not at hand · tonewell</title><link rel="stylesheet" href="${at('pages.css')}"></head><body><main><h1>This page is not at hand</h1>
    <p>There is no network, and no copy of this page is kept here. Open it once while there is a network.</p>
    <p><a href="${at('index.html')}">The studio</a> and your plans are at hand.</p></main></body></html>`;
  return new Response(body, {
    status: 503,
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy': "default-src 'none'; style-src 'self'",
    },
  });
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const own = new URL(request.url).origin === self.location.origin;
  if (request.method !== 'GET' || !own) return;
  event.respondWith(
    fetch(request).then(
      (response) => {
        if (response.ok) {
          const copy = response.clone();
          event.waitUntil(caches.open(SHELF).then((shelf) => shelf.put(request, copy)));
        }
        return response;
      },
      async () =>
        (await caches.match(request, { ignoreVary: true })) ??
        (request.mode === 'navigate' ? notAtHand() : Response.error()),
    ),
  );
});
