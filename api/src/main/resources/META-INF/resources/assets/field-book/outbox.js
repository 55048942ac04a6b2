/**
 * Sends what waits, each fact once: a fact keeps the id that the phone gave it, so that one sent
 * again because its answer was lost is known there and counts once.
 */
import * as store from './store.js';

const LONGEST_MS = 20_000;
const FIRST_PAUSE_MS = 2_000;
const LONGEST_PAUSE_MS = 5 * 60_000;

/** An id that no other fact has, made on the phone. */
export function newFactId() {
  if (crypto.randomUUID) {
    return crypto.randomUUID();
  }
  // without https there is no randomUUID; RFC 9562, section 5.4: version 4, variant 10
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}

function request(address, more) {
  return fetch(address, {
    credentials: 'same-origin',
    // who is not signed in any more is led to the log-in, which is no answer here
    redirect: 'manual',
    cache: 'no-store',
    signal: AbortSignal.timeout(LONGEST_MS),
    ...more,
  });
}

function asksToSignIn(answer) {
  return answer.status === 401 || answer.type === 'opaqueredirect';
}

/** Who is signed in: {person, token}, {signIn: true} or {offline: true}. */
export async function whoIsThere() {
  try {
    const answer = await request('/api/v1/account', { headers: { Accept: 'application/json' } });
    if (asksToSignIn(answer)) {
      return { signIn: true };
    }
    if (!answer.ok) {
      return { offline: true };
    }
    const { personId, csrfToken } = await answer.json();
    return { person: personId, token: csrfToken };
  } catch {
    return { offline: true };
  }
}

/** What became of a fact that was posted: arrived, refused, sign-in or again. */
async function post(entry, token) {
  let answer;
  try {
    answer = await request('/api/v1/facts', {
      method: 'POST',
      headers: {
        'Content-Type': 'application/json',
        Accept: 'application/json',
        ...(token ? { 'X-CSRF-Token': token } : {}),
      },
      body: JSON.stringify(entry.fact),
    });
  } catch {
    return { became: 'again' };
  }
  if (asksToSignIn(answer)) {
    return { became: 'sign-in' };
  }
  // the status says that it went in, even where the rest of the answer is cut off
  const body = await answer.json().catch(() => ({}));
  if (answer.ok) {
    return { became: 'arrived', outcome: body.outcome ?? 'accepted' };
  }
  if (answer.status >= 500 || answer.status === 408 || answer.status === 429) {
    const seconds = Number(answer.headers.get('Retry-After'));
    return { became: 'again', pauseMs: seconds > 0 ? seconds * 1000 : 0 };
  }
  return { became: 'refused', problems: problemsOf(body, answer.status) };
}

function problemsOf(body, status) {
  if (Array.isArray(body.problems) && body.problems.length > 0) {
    return body.problems.map(({ field, detail }) => ({ field, text: detail }));
  }
  return [{ field: '', text: body.detail ?? `Status ${status}` }];
}

function afterTry(entry, pauseMs) {
  const tries = entry.tries + 1;
  const pause = Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** Math.min(tries - 1, 10));
  // phones that come back to one mast together must not all try together
  const spread = pause * (0.75 + Math.random() / 2);
  return { ...entry, tries, nextTryAt: Date.now() + Math.max(pauseMs ?? 0, spread) };
}

async function sendAll(all) {
  const there = await whoIsThere();
  const mine = (await store.allWaiting()).filter((entry) => entry.state === 'waiting');
  if (!there.person) {
    if (there.offline) {
      await Promise.all(mine.filter((entry) => entry.nextTryAt <= Date.now())
        .map((entry) => store.keepWaiting(afterTry(entry))));
    }
    return there;
  }
  for (const entry of mine) {
    if (entry.person !== there.person || (!all && entry.nextTryAt > Date.now())) {
      continue;
    }
    const { became, outcome, problems, pauseMs } = await post(entry, there.token);
    if (became === 'arrived') {
      await store.arrived(entry, outcome);
    } else if (became === 'refused') {
      await store.keepWaiting({ ...entry, state: 'refused', problems });
    } else if (became === 'sign-in') {
      return { signIn: true };
    } else {
      // those written down later may rest on this one, so they wait with it
      await store.keepWaiting(afterTry(entry, pauseMs));
      return { offline: true };
    }
  }
  return there;
}

/**
 * Sends what waits and is due; two open pages never send at the same time.
 *
 * @param all whether what is not yet due is sent too
 * @returns who is there, as {@link whoIsThere}
 */
export function send({ all = false } = {}) {
  return navigator.locks
    ? navigator.locks.request('kornspur-outbox', () => sendAll(all))
    : sendAll(all);
}

/** Milliseconds until something is due; null where nothing waits. */
export async function dueIn(person) {
  const times = (await store.allWaiting())
    .filter((entry) => entry.state === 'waiting' && entry.person === person)
    .map((entry) => entry.nextTryAt);
  return times.length === 0 ? null : Math.max(0, Math.min(...times) - Date.now());
}
