// What is under the pointer: hovering, and a click or tap that is not the start of a turn.
import { Raycaster } from "./three.js";

const STILL = 5; // px a finger may tremble

/** Calls `hover(name)` and `pick(name)` with the part in front, or null. `find` gives meshes and what is kept. */
export class Picking {
  constructor(stage, find, { hover, pick }) {
    Object.assign(this, { stage, find, hover, pick, ray: new Raycaster(), down: null, over: null });
    const { canvas } = stage;
    canvas.addEventListener("pointerdown", event => this.#pressed(event));
    canvas.addEventListener("pointerup", event => this.#released(event));
    canvas.addEventListener("pointercancel", () => { this.down = null; });
    canvas.addEventListener("pointermove", event => this.#moved(event));
    canvas.addEventListener("pointerleave", () => this.#hovered(null));
  }

  /** The name of the part in front at a pointer's place, or null. */
  at(event) {
    this.ray.setFromCamera(this.stage.aimed(event), this.stage.camera);
    const { meshes, keeps } = this.find();
    return this.ray.intersectObjects(meshes, false).find(hit => keeps(hit.point))?.object.name ?? null;
  }

  #pressed(event) {
    this.down = event.isPrimary && event.button === 0 ? { x: event.clientX, y: event.clientY } : null;
  }

  #released(event) {
    const { down } = this;
    this.down = null;
    if (!down || Math.hypot(event.clientX - down.x, event.clientY - down.y) > STILL) return;
    this.pick(this.at(event));
  }

  #moved(event) {
    if (event.pointerType === "touch" || event.buttons || this.waiting) return;
    this.waiting = requestAnimationFrame(() => {
      this.waiting = undefined;
      this.#hovered(this.at(event));
    });
  }

  #hovered(name) {
    if (name === this.over) return;
    this.over = name;
    this.hover(name);
  }
}
