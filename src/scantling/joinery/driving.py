"""Holes for a screw or bolt that goes through one of two meeting parts into the other."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Cut, Feature, Hole, Shaped
from scantling.joinery.meeting import Meeting
from scantling.piece.model import Axis, Face, Part, face_of


@dataclass(frozen=True, slots=True)
class Drive:
    """`from_first`: the screw passes through the first part. `sunk`: depth of a counterbore for its head.

    `through`: thickness passed; `into`: how deep the threaded part is; `under`: wood below the head. [mm]
    """

    meeting: Meeting
    from_first: bool
    through: float
    into: float
    sunk: float

    @property
    def under(self) -> float:
        return self.through - self.sunk

    @property
    def passed(self) -> Part | None:
        return self.meeting.first if self.from_first else self.meeting.second

    @property
    def threaded(self) -> Part | None:
        return self.meeting.second if self.from_first else self.meeting.first

    @property
    def into_end_grain(self) -> bool:
        m = self.meeting
        return m.second_end_grain if self.from_first else m.first_end_grain


def drive_of(m: Meeting, *, from_first: bool | None = None) -> Drive:
    """Through the first part into the second, or the other way where only that way a screw will reach."""
    thickest = rules.number("screw thickest under head")
    if from_first is None:
        from_first = m.first_room <= thickest or m.first_room <= m.second_room
    through, into = (m.first_room, m.second_room) if from_first else (m.second_room, m.first_room)
    sunk = max(0.0, through - rules.number("screw left under head")) if through > thickest else 0.0
    return Drive(m, from_first, through, into, sunk)


def head_hole(drive: Drive, run: float, across: float, diameter: float, deep: float, purpose: str) -> Hole:
    """A hole from the far face of the passed part toward the joint, in that part's own frame."""
    m = drive.meeting
    through = abs(deep - drive.through) < 0.01
    depth = -drive.through if drive.from_first else drive.through
    normal = m.face.normal if drive.from_first else m.face.opposite.normal
    hole = Hole(m.at(run, across, depth), normal, diameter, deep, purpose, m.joint.id, through)
    return hole if drive.from_first else m.in_second(hole)


def thread_hole(drive: Drive, run: float, across: float, diameter: float, deep: float, purpose: str) -> Hole:
    """A hole from the meeting plane into the threaded part, in that part's own frame."""
    m = drive.meeting
    hole = m.second_hole if drive.from_first else m.first_hole
    return replace(hole(run, across, diameter, deep, purpose), through=deep > drive.into - 0.01)


def head_slot(drive: Drive, run: float, across: float, axis: Axis, long: float, wide: float) -> Cut | Shaped:
    """A slot right through the passed part, `long` along `axis` (of the first part's frame)."""
    m = drive.meeting
    runs, rows = [run - wide / 2, run + wide / 2], [across - wide / 2, across + wide / 2]
    ends = runs if axis == m.run else rows
    ends[0], ends[1] = ends[0] - (long - wide) / 2, ends[1] + (long - wide) / 2
    depth = (-drive.through, 0.0) if drive.from_first else (0.0, drive.through)
    block = m.block((runs[0], runs[1]), (rows[0], rows[1]), depth)
    if drive.from_first:
        return Cut(block, m.face, "slot", m.joint.id, round_ends=True)
    return m.second_cut(block, "slot", round_ends=True)


def by_part(
    drive: Drive, passed: list[Feature], threaded: list[Feature]
) -> tuple[tuple[Feature, ...], tuple[Feature, ...]]:
    """(first, second) features."""
    pair = (tuple(passed), tuple(threaded))
    return pair if drive.from_first else (pair[1], pair[0])


def pilot(bench: Bench, part: Part | None, gauge: float) -> float:
    """Pilot diameter for that gauge: 70 % of root in softwood and sheet, 90 % in hardwood. [mm]"""
    row = rules.screw_row(gauge)
    return row["soft"] if bench.is_soft(part) else row["hard"]


def centre_side(m: Meeting, bench: Bench, axis: Axis) -> Face:
    """The face of the first part on `axis` that looks toward the middle of the piece."""
    middle = bench.piece.overall.centre[axis]
    own = m.first.placement.point(m.first.box.centre)[axis]
    return face_of(axis, 1 if middle > own + 0.01 else -1)
