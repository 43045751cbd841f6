"""How two parts meet: one joint seen in the frame of its first part. mm.

Everything is laid out here once: `run` is the longer way of the meeting area, `across` the shorter,
and depth counts from the meeting plane, positive into the second part.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from scantling.joinery.features import Cut, Hole, Prism, Shaped
from scantling.joinery.frames import (
    between,
    box_through,
    face_through,
    inverse,
    is_square,
    turn_axis,
)
from scantling.piece.model import (
    FLOOR,
    TOUCH,
    Axis,
    Box,
    Face,
    Joint,
    JointSettings,
    Material,
    MaterialKind,
    OutlineKind,
    Part,
    PartName,
    Placement,
    Vec3,
    face_of,
)

_LEAST_SIDE = 1.0  # mm: a narrower common rectangle says nothing; the first part's own face is taken


@dataclass(frozen=True)
class Meeting:
    """`second` is None where the joint goes to the wall or the floor.

    `area` is flat along `face`, in the frame of `first`; `other` is the second part's box (or the
    smallest upright box round it) in that frame; `motion` takes that frame to the second's own.
    `shift` moves a row of fasteners along the run, `inset` draws its ends in, `aside` moves it off the
    middle across the run, to keep clear of others.
    """

    joint: Joint
    first: Part
    second: Part | None
    face: Face
    second_face: Face | None
    area: Box
    other: Box
    motion: Placement
    run: Axis
    across: Axis
    shift: float = 0.0
    inset: float = 0.0
    aside: float = 0.0

    @property
    def settings(self) -> JointSettings:
        return self.joint.settings

    @cached_property
    def normal_axis(self) -> Axis:
        return self.face.axis

    @cached_property
    def sign(self) -> int:
        """+1 where the first part's face looks to the high side."""
        return self.face.sign

    @cached_property
    def plane(self) -> float:
        return self.first.box.face(self.face)

    @property
    def low(self) -> float:
        """Where the area begins along the run."""
        return self.area.low[self.run]

    @property
    def high(self) -> float:
        return self.area.high[self.run]

    @property
    def length(self) -> float:
        """Of the area along the run."""
        return self.high - self.low

    @property
    def thin(self) -> float:
        """Of the area across the run."""
        return self.area.size(self.across)

    @property
    def middle(self) -> float:
        """The middle of the area across the run."""
        return (self.area.low[self.across] + self.area.high[self.across]) / 2

    @property
    def square_area(self) -> float:
        """mm²"""
        return self.length * self.thin

    @property
    def first_room(self) -> float:
        """How deep the first part is behind its meeting face."""
        return self.first.box.size(self.face.axis)

    @cached_property
    def second_room(self) -> float:
        """How deep the second part is behind the meeting plane; a leaning one is as thick as its box."""
        if self.second is not None and self.second.shape.lean is not None:
            return self.other.size(self.face.axis)
        return self.face.sign * (self.other.face(self.face) - self.plane)

    @property
    def first_end_grain(self) -> bool:
        return is_end_grain(self.first, self.face)

    @property
    def second_end_grain(self) -> bool:
        return (
            self.second is not None
            and self.second_face is not None
            and is_end_grain(self.second, self.second_face)
        )

    @cached_property
    def is_upright(self) -> bool:
        """Whether boxes of the first part's frame stay boxes in the second's."""
        return is_square(self.motion)

    @property
    def along(self) -> tuple[float, float]:
        """The area along the run."""
        return self.low, self.high

    @cached_property
    def glued_along(self) -> tuple[float, float]:
        """The stretch of the run that is glued; all of it if nothing is said, empty for none."""
        glue = self.settings.glue
        if glue is None or glue.extent == "all":
            return self.along
        centre, half = (self.low + self.high) / 2, min(glue.length, self.length) / 2
        if glue.extent == "none":
            return centre, centre
        for face in (face_of(self.run, -1), face_of(self.run, 1)):
            if face.word == glue.where:
                centre += face.sign * (self.length / 2 - half)
        return centre - half, centre + half

    @property
    def apart(self) -> float:
        """From the meeting plane to the second part's face; 0 where they touch."""
        return self.face.sign * (self.other.face(self.face.opposite) - self.plane)

    def shifted(self, by: float) -> Meeting:
        return replace(self, shift=by)

    def moved_aside(self, by: float) -> Meeting:
        return replace(self, aside=by)

    def drawn_in(self, by: float) -> Meeting:
        return replace(self, inset=by)

    def at(self, run: float, across: float, depth: float = 0.0) -> Vec3:
        """A point in the first part's frame."""
        place = [0.0, 0.0, 0.0]
        place[self.run], place[self.across] = run, across
        place[self.normal_axis] = self.plane + self.sign * depth
        return (place[0], place[1], place[2])

    def block(self, run: tuple[float, float], across: tuple[float, float], depth: tuple[float, float]) -> Box:
        """A box in the first part's frame; `depth` from, to."""
        a, b = self.at(run[0], across[0], depth[0]), self.at(run[1], across[1], depth[1])
        low, high = tuple(map(min, a, b)), tuple(map(max, a, b))
        return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))

    def first_hole(self, run: float, across: float, diameter: float, deep: float, purpose: str) -> Hole:
        """Into the first part from its meeting face."""
        return Hole(self.at(run, across), self.face.opposite.normal, diameter, deep, purpose, self.joint.id)

    def second_hole(self, run: float, across: float, diameter: float, deep: float, purpose: str) -> Hole:
        """Into the second part from the meeting plane."""
        hole = Hole(self.at(run, across), self.face.normal, diameter, deep, purpose, self.joint.id)
        return self.in_second(hole)

    def in_second(self, hole: Hole) -> Hole:
        """A hole of the first part's frame in the second's."""
        if self.motion.is_identity:
            return hole
        return replace(hole, at=self.motion.point(hole.at), direction=self.motion.direction(hole.direction))

    def second_cut(
        self, box: Box, kind: str, *, round_ends: bool = False, face: Face | None = None
    ) -> Cut | Shaped:
        """A block taken from the second part, given in the first's frame."""
        from_face = face_through(face or self.face.opposite, self.motion)
        if self.is_upright:
            return Cut(box_through(box, self.motion), from_face, kind, self.joint.id, round_ends)
        return Shaped(_turned_prism(box, self.motion), from_face, kind, self.joint.id)

    def prism(self, along: Axis, span: tuple[float, float], points: Sequence[Vec3]) -> Prism:
        """A prism in the first part's frame; of `points` only the two axes across `along` count."""
        u, v = (a for a in Axis if a != along)
        return Prism(int(along), min(span), max(span), tuple((p[u], p[v]) for p in points))

    def first_shaped(self, prism: Prism, kind: str, *, adds: bool = False) -> Shaped:
        return Shaped(prism, self.face, kind, self.joint.id, adds)

    def second_shaped(self, prism: Prism, kind: str) -> Shaped:
        """The same prism taken out of the second part."""
        from_face = face_through(self.face.opposite, self.motion)
        return Shaped(_prism_through(prism, self.motion), from_face, kind, self.joint.id)

    def in_piece(self, point: Vec3) -> Vec3:
        return self.first.placement.point(point)


