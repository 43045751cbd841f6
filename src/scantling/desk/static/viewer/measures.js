// The sizes of the picked part, drawn beside it: three lines with ticks, and the desk's words on them.
import { BufferAttribute, BufferGeometry, LineBasicMaterial, LineSegments, Vector3 } from "./three.js";
import { ownFrame } from "./parts.js";

const OFF = 0.035; // of the eye's distance: how far from the part a line stands
const TICK = 0.006;
const HIGH = 26; // px of a label
const GAP = 0.3; // of the offset, left free between part and line

export class Measures {
  constructor(stage, overlay) {
    Object.assign(this, { stage, overlay, part: null });
    this.lines = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ depthTest: false, transparent: true }));
    this.lines.frustumCulled = false;
    this.lines.renderOrder = 2000;
    this.labels = [0, 1, 2].map(() => overlay.add("pic-size"));
    this.set(null);
  }

  /** `part`: as described, or null for none; `matrix`: where it stands now. */
  set(part, matrix, ink) {
    this.part = part;
    this.lines.visible = Boolean(part);
    for (const label of this.labels) label.hidden = !part;
    if (!part) return;
    this.place = matrix.clone().multiply(ownFrame(part));
    this.lines.material.color.copy(ink);
    part.sizes.forEach((size, axis) => { this.labels[axis].textContent = size.words; });
    this.widths = this.labels.map(label => label.offsetWidth);
  }

  /** Before each frame: on the outer edges as seen from here. */
  draw() {
    if (!this.part) return;
    this.taken = [];
    const points = [0, 1, 2].flatMap(axis => this.#line(axis));
    const flat = new Float32Array(points.flatMap(point => point.toArray()));
    const known = this.lines.geometry.attributes.position;
    if (known) known.copyArray(flat).needsUpdate = true;
    else this.lines.geometry.setAttribute("position", new BufferAttribute(flat, 3));
  }

  #line(axis) {
    const { low, high } = this.part.box;
    const { start, end, out } = this.#outerEdge(axis, low, high);
    const far = this.stage.camera.position.distanceTo(start);
    const by = out.multiplyScalar(far * OFF);
    const [a, b] = [start, end].map(point => point.clone().add(by));
    const tick = by.clone().setLength(far * TICK);
    this.#label(axis, a.clone().lerp(b, 0.5), start.clone().lerp(end, 0.5));
    const leads = [start, end].flatMap(point => [point.clone().addScaledVector(by, GAP), point.clone().add(by).add(tick)]);
    return [a, b, ...leads];
  }

  /** Beyond the line as seen from the part, clear of the labels that stand there already, inside the picture. */
  #label(axis, at, from) {
    const wide = this.widths[axis];
    const [seen, part] = [at, from].map(point => this.stage.onScreen(point));
    const [x, y] = [seen.x - part.x, seen.y - part.y];
    const long = Math.hypot(x, y) || 1;
    const place = { x: seen.x + ((x / long) * wide) / 2, y: seen.y + ((y / long) * HIGH) / 2, wide };
    const inside = (value, half, whole) => Math.min(Math.max(value, half), whole - half);
    place.x = inside(place.x, wide / 2, this.stage.wide);
    place.y = inside(place.y, HIGH / 2, this.stage.high);
    const down = place.y > this.stage.high - 2 * HIGH ? -HIGH : HIGH;
    const meets = other => Math.abs(other.x - place.x) < (other.wide + wide) / 2 + 2 && Math.abs(other.y - place.y) < HIGH;
    for (const other of this.taken) if (meets(other)) place.y = other.y + down;
    this.taken.push(place);
    this.overlay.lay(this.labels[axis], { ...place, before: seen.before });
  }

  /** Of the four edges along an axis the one that lies farthest out on the screen, downward or to the right. */
  #outerEdge(axis, low, high) {
    const [u, v] = [0, 1, 2].filter(other => other !== axis);
    const middle = new Vector3(...low).add(new Vector3(...high)).multiplyScalar(0.5);
    const edges = [[0, 0], [0, 1], [1, 0], [1, 1]].map(([atU, atV]) => {
      const point = new Vector3().setComponent(u, atU ? high[u] : low[u]).setComponent(v, atV ? high[v] : low[v]);
      const start = point.clone().setComponent(axis, low[axis]).applyMatrix4(this.place);
      const end = point.clone().setComponent(axis, high[axis]).applyMatrix4(this.place);
      return { start, end, middle: start.clone().lerp(end, 0.5) };
    });
    const centre = middle.applyMatrix4(this.place);
    const seen = this.stage.onScreen(centre);
    const best = edges.map(edge => [this.#outward(edge, seen), edge]).sort((a, b) => b[0] - a[0])[0][1];
    const spread = best.middle.clone().sub(centre);
    return { ...best, out: spread.lengthSq() ? spread.normalize() : new Vector3(0, 0, -1) };
  }

  #outward(edge, seen) {
    const { x, y } = this.stage.onScreen(edge.middle);
    const near = -edge.middle.distanceTo(this.stage.camera.position) * 1e-3;
    return (y - seen.y) * 1.2 + (x - seen.x) + near;
  }
}
