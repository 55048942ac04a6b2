/** Before somebody signs out: what waits is named first, and kept pages are forgotten. */
import { forget, canKeep } from './pages.js';
import { allWaiting } from './store.js';

const OUTBOX = '/field-book/outbox';

async function isWaiting() {
  try {
    return (await allWaiting()).length > 0;
  } catch {
    return false;
  }
}

for (const form of document.querySelectorAll('form[action="/api/v1/session/end"]')) {
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    const isSure = form.id === 'leave';
    if (!isSure && await isWaiting()) {
      location.assign(`${OUTBOX}?leaving=true`);
      return;
    }
    if (canKeep()) {
      await forget();
    }
    form.submit();
  });
}
