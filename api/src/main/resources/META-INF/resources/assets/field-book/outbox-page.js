/** What waits on the phone, and what was sent from it. */
import { person, say, settle, shownNumber, shownTime, started, texts } from './book.js';
import { allSent, allWaiting, discard } from './store.js';
import './sign-out.js';

const waitingList = document.getElementById('waiting');
const sentList = document.getElementById('sent');

function line(name, ...text) {
  const element = document.createElement(name);
  element.append(...text);
  return element;
}

function state(entry, there) {
  if (entry.person !== person) {
    return say('stateForeign', { person: entry.person });
  }
  if (entry.state === 'refused') {
    return texts.stateRefused;
  }
  if (there.signIn) {
    return texts.stateSignIn;
  }
  const time = shownTime(entry.writtenAt);
  return entry.tries > 0
    ? say('stateTried', { time, next: shownTime(entry.nextTryAt) })
    : say('stateWaiting', { time });
}

/** Of what somebody else wrote down no more is shown than that it waits. */
function shown(entry, there) {
  const item = document.createElement('li');
  if (entry.person !== person) {
    item.append(line('p', state(entry, there)));
    return item;
  }
  item.append(line('p', line('strong', entry.title), ` · ${entry.crop}`), line('p', state(entry, there)));
  if (entry.state === 'refused') {
    item.classList.add('refused');
    const faults = document.createElement('ul');
    faults.append(...entry.problems.map(
      ({ field, text }) => line('li', field ? `${field}: ${text}` : text),
    ));
    const mend = line('a', texts.mendIt);
    mend.className = 'button';
    mend.href = `${entry.href}?mend=${encodeURIComponent(entry.factId)}`;
    const drop = line('button', texts.discard);
    drop.type = 'button';
    drop.className = 'second';
    drop.addEventListener('click', async () => {
      const title = `${entry.title} ${entry.crop}`;
      if (confirm(say('discardSure', { title }))) {
        await discard(entry.factId);
        await settle();
      }
    });
    const row = line('p', mend, ' ', drop);
    row.className = 'row';
    item.append(faults, row);
  }
  return item;
}

async function list(there) {
  const all = await allWaiting();
  waitingList.replaceChildren(...(all.length === 0
    ? [line('li', texts.nothingWaiting)]
    : all.map((entry) => shown(entry, there))));
  const sent = (await allSent()).filter((entry) => entry.person === person);
  sentList.replaceChildren(...(sent.length === 0
    ? [line('li', texts.nothingSent)]
    : sent.map((entry) => line('li', line('strong', entry.title), ` · ${entry.crop} · `,
      say(entry.outcome === 'already-known' ? 'sentBefore' : 'sent',
        { time: shownTime(entry.sentAt) })))));
  const mine = all.filter((entry) => entry.person === person).length;
  const leaving = new URLSearchParams(location.search).has('leaving') && mine > 0;
  document.getElementById('leaving').hidden = !leaving;
  document.getElementById('leaving-text').textContent =
    leaving ? say('leaving', { n: shownNumber(mine) }) : '';
}

document.addEventListener('settled', (event) => list(event.detail));
document.getElementById('send').addEventListener('click', () => settle({ all: true }));
document.getElementById('stay').addEventListener('click', () => location.assign(location.pathname));
await list(await started);
