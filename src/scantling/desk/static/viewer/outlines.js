// Lines that mark: thick round picked parts, dashed round held things and what changed. On top of all else.
import { Group, LineMaterial, LineSegments2, LineSegmentsGeometry, Matrix4 } from "./three.js";
import { boxEdges } from "./parts.js";

const TOP = 1000; // drawn after everything

const HALO = 2; // px of paper round a line, so that it is seen on every wood

/** Outlines of parts: strong with a halo where seen, faint where something stands before them. */
export class Outline {
  constructor(width, dashed = false) {
    this.group = new Group();
    const common = { linewidth: width, dashed, dashSize: 16, gapSize: 10, transparent: true, depthWrite: false };
    this.behind = new LineMaterial({ ...common, linewidth: width * 0.6, opacity: 0.45, depthTest: false });
    this.halo = new LineMaterial({ ...common, linewidth: width + HALO, dashed: false });
    this.seen = new LineMaterial(common);
    this.materials = [this.behind, this.halo, this.seen];
    this.lines = new Map(); // by part
  }

  /** Round the parts in `names`, and no others; `edges(name)` gives a geometry of loose lines. */
  round(names, edges) {
    for (const name of [...this.lines.keys()].filter(name => !names.includes(name))) this.#drop(name);
    for (const name of names) {
      const geometry = edges(name);
      const known = this.lines.get(name);
      if (known?.from === geometry) continue;
      this.#drop(name);
      if (geometry) this.#put(name, geometry);
    }
  }

  #put(name, geometry) {
    const thick = new LineSegmentsGeometry().fromEdgesGeometry(geometry);
    const layers = this.materials.map(material => new LineSegments2(thick, material));
    layers.forEach((line, order) => Object.assign(line, { matrixAutoUpdate: false, renderOrder: TOP + order }));
    layers.forEach(line => line.computeLineDistances());
    this.group.add(...layers);
    this.lines.set(name, { from: geometry, layers });
  }

  #drop(name) {
    const known = this.lines.get(name);
    if (!known) return;
    this.group.remove(...known.layers);
    known.layers[0].geometry.dispose();
    this.lines.delete(name);
  }

  place(matrix, { ink, paper, cut }) {
    for (const [name, { layers }] of this.lines) {
      for (const line of layers) {
        line.matrix.copy(matrix(name) ?? new Matrix4());
        line.matrixWorldNeedsUpdate = true;
      }
    }
    for (const material of this.materials) {
      material.color.copy(material === this.halo ? paper : ink);
      material.clippingPlanes = cut;
      material.clipping = cut.length > 0;
    }
  }
}

/** Boxes in dashes: the things held, and where a dragged face would come to. */
export class Boxes {
  constructor(width, dash) {
    this.group = new Group();
    const dashes = { dashed: true, dashSize: dash, gapSize: dash * 0.6 };
    this.material = new LineMaterial({ ...dashes, linewidth: width, depthTest: false, transparent: true });
  }

  /** `boxes`: `[{box, matrix}]`. */
  set(boxes, ink) {
    for (const line of this.group.children) line.geometry.dispose();
    this.group.clear();
    this.material.color.copy(ink);
    for (const { box, matrix } of boxes) {
      const edges = new LineSegmentsGeometry().setPositions(boxEdges(box).flatMap(point => point.toArray()));
      const line = new LineSegments2(edges, this.material).computeLineDistances();
      Object.assign(line, { matrixAutoUpdate: false, renderOrder: TOP });
      line.matrix.copy(matrix);
      this.group.add(line);
    }
  }
}
