"""Ends cut to faces that lean, taper or curve: a plane where they are flat, a cope where they are round.

The level ends of a leaning stick are its shape (`Part.shape`), not cuts, and are not told again here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sqrt

from scantling.joinery.features import Addition, Cope, Feature, Prism, Shaped, Trim
from scantling.joinery.meeting import Meeting
from scantling.joinery.round_tenons import stick_direction
from scantling.piece.methods import METHODS
from scantling.piece.methods import Meeting as Meets
from scantling.piece.model import (
    Axis,
    Box,
    Face,
    OutlineKind,
    Part,
    PartName,
    Piece,
    Section,
    Vec3,
    face_of,
)

_ARC = 12  # straight pieces of a rounded end: within 0.01 mm of the circle on any furniture
_LEAST = 0.02  # mm: a smaller departure from square is not worth a cut
_ROUND = frozenset({Section.ROUND, Section.OVAL})
_CURVED = frozenset({OutlineKind.ROUND, OutlineKind.OVAL, OutlineKind.RING})
_SOCKETED = frozenset({"round tenon", "through tenon"})


def end_features(piece: Piece, meetings: Sequence[Meeting]) -> Iterator[tuple[PartName, tuple[Feature, ...]]]:
    """For every end that names a face of a shaped part: what makes it fit. Parts in the piece's frame."""
    for name, face, other_name, other_face, owner in sorted(set(_ends(piece, meetings)), key=_in_order):
        part, other = piece.part_by_name[name], piece.part_by_name[other_name]
        if not (part.placement.is_identity and other.placement.is_identity) or other.shape.is_box:
            continue
        features = _fitted_end(part, face, other, other_face, owner)
        if features:
            yield name, features


End = tuple[PartName, Face, PartName, Face, str]


def _in_order(end: End) -> tuple[str, ...]:
    return end[0], end[1].word, end[2], end[3].word, end[4]


def _ends(piece: Piece, meetings: Sequence[Meeting]) -> Iterator[End]:
    """Butt joints and contacts; an end in a round socket needs no cut, an overlap has its own."""
    socketed = {(j.first, j.second) for j in piece.joints if j.method in _SOCKETED}
    joined = set()
    for m in meetings:
        if m.second is None or m.second_face is None or METHODS[m.joint.method] is Meets.RUNS_PAST:
            continue
        joined.add((m.first.name, m.face, m.second.name))
        if (m.first.name, m.second.name) not in socketed or _slants(m.second):
            yield m.first.name, m.face, m.second.name, m.second_face, m.joint.id
    for contact in piece.contacts:
        known = contact.part in piece.part_by_name and contact.other in piece.part_by_name
        tied = (contact.part, contact.other) in socketed
        if known and not tied and (contact.part, contact.face, contact.other) not in joined:
            yield contact.part, contact.face, contact.other, contact.other_face, "end"


def _slants(other: Part) -> bool:
    """Whether a flat shoulder against it would bite in at one edge."""
    return other.shape.lean is not None and other.shape.section in _ROUND


def _fitted_end(part: Part, face: Face, other: Part, other_face: Face, owner: str) -> tuple[Feature, ...]:
    if _inside_a_ring(part, face, other):
        return (_rounded_end(part, face, other, owner),)
    if _is_round_there(other, other_face):
        longer = _sagitta(part, face, other, other_face)
        return (*_lengthened(part, face, longer, owner), Cope(face, other.name, owner))
    normal = _face_normal(part, other, other_face)
    if normal is None:
        return ()
    out = (-normal[0], -normal[1], -normal[2])
    reach = [_beyond(part, face, corner, out) for corner in _corners(part.box, face)]
    if max(map(abs, reach)) < _LEAST:
        return ()
    return (*_lengthened(part, face, max(reach), owner), Trim(_end_middle(part, face), out, face, owner))


def _is_round_there(other: Part, face: Face) -> bool:
    """Round sticks away from their ends; boards with a round outline on their edges."""
    if other.shape.section in _ROUND:
        return face.axis != other.grain
    outline = other.shape.outline
    return outline is not None and outline.kind in _CURVED and face.axis != outline.seen_from.axis


def _sagitta(part: Part, face: Face, other: Part, other_face: Face) -> float:
    """How much longer an end must be to reach round a convex face."""
    outline = other.shape.outline
    across = outline.seen_from.axis if outline and other.shape.section not in _ROUND else other.grain
    radius = other.box.size(other_face.axis) / 2
    side = next(a for a in Axis if a not in (face.axis, across))
    half = min(part.box.size(side) / 2, radius)
    return radius - sqrt(radius * radius - half * half)


def _inside_a_ring(part: Part, face: Face, other: Part) -> bool:
    """Whether the end meets the inner wall of a ring."""
    outline = other.shape.outline
    if outline is None or outline.kind is not OutlineKind.RING or face.axis == outline.seen_from.axis:
        return False
    return other.box.low[face.axis] < part.box.face(face) < other.box.high[face.axis]


