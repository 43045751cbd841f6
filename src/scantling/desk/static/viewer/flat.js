// Where there is no 3D: the desk's own drawing, in which parts can still be picked.
export class Flat {
  /** `fetchDrawing(pose)` gives SVG text. `calls`: hover(name), pick(name). */
  constructor(host, name, fetchDrawing, calls) {
    Object.assign(this, { host, fetchDrawing, frames: 0 });
    this.box = document.createElement("div");
    this.box.className = "pic-flat";
    this.box.setAttribute("role", "img");
    this.box.setAttribute("aria-label", name);
    host.prepend(this.box);
    this.box.addEventListener("click", event => calls.pick(event.target.dataset?.part ?? null));
  }

  load() {
    this.pose = undefined; // what was drawn is of another shape now
  }

  update(state) {
    this.state = state;
    if (state.pose !== this.pose) this.#fetch(state.pose);
    this.#mark();
  }

  hoveredNow() {}

  faceMoved() {}

  centreOn() {}

  async #fetch(pose) {
    this.pose = pose;
    const drawn = new DOMParser().parseFromString(await this.fetchDrawing(pose), "image/svg+xml").documentElement;
    if (pose !== this.pose || drawn.nodeName !== "svg") return;
    drawn.removeAttribute("width");
    drawn.removeAttribute("height");
    drawn.setAttribute("aria-hidden", "true");
    this.box.replaceChildren(document.importNode(drawn, true));
    this.#mark();
  }

  #mark() {
    for (const path of this.box.querySelectorAll("[data-part]")) {
      path.classList.toggle("pic-chosen", path.dataset.part === this.state.picked);
      path.classList.toggle("pic-fresh", this.state.changed.includes(path.dataset.part));
    }
  }

  dispose() {
    this.box.remove();
  }
}
