/** A sheet: keeps what is typed, counts taps, says when to stop, and writes down. */
import { person, say, settle, shownNumber, shownTime, started, texts } from './book.js';
import { fieldsOf, localMinute, read, valuesOf } from './fact.js';
import { newFactId } from './outbox.js';
import { endsWellAt, rowAfter, told } from './plan.js';
import * as store from './store.js';
import { standing, tap, taps, untap } from './tally.js';

const TYPING_PAUSE_MS = 250;
const SIGNAL_MS = 200;

const form = document.getElementById('sheet');
const tally = document.getElementById('tally');
const summary = document.getElementById('faults');
const mended = new URLSearchParams(location.search).get('mend');
const draftKey = [person, form.getAttribute('action'), mended ?? ''].join('|');

/** What the script keeps beside the fields. */
const sheet = { factId: newFactId(), steps: [] };
let typing = null;

function fill(values) {
  for (const field of fieldsOf(form)) {
    if (values[field.name] !== undefined) {
      field.value = values[field.name];
      const folded = field.closest('details');
      if (folded && field.value !== '') {
        folded.open = true;
      }
    }
  }
}

async function keepDraft() {
  clearTimeout(typing);
  typing = null;
  const keptAt = new Date().toISOString();
  await store.keepDraft(draftKey, { ...sheet, values: valuesOf(form), keptAt });
}

async function restore() {
  const earlier = mended ? await store.waiting(mended) : undefined;
  const draft = await store.draft(draftKey);
  const from = draft ?? earlier;
  const happenedAt = form.elements.namedItem('header.happenedAt');
  if (form.dataset.refused) {
    sheet.factId = form.elements.namedItem('header.factId').value;
    return;
  }
  if (!from) {
    // the page may have been kept days ago
    happenedAt.value = localMinute();
    form.elements.namedItem('firstSeenOn')?.setAttribute('value', localMinute().slice(0, 10));
    return;
  }
  sheet.factId = from.factId;
  sheet.steps = from.steps ?? [];
  fill(from.values);
  if (earlier?.problems) {
    showFaults(earlier.problems, false);
  } else {
    const note = document.getElementById('draft');
    note.textContent = say('draft', { time: shownTime(from.keptAt) });
    note.hidden = false;
  }
}

function showFaults(faults, takeFocus = true) {
  for (const field of fieldsOf(form)) {
    field.removeAttribute('aria-invalid');
    document.getElementById(`${field.id}-faults`)?.replaceChildren();
  }
  summary.replaceChildren();
  summary.hidden = faults.length === 0;
  if (faults.length === 0) {
    return;
  }
  const title = document.createElement('h2');
  title.textContent = texts.errorTitle;
  const list = document.createElement('ul');
  for (const { field: name, text } of faults) {
    const item = document.createElement('li');
    const field = fieldsOf(form).find((one) => one.name === name && one.id);
    if (field) {
      const link = document.createElement('a');
      link.href = `#${field.id}`;
      link.textContent = field.labels[0].firstChild.textContent.trim();
      link.addEventListener('click', (event) => {
        event.preventDefault();
        field.closest('details')?.setAttribute('open', '');
        field.focus();
      });
      item.append(link);
      const message = document.createElement('p');
      message.textContent = text;
      document.getElementById(`${field.id}-faults`).append(message);
      field.setAttribute('aria-invalid', 'true');
      field.closest('details')?.setAttribute('open', '');
    } else {
      item.textContent = name ? `${name}: ${text}` : text;
    }
    list.append(item);
  }
  summary.append(title, list);
  if (takeFocus) {
    summary.focus();
    summary.scrollIntoView({ block: 'start' });
  }
}

async function writeDown() {
  const { fact, faults } = read(form, person, texts);
  showFaults(faults);
  if (faults.length > 0) {
    return;
  }
  const writtenAt = new Date().toISOString();
  fact.header.factId = sheet.factId;
  fact.header.recordedAt = writtenAt;
  clearTimeout(typing);
  await store.writeDown({
    factId: sheet.factId,
    person,
    title: form.dataset.title,
    crop: form.dataset.crop,
    href: form.getAttribute('action'),
    values: valuesOf(form),
    steps: sheet.steps,
    fact,
    writtenAt,
    state: 'waiting',
    tries: 0,
    nextTryAt: 0,
  }, draftKey);
  await settle({ all: true });
  const left = await store.waiting(sheet.factId);
  if (left?.state === 'refused') {
    history.replaceState(null, '', `?mend=${encodeURIComponent(sheet.factId)}`);
    showFaults(left.problems);
    return;
  }
  location.assign(left ? '/field-book/outbox' : `${form.dataset.cropHref}?recorded=true`);
}

