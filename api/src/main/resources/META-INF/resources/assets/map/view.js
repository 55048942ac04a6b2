// The part of the map that is seen: moved and zoomed by pointer, wheel, keys and buttons. The marks
// keep their size on the screen, and the scale bar tells how long it is.

const NEAREST_M = 100;
const STEP = 1.4;
const MOST_NAMED = 300;
const LENGTHS = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000, 100000, 200000];

export class View {
  constructor(frame) {
    this.frame = frame;
    this.svg = frame.querySelector("svg");
    this.whole = box(this.svg.dataset.whole);
    this.farthest = 3 * Math.max(this.whole.width, this.whole.height);
    this.metres = new Intl.NumberFormat(document.documentElement.lang);
    this.svg.classList.add("live");
    this.show(box(this.svg.getAttribute("viewBox")));
    new ResizeObserver(() => this.show(this.shown)).observe(this.svg);
    this.listen();
  }

  show(shown) {
    this.shown = shown;
    this.svg.setAttribute("viewBox", [shown.left, shown.top, shown.width, shown.height].join(" "));
    const toScreen = this.svg.getScreenCTM();
    if (!toScreen) {
      return;
    }
    const unit = 1 / toScreen.a;
    this.svg.style.setProperty("--unit", unit);
    for (const pattern of this.svg.querySelectorAll("pattern")) {
      pattern.setAttribute("patternTransform", `scale(${unit})`);
    }
    this.drawScale(unit);
    cancelAnimationFrame(this.waiting);
    this.waiting = requestAnimationFrame(() => this.clearLabels());
  }

  /** A place of the screen as units of the map. */
  at(event) {
    return new DOMPoint(event.clientX, event.clientY).matrixTransform(
      this.svg.getScreenCTM().inverse());
  }

  zoom(factor, middle) {
    const { left, top, width, height } = this.shown;
    const about = middle ?? { x: left + width / 2, y: top + height / 2 };
    const least = Math.max(factor, NEAREST_M / Math.max(width, height));
    const by = Math.min(least, this.farthest / Math.max(width, height));
    this.show({
      left: about.x - (about.x - left) * by,
      top: about.y - (about.y - top) * by,
      width: width * by,
      height: height * by,
    });
  }

  move(across, down) {
    this.show({ ...this.shown, left: this.shown.left + across, top: this.shown.top + down });
  }

  /** Shows one figure from near, with its isolation zone. */
  centre(figure) {
    const of = figure.querySelector("path").getBBox();
    const width = Math.max(1800, 4 * Math.max(of.width, of.height));
    const height = (width * this.svg.clientHeight) / this.svg.clientWidth;
    this.show({
      left: of.x + of.width / 2 - width / 2,
      top: of.y + of.height / 2 - height / 2,
      width,
      height,
    });
  }

  drawScale(unit) {
    const edge = this.svg.getBoundingClientRect();
    const corner = this.at({ clientX: edge.left, clientY: edge.bottom });
    const length = LENGTHS.filter((metres) => metres / unit <= edge.width / 4).pop() ?? LENGTHS[0];
    const scale = this.svg.querySelector("#scale");
    scale.setAttribute("transform", `translate(${corner.x} ${corner.y})`);
    scale.querySelector(".bar").setAttribute("d", `M16 -26V-16H${16 + length / unit}V-26`);
    const label = scale.querySelector("text");
    label.textContent = label.textContent.replace(/[\d.,]+/, this.metres.format(length));
  }

  /** Names stand where there is room; the figures drawn last matter most. */
  clearLabels() {
    const edge = this.svg.getBoundingClientRect();
    const inView = [...this.svg.querySelectorAll(".figure use")].filter(
      (mark) => meet(mark.getBoundingClientRect(), edge));
    const labels = [...this.svg.querySelectorAll(".metres, .figure .label")].reverse();
    labels.forEach((label) => label.classList.add("crowded"));
    if (inView.length > MOST_NAMED) {
      return;
    }
    const taken = inView.map((mark) => mark.getBoundingClientRect());
    for (const label of labels) {
      for (const left of label.matches(".metres") ? [false] : [false, true]) {
        label.classList.toggle("left", left);
        const seen = label.getBoundingClientRect();
        if (meet(seen, edge) && !taken.some((other) => meet(seen, other))) {
          label.classList.remove("crowded");
          taken.push(seen);
          break;
        }
      }
    }
  }

  listen() {
    const fingers = new Map();
    let apart = 0;
    this.dragged = false;
    this.svg.addEventListener("pointerdown", (event) => {
      fingers.set(event.pointerId, event);
      this.dragged = false;
      apart = 0;
    });
    this.svg.addEventListener("pointermove", (event) => {
      const before = fingers.get(event.pointerId);
      if (!before) {
        return;
      }
      const far = Math.hypot(event.clientX - before.clientX, event.clientY - before.clientY);
      if (!this.dragged && far < 6) {
        return;
      }
      this.dragged = true;
      this.svg.setPointerCapture(event.pointerId);
      const from = this.at(before);
      fingers.set(event.pointerId, event);
      const to = this.at(event);
      this.move((from.x - to.x) / fingers.size, (from.y - to.y) / fingers.size);
      if (fingers.size === 2) {
        const [one, other] = fingers.values();
        const now = Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY);
        if (apart > 0 && now > 0) {
          this.zoom(apart / now, this.at({
            clientX: (one.clientX + other.clientX) / 2,
            clientY: (one.clientY + other.clientY) / 2,
          }));
        }
        apart = now;
      }
    });
    for (const end of ["pointerup", "pointercancel"]) {
      this.svg.addEventListener(end, (event) => fingers.delete(event.pointerId));
    }
    this.svg.addEventListener("wheel", (event) => {
      event.preventDefault();
      this.zoom(event.deltaY > 0 ? STEP : 1 / STEP, this.at(event));
    }, { passive: false });
    this.frame.addEventListener("keydown", (event) => this.key(event));
    this.button("nearer", () => this.zoom(1 / STEP));
    this.button("farther", () => this.zoom(STEP));
    this.button("whole", () => this.show(this.whole));
    this.frame.querySelector(".tools").hidden = false;
  }

  button(id, act) {
    document.getElementById(id).addEventListener("click", act);
  }

  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    const { width, height } = this.shown;
    const acts = {
      ArrowLeft: () => this.move(-width / 8, 0),
      ArrowRight: () => this.move(width / 8, 0),
      ArrowUp: () => this.move(0, -height / 8),
      ArrowDown: () => this.move(0, height / 8),
      "+": () => this.zoom(1 / STEP),
      "=": () => this.zoom(1 / STEP),
      "-": () => this.zoom(STEP),
      0: () => this.show(this.whole),
    };
    if (acts[event.key]) {
      event.preventDefault();
      acts[event.key]();
    }
  }
}

function meet(one, other) {
  return one.left < other.right && other.left < one.right
    && one.top < other.bottom && other.top < one.bottom;
}

function box(text) {
  const [left, top, width, height] = text.split(" ").map(Number);
  return { left, top, width, height };
}
