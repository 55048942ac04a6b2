// Flowering by day: the slider runs over the days of the season. Where days are unknown, a crop or
// source counts as in flower, as the gate of isolation has it.

const DAY_MS = 86_400_000;

export function followDays(svg) {
  const form = document.getElementById("days");
  if (!form) {
    return;
  }
  const day = form.elements.day;
  const slide = document.getElementById("slide");
  const slid = document.getElementById("slid");
  const language = document.documentElement.lang;
  const named = new Intl.DateTimeFormat(language === "en" ? "en-GB" : language, {
    day: "numeric", month: "long", timeZone: "UTC" });
  const first = Date.parse(day.min);
  slide.max = (Date.parse(day.max) - first) / DAY_MS;

  function show(iso) {
    for (const figure of svg.querySelectorAll(".figure")) {
      figure.classList.remove("IN_FLOWER", "ASSUMED", "NOT_IN_FLOWER");
      if (iso) {
        figure.classList.add(on(figure.dataset, iso));
      }
    }
    const text = iso ? named.format(Date.parse(iso)) : form.dataset.all;
    slid.textContent = text;
    slide.setAttribute("aria-valuetext", text);
    const address = new URL(location.href);
    address.searchParams.delete("day");
    if (iso) {
      address.searchParams.set("day", iso);
    }
    history.replaceState(null, "", address);
  }

  slide.addEventListener("input", () => {
    day.value = new Date(first + slide.value * DAY_MS).toISOString().slice(0, 10);
    show(day.value);
  });
  day.addEventListener("change", () => {
    slide.value = day.value ? (Date.parse(day.value) - first) / DAY_MS : 0;
    show(day.value);
  });
  document.getElementById("all-days").addEventListener("click", (event) => {
    event.preventDefault();
    day.value = "";
    show("");
  });
  form.querySelector(".slide").hidden = false;
  if (day.value) {
    slide.value = (Date.parse(day.value) - first) / DAY_MS;
  }
  show(day.value);
}

function on({ from, to }, iso) {
  if ((from && iso < from) || (to && iso > to)) {
    return "NOT_IN_FLOWER";
  }
  return from && to ? "IN_FLOWER" : "ASSUMED";
}