const plans = tally ? JSON.parse(tally.dataset.plans) : [];
const mode = document.getElementById('tally-mode');
const receptive = document.getElementById('receptive');
const said = new Map();

function part() {
  return form.elements.namedItem('part')?.value ?? 'FEMALE';
}

function isByArea() {
  return mode.value === 'area';
}

function currentTaps() {
  return taps(form.dataset.form, isByArea(), part(), receptive.checked);
}

/** Plans that a count of this part and in this way adds to. */
function activePlans() {
  return plans.filter((plan) => plan.part === part()
    && (plan.quantity !== 'OFF_TYPES_BY_AREA' || isByArea())
    && (plan.quantity !== 'OFF_TYPES_BY_PLANTS' || !isByArea()));
}

/** Units as they are counted in the field; square metres are rounded up, but not by a hair. */
function amount(plan, units) {
  return plan.pieceM2 > 0
    ? `${shownNumber(Math.max(0, Math.ceil(units * plan.pieceM2 - 1e-6)))}\u00a0m²`
    : units === 1 ? texts.onePlant : say('plants', { n: shownNumber(units) });
}

function decision(plan) {
  const now = standing(plan, valuesOf(form));
  const item = document.createElement('li');
  const { decision: verdict, mayStop } = plan.rows.length > 0
    ? told(plan.rows, plan.least, now.units, now.bad, now.today.units)
    : { decision: 'GO_ON', mayStop: false };
  item.className = verdict;
  item.dataset.quantity = plan.quantity;
  const words = document.createElement('strong');
  words.textContent = texts[decisionText(verdict, mayStop)];
  item.append(
    line('title', plan.title),
    words,
    line('today', say('today', counted(plan, now.today))));
  if (now.before.units > 0) {
    item.append(line('so-far', say('soFar', counted(plan, now))));
  }
  const next = whatNext(plan, now, verdict);
  if (next.length > 0) {
    item.append(line('next', next.join(' ')));
  }
  announce(plan, verdict, words.textContent);
  return item;
}

function decisionText(verdict, mayStop) {
  if (verdict === 'REJECT') {
    return mayStop ? 'reject' : 'againstSoFar';
  }
  return verdict === 'ACCEPT' ? 'accept' : 'goOn';
}

function line(name, text) {
  const span = document.createElement('span');
  span.className = name;
  span.textContent = text;
  return span;
}

function counted(plan, { units, bad }) {
  return { bad: shownNumber(bad), units: amount(plan, units) };
}

/** What is still to be counted, and what would end it. */
function whatNext(plan, now, verdict) {
  if (plan.rows.length === 0) {
    return [texts.tooLong];
  }
  const missing = Math.max(0, plan.least - now.today.units);
  if (verdict === 'ACCEPT' || verdict === 'REJECT' && missing === 0) {
    return [];
  }
  const sentences = [];
  if (missing > 0) {
    sentences.push(say('leastToday', { units: amount(plan, plan.least) }));
  }
  const end = endsWellAt(plan.rows, now.units, now.bad);
  if (verdict === 'GO_ON' && end !== null) {
    const more = Math.max(end - now.units, missing);
    sentences.push(say('ifNone', { units: amount(plan, more) }));
  }
  if (verdict === 'GO_ON') {
    const row = rowAfter(plan.rows, Math.max(1, now.units));
    sentences.push(say('rejectAt', { bad: shownNumber(row[2] - now.before.bad) }));
  }
  return sentences;
}

/** Only a changed decision is read out; every tap would be too much. */
function announce(plan, verdict, words) {
  const key = `${plan.quantity} ${plan.part}`;
  const before = said.get(key);
  said.set(key, verdict);
  if (before !== undefined && before !== verdict) {
    document.getElementById('decision-news').textContent = `${plan.title}: ${words}`;
    if (verdict !== 'GO_ON') {
      navigator.vibrate?.(SIGNAL_MS);
    }
  }
}

