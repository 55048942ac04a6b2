/** A crop: keeps its page and its sheets on the phone whenever there is network. */
import { say, shownTime, started, texts } from './book.js';
import { canKeep, keep } from './pages.js';

const there = await started;
if (canKeep() && there.person) {
  const sheets = Array.from(
    document.querySelectorAll('a[data-task]'), (link) => new URL(link.href).pathname);
  const missing = await keep(['/field-book', location.pathname, ...sheets]);
  document.getElementById('keep-state').textContent =
    missing.length > 0 ? texts.notKept : say('kept', { time: shownTime(Date.now()) });
}
