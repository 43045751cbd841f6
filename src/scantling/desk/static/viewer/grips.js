// A grip on each face of the picked part, to drag it along its own direction.
import { Vector3 } from "./three.js";
import { axisOf, signOf } from "./faces.js";
import { faceMiddle, ownFrame } from "./parts.js";

const LEAST = 0.12; // of the px a mm gives sideways: what it counts at the least when seen end on

export class Grips {
  constructor(stage, overlay, move) {
    Object.assign(this, { stage, overlay, move, grips: [], held: null });
    this.label = overlay.add("pic-size pic-moved");
    this.label.hidden = true;
    this.onKey = event => {
      if (event.key === "Escape" && this.held) this.#leave();
    };
    addEventListener("keydown", this.onKey);
  }

  /** `part`: as described, or null; `matrix`: where it stands now. */
  set(part, matrix) {
    this.matrix = matrix;
    this.frame = part && matrix.clone().multiply(ownFrame(part));
    if (part === this.part) return;
    this.part = part;
    for (const { element } of this.grips) element.remove();
    this.grips = (part?.faces ?? []).map(face => ({ face, element: this.#grip(face) }));
  }

  #grip(face) {
    const element = this.overlay.add("pic-grip");
    element.title = `Drag the ${face.face} face`;
    element.dataset.face = face.face;
    element.addEventListener("pointerdown", event => this.#taken(event, face, element));
    element.addEventListener("pointermove", event => this.#dragged(event));
    element.addEventListener("pointerup", event => this.#released(event));
    element.addEventListener("pointercancel", () => this.#leave());
    return element;
  }

  #taken(event, face, element) {
    if (!event.isPrimary || event.button) return;
    event.preventDefault();
    element.setPointerCapture(event.pointerId);
    this.move.choose(face.face);
    this.held = { x: event.clientX, y: event.clientY, way: this.#perMm(face) };
  }

  #dragged(event) {
    if (!this.held) return;
    const { x, y, way } = this.held;
    const mm = ((event.clientX - x) * way.x + (event.clientY - y) * way.y) / (way.x ** 2 + way.y ** 2);
    this.move.to(Math.round(mm / this.move.step.mm));
  }

  #released(event) {
    if (!this.held) return;
    this.#dragged(event);
    this.held = null;
    this.move.keep();
  }

  #leave() {
    this.held = null;
    this.move.leave();
  }

  /** Which way, and how many px, a mm outward goes on the screen. */
  #perMm(face) {
    const { camera, high } = this.stage;
    const at = this.#middle(face, this.part.box);
    const [a, b] = [at, at.clone().add(this.#out(face))].map(point => this.stage.onScreen(point));
    const sideways = high / (2 * camera.position.distanceTo(at) * Math.tan((camera.fov * Math.PI) / 360));
    const long = Math.hypot(b.x - a.x, b.y - a.y);
    const scale = Math.max(long, sideways * LEAST) / (long || 1);
    return long ? { x: (b.x - a.x) * scale, y: (b.y - a.y) * scale } : { x: 0, y: -sideways * LEAST };
  }

  #middle(face, box) {
    return faceMiddle(box, axisOf(face), signOf(face)).applyMatrix4(this.frame);
  }

  #out(face) {
    return new Vector3(...face.out).transformDirection(this.matrix);
  }

  draw() {
    const current = this.move.face?.face;
    this.label.hidden = !this.move.steps;
    for (const { face, element } of this.grips) {
      const at = this.#middle(face, (face.face === current && this.move.box) || this.part.box);
      const toward = this.stage.camera.position.clone().sub(at).dot(this.#out(face)) > 0;
      this.overlay.put(element, at);
      element.classList.toggle("pic-turned", !toward && face.face !== current);
      element.classList.toggle("pic-current", face.face === current);
      if (face.face === current && this.move.steps) this.#say(at);
    }
  }

  #say(at) {
    const { x, y, before } = this.stage.onScreen(at);
    if (this.label.textContent !== this.move.words) this.label.textContent = this.move.words;
    const half = this.label.offsetWidth / 2;
    this.overlay.lay(this.label, { x: Math.min(Math.max(x, half), this.stage.wide - half), y, before });
  }

  dispose() {
    removeEventListener("keydown", this.onKey);
  }
}
