"""Holes, cuts, additions and shaped blocks of a machined part as primitives. Part's own frame, mm."""

from __future__ import annotations

from math import acos, hypot, tan

from scantling.geometry.primitives import (
    REACH,
    UNIT,
    Frame,
    Loop,
    Outer,
    Plane,
    Prism,
    Round,
    along_axis,
    anticlockwise,
    block,
)
from scantling.joinery.features import Addition, Cut, Hole, Shaped, Trim
from scantling.piece.model import TOUCH, Axis, Box, Face, Vec3, face_of

STRAIGHT = 0.99999  # cosine above which a hole counts as square to its face


def hole_cutter(hole: Hole) -> Prism:
    """A round hole, begun before its mouth (and ended past a through hole's far mouth)."""
    radius = hole.diameter / 2
    steep = max(abs(d) for d in hole.direction)
    reach = REACH / 2 + (0.0 if steep > STRAIGHT else radius * tan(acos(min(1.0, steep))))
    end = hole.deep + (reach if hole.through else 0.0)
    return Prism(frame_into(hole.at, hole.direction), Round(0.0, 0.0, radius, radius), -reach, end)


def frame_into(origin: Vec3, direction: Vec3) -> Frame:
    """A frame whose w runs along a unit direction; u as level with an axis as may be."""
    least = min(range(3), key=lambda a: (round(abs(direction[a]), 9), a))
    u = _unit(_cross(UNIT[least], direction))
    return Frame(origin, u, _cross(direction, u), direction)


def cut_cutter(cut: Cut, around: Box) -> Prism:
    """The block of a cut; sides that lie in (or past) a face of `around` reach on past it."""
    box = cut.box
    for face in Face:
        beyond = (box.face(face) - around.face(face)) * face.sign
        if beyond >= -TOUCH or face == cut.face:
            end = max(box.face(face) * face.sign, around.face(face) * face.sign) + REACH
            box = _with_face(box, face, end * face.sign)
    return round_ended(box, cut.face.axis) if cut.round_ends else block(box)


def round_ended(box: Box, axis: Axis) -> Prism:
    """A slot cut along `axis`: its longer side across ends in half circles."""
    frame = along_axis(axis)
    u, v = Axis((axis + 1) % 3), Axis((axis + 2) % 3)
    u1, u2, v1, v2 = box.low[u], box.high[u], box.low[v], box.high[v]
    outer: Outer
    if abs((u2 - u1) - (v2 - v1)) < TOUCH:
        radius = (u2 - u1) / 2
        outer = Round((u1 + u2) / 2, (v1 + v2) / 2, radius, radius)
    elif u2 - u1 > v2 - v1:
        r = (v2 - v1) / 2
        outer = Loop(((u1 + r, v1, 0.0), (u2 - r, v1, 0.0), (u2 - r, v2, r), (u1 + r, v2, 0.0)))
        outer = _closing_bulge(outer, r)
    else:
        r = (u2 - u1) / 2
        outer = Loop(((u2, v1 + r, 0.0), (u2, v2 - r, 0.0), (u1, v2 - r, r), (u1, v1 + r, 0.0)))
        outer = _closing_bulge(outer, r)
    return Prism(frame, outer, box.low[axis], box.high[axis])


def addition_block(addition: Addition, inward: float, long: bool = False) -> Prism:
    """Wood standing out of a face, begun `inward` of it so that it is one with the part.

    `long`: a round one goes on until the whole of its end is past its box.
    """
    face = addition.face
    box = _with_face(addition.box, face.opposite, addition.box.face(face.opposite) - face.sign * inward)
    if addition.diameter is None:
        return block(box)
    return _round_tenon(addition, addition.diameter / 2, inward, long)


def _round_tenon(addition: Addition, radius: float, inward: float, long: bool) -> Prism:
    """A cylinder along the addition's direction as long as its box is deep."""
    axis, box = addition.face.axis, addition.box
    root = list(box.centre)
    root[axis] = box.face(addition.face.opposite)
    direction = addition.direction or addition.face.normal
    steep = abs(direction[axis])
    deep = box.size(axis) / steep
    slant = radius * tan(acos(min(1.0, steep)))
    inward += slant  # the whole of a slanting root lies in the stick
    frame = frame_into((root[0], root[1], root[2]), direction)
    return Prism(frame, Round(0.0, 0.0, radius, radius), -inward, deep + (slant if long else 0.0))


def shaped_block(shaped: Shaped) -> Prism:
    """A straight-sided block as the joint drew it."""
    prism = shaped.prism
    axes = [a for a in range(3) if a != prism.along]
    turned = prism.along == Axis.DEEP  # (wide, high) is left-handed about deep
    corners = tuple(((v, u, 0.0) if turned else (u, v, 0.0)) for u, v in prism.profile)
    first, second = (axes[1], axes[0]) if turned else (axes[0], axes[1])
    frame = Frame((0.0, 0.0, 0.0), UNIT[first], UNIT[second], UNIT[prism.along])
    return Prism(frame, anticlockwise(corners), prism.low, prism.high)


def trim_plane(trim: Trim) -> Plane:
    """The plane of a trim with its normal made a unit."""
    return Plane(trim.point, _unit(trim.normal))


def reach_of_trim(trim: Trim, box: Box) -> float:
    """How far past its face a box must go for the whole end to lie in the trim's plane. [mm]"""
    axis, sign = trim.face.axis, trim.face.sign
    steep = trim.normal[axis]
    if abs(steep) < 1e-6:
        return 0.0
    reaches = []
    for corner in _corners_of_face(box, trim.face):
        gap = sum(n * (p - c) for n, p, c in zip(trim.normal, trim.point, corner, strict=True))
        reaches.append(sign * gap / steep)
    return min(max(0.0, *reaches), max(box.sizes))


def _corners_of_face(box: Box, face: Face) -> list[Vec3]:
    spans = [(box.face(face),) if axis == face.axis else (box.low[axis], box.high[axis]) for axis in Axis]
    return [(x, y, z) for x in spans[0] for y in spans[1] for z in spans[2]]


def grown(box: Box, face: Face, by: float) -> Box:
    """The box with one face moved outward."""
    return _with_face(box, face, box.face(face) + face.sign * by)


def _with_face(box: Box, face: Face, at: float) -> Box:
    other = box.face(face_of(face.axis, -face.sign))
    low, high = (at, other) if face.sign < 0 else (other, at)
    return box.with_span(face.axis, low, high)


def _closing_bulge(loop: Loop, rise: float) -> Loop:
    first = loop.corners[0]
    return Loop(((first[0], first[1], rise), *loop.corners[1:]))


def _cross(a: Vec3, b: Vec3) -> Vec3:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(v: Vec3) -> Vec3:
    long = hypot(*v)
    return (v[0] / long, v[1] / long, v[2] / long)
