// All parts in two draws, solids and edges, however many there are: each part has its stretch of shared buffers.
import {
  BufferAttribute, BufferGeometry, DoubleSide, FrontSide, LineBasicMaterial, LineSegments, Mesh, MeshLambertMaterial,
} from "./three.js";

export class Merged {
  constructor() {
    const back = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
    this.solids = new Mesh(new BufferGeometry(), new MeshLambertMaterial({ vertexColors: true, ...back }));
    this.edges = new LineSegments(
      new BufferGeometry(), new LineBasicMaterial({ color: 0x2a2019, transparent: true, opacity: 0.8 }));
    for (const drawn of [this.solids, this.edges]) drawn.frustumCulled = false;
    this.stretches = new Map();
    this.shown = null;
  }

  /** Takes all parts anew: a Map from name to `{mesh, outline}`. */
  build(parts) {
    let [corner, end] = [0, 0];
    this.stretches = new Map();
    for (const [name, { mesh, outline }] of parts) {
      this.stretches.set(name, { mesh, outline, corner, end, matrix: null, colour: null });
      corner += mesh.geometry.attributes.position.count;
      end += outline.attributes.position.count;
    }
    renewed(this.solids, { position: corner, normal: corner, color: corner });
    renewed(this.edges, { position: end });
    this.shown = null;
  }

  /** Every part where its mesh stands now; only those that moved cost anything. */
  place() {
    for (const stretch of this.stretches.values()) {
      const { mesh, outline, corner, end } = stretch;
      if (stretch.matrix?.equals(mesh.matrix)) continue;
      stretch.matrix = mesh.matrix.clone();
      const { position, normal } = mesh.geometry.attributes;
      const turned = mesh.matrix.clone().setPosition(0, 0, 0);
      moved(position, mesh.matrix, this.solids.geometry.attributes.position, corner);
      moved(normal, turned, this.solids.geometry.attributes.normal, corner);
      moved(outline.attributes.position, mesh.matrix, this.edges.geometry.attributes.position, end);
    }
  }

  /** `colour(name)` of every part; only those that changed cost anything. */
  colour(colour) {
    const { color } = this.solids.geometry.attributes;
    for (const [name, stretch] of this.stretches) {
      const wanted = colour(name);
      if (stretch.colour?.equals(wanted)) continue;
      stretch.colour = wanted;
      const last = stretch.corner + stretch.mesh.geometry.attributes.position.count;
      for (let at = stretch.corner; at < last; at += 1) color.setXYZ(at, wanted.r, wanted.g, wanted.b);
      color.needsUpdate = true;
    }
  }

  /** Draws only parts whose mesh is visible, cut by `planes`. */
  show(planes) {
    for (const { material } of [this.solids, this.edges]) material.clippingPlanes = planes;
    this.solids.material.side = planes.length ? DoubleSide : FrontSide;
    const seen = [...this.stretches.values()].filter(({ mesh }) => mesh.visible);
    const key = seen.map(({ corner }) => corner).join();
    if (key === this.shown) return;
    this.shown = key;
    indexed(this.solids, seen.flatMap(({ mesh, corner }) => Array.from(mesh.geometry.index.array, at => at + corner)));
    const run = (first, count) => Array.from({ length: count }, (_, at) => first + at);
    indexed(this.edges, seen.flatMap(({ outline, end }) => run(end, outline.attributes.position.count)));
  }
}

function renewed(drawn, sizes) {
  drawn.geometry.dispose();
  drawn.geometry = new BufferGeometry();
  for (const [name, count] of Object.entries(sizes)) {
    drawn.geometry.setAttribute(name, new BufferAttribute(new Float32Array(count * 3), 3));
  }
}

function indexed(drawn, index) {
  drawn.geometry.setIndex(new BufferAttribute(new Uint32Array(index), 1));
}

/** Points of one attribute through a matrix into another, from the place `first` on. */
function moved(from, { elements: m }, into, first) {
  const [source, target] = [from.array, into.array];
  for (let at = 0, to = first * 3; at < source.length; at += 3, to += 3) {
    const [x, y, z] = [source[at], source[at + 1], source[at + 2]];
    target[to] = m[0] * x + m[4] * y + m[8] * z + m[12];
    target[to + 1] = m[1] * x + m[5] * y + m[9] * z + m[13];
    target[to + 2] = m[2] * x + m[6] * y + m[10] * z + m[14];
  }
  into.needsUpdate = true;
}
