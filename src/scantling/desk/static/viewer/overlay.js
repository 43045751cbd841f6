// Words and marks laid over the picture. Only a second way to what the buttons beside it say, so not read aloud.
export class Overlay {
  constructor(stage) {
    this.stage = stage;
    this.element = document.createElement("div");
    this.element.className = "pic-over";
    this.element.setAttribute("aria-hidden", "true");
    stage.host.append(this.element);
  }

  add(className, words = "") {
    const made = document.createElement("div");
    made.className = className;
    made.textContent = words;
    this.element.append(made);
    return made;
  }

  /** Middle of `element` at a point of the piece. */
  put(element, point) {
    this.lay(element, this.stage.onScreen(point));
  }

  /** Middle of `element` at a place of the picture; hidden where that is behind the eye. */
  lay(element, { x, y, before }) {
    element.hidden = !before;
    element.style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px) translate(-50%, -50%)`;
  }
}
