"""Which side of a part is the inner one, out of sight."""

from __future__ import annotations

from scantling.joinery.meeting import Meeting, end_faces
from scantling.piece.model import Face


def inner_side(m: Meeting) -> Face:
    """The side of the second part that looks toward the middle of the first."""
    low, high = end_faces(m.across)
    return high if m.first.box.centre[m.across] > m.middle else low
