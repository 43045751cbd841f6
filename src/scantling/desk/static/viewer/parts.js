// The parts as solids with thin dark edges: where each stands, whether it is shown, and how it is marked.
import { Box3, Color, EdgesGeometry, Group, Matrix4, Mesh, Vector3 } from "./three.js";
import { Merged } from "./merged.js";
import { sameShape } from "./shapes.js";

const CREASE = 20; // degrees: flatter edges belong to a curved face

export class Parts {
  constructor() {
    this.byName = new Map(); // name -> {mesh, outline, colour}; the meshes are aimed at, not drawn
    this.merged = new Merged();
    this.group = new Group().add(this.merged.solids, this.merged.edges);
  }

  /** Takes new shapes; parts that did not change keep theirs. */
  set(shapes) {
    for (const name of [...this.byName.keys()].filter(name => !shapes.has(name))) this.#drop(name);
    for (const [name, { geometry, colour }] of shapes) {
      const known = this.byName.get(name);
      if (!known || !sameShape(known.mesh.geometry, geometry)) this.#put(name, geometry);
      this.byName.get(name).colour = colour;
    }
    this.merged.build(this.byName);
  }

  #put(name, geometry) {
    this.#drop(name);
    const mesh = new Mesh(geometry, this.merged.solids.material);
    Object.assign(mesh, { name, matrixAutoUpdate: false });
    this.byName.set(name, { mesh, outline: new EdgesGeometry(geometry, CREASE), colour: new Color() });
  }

  #drop(name) {
    const known = this.byName.get(name);
    if (!known) return;
    known.mesh.geometry.dispose();
    known.outline.dispose();
    this.byName.delete(name);
  }

  /** Puts every part where it stands now. `where`: its movements; `apart`: its share of being pulled apart. */
  place(described, where, apart) {
    for (const part of described) {
      const mesh = this.byName.get(part.name)?.mesh;
      if (!mesh) continue;
      const shift = new Matrix4().makeTranslation(...part.apart.map(by => by * apart));
      mesh.matrix.copy(where.has(part.name) ? shift.multiply(where.get(part.name)) : shift);
      mesh.matrixWorld.copy(mesh.matrix);
    }
    this.merged.place();
  }

  /** `shown(name)`: in sight; `tone(name)`: 0 to 1, how strongly `accent` is mixed in; `planes` that cut. */
  mark(shown, tone, accent, planes) {
    for (const [name, { mesh }] of this.byName) mesh.visible = shown(name);
    this.merged.colour(name => this.byName.get(name).colour.clone().lerp(accent, tone(name)));
    this.merged.show(planes);
  }

  /** Meshes of the parts in sight. */
  get meshes() {
    return [...this.byName.values()].map(({ mesh }) => mesh).filter(mesh => mesh.visible);
  }

  matrix(name) {
    return this.byName.get(name)?.mesh.matrix;
  }
}

/** The box round a part where it stands now, piece's frame. */
export function boxOf({ geometry, matrix }) {
  if (!geometry.boundingBox) geometry.computeBoundingBox();
  return new Box3().copy(geometry.boundingBox).applyMatrix4(matrix);
}

/** From a part's own frame to the piece's, at rest. */
export function ownFrame({ turn, shift }) {
  if (!turn) return new Matrix4();
  const [a, b, c] = turn;
  return new Matrix4().set(...a, shift[0], ...b, shift[1], ...c, shift[2], 0, 0, 0, 1);
}

/** The twelve edges of a box as pairs of corners, 24 points. */
export function boxEdges({ low, high }) {
  const at = bits => new Vector3(...low.map((value, axis) => (bits & (1 << axis) ? high[axis] : value)));
  const points = [];
  for (let corner = 0; corner < 8; corner += 1) {
    for (let axis = 0; axis < 3; axis += 1) {
      if (!(corner & (1 << axis))) points.push(at(corner), at(corner | (1 << axis)));
    }
  }
  return points;
}

/** The middle of the low (-1) or high (+1) face of a box along an axis. */
export function faceMiddle({ low, high }, axis, sign) {
  const middle = low.map((value, each) => (value + high[each]) / 2);
  middle[axis] = sign > 0 ? high[axis] : low[axis];
  return new Vector3(...middle);
}