def _rounded_end(part: Part, face: Face, ring: Part, owner: str) -> Shaped:
    """What lies outside the inner wall's circle, off the corners of the end."""
    assert ring.shape.outline is not None
    along = ring.shape.outline.seen_from.axis
    side = next(a for a in Axis if a not in (face.axis, along))
    radius = ring.box.size(face.axis) / 2 - ring.shape.outline.radius
    low, high = part.box.low[side], part.box.high[side]
    arc = []
    for i in range(_ARC + 1):
        place = low + (high - low) * i / _ARC
        off = place - ring.box.centre[side]
        arc.append((ring.box.centre[face.axis] + face.sign * sqrt(max(0.0, radius**2 - off**2)), place))
    out = part.box.face(face) + face.sign
    outline = [*arc, (out, high), (out, low)]
    points = tuple(point if face.axis < side else point[::-1] for point in outline)
    span = part.box.low[along], part.box.high[along]
    return Shaped(Prism(int(along), *span, points), face, "cope", owner)


def _face_normal(part: Part, other: Part, face: Face) -> Vec3 | None:
    """Unit normal of that face of a leaning or tapered stick where `part` meets it; None if it is square."""
    shape = other.shape
    if shape.outline is not None or face.axis == other.grain:
        return None
    normal = _tapered(part, other, face)
    if shape.lean is None:
        return normal if normal != face.normal else None
    up = stick_direction(other, face_of(shape.lean.end.axis, 1))
    if shape.section is Section.LEVEL:
        return _unit(_level(normal, up))
    return _unit(_turned(normal, up))


def _tapered(part: Part, other: Part, face: Face) -> Vec3:
    """The face's normal with the taper's slope, where the part meets the tapered stretch."""
    taper = other.shape.taper
    if taper is None:
        return face.normal
    axis, end = taper.end.axis, other.box.face(taper.end)
    middle = part.box.centre[axis]
    if not min(taper.start, end) < middle < max(taper.start, end):
        return face.normal
    both = face in taper.faces and face.opposite in taper.faces
    even = both or not any(f.axis == face.axis for f in taper.faces)
    if not taper.faces or even:
        share = 0.5
    else:
        share = 1.0 if face in taper.faces else 0.0
    slope = share * (other.box.size(face.axis) - taper.to) / abs(end - taper.start)
    tilted = list(face.normal)
    tilted[axis] += slope * taper.end.sign
    return _unit((tilted[0], tilted[1], tilted[2]))


def _turned(v: Vec3, up: Vec3) -> Vec3:
    """`v` turned the shortest way that takes upright to `up`."""
    axis = (-up[1], up[0], 0.0)
    once = _cross(axis, v)
    twice = _cross(axis, once)
    return (
        v[0] + once[0] + twice[0] / (1 + up[2]),
        v[1] + once[1] + twice[1] / (1 + up[2]),
        v[2] + once[2] + twice[2] / (1 + up[2]),
    )


def _level(v: Vec3, up: Vec3) -> Vec3:
    """The normal of a face sheared along with a stick whose level cut stays true."""
    return (v[0], v[1], v[2] - (v[0] * up[0] + v[1] * up[1]) / up[2])


def _lengthened(part: Part, face: Face, by: float, owner: str) -> tuple[Addition, ...]:
    if by < _LEAST:
        return ()
    end = part.box.face(face)
    block = part.box.with_span(face.axis, min(end, end + face.sign * by), max(end, end + face.sign * by))
    return (Addition(block, face, "bevelled end", owner),)


def _beyond(part: Part, face: Face, corner: Vec3, out: Vec3) -> float:
    """How far past the box the plane cuts the edge that runs through this corner of the end."""
    middle = _end_middle(part, face)
    lies = sum(out[i] * (middle[i] - corner[i]) for i in range(3))
    return face.sign * lies / out[face.axis]


def _end_middle(part: Part, face: Face) -> Vec3:
    at = list(part.box.centre)
    at[face.axis] = part.box.face(face)
    return (at[0], at[1], at[2])


def _corners(box: Box, face: Face) -> Iterator[Vec3]:
    u, v = (a for a in Axis if a != face.axis)
    for a in (box.low[u], box.high[u]):
        for b in (box.low[v], box.high[v]):
            at = [0.0, 0.0, 0.0]
            at[face.axis], at[u], at[v] = box.face(face), a, b
            yield (at[0], at[1], at[2])


def _cross(a: Vec3, b: Vec3) -> Vec3:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(v: Vec3) -> Vec3:
    long = sqrt(sum(x * x for x in v))
    return (v[0] / long, v[1] / long, v[2] / long)
