/** Keeps pages on the phone, so that they open without network. */

export const PAGES = 'kornspur-field-book-pages';

/** Whether pages can be kept: browsers allow it only at an address of https or of this machine. */
export function canKeep() {
  return 'caches' in globalThis && 'serviceWorker' in navigator;
}

/** Whether an answer is the page that was asked for, and not the log-in. */
export function isPage(answer) {
  return answer.ok
    && !answer.redirected
    && (answer.headers.get('Content-Type') ?? '').startsWith('text/html');
}

/**
 * Fetches pages and keeps them.
 *
 * @returns the paths that could not be kept
 */
export async function keep(paths) {
  const cache = await caches.open(PAGES);
  const missing = [];
  for (const path of paths) {
    try {
      const answer = await fetch(path, { headers: { Accept: 'text/html' }, cache: 'no-store' });
      if (!isPage(answer)) {
        throw new Error(`Status ${answer.status}`);
      }
      await cache.put(path, answer);
    } catch {
      missing.push(path);
    }
  }
  return missing;
}

/** The paths that are kept. */
export async function kept() {
  const cache = await caches.open(PAGES);
  return (await cache.keys()).map((request) => new URL(request.url).pathname);
}

/** Forgets every page: they show what one person may see. */
export function forget() {
  return caches.delete(PAGES);
}
