// Moving a face of the picked part in steps. Nothing is sent before it is let go. Knows no picture.
import { stepWords } from "./words.js";

const AXES = ["wide", "deep", "high"];

export const axisOf = face => AXES.indexOf(face.axis);
export const signOf = face => (["right", "back", "top"].includes(face.face) ? 1 : -1);

/** Calls `moved()` at every change, `sent({part, face, steps, by_mm})` when a moved face is let go. */
export class FaceMove {
  constructor({ moved, sent }) {
    Object.assign(this, { moved, sent, part: null, step: null, face: null, steps: 0 });
  }

  /** `part`, `step`: as described. A face being moved is left where the part is another. */
  of(part, step) {
    const other = part?.name !== this.part?.name;
    Object.assign(this, { part, step });
    if (other && this.face) this.leave();
    else if (this.face) this.face = part.faces.find(face => face.face === this.face.face) ?? null;
  }

  /** Begin with a face by its word. */
  choose(word) {
    this.face = this.part?.faces.find(face => face.face === word) ?? null;
    this.to(0);
  }

  /** So many steps outward from where the face is now. */
  to(steps) {
    this.steps = this.face ? steps : 0;
    this.moved();
  }

  by(steps) {
    this.to(this.steps + steps);
  }

  /** Let go: sent if it moved at all. */
  keep() {
    const { part, face, steps, step } = this;
    this.leave();
    if (part && face && steps) this.sent({ part: part.name, face: face.face, steps, by_mm: steps * step.mm });
  }

  /** Back to where it was; nothing is sent. */
  leave() {
    Object.assign(this, { face: null, steps: 0 });
    this.moved();
  }

  /** How far the face is from where it was, outward. [mm] */
  get away() {
    return this.face ? this.steps * this.step.mm : 0;
  }

  /** "right face 3/16 in outward", or nothing. */
  get words() {
    if (!this.face) return "";
    if (!this.steps) return `${this.face.face} face, not moved`;
    return `${this.face.face} face ${stepWords(this.steps, this.step)} ${this.steps > 0 ? "outward" : "inward"}`;
  }

  /** The part's box with the face where it would come to, or null. */
  get box() {
    if (!this.face || !this.steps) return null;
    const { low, high } = this.part.box;
    const box = { low: [...low], high: [...high] };
    (signOf(this.face) > 0 ? box.high : box.low)[axisOf(this.face)] += signOf(this.face) * this.away;
    return box;
  }
}
