// The map of a season. Without this script it stands still, and its forms ask the server.

import { followDays } from "./flowering.js";
import { measureBetween } from "./measure.js";
import { View } from "./view.js";

const frame = document.getElementById("map");
if (frame) {
  const view = new View(frame);
  const svg = view.svg;
  const { lon, lat, lonDegree, latDegree } = svg.dataset;

  /** Degrees as units of the map, which is linear in them. */
  const toMap = (place) => ({ x: (place.lon - lon) * lonDegree, y: (lat - place.lat) * latDegree });

  followDays(svg);
  const choose = measureBetween(svg, toMap);

  for (const link of document.querySelectorAll("a.near")) {
    link.addEventListener("click", (event) => {
      const figure = svg.querySelector(`.figure[data-subject="${CSS.escape(link.dataset.subject)}"]`);
      if (figure) {
        event.preventDefault();
        view.centre(figure);
        frame.focus();
        frame.scrollIntoView({ block: "nearest" });
      }
    });
  }

  const tap = document.getElementById("tap");
  const tapped = document.getElementById("tapped-place");
  tap?.addEventListener("click", () => {
    const now = tap.getAttribute("aria-pressed") !== "true";
    tap.setAttribute("aria-pressed", now);
    svg.classList.toggle("tapping", now);
    if (now) {
      frame.scrollIntoView({ block: "nearest" });
    }
  });
  if (tap) {
    tap.hidden = false;
  }

  /** Where somebody tapped, for the form of a new source. */
  function note(at) {
    const place = { lon: Number(lon) + at.x / lonDegree, lat: lat - at.y / latDegree };
    const degrees = new Intl.NumberFormat(document.documentElement.lang, {
      minimumFractionDigits: 5, maximumFractionDigits: 5 });
    const mark = document.getElementById("tapped");
    mark.setAttribute("transform", `translate(${at.x} ${at.y})`);
    mark.removeAttribute("hidden");
    tapped.elements.place.value = `${place.lon.toFixed(6)},${place.lat.toFixed(6)}`;
    tapped.hidden = false;
    const said = document.getElementById("tapped-at");
    const texts = said.dataset;
    said.textContent = texts.tapped
      .replace("{lat}", degrees.format(place.lat)).replace("{lon}", degrees.format(place.lon));
    tap.setAttribute("aria-pressed", false);
    svg.classList.remove("tapping");
    tapped.querySelector("button").focus();
  }

  svg.addEventListener("click", (event) => {
    if (view.dragged) {
      return;
    }
    if (svg.classList.contains("tapping")) {
      note(view.at(event));
      return;
    }
    const figure = event.target.closest(".figure");
    if (figure) {
      choose(figure.dataset.subject);
    }
  });
}
