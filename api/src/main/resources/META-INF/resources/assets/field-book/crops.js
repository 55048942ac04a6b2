/** The list of crops: shows which are on the phone, and keeps all of the list there. */
import { say, shownNumber, started, texts } from './book.js';
import { canKeep, keep, kept } from './pages.js';

const cards = Array.from(document.querySelectorAll('.crop-card'));
const state = document.getElementById('keep-state');

async function mark() {
  const paths = await kept();
  const ids = new Set();
  for (const card of cards) {
    const isKept = paths.includes(new URL(card.href).pathname);
    card.querySelector('.kept').hidden = !isKept;
    if (isKept) {
      ids.add(card.dataset.crop);
    }
  }
  return ids.size;
}

async function keepAll() {
  const missing = [];
  for (const card of cards) {
    missing.push(...await keepWithSheets(new URL(card.href).pathname));
  }
  const number = await mark();
  state.textContent = missing.length > 0
    ? texts.notKept
    : say('keepable', { n: shownNumber(number) });
}

/** Keeps a crop's page and every sheet that it leads to. */
async function keepWithSheets(path) {
  const missing = await keep([path]);
  if (missing.length > 0) {
    return missing;
  }
  const page = await (await caches.match(path, { ignoreVary: true })).text();
  const sheets = Array.from(
    new DOMParser().parseFromString(page, 'text/html').querySelectorAll('a[data-task]'),
    (link) => link.getAttribute('href'));
  return keep(sheets);
}

await started;
if (canKeep() && cards.length > 0) {
  document.getElementById('keep').hidden = false;
  document.getElementById('keep-all').addEventListener('click', keepAll);
  await mark();
}
