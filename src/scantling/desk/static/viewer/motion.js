// Movements: where they take parts, and the order in which they may be done.
// `movements` stand in allowed order; `open` is a Map from a movement's name to how far it is open, 0 to 1.
import { Matrix4, Vector3 } from "./three.js";

const RADIANS = Math.PI / 180;

/** Where each moved part has gone from rest: a Map from part name to Matrix4. */
export function placements(movements, open) {
  const byName = new Map(movements.map(movement => [movement.name, movement]));
  const where = new Map();
  for (const movement of movements) {
    const gone = open.get(movement.name) ?? 0;
    if (!gone) continue;
    const carrier = carrierPlace(movement, byName, open);
    const moved = carrier.clone().multiply(motionPlace(movement, gone)).multiply(carrier.clone().invert());
    for (const part of movement.moves) where.set(part, moved.clone().multiply(where.get(part) ?? new Matrix4()));
  }
  return where;
}

function motionPlace(movement, gone) {
  if (movement.kind === "slides") {
    const [x, y, z] = movement.direction.map(way => way * movement.distance * gone);
    return new Matrix4().makeTranslation(x, y, z);
  }
  const about = new Vector3(...movement.about);
  const turn = new Matrix4().makeRotationAxis(new Vector3(...movement.axis), movement.angle * gone * RADIANS);
  return new Matrix4()
    .makeTranslation(about.x, about.y, about.z)
    .multiply(turn)
    .multiply(new Matrix4().makeTranslation(-about.x, -about.y, -about.z));
}

function carrierPlace(movement, byName, open) {
  const where = new Matrix4();
  for (let name = movement.ridesOn, seen = new Set(); name && !seen.has(name); name = byName.get(name)?.ridesOn) {
    seen.add(name);
    const carrier = byName.get(name);
    if (carrier) where.premultiply(motionPlace(carrier, open.get(name) ?? 0));
  }
  return where;
}

/** The steps `[name, how far]` that bring one movement there, others first where they must: the last is its own. */
export function wayTo(movements, open, name, far) {
  const others = far > 0 ? neededBy(movements, name).map(other => [other, 1]) : [];
  const shut = far < 1 ? needing(movements, name).map(other => [other, 0]) : [];
  const first = [...shut, ...others].filter(([other, wanted]) => (open.get(other) ?? 0) !== wanted);
  return [...first, [name, far]];
}

/** The steps from one state to another: what shuts, last things first, then what opens, first things first. */
export function wayBetween(movements, open, wanted) {
  const change = name => (wanted.get(name) ?? 0) - (open.get(name) ?? 0);
  const names = movements.map(movement => movement.name);
  const shutting = [...names].reverse().filter(name => change(name) < 0);
  const opening = names.filter(name => change(name) > 0);
  return [...shutting, ...opening].map(name => [name, wanted.get(name) ?? 0]);
}

/** All that must be open before `name`, in order. */
function neededBy(movements, name) {
  const found = new Set();
  const look = one => {
    for (const other of movements.find(movement => movement.name === one)?.after ?? []) {
      if (other === name || found.has(other)) continue;
      found.add(other);
      look(other);
    }
  };
  look(name);
  return movements.map(movement => movement.name).filter(other => found.has(other));
}

/** All that may not stay open unless `name` is, last things first. */
function needing(movements, name) {
  const others = movements.map(movement => movement.name).filter(other => other !== name);
  return others.filter(other => neededBy(movements, other).includes(name)).reverse();
}
