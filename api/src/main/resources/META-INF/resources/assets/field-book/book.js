/** What every page of the field book does: shows what waits, sends it, and keeps pages. */
import { filled } from './fact.js';
import { dueIn, send } from './outbox.js';
import { canKeep, forget, keep } from './pages.js';
import { allWaiting } from './store.js';

const bar = document.getElementById('book');
const OWNER = 'kornspur-field-book-person';
const LOCALES = { en: 'en-GB', de: 'de-DE' };

/** Id of the person that this page was made for. */
export const person = bar.dataset.person;

/** Texts of this page, by name. */
export const texts = JSON.parse(bar.dataset.texts);

const locale = LOCALES[document.documentElement.lang] ?? 'en-GB';
const clock = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short' });
const numbers = new Intl.NumberFormat(locale, { maximumFractionDigits: 2 });

/** A moment as people of this language write it. */
export function shownTime(time) {
  return clock.format(new Date(time));
}

/** A number as people of this language write it. */
export function shownNumber(number) {
  return numbers.format(number);
}

/** A text with its words filled in. */
export function say(name, words = {}) {
  // a page that was kept before the program had this text is still worked with
  return filled(texts[name] ?? '', words);
}

let timer = null;

async function show(there) {
  const all = await allWaiting();
  const mine = all.filter((entry) => entry.person === person);
  const refused = mine.filter((entry) => entry.state === 'refused').length;
  document.getElementById('book-waiting').textContent =
    mine.length > 0 ? `: ${shownNumber(mine.length)}` : '';
  const sentences = [];
  if (there.signIn) {
    sentences.push(texts.signIn);
  } else if (there.person && person && there.person !== person) {
    sentences.push(say('otherPerson', { person }));
  } else if (there.offline) {
    sentences.push(texts.noNetwork);
  }
  if (refused > 0) {
    sentences.push(say('mend', { n: shownNumber(refused) }));
  }
  sentences.push(mine.length > 0
    ? say('waiting', { n: shownNumber(mine.length) })
    : texts.nothingWaiting);
  if (!canKeep()) {
    sentences.push(texts.insecure);
  }
  document.getElementById('book-state').textContent = sentences.join(' ');
  bar.dataset.state = there.offline ? 'offline' : there.signIn ? 'sign-in' : 'online';
  bar.classList.toggle('waits', mine.length > 0);
}

/** Pages kept for one person are not left to the next. */
async function handOver(there) {
  if (!there.person || !canKeep()) {
    return;
  }
  if (localStorage.getItem(OWNER) !== there.person) {
    await forget();
    localStorage.setItem(OWNER, there.person);
  }
}

/** Sends what waits, and shows how it stands. */
export async function settle({ all = false } = {}) {
  clearTimeout(timer);
  const there = await send({ all });
  await handOver(there);
  await show(there);
  document.dispatchEvent(new CustomEvent('settled', { detail: there }));
  const due = await dueIn(person);
  if (due !== null && !there.signIn) {
    timer = setTimeout(() => settle(), Math.max(1_000, due));
  }
  return there;
}

async function start() {
  globalThis.addEventListener('online', () => settle({ all: true }));
  globalThis.addEventListener('offline', () => settle());
  if (canKeep()) {
    await navigator.serviceWorker.register(
      '/assets/field-book/worker.js', { scope: '/field-book' });
  }
  const there = await settle({ all: true });
  if (there.person && canKeep()) {
    await keep(['/field-book/outbox', '/field-book/not-kept']);
  }
  return there;
}

/** Settles when the page has been started; tells who is there. */
export const started = start().catch((fault) => {
  document.getElementById('book-state').textContent = texts.noStorage;
  throw fault;
});
