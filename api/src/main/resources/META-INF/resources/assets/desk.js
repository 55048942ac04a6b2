// Keeps the page of today in step with the live stream of standing changes. Without it the page works by
// loading it again.

const QUIET_MS = 1500;
const SEVERAL = 3;

const live = document.getElementById("live");
const news = document.getElementById("news");
const changes = [];
let timer;

function words(change) {
  const state = news.getAttribute("data-" + change.newState.toLowerCase().replace("_", "-"));
  return news.dataset.one
    .replace("%subject%", change.subject)
    .replace("%state%", state ?? change.newState);
}

// What held the focus holds it again, if it is still there; nothing else may take it.
function keepFocus(desk, act) {
  const held = document.activeElement;
  const isHere = desk.contains(held);
  const href = isHere ? held.getAttribute("href") : null;
  const label = isHere ? held.getAttribute("aria-label") : null;
  act();
  const again = href === null ? `[aria-label="${CSS.escape(label ?? "")}"]` : `a[href="${CSS.escape(href)}"]`;
  if (href !== null || label !== null) {
    desk.querySelector(again)?.focus({ preventScroll: true });
  }
}

// A note that is being written is not taken away; the page follows once it is saved or left.
function isWriting() {
  const fields = Array.from(document.querySelectorAll("#desk input[name=text]"));
  return fields.some((field) => field.value !== "" || field === document.activeElement);
}

async function refresh() {
  if (isWriting()) {
    soon();
    return;
  }
  const answer = await fetch(location.href, { headers: { Accept: "text/html" } });
  if (!answer.ok) {
    return;
  }
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  const desk = document.getElementById("desk");
  keepFocus(desk, () => desk.replaceChildren(...fresh.getElementById("desk").childNodes));
  document.getElementById("as-of").textContent = fresh.getElementById("as-of").textContent;
  const told = changes.splice(0);
  if (told.length > SEVERAL) {
    news.textContent = news.dataset.many.replace("%count%", String(told.length));
  } else if (told.length > 0) {
    news.textContent = told.map(words).join(". ");
  }
}

function soon() {
  clearTimeout(timer);
  timer = setTimeout(refresh, QUIET_MS);
}

const stream = new EventSource("/api/v1/changes");
stream.addEventListener("open", () => {
  live.textContent = live.dataset.live;
});
stream.addEventListener("standing", (event) => {
  const change = JSON.parse(event.data);
  if (change.oldState !== change.newState) {
    changes.push(change);
  }
  soon();
});
stream.addEventListener("reload", soon);
addEventListener("pagehide", () => stream.close());
