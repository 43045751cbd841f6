"""A corner of two boards: where the first part's outer face is flush with the second part's end. mm."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.bench import Bench
from scantling.joinery.made import notice
from scantling.joinery.meeting import Meeting, end_faces
from scantling.piece.model import Face, Notice

_FLUSH = 0.1


@dataclass(frozen=True, slots=True)
class Corner:
    """`outer`: the way the corner points along the first part's thickness; `inset`: how far the second
    part runs past the first's outer face (0 at a true corner). `first_thick`, `second_thick`. [mm]
    """

    meeting: Meeting
    outer: Face
    inset: float
    first_thick: float
    second_thick: float

    @property
    def is_true(self) -> bool:
        return abs(self.inset) <= _FLUSH

    @property
    def inside(self) -> float:
        """Where the first part's inner face lies across the run."""
        m = self.meeting
        return m.area.face(self.outer.opposite)

    @property
    def outside(self) -> float:
        return self.meeting.area.face(self.outer)


def corner_of(m: Meeting) -> Corner:
    """The end of the second part nearer the meeting decides which way the corner points."""
    outer = min(end_faces(m.across), key=lambda f: abs(m.other.face(f) - m.area.face(f)))
    inset = outer.sign * (m.other.face(outer) - m.area.face(outer))
    return Corner(m, outer, inset, m.thin, m.second_room)


def not_a_corner(corner: Corner, bench: Bench) -> tuple[Notice, ...]:
    """A notice where the second part runs past, so that a corner joint cannot be cut as drawn."""
    if corner.is_true:
        return ()
    m = corner.meeting
    name = m.second.name if m.second else "the other part"
    message = f"{m.joint.method} needs a corner, but {name} runs {bench.said(corner.inset)} past it"
    remedy = "end both parts flush, or use a dado"
    return (notice(m, "not a corner", message, number=corner.inset, remedy=remedy, must=True),)
