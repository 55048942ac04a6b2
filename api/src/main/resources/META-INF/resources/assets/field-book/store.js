/** What is kept on the phone: drafts, what waits to be sent, and what was sent last. */

const NAME = 'kornspur-field-book';
const SENT_KEPT = 30;

let opened = null;

function database() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('drafts');
      request.result.createObjectStore('outbox', { keyPath: 'factId' });
      request.result.createObjectStore('sent', { keyPath: 'factId' });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

/** Runs one transaction; all of it is kept, or nothing. */
async function transaction(stores, mode, work) {
  const db = await database();
  return new Promise((resolve, reject) => {
    // strict: what the page says is kept must outlive an empty battery
    const running = db.transaction(stores, mode, { durability: 'strict' });
    let request;
    running.oncomplete = () => resolve(request?.result);
    running.onerror = () => reject(running.error);
    running.onabort = () => reject(running.error);
    request = work(running);
  });
}

export function draft(key) {
  return transaction(['drafts'], 'readonly', (t) => t.objectStore('drafts').get(key));
}

export function keepDraft(key, value) {
  return transaction(['drafts'], 'readwrite', (t) => t.objectStore('drafts').put(value, key));
}

export function dropDraft(key) {
  return transaction(['drafts'], 'readwrite', (t) => t.objectStore('drafts').delete(key));
}

/** Puts a fact into the outbox and its draft away, at once. */
export function writeDown(entry, draftKey) {
  return transaction(['drafts', 'outbox'], 'readwrite', (t) => {
    t.objectStore('drafts').delete(draftKey);
    return t.objectStore('outbox').put(entry);
  });
}

export function waiting(factId) {
  return transaction(['outbox'], 'readonly', (t) => t.objectStore('outbox').get(factId));
}

/** All that waits, in the order in which it was written down. */
export async function allWaiting() {
  const all = await transaction(['outbox'], 'readonly', (t) => t.objectStore('outbox').getAll());
  return all.sort((a, b) => a.writtenAt.localeCompare(b.writtenAt));
}

export function keepWaiting(entry) {
  return transaction(['outbox'], 'readwrite', (t) => t.objectStore('outbox').put(entry));
}

export function discard(factId) {
  return transaction(['outbox'], 'readwrite', (t) => t.objectStore('outbox').delete(factId));
}

/** Takes a fact out of the outbox that has arrived, and remembers that it did. */
export async function arrived(entry, outcome) {
  const { factId, person, title, crop } = entry;
  const sentAt = new Date().toISOString();
  await transaction(['outbox', 'sent'], 'readwrite', (t) => {
    t.objectStore('outbox').delete(factId);
    return t.objectStore('sent').put({ factId, person, title, crop, outcome, sentAt });
  });
  const old = (await allSent()).slice(SENT_KEPT);
  await transaction(['sent'], 'readwrite', (t) => {
    old.forEach((one) => t.objectStore('sent').delete(one.factId));
  });
}

/** What was sent, the latest first. */
export async function allSent() {
  const all = await transaction(['sent'], 'readonly', (t) => t.objectStore('sent').getAll());
  return all.sort((a, b) => b.sentAt.localeCompare(a.sentAt));
}