def meeting_of(joint: Joint, parts: Mapping[PartName, Part]) -> Meeting:
    """How the two parts of `joint` meet. Faces not given are the nearest pair of the boxes."""
    first, second = parts[joint.first], parts.get(joint.second)
    motion = between(first.placement, second.placement) if second else Placement()
    face = joint.first_face or _facing(joint, first.box, second, motion)
    other = box_through(second.box, inverse(motion)) if second else _beyond(first.box, face)
    second_face = joint.second_face
    if second and not second_face:
        second_face = face_through(face.opposite, motion)
    area = _area(joint, first, other, face)
    run, across = _run_and_across(first, area, face)
    return Meeting(joint, first, second, face, second_face, area, other, motion, run, across)


def both_ends(m: Meeting) -> tuple[Meeting, ...]:
    """The meeting, and with a stick that spans a ring the same at its other end."""
    outline = m.second.shape.outline if m.second else None
    if outline is None or outline.kind is not OutlineKind.RING or m.face.axis == outline.seen_from.axis:
        return (m,)
    far = m.face.opposite
    if m.other.face(far) * far.sign <= m.first.box.face(far) * far.sign + TOUCH:
        return (m,)
    plane = m.first.box.face(far)
    area = m.area.with_span(far.axis, plane, plane)
    return m, replace(m, face=far, second_face=face_through(m.face, m.motion), area=area)


