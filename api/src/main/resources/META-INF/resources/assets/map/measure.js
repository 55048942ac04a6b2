// The shortest distance between two that were tapped, or chosen in the table. The server tells it:
// it has the one arithmetic that the gate of isolation has too.

export function measureBetween(svg, toMap) {
  const said = document.getElementById("measured");
  const texts = said.dataset;
  const way = document.getElementById("measured-way");
  const address = document.getElementById("choosing").getAttribute("action");
  const ticks = [...document.querySelectorAll("#choosing input[name=between]")];
  const figures = new Map(
    [...svg.querySelectorAll(".figure")].map((figure) => [figure.dataset.subject, figure]));
  let chosen = ticks.filter((tick) => tick.checked).map((tick) => tick.value);

  async function show() {
    for (const tick of ticks) {
      tick.checked = chosen.includes(tick.value);
    }
    for (const [subject, figure] of figures) {
      figure.classList.toggle("chosen", chosen.includes(subject));
    }
    way.setAttribute("d", "");
    if (chosen.length < 2) {
      const one = figures.get(chosen[0]);
      said.textContent = one ? texts.one.replace("{name}", one.dataset.name) : "";
      return;
    }
    const [from, to] = chosen;
    const asked = await fetch(`${address}/distance?${new URLSearchParams({ from, to })}`, {
      headers: { Accept: "application/json" } }).catch(() => null);
    if (chosen[0] !== from || chosen[1] !== to) {
      return;
    }
    if (!asked?.ok) {
      said.textContent = texts.none;
      return;
    }
    const found = await asked.json();
    const [start, end] = [toMap(found.from), toMap(found.to)];
    way.setAttribute("d", `M${start.x} ${start.y}L${end.x} ${end.y}`);
    said.textContent = found.text;
  }

  function choose(subject) {
    chosen = chosen.includes(subject)
      ? chosen.filter((one) => one !== subject)
      : [...chosen.slice(-1), subject];
    show();
  }

  for (const tick of ticks) {
    tick.addEventListener("change", () => choose(tick.value));
  }
  document.getElementById("measure").hidden = true;
  if (chosen.length > 0) {
    chosen = chosen.slice(0, 2);
    show();
  }
  return choose;
}
