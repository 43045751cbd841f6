// Cutting the picture open along one plane, the cut faces filled with the wood's own lighter tone.
//
// Filled by counting in the stencil, part by part: behind the plane a closed solid shows one back more than it
// shows fronts exactly where the plane goes through its wood.
import {
  AlwaysStencilFunc, BackSide, BufferGeometry, Color, DecrementWrapStencilOp, DoubleSide, FrontSide, Group,
  IncrementWrapStencilOp, LineBasicMaterial, LineSegments, Matrix4, Mesh, MeshBasicMaterial, NotEqualStencilFunc,
  Plane, PlaneGeometry, ReplaceStencilOp, Vector3,
} from "./three.js";
import { boxOf } from "./parts.js";

const AXES = { wide: 0, deep: 1, high: 2 };
const AWAY = { wide: -1, deep: 1, high: -1 }; // the side that stays: left, back, below
const PALE = new Color(1, 0.96, 0.88);
const SPARE = 2; // mm of filling beyond a part's box

export class Section {
  constructor() {
    this.group = new Group();
    this.plane = new Plane();
    this.planes = []; // what materials take: none, or the one
    this.square = new PlaneGeometry(1, 1);
    this.back = counting(BackSide, IncrementWrapStencilOp, this.plane);
    this.front = counting(FrontSide, DecrementWrapStencilOp, this.plane);
    this.line = new LineBasicMaterial({ color: 0x1a130d });
  }

  /** `cut`: `{axis, at, other}` with `at` in mm of the piece's frame, or null; `parts`: those in sight. */
  set(cut, parts) {
    this.#clear();
    this.planes = cut ? [this.plane] : [];
    if (!cut) return;
    const axis = AXES[cut.axis];
    const way = AWAY[cut.axis] * (cut.other ? -1 : 1);
    this.plane.normal.set(0, 0, 0).setComponent(axis, way);
    this.plane.constant = -way * cut.at;
    parts.forEach((part, order) => this.#fill(part, axis, cut.at, order + 1));
  }

  #fill({ mesh, colour }, axis, at, order) {
    const box = boxOf(mesh);
    if (box.min.getComponent(axis) > at || box.max.getComponent(axis) < at) return;
    for (const material of [this.back, this.front]) {
      const count = new Mesh(mesh.geometry, material);
      Object.assign(count, { matrixAutoUpdate: false, renderOrder: order });
      count.matrix.copy(mesh.matrix);
      this.group.add(count);
    }
    const fill = new Mesh(this.square, filling(colour));
    Object.assign(fill, { matrixAutoUpdate: false, renderOrder: order + 0.5 });
    fill.matrix.copy(lying(box, axis, at));
    this.group.add(fill, this.#edge(mesh));
  }

  #edge(mesh) {
    const edge = new LineSegments(new BufferGeometry().setFromPoints(cutLines(mesh, this.plane)), this.line);
    edge.renderOrder = 900;
    edge.frustumCulled = false;
    return edge;
  }

  #clear() {
    for (const child of this.group.children) {
      if (child.geometry !== this.square && child.isLineSegments) child.geometry.dispose();
      if (child.geometry === this.square) child.material.dispose();
    }
    this.group.clear();
  }

  /** Whether a point stays in the picture. */
  keeps(point) {
    return this.planes.every(plane => plane.distanceToPoint(point) >= -0.01);
  }
}

function counting(side, act, plane) {
  return new MeshBasicMaterial({
    side,
    depthTest: false,
    depthWrite: false,
    colorWrite: false,
    clippingPlanes: [plane],
    stencilWrite: true,
    stencilFunc: AlwaysStencilFunc,
    stencilFail: act,
    stencilZFail: act,
    stencilZPass: act,
  });
}

function filling(colour) {
  return new MeshBasicMaterial({
    color: colour.clone().lerp(PALE, 0.22),
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
    stencilWrite: true,
    stencilRef: 0,
    stencilFunc: NotEqualStencilFunc,
    stencilFail: ReplaceStencilOp,
    stencilZFail: ReplaceStencilOp,
    stencilZPass: ReplaceStencilOp,
  });
}

/** The unit square brought onto the plane, over the box's section. */
function lying(box, axis, at) {
  const [u, v] = [0, 1, 2].filter(other => other !== axis);
  const size = box.getSize(new Vector3());
  const middle = box.getCenter(new Vector3()).setComponent(axis, at);
  const along = other => new Vector3().setComponent(other, size.getComponent(other) + SPARE);
  const matrix = new Matrix4().makeBasis(along(u), along(v), new Vector3().setComponent(axis, 1));
  return matrix.setPosition(middle);
}

/** Where a plane goes through the triangles of a mesh: pairs of points. */
function cutLines(mesh, plane) {
  const { position } = mesh.geometry.attributes;
  const corners = Array.from({ length: position.count }, (_, at) =>
    new Vector3().fromBufferAttribute(position, at).applyMatrix4(mesh.matrix));
  const away = corners.map(corner => plane.distanceToPoint(corner));
  const { array } = mesh.geometry.index;
  const points = [];
  for (let first = 0; first < array.length; first += 3) {
    const trio = [array[first], array[first + 1], array[first + 2]];
    const crossed = [0, 1, 2].map(side => [trio[side], trio[(side + 1) % 3]])
      .filter(([a, b]) => away[a] > 0 !== away[b] > 0);
    for (const [a, b] of crossed) points.push(corners[a].clone().lerp(corners[b], away[a] / (away[a] - away[b])));
  }
  return points;
}