function showTally() {
  if (!tally) {
    return;
  }
  const inspects = form.dataset.form === 'INSPECTION';
  document.getElementById('tally-by').hidden = !inspects;
  document.getElementById('tally-receptive').hidden =
    !inspects || isByArea() || part() !== 'FEMALE';
  const possible = currentTaps();
  const values = valuesOf(form);
  const counting = document.getElementById('tally-of');
  if (counting && inspects) {
    counting.hidden = false;
    const chosen = form.elements.namedItem('part').selectedOptions[0];
    counting.textContent = say('tallyOf', { visit: values.visit, part: chosen?.text ?? '' });
  }
  for (const pad of tally.querySelectorAll('[data-tap]')) {
    pad.hidden = !possible[pad.dataset.tap];
    const shows = pad.querySelector('[data-shows]');
    if (shows) {
      const name = shows.dataset.shows.split(',').find((one) => values[one] !== undefined);
      shows.textContent = values[name] ?? '';
    }
  }
  document.getElementById('undo').disabled = sheet.steps.length === 0;
  document.getElementById('decisions').replaceChildren(...activePlans().map(decision));
  for (const plan of document.querySelectorAll('.plan')) {
    plan.hidden = plan.dataset.part !== part();
  }
}

function tapped(pad) {
  const { values, steps } = tap(valuesOf(form), currentTaps()[pad.dataset.tap]);
  sheet.steps.push({ what: pad.firstChild.textContent.trim(), steps });
  document.getElementById('undo-news').textContent = '';
  fill(values);
  showTally();
  // each tap is kept at once: nobody counts a thousand plants again
  keepDraft();
}

function undo() {
  const last = sheet.steps.pop();
  fill(untap(valuesOf(form), last.steps));
  document.getElementById('undo-news').textContent = say('undone', { what: last.what });
  showTally();
  keepDraft();
}

function startTally() {
  tally.hidden = false;
  mode.value = plans.some((plan) => plan.quantity === 'OFF_TYPES_BY_PLANTS')
    && !plans.some((plan) => plan.quantity === 'OFF_TYPES_BY_AREA') ? 'plants' : 'area';
  for (const pad of tally.querySelectorAll('[data-tap]')) {
    pad.addEventListener('click', () => tapped(pad));
  }
  document.getElementById('undo').addEventListener('click', undo);
  mode.addEventListener('change', showTally);
  receptive.addEventListener('change', showTally);
}

function startCorners() {
  for (const button of form.querySelectorAll('[data-corner]')) {
    const field = form.elements.namedItem(button.dataset.corner);
    const news = button.nextElementSibling;
    button.parentElement.hidden = !('geolocation' in navigator);
    button.addEventListener('click', () => {
      news.textContent = texts.position;
      navigator.geolocation.getCurrentPosition(({ coords }) => {
        const corner = `${coords.longitude.toFixed(6)}, ${coords.latitude.toFixed(6)}`;
        field.value = `${field.value.trimEnd()}\n${corner}`.trimStart();
        news.textContent = `${corner} (± ${shownNumber(Math.round(coords.accuracy))}\u00a0m)`;
        keepDraft();
      }, (fault) => {
        news.textContent = say('noPosition', { reason: fault.message });
      }, { enableHighAccuracy: true, timeout: 30_000 });
    });
  }
}

await started;
form.noValidate = true;
await restore();
if (tally) {
  startTally();
}
startCorners();
showTally();
document.getElementById('clear').hidden = false;
document.getElementById('kept-hint').hidden = false;
form.addEventListener('input', () => {
  showTally();
  clearTimeout(typing);
  typing = setTimeout(keepDraft, TYPING_PAUSE_MS);
});
// the last keystrokes before a page is left
globalThis.addEventListener('pagehide', () => {
  if (typing !== null) {
    keepDraft();
  }
});
form.addEventListener('submit', (event) => {
  event.preventDefault();
  writeDown();
});
document.getElementById('clear').addEventListener('click', async () => {
  clearTimeout(typing);
  await store.dropDraft(draftKey);
  location.replace(location.pathname);
});
form.dataset.ready = 'true';
