// Reads the shapes the desk sends: a GLB of one named mesh a part, in mm of the piece's frame.
// Reads what `scantling.geometry.glb` writes and nothing more.
import { BufferAttribute, BufferGeometry, Color } from "./three.js";

const HEAD = 12;
const CHUNK = 8;
const JSON_CHUNK = 0x4e4f534a;
const KINDS = { VEC3: 3, SCALAR: 1 };

/** A map from part name to `{geometry, colour}`. Throws when `buffer` is not a GLB of ours. */
export function readShapes(buffer) {
  const view = new DataView(buffer);
  const long = view.getUint32(HEAD, true);
  if (view.getUint32(HEAD + 4, true) !== JSON_CHUNK) throw new Error("the shapes cannot be read");
  const file = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, HEAD + CHUNK, long)));
  const start = HEAD + CHUNK + long + CHUNK;
  const values = index => numbers(file, index, buffer, start);
  const named = file.nodes.filter(node => node.extras?.part !== undefined);
  return new Map(named.map(node => [node.extras.part, shape(file, node, values)]));
}

function shape(file, node, values) {
  const { attributes, indices, material } = file.meshes[node.mesh].primitives[0];
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(values(attributes.POSITION), 3));
  geometry.setAttribute("normal", new BufferAttribute(values(attributes.NORMAL), 3));
  geometry.setIndex(new BufferAttribute(values(indices), 1));
  const [red, green, blue] = file.materials[material].pbrMetallicRoughness.baseColorFactor;
  return { geometry, colour: new Color(red, green, blue) };
}

function numbers(file, index, buffer, start) {
  const { bufferView, type, count } = file.accessors[index];
  const from = start + file.bufferViews[bufferView].byteOffset;
  const Kind = type === "SCALAR" ? Uint32Array : Float32Array;
  return new Kind(buffer, from, count * KINDS[type]);
}

/** Whether two geometries have the same corners, so that what was worked out for one serves the other. */
export function sameShape(one, other) {
  return ["position", "normal"].every(name => sameNumbers(one.attributes[name].array, other.attributes[name].array))
    && sameNumbers(one.index.array, other.index.array);
}

function sameNumbers(one, other) {
  return one.length === other.length && one.every((value, at) => value === other[at]);
}
