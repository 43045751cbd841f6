// Where findings are: a shape by weight and the finding's number, over the picture.
import { Vector3 } from "./three.js";
import { ownFrame } from "./parts.js";

export class Markers {
  constructor(overlay, chosen) {
    Object.assign(this, { overlay, chosen, marks: [] });
  }

  /** `shown(finding)` says which; `place(finding)` gives where, or null. */
  set(findings, shown, place, current) {
    for (const { element } of this.marks) element.remove();
    this.marks = findings.filter(shown).map(finding => ({ finding, at: place(finding) })).filter(mark => mark.at);
    for (const mark of this.marks) mark.element = this.#made(mark.finding, mark.finding.number === current);
  }

  #made(finding, current) {
    const element = this.overlay.add(`pic-mark pic-${finding.weight}`, String(finding.number));
    element.classList.toggle("pic-current", current);
    element.title = finding.message;
    element.addEventListener("click", () => this.chosen(finding.number));
    return element;
  }

  draw() {
    for (const { element, at } of this.marks) this.overlay.put(element, at);
  }
}

/** Where a finding is: its spot, else the front of its first part; null for what is nowhere in particular. */
export function placeOf(finding, parts, matrix) {
  if (finding.pose && finding.spot) return new Vector3(...finding.spot);
  const part = parts.get(finding.parts[0]);
  const stands = part && matrix(part.name);
  if (finding.spot) return stands ? new Vector3(...finding.spot).applyMatrix4(stands) : new Vector3(...finding.spot);
  if (!stands) return null;
  const { low, high } = part.box;
  const front = new Vector3((low[0] + high[0]) / 2, low[1], (low[2] + high[2]) / 2);
  return front.applyMatrix4(ownFrame(part)).applyMatrix4(stands);
}
