"""Pocket holes: at 15 degrees through a broad face, out in the middle of the meeting edge."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Hole
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import snapped
from scantling.piece.model import Face, Vec3
from scantling.quantity import MM_PER_INCH

SHANK = 4.0  # mm: the clearance of a pocket screw: common practice, no source
_PILOT = 3.2  # mm
_COLLAR = 8.0  # mm of wood between the pocket's floor and the meeting face, along the screw


@dataclass(frozen=True, slots=True)
class Pocket:
    """Pockets in `side` of the first part, or of the second (`from_first` False). First part's frame."""

    meeting: Meeting
    side: Face
    from_first: bool

    @property
    def _way(self) -> float:
        """+1: the screw goes the way the first part's face looks."""
        return 1.0 if self.from_first else -1.0

    @property
    def room(self) -> float:
        """How deep the part is that the screw bites into."""
        return self.meeting.second_room if self.from_first else self.meeting.first_room

    @property
    def direction(self) -> Vec3:
        """Toward the other part, and away from the pocketed face."""
        angle = radians(rules.number("pocket angle"))
        out, inward = self.meeting.face.normal, self.side.opposite.normal
        mixed = [self._way * cos(angle) * a + sin(angle) * b for a, b in zip(out, inward, strict=True)]
        return (mixed[0], mixed[1], mixed[2])

    def holes(self, run: float) -> tuple[Hole, Hole]:
        """The pocket and the shank's hole, in the pocketed part's own frame."""
        m, angle = self.meeting, radians(rules.number("pocket angle"))
        face = (m.first.box if self.from_first else m.other).face(self.side)
        reach = abs(face - m.middle) / tan(angle)
        at, long = m.at(run, face, -self._way * reach), reach / cos(angle)
        wide, owner = rules.number("pocket diameter"), m.joint.id
        pocket = Hole(at, self.direction, wide, max(1.0, long - _COLLAR), "pocket", owner)
        shank = Hole(at, self.direction, SHANK, long, "clearance", owner)
        return (pocket, shank) if self.from_first else (m.in_second(pocket), m.in_second(shank))

    def pilot(self, run: float, deep: float) -> Hole:
        """On from the meeting plane, in the other part's own frame."""
        m = self.meeting
        hole = Hole(m.at(run, m.middle), self.direction, _PILOT, deep, "pilot", m.joint.id)
        return m.in_second(hole) if self.from_first else hole

    def length(self, bench: Bench) -> float:
        """The trade's length for the thickness, or shorter to stay 3 mm from the far face."""
        if self.meeting.settings.size:
            return self.meeting.settings.size[-1]
        usual = rules.row_for("pocket screws", "thick", self.meeting.thin)["length"]
        angle = radians(rules.number("pocket angle"))
        most = _COLLAR + (self.room - rules.number("pocket short of far face")) / cos(angle)
        step = MM_PER_INCH / 8 if bench.inches else 1.0
        return usual if usual <= most else snapped(most - step / 2, step)

    def bite(self, length: float) -> float:
        return max(1.0, length - _COLLAR)

    def left(self, length: float) -> float:
        """Wood left beyond the screw's point."""
        return self.room - self.bite(length) * cos(radians(rules.number("pocket angle")))
