/**
 * The studio and the guide without a network: a service worker that asks the server first and, where nobody answers, hands out the copies it
 * kept. Nothing grows stale while the server is there.
 */
const SHELF = 'tonewell demo 1';
const STUDIO = [
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
  '../dist/custom-elements.json',
];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(SHELF).then((shelf) => shelf.addAll(STUDIO)));
});

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
      async () => (await caches.match(request, { ignoreVary: true })) ?? Response.error(),
    ),
  );
});
