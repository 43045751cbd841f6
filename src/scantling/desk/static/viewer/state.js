// What the viewer shows: plain values that outlive a change of the shape.
export class State {
  picked = null;
  hovered = null;
  finding = null; // number of the one pointed at
  hidden = new Set();
  only = null; // a Set of parts, or null for all
  apart = 0; // 0 to 1
  cutAxis = null; // "wide", "deep", "high"
  cutShare = 0.5;
  cutOther = false;
  open = new Map(); // movement -> 0 to 1
  pose = "at rest"; // null between poses
  changed = [];
  shows = { sizes: true, held: true, findings: true };

  shown(name) {
    return !this.hidden.has(name) && (this.only === null || this.only.has(name));
  }

  /** The cut in mm of the piece's frame, or null. */
  cutOf({ low, high }) {
    if (!this.cutAxis) return null;
    const axis = ["wide", "deep", "high"].indexOf(this.cutAxis);
    const at = low[axis] + this.cutShare * (high[axis] - low[axis]);
    return { axis: this.cutAxis, at, from: at - low[axis], other: this.cutOther };
  }

  /** Forget what a new description no longer has. */
  keepTo({ parts, movements, findings }) {
    const names = new Set(parts.map(part => part.name));
    const moving = new Set(movements.map(movement => movement.name));
    if (!names.has(this.picked)) this.picked = null;
    if (!names.has(this.hovered)) this.hovered = null;
    if (!findings.some(finding => finding.number === this.finding)) this.finding = null;
    this.hidden = new Set([...this.hidden].filter(name => names.has(name)));
    const only = this.only && [...this.only].filter(name => names.has(name));
    this.only = only?.length ? new Set(only) : null;
    this.open = new Map([...this.open].filter(([name]) => moving.has(name)));
  }
}
