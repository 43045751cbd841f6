"""Where parts touch, and where two are in the same place."""

from __future__ import annotations

from collections import Counter
from functools import lru_cache

import numpy as np
from manifold3d import CrossSection

from scantling.geometry.body import Body, placed, placed_solid, vec
from scantling.geometry.cutters import frame_into
from scantling.geometry.kernel import Array, Whole
from scantling.geometry.motions import rounded, seen_in
from scantling.geometry.scene import FoundContact, Overlap, Scene, Solid
from scantling.piece.model import TOUCH, Placement, Vec3

LEAST_AREA = 25.0  # mm²: piece language 2.7; smaller touches are corners and slivers
MOST_ALIKE = 24  # a row of hundreds through each other would else be cut pair by pair
MOST_TRIED = 3000  # pairs of the same two definitions: a ring of hundreds through its own middle has far more
OPPOSED = -1 + 1e-6  # cosine: faces turned 0.08 degrees or less from facing each other

Met = tuple[float, Vec3, Vec3]  # area, normal, centre


def found_contacts(scene: Scene) -> tuple[FoundContact, ...]:
    """Flat faces that meet within the tolerance over more than 25 mm², one for each pair and plane.

    Of pairs of the same two definitions the first `MOST_TRIED` that are near are looked at.
    """
    found = []
    tried = Counter[tuple[str, str]]()
    for first, second in near_pairs(scene):
        alike = _definitions(scene, first, second)
        tried[alike] += 1
        if tried[alike] > MOST_TRIED:
            continue
        where = rounded(seen_in(first.placement, second.placement))
        for area, normal, centre in _met(first.body, second.body, where):
            at, out = first.placement.point(centre), first.placement.direction(normal)
            found.append(FoundContact(first.name, second.name, area, out, at))
    return tuple(found)


def overlaps(scene: Scene) -> tuple[Overlap, ...]:
    """Pairs that are in each other at rest deeper than the tolerance, 2·volume/area of what they share.

    Of pairs of the same two definitions the first `MOST_ALIKE` are given: the rest go wrong alike.
    """
    found: list[Overlap] = []
    given = Counter[tuple[str, str]]()
    for first, second in near_pairs(scene, -TOUCH):
        alike = _definitions(scene, first, second)
        if given[alike] >= MOST_ALIKE:
            continue
        where = rounded(seen_in(first.placement, second.placement))
        shared = _shared(first.body, second.body, where)
        if shared is not None:
            given[alike] += 1
            volume, depth, centre = shared
            found.append(Overlap(first.name, second.name, volume, depth, first.placement.point(centre)))
    return tuple(found)


def _definitions(scene: Scene, first: Solid, second: Solid) -> tuple[str, str]:
    return scene.piece.part(first.name).definition, scene.piece.part(second.name).definition


def near_pairs(scene: Scene, reach: float = TOUCH) -> list[tuple[Solid, Solid]]:
    """Pairs of solids whose boxes come within `reach` of each other, in the piece's order."""
    solids = list(scene.solids.values())
    low = np.array([s.bounds.low for s in solids]).reshape(-1, 3)
    high = np.array([s.bounds.high for s in solids]).reshape(-1, 3)
    below = np.asarray((low[:, None] <= high[None] + reach).all(2))
    meet = below & below.T
    return [(solids[i], solids[j]) for i, j in np.argwhere(np.triu(meet, 1)).tolist()]


@lru_cache(maxsize=8192)
def _met(first: Body, second: Body, where: Placement) -> tuple[Met, ...]:
    """Common planes of two bodies, `second` standing at `where` in the first's frame."""
    a, b = first.mesh.facets, second.mesh.facets
    flat_a, flat_b = (np.flatnonzero(~f.curved & (f.area > LEAST_AREA)) for f in (a, b))
    normal = b.normal[flat_b] @ np.array(where.turn).T
    offset = b.offset[flat_b] + normal @ np.array(where.shift)
    facing = a.normal[flat_a] @ normal.T < OPPOSED
    facing &= np.abs(a.offset[flat_a, None] + offset[None]) < TOUCH
    if not facing.any():
        return ()
    points = placed(where, second.mesh.verts)
    low_a, high_a = (corner[flat_a, None] for corner in a.boxes(first.mesh.verts))
    low_b, high_b = (corner[None, flat_b] for corner in b.boxes(points))
    facing &= ((low_a < high_b + TOUCH) & (low_b < high_a + TOUCH)).all(2)
    pairs = np.argwhere(facing)
    planes: dict[tuple[float, ...], list[Met]] = {}
    for i, j in zip(flat_a[pairs[:, 0]].tolist(), flat_b[pairs[:, 1]].tolist(), strict=True):
        met = _common(a.normal[i], first.mesh.verts, a.loops(i), points, b.loops(j))
        if met is not None:
            key = (*np.round(a.normal[i], 3).tolist(), round(float(a.offset[i]), 1))
            planes.setdefault(key, []).append(met)
    joined = (_together(group) for group in planes.values())
    return tuple(met for met in joined if met[0] > LEAST_AREA)


def _common(
    normal: Array,
    first: Array,
    first_loops: list[Whole],
    second: Array,
    second_loops: list[Whole],
) -> Met | None:
    """Area and middle of what two facing loops share, in the first one's plane."""
    frame = frame_into((0.0, 0.0, 0.0), vec(normal))
    flat = np.array([frame.u, frame.v]).T
    mine = [first[loop] @ flat for loop in first_loops]
    other = [(second[loop] @ flat)[::-1] for loop in second_loops]
    if not _rectangles_meet(np.vstack(mine), np.vstack(other)):
        return None
    shared = CrossSection(mine) ^ CrossSection(other)
    area = shared.area()
    if area <= 0:
        return None
    middle = _middle(shared, area)
    height = float(first[first_loops[0][0]] @ normal)
    at = flat @ middle + normal * height
    return area, vec(normal), vec(at)


def _rectangles_meet(a: Array, b: Array) -> bool:
    return bool((a.min(0) < b.max(0)).all() and (b.min(0) < a.max(0)).all())


def _middle(shape: CrossSection, area: float) -> Array:
    """Centre of area of a shape on its plane."""
    at = np.zeros(2)
    for loop in shape.to_polygons():
        then = np.roll(loop, -1, 0)
        cross = loop[:, 0] * then[:, 1] - then[:, 0] * loop[:, 1]
        at += ((loop + then) * cross[:, None]).sum(0) / 6
    return np.asarray(at / area)


def _together(group: list[Met]) -> Met:
    area = sum(met[0] for met in group)
    middle = [sum(met[0] * met[2][axis] for met in group) / area for axis in range(3)]
    return area, group[0][1], (middle[0], middle[1], middle[2])


@lru_cache(maxsize=8192)
def _shared(first: Body, second: Body, where: Placement) -> tuple[float, float, Vec3] | None:
    """Volume, depth and middle of what two bodies share, if deeper than the tolerance."""
    common = first.solid ^ placed_solid(where, second.solid)
    volume = common.volume()
    if volume <= 0:
        return None
    depth = 2 * volume / common.surface_area()
    box = common.bounding_box()
    middle = ((box[0] + box[3]) / 2, (box[1] + box[4]) / 2, (box[2] + box[5]) / 2)
    return (volume, depth, middle) if depth > TOUCH else None
