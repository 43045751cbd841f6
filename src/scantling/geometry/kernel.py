"""Primitives as meshes: the only maker of manifold3d solids.

Each triangle carries a face id, surface · FACETS + facet, that survives every cut: facets are flat,
surfaces are what a maker would call one face or one curve.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin, sqrt

import numpy as np
from manifold3d import CrossSection, Manifold, Mesh64, OpType, triangulate
from numpy.typing import NDArray

from scantling.geometry.primitives import (
    REACH,
    Bowl,
    Frame,
    Loft,
    Outer,
    Plane,
    Primitive,
    Prism,
    Rim,
    Round,
    Stick,
)
from scantling.geometry.profile import (
    CHORD,
    ellipse_points,
    flattened,
    quarter_points,
    sides_of_circle,
)

FACETS = 1 << 15  # facets a surface may have
Array = NDArray[np.float64]
Whole = NDArray[np.int64]


def solid_of(shape: Primitive, chord: float = CHORD) -> Manifold:
    """The mesh solid of one primitive; flats leave its arcs by no more than `chord`. [mm]"""
    match shape:
        case Prism():
            return _prism(shape, chord)
        case Loft():
            return _loft(np.array(shape.rings), False)
        case Stick():
            return _stick(shape, chord)
        case Bowl():
            return _bowl(shape, chord)
        case Rim():
            return _rim(shape, chord)


def crosses_itself(shape: Primitive) -> bool:
    """Whether the outer line of a prism cuts through itself: then its parts do not add up to its area."""
    if not isinstance(shape, Prism):
        return False
    flat = np.array(flattened(shape.outer)[0])
    then = np.roll(flat, -1, 0)
    plain = float((flat[:, 0] * then[:, 1] - then[:, 0] * flat[:, 1]).sum()) / 2
    return bool(abs(CrossSection([flat]).area() - plain) > 1e-6 * abs(plain))


def less(solid: Manifold, cutters: list[Manifold]) -> Manifold:
    """`solid` with all `cutters` taken out at once."""
    return Manifold.batch_boolean([solid, *cutters], OpType.Subtract) if cutters else solid


def joined(solids: list[Manifold]) -> Manifold:
    """All of them as one."""
    return solids[0] if len(solids) == 1 else Manifold.batch_boolean(solids, OpType.Add)


def trimmed(solid: Manifold, planes: tuple[Plane, ...]) -> Manifold:
    """`solid` without what lies beyond any of the planes."""
    for plane in planes:
        inward = np.negative(plane.normal)
        solid = solid.trim_by_plane(inward, float(inward @ np.array(plane.point)))
    return solid


def in_frame(frame: Frame, flat: Array, level: float | Array) -> Array:
    """Points (n, 2) of a frame's plane, lifted to w = `level`, in the part's frame. (n, 3)"""
    u, v, w, o = np.array(frame.u), np.array(frame.v), np.array(frame.w), np.array(frame.origin)
    return np.asarray(o + flat[:, :1] * u + flat[:, 1:2] * v + np.reshape(level, (-1, 1)) * w)


def _prism(shape: Prism, chord: float) -> Manifold:
    loops = [_labelled(shape.outer, False, 2, chord)]
    if shape.hole is not None:
        loops.append(_labelled(shape.hole, True, 2 + len(loops[0][0]), chord))
    flat = np.vstack([points for points, _ in loops])
    n = len(flat)
    verts = np.vstack([in_frame(shape.frame, flat, shape.low), in_frame(shape.frame, flat, shape.high)])
    caps = np.asarray(triangulate([points for points, _ in loops], allow_convex=True), dtype=np.int64)
    sides, labels, start = [], [], 0
    for points, ids in loops:
        here = np.arange(start, start + len(points))
        then = np.roll(here, -1)
        sides += [np.stack([here, then, then + n], 1), np.stack([here, then + n, here + n], 1)]
        labels += [ids, ids]
        start += len(points)
    tris = np.vstack([caps[:, ::-1], caps + n, *sides])
    ids = np.concatenate([np.zeros(len(caps), np.int64), np.full(len(caps), FACETS), *labels])
    return _manifold(verts, tris, ids)


def _labelled(outer: Outer, turned: bool, first: int, chord: float) -> tuple[Array, Whole]:
    """Points of a loop (turned clockwise for a hole) and the face id of each side, surfaces from `first`."""
    points, surfaces = flattened(outer, chord)
    flat, ids = np.array(points), np.array(surfaces, dtype=np.int64)
    if turned:
        flat, ids = flat[::-1], np.roll(ids[::-1], -1)
    return flat, (ids + first) * FACETS + np.arange(len(flat))


def _stick(shape: Stick, chord: float) -> Manifold:
    """Every station with as many sides as the thickest needs."""
    thickest = max(max(section.radius_u, section.radius_v) for _, section in shape.stations)
    n = sides_of_circle(thickest, chord)
    rings = [
        in_frame(shape.frame, np.array(ellipse_points(section, n)), at) for at, section in shape.stations
    ]
    return _loft(np.array(rings), True)


def _loft(rings: Array, smooth: bool) -> Manifold:
    """`rings`: (stations, n, 3); the ends are closed by triangles in their own plane.

    `smooth`: the sides are one curved surface, not a face each.
    """
    stations, n, _ = rings.shape
    caps = _cap(rings[0])
    tris, ids = [caps[:, ::-1], caps + (stations - 1) * n], [np.zeros(n - 2), np.full(n - 2, FACETS)]
    for station in range(stations - 1):
        here = np.arange(n) + station * n
        then = np.roll(here - station * n, -1) + station * n
        tris += [np.stack([here, then, then + n], 1), np.stack([here, then + n, here + n], 1)]
        side = station * n + np.arange(n)
        label = 2 * FACETS + side if smooth else (2 + side) * FACETS
        ids += [label, label]
    return _manifold(rings.reshape(-1, 3), np.vstack(tris), np.concatenate(ids).astype(np.int64))


def _cap(ring: Array) -> Whole:
    """Triangles that fill a flat ring (n, 3), by index."""
    normal = np.cross(ring, np.roll(ring, -1, 0)).sum(0)
    first = ring[1] - ring[0]
    second = np.cross(normal, first)
    flat = np.stack([ring @ first / np.linalg.norm(first), ring @ second / np.linalg.norm(second)], 1)
    return np.asarray(triangulate([flat], allow_convex=True), dtype=np.int64)


def _manifold(verts: Array, tris: Whole, ids: Whole) -> Manifold:
    mesh = Mesh64(
        np.array(verts, dtype=np.float64, order="C"),
        np.ascontiguousarray(tris, dtype=np.uint64),
        face_id=np.ascontiguousarray(ids, dtype=np.uint64),
    )
    return Manifold(mesh)


def _bowl(shape: Bowl, chord: float) -> Manifold:
    """Rings from the lowest up to the rim and the drum's top, widened until the hollow's volume is true."""
    n = sides_of_circle(max(shape.radii[:2]), chord)
    count = max(4, n // 9)
    turns = [pi / 2 * i / (count + 0.5) for i in range(count, -1, -1)]
    levels = [(cos(turn), sin(turn)) for turn in turns]
    frustums = [(a * a + a * b + b * b) / 3 * (low - high) for (a, low), (b, high) in pairwise(levels)]
    wide = sqrt(2 / 3 / sum(frustums))
    rings = [(across, -down) for across, down in levels] + [(1.0, 1.0)]
    sections = [Round(0.0, 0.0, wide * k * shape.radii[0], wide * k * shape.radii[1]) for k, _ in rings]
    stations = zip(sections, rings, strict=True)
    return _loft(
        np.array(
            [
                in_frame(shape.frame, np.array(ellipse_points(section, n)), w * shape.radii[2])
                for section, (_, w) in stations
            ]
        ),
        True,
    )


def _rim(shape: Rim, chord: float) -> Manifold:
    slab, core = rim_rings(shape, chord)
    return _loft(np.array(slab), False) - _loft(np.array(core), True)


def rim_rings(shape: Rim, chord: float = CHORD) -> tuple[list[Array], list[Array]]:
    """A rim as a slab at the edge's height, grown past it, less the shaped core that stays: rings of both.

    Each ring is (n, 3), lowest first along the frame's w.
    """
    flat = np.array(flattened(shape.outer, chord)[0])
    profile = _rim_points(shape, chord)
    deepest = max(down for _, down in profile)
    first, last = profile[0][0], profile[-1][0]
    stations = [(first, -2 * REACH), *profile, (last, deepest + 2 * REACH)]
    levels = [(inward, shape.level - shape.side * down) for inward, down in stations]
    slab = sorted((shape.level + shape.side * REACH, shape.level - shape.side * deepest))
    core = [in_frame(shape.frame, inset(flat, inward), level) for inward, level in levels]
    slabs = [in_frame(shape.frame, inset(flat, -REACH), level) for level in slab]
    return slabs, core if shape.side < 0 else core[::-1]


def _rim_points(shape: Rim, chord: float) -> list[tuple[float, float]]:
    """The profile of a rim by (inward, down) points."""
    points: list[tuple[float, float]] = []
    for inward, down, rounded in shape.profile:
        points += [*(quarter_points(down, chord) if rounded else []), (inward, down)]
    return points


def inset(flat: Array, by: float) -> Array:
    """An anticlockwise polygon (n, 2) with every side moved inward; as many corners as before."""
    step = np.roll(flat, -1, 0) - flat
    out = np.stack([step[:, 1], -step[:, 0]], 1) / np.linalg.norm(step, axis=1)[:, None]
    before = np.roll(out, 1, 0)
    return np.asarray(flat - by * (out + before) / (1 + (out * before).sum(1))[:, None])
