// The picture in 3D: takes the whole state of the viewer and shows it, one frame for each change.
import { Box3, Color, Matrix4, Vector3 } from "./three.js";
import { Grips } from "./grips.js";
import { Markers, placeOf } from "./markers.js";
import { Measures } from "./measures.js";
import { placements } from "./motion.js";
import { Boxes, Outline } from "./outlines.js";
import { Overlay } from "./overlay.js";
import { Parts, boxOf, ownFrame } from "./parts.js";
import { Picking } from "./picking.js";
import { Section } from "./section.js";
import { Stage } from "./stage.js";

const PICKED = 0.28; // of the accent in a picked part's tone
const HOVERED = 0.12;
const DASH = 14; // mm

export class Solid {
  /** Throws where there is no WebGL. `calls`: hover(name), pick(name), finding(number). */
  constructor(host, name, help, move, calls) {
    this.stage = new Stage(host, name, help);
    this.move = move;
    this.parts = new Parts();
    this.section = new Section();
    this.picked = new Outline(2.5);
    this.hovered = new Outline(2);
    this.changed = new Outline(2.5, true);
    this.held = new Boxes(1.2, DASH);
    this.ghost = new Boxes(2.5, DASH / 2);
    const overlay = new Overlay(this.stage);
    this.overlay = overlay;
    this.names = [];
    this.measures = new Measures(this.stage, overlay);
    this.markers = new Markers(overlay, calls.finding);
    this.grips = new Grips(this.stage, overlay, move);
    this.marks = [this.hovered, this.changed, this.picked];
    this.stage.scene.add(this.parts.group, this.section.group, this.held.group, this.ghost.group, this.measures.lines);
    this.stage.scene.add(...this.marks.map(mark => mark.group));
    this.stage.before.push(() => this.#beforeFrame());
    this.stage.home = () => this.look();
    const find = () => ({ meshes: this.parts.meshes, keeps: point => this.section.keeps(point) });
    this.picking = new Picking(this.stage, find, calls);
    this.dark = matchMedia("(prefers-color-scheme: dark)");
    this.onDark = () => this.state && this.update(this.state);
    this.dark.addEventListener("change", this.onDark);
  }

  /**
   * New shapes and words; `shapes` null where the shapes are the same as before. A piece that was all in
   * sight stays so.
   */
  load(description, shapes) {
    const first = !this.description;
    const sawAll = !first && this.stage.sees(this.#whole);
    this.description = description;
    this.byName = new Map(description.parts.map(part => [part.name, part]));
    if (shapes) this.parts.set(shapes);
    if (first) this.stage.look(this.#whole, "corner");
    else if (sawAll && !this.stage.sees(this.#whole)) this.stage.look(this.#whole);
  }

  /** Shows all of a state. */
  update(state) {
    this.state = state;
    this.parts.place(this.description.parts, placements(this.description.movements, state.open), state.apart);
    const seen = [...this.parts.byName].filter(([name]) => state.shown(name)).map(([, part]) => part);
    this.section.set(state.cut, seen);
    this.#tone(state);
    this.#hold(state);
    this.#point(state);
    const part = this.byName.get(state.picked);
    const matrix = part && (this.parts.matrix(part.name) ?? new Matrix4());
    const shown = part && state.shown(part.name) ? part : null;
    this.measures.set(state.shows.sizes ? shown : null, matrix, this.ink);
    this.grips.set(shown, matrix);
    this.faceMoved();
  }

  /** Only what is under the pointer is another. */
  hoveredNow(state) {
    this.#tone(state);
    this.stage.change();
  }

  /** A face of the picked part is being moved. */
  faceMoved() {
    const { box, part } = this.move;
    const matrix = box && this.parts.matrix(part.name).clone().multiply(ownFrame(part));
    this.ghost.set(box ? [{ box, matrix }] : [], this.accent);
    this.stage.change();
  }

  #tone(state) {
    this.#readInks();
    const tone = name => (name === state.picked ? PICKED : name === state.hovered ? HOVERED : 0);
    const shown = name => state.shown(name);
    this.parts.mark(shown, tone, this.accent, this.section.planes);
    const edges = name => this.parts.byName.get(name)?.outline;
    const seen = names => names.filter(name => name && shown(name));
    this.picked.round(seen([state.picked]), edges);
    this.hovered.round(seen([state.hovered].filter(name => name !== state.picked)), edges);
    this.changed.round(seen(state.changed), edges);
  }

  #readInks() {
    const style = getComputedStyle(this.stage.host);
    this.ink = new Color(style.color);
    this.accent = new Color(style.getPropertyValue("--accent").trim() || style.color);
    this.paper = new Color(style.getPropertyValue("--field").trim() || style.backgroundColor);
  }

  #hold(state) {
    for (const { element } of this.names) element.remove();
    const held = state.shows.held ? this.description.held : [];
    const placed = held.map(({ box, on, name }) => ({ box, name, matrix: this.parts.matrix(on[0]) ?? new Matrix4() }));
    this.held.set(placed, this.ink);
    this.names = placed.map(({ box, name, matrix }) => {
      const at = new Vector3(...box.low).lerp(new Vector3(...box.high), 0.5).setComponent(2, box.high[2]);
      return { element: this.overlay.add("pic-held", name), at: at.applyMatrix4(matrix) };
    });
  }

  #point(state) {
    const shown = finding => finding.number === state.finding
      || (state.shows.findings && finding.weight !== "know");
    const place = finding => placeOf(finding, this.byName, name => this.parts.matrix(name));
    this.markers.set(this.description.findings, shown, place, state.finding);
  }

  #beforeFrame() {
    if (!this.description) return;
    const matrix = name => this.parts.matrix(name);
    const look = { paper: this.paper, cut: this.section.planes };
    for (const mark of this.marks) mark.place(matrix, { ...look, ink: mark === this.picked ? this.accent : this.ink });
    for (const { element, at } of this.names) this.overlay.put(element, at);
    this.measures.draw();
    this.markers.draw();
    this.grips.draw();
  }

  /** All parts in sight, from where the eye is or from one of the sides. */
  look(side = null) {
    this.stage.look(this.#extent(), side);
  }

  /** Bring a finding to the middle. */
  centreOn(finding) {
    const at = placeOf(finding, this.byName, name => this.parts.matrix(name));
    if (at) this.stage.centreOn(at);
  }

  /** Whether no part runs out of the picture. */
  get allInSight() {
    return this.stage.sees(this.#extent());
  }

  get #whole() {
    const { low, high } = this.description.box;
    return new Box3(new Vector3(...low), new Vector3(...high));
  }

  /** The box round all parts in sight, where they are now. */
  #extent() {
    const box = new Box3();
    for (const mesh of this.parts.meshes) box.union(boxOf(mesh));
    return box.isEmpty() ? this.#whole : box;
  }

  get frames() {
    return this.stage.frames;
  }

  dispose() {
    this.dark.removeEventListener("change", this.onDark);
    this.grips.dispose();
    this.stage.dispose();
  }
}
