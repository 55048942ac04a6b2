/**
 * Serves the pages of the field book, its scripts and its looks without network. With network the
 * server's answer comes first, so that nobody reads an old page without need.
 */

// the name and the test stand in pages.js too: not every browser lets a worker import modules
const PAGES = 'kornspur-field-book-pages';
const FILES = 'kornspur-field-book-files';
const PATIENCE_MS = 5_000;
const NOT_KEPT = '/field-book/not-kept';
const NEEDED = [
  '/assets/kornspur.css',
  '/assets/icon.svg',
  '/assets/frame.js',
  '/assets/field-book/field-book.css',
  '/assets/field-book/book.js',
  '/assets/field-book/crop.js',
  '/assets/field-book/crops.js',
  '/assets/field-book/fact.js',
  '/assets/field-book/outbox-page.js',
  '/assets/field-book/outbox.js',
  '/assets/field-book/pages.js',
  '/assets/field-book/plan.js',
  '/assets/field-book/sheet.js',
  '/assets/field-book/sign-out.js',
  '/assets/field-book/store.js',
  '/assets/field-book/tally.js',
];

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches.open(FILES)
      .then((cache) => cache.addAll(NEEDED.map((path) => new Request(path, { cache: 'reload' }))))
      .then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) {
    return;
  }
  if (pathname.startsWith('/assets/')) {
    event.respondWith(served(request, FILES, pathname, (answer) => answer.ok));
  } else if (request.mode === 'navigate') {
    event.respondWith(served(request, PAGES, pathname, isPage));
  }
});

/** The server's answer; where it does not come in time, the one that was kept. */
async function served(request, name, path, isGood) {
  const cache = await caches.open(name);
  // what is kept was asked for with other headers than now
  const kept = await cache.match(path, { ignoreVary: true });
  const asked = fetch(request, { cache: 'no-cache' }).then(async (answer) => {
    if (isGood(answer)) {
      await cache.put(path, answer.clone());
    }
    return answer;
  });
  try {
    return await (kept ? Promise.race([asked, late(PATIENCE_MS)]) : asked);
  } catch {
    asked.catch(() => undefined);
    const instead = kept ?? await caches.match(NOT_KEPT, { ignoreVary: true });
    return instead ?? Response.error();
  }
}

function isPage(answer) {
  return answer.ok
    && !answer.redirected
    && (answer.headers.get('Content-Type') ?? '').startsWith('text/html');
}

function late(ms) {
  return new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error('late')), ms);
  });
}