def _facing(joint: Joint, box: Box, second: Part | None, motion: Placement) -> Face:
    """The face of `box` that lies nearest the second part's box, of those that look at it if any do."""
    if second is None:
        return Face.BOTTOM if joint.second == FLOOR else Face.BACK
    other = box_through(second.box, inverse(motion))
    return min(Face, key=lambda f: (not _looks_at(box, other, f), abs(box.face(f) - other.face(f.opposite))))


def _looks_at(box: Box, other: Box, face: Face) -> bool:
    common = [min(box.high[a], other.high[a]) - max(box.low[a], other.low[a]) for a in Axis if a != face.axis]
    return min(common) > _LEAST_SIDE


def _beyond(box: Box, face: Face) -> Box:
    """Wall or floor: an endless depth behind the face."""
    plane = box.face(face)
    return box.with_span(face.axis, min(plane, plane + face.sign * 1e4), max(plane, plane + face.sign * 1e4))


def _area(joint: Joint, first: Part, other: Box, face: Face) -> Box:
    plane = first.box.face(face)
    given = joint.area
    if given is not None and first.placement.is_identity:
        return given.with_span(face.axis, plane, plane)
    own = first.box.with_span(face.axis, plane, plane)
    common = own.intersection(other.with_span(face.axis, plane, plane))
    sides = [a for a in Axis if a != face.axis]
    if common is None or any(common.size(a) < _LEAST_SIDE for a in sides):
        return own
    return common


def _run_and_across(first: Part, area: Box, face: Face) -> tuple[Axis, Axis]:
    """The longer way first; on a square area the wider way of the first part, then the higher axis."""
    sides = [a for a in Axis if a != face.axis]
    run = max(sides, key=lambda a: (round(area.size(a), 2), round(first.box.size(a), 2), a))
    return run, next(a for a in sides if a != run)


def _turned_prism(box: Box, motion: Placement) -> Prism:
    """A box turned about one axis, as a prism along it; about none: the upright box round it."""
    along = turn_axis(motion)
    if along is None:
        box, motion, along = box_through(box, motion), Placement(), Axis.HIGH
    u, v = (a for a in Axis if a != along)
    ends = sorted((motion.point(box.low)[along], motion.point(box.high)[along]))
    outline = []
    for first, second in ((0, 0), (1, 0), (1, 1), (0, 1)):
        corner = list(box.low)
        corner[u], corner[v] = (box.low, box.high)[first][u], (box.low, box.high)[second][v]
        moved = motion.point((corner[0], corner[1], corner[2]))
        outline.append((moved[u], moved[v]))
    return Prism(int(along), ends[0], ends[1], tuple(outline))


def _prism_through(prism: Prism, motion: Placement) -> Prism:
    """A prism moved; exact where its length stays along an axis."""
    if motion.is_identity:
        return prism
    along, (u, v) = Axis(prism.along), (a for a in Axis if a != prism.along)
    moved: list[Vec3] = []
    for end in (prism.low, prism.high):
        for point in prism.profile:
            at = [end] * 3
            at[u], at[v] = point
            moved.append(motion.point((at[0], at[1], at[2])))
    new = face_through(face_of(along, 1), motion).axis
    new_u, new_v = (a for a in Axis if a != new)
    places = [point[new] for point in moved]
    outline = tuple((point[new_u], point[new_v]) for point in moved[: len(prism.profile)])
    return Prism(int(new), min(places), max(places), outline)


def touches_end(area: Box, box: Box, face: Face) -> bool:
    """Whether the area reaches that face of the box."""
    return (
        abs(area.face(face) - box.face(face)) <= TOUCH or face.sign * (area.face(face) - box.face(face)) > 0
    )


def end_faces(axis: Axis) -> tuple[Face, Face]:
    """The low and the high face of an axis."""
    return face_of(axis, -1), face_of(axis, 1)


def is_end_grain(part: Part, face: Face) -> bool:
    """Whether that face of a solid part shows end grain."""
    return face.axis == part.grain and is_solid(part.material)


def is_solid(material: Material) -> bool:
    """Timber that moves across its grain (milled or dressed), not a manufactured sheet."""
    return material.kind is not MaterialKind.SHEET
