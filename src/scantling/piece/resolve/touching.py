"""Which parts touch, and where: flat faces within 0.05 mm, facing, over 25 mm²; overlaps; ring walls."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import TOUCH, Axis, Box, Face, OutlineKind, Placement, Vec3, face_of
from scantling.piece.resolve.reading import inner_wall_at
from scantling.piece.resolve.standing import Standing, apart, near_boxes
from scantling.piece.resolve.steps import along, axis_inside, face_inside

LEAST_AREA = 25.0  # mm²
_OTHER_AXES = ((Axis.DEEP, Axis.HIGH), (Axis.WIDE, Axis.HIGH), (Axis.WIDE, Axis.DEEP))


@dataclass(frozen=True, slots=True)
class Touch:
    """Where two parts meet. Faces in each part's own frame; None where the face is curved.

    `area`: the common box, flat along the meeting axis; None where the faces lean or curve.
    `size`: mm² of it, as boxes.
    """

    first_face: Face | None
    second_face: Face | None
    area: Box | None
    size: float


def touch(first: Standing, second: Standing) -> Touch | None:
    """How two parts touch, or None. Parts turned against each other are taken by their outer boxes."""
    if first.part.placement != second.part.placement:
        return _turned_touch(first, second)
    return _flat_touch(first, second) or _ring_touch(first, second)


def _flat_touch(first: Standing, second: Standing) -> Touch | None:
    a, b = near_boxes(first, second)
    common = None if apart(a, b) else a.intersection(b)
    if common is None:
        return None
    best: Touch | None = None
    for axis in Axis:
        face = _meeting_face(a, b, axis)
        if face is None or _is_curved(first, face) or _is_curved(second, face.opposite):
            continue
        size = side_area(common, axis)
        if size > LEAST_AREA and (best is None or size > best.size):
            flat = (
                None if first.part.shape.lean or second.part.shape.lean else _flat(common, axis, a.face(face))
            )
            best = Touch(face, face.opposite, flat, size)
    return best


def _meeting_face(a: Box, b: Box, axis: Axis) -> Face | None:
    """The face of `a` that lies against `b` along an axis."""
    if abs(a.high[axis] - b.low[axis]) <= TOUCH:
        return face_of(axis, 1)
    return face_of(axis, -1) if abs(a.low[axis] - b.high[axis]) <= TOUCH else None


def side_area(common: Box, axis: Axis) -> float:
    """How big a box is, seen along an axis. [mm²]"""
    u, v = _OTHER_AXES[axis]
    return max(0.0, common.size(u)) * max(0.0, common.size(v))


def _flat(common: Box, axis: Axis, at: float) -> Box:
    return common.with_span(axis, at, at)


def _is_curved(standing: Standing, face: Face) -> bool:
    outline = standing.part.shape.outline
    return (
        outline is not None
        and outline.kind in (OutlineKind.ROUND, OutlineKind.OVAL, OutlineKind.RING)
        and face.axis is not outline.seen_from.axis
    )


def _ring_touch(first: Standing, second: Standing) -> Touch | None:
    """The end of a part against the inner wall of a ring."""
    if _is_ring(second):
        face = _wall_face(first, second)
        return None if face is None else Touch(face, None, None, 0.0)
    if _is_ring(first):
        face = _wall_face(second, first)
        return None if face is None else Touch(None, face, None, 0.0)
    return None


def _is_ring(standing: Standing) -> bool:
    outline = standing.part.shape.outline
    return outline is not None and outline.kind is OutlineKind.RING


def _wall_face(inner: Standing, ring: Standing) -> Face | None:
    outline = ring.part.shape.outline
    assert outline is not None
    box, ring_box = inner.part.box, ring.part.box
    common = box.intersection(ring_box)
    if common is None or common.size(outline.seen_from.axis) <= TOUCH:
        return None
    for face in Face:
        if face.axis is not outline.seen_from.axis:
            wall = _inner_wall(ring, face, box.centre)
            if abs(box.face(face) - wall) <= TOUCH:
                return face
    return None


def _inner_wall(ring: Standing, face: Face, point: Vec3) -> float:
    steps = ring.seen.steps

    def where(inner: Axis) -> float:
        outer = next(a for a in Axis if axis_inside(steps, a)[0] is inner)
        return along(steps, outer).inside(point[outer])

    return along(steps, face.axis).out(inner_wall_at(ring.seen.thing, face_inside(steps, face), where))


def _turned_touch(first: Standing, second: Standing) -> Touch | None:
    a, b = outer_box(first.part.box, first.part.placement), outer_box(second.part.box, second.part.placement)
    return None if a.intersection(b) is None else Touch(None, None, None, 0.0)


def outer_box(box: Box, placement: Placement) -> Box:
    """The upright box round a turned one."""
    if placement.is_identity:
        return box
    corners = [
        placement.point((x, y, z))
        for x in (box.low[0], box.high[0])
        for y in (box.low[1], box.high[1])
        for z in (box.low[2], box.high[2])
    ]
    low = tuple(min(c[i] for c in corners) for i in range(3))
    high = tuple(max(c[i] for c in corners) for i in range(3))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def overlap(first: Standing, second: Standing) -> Box | None:
    """The common box of two parts that run into each other, or None."""
    if first.part.placement != second.part.placement:
        return None
    a, b = near_boxes(first, second)
    common = None if apart(a, b) else a.intersection(b)
    if common is None or min(common.sizes) <= TOUCH:
        return None
    return common
