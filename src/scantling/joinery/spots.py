"""Where a top is held, and how far it moves there with the seasons. mm."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import HardwareUse
from scantling.joinery.made import both_parts, notice
from scantling.joinery.meeting import Meeting, end_faces
from scantling.joinery.spread import count_at_most, evenly, every
from scantling.piece.model import Axis, Box, Notice, OutlineKind, Part

STILL = 0.5  # mm of seasonal change that needs no slot
_CLEAR = 12.0  # mm from a lap
_ON_LINE = 30.0  # mm: a fastener this near the fixed line is fixed
_ON_RING = 50.0  # mm: the same round a ring, whose fasteners are turned out of the way of its bearers
_BY_EDGE = 90.0  # mm: where an edge is the fixed line, the nearest fastener holds it


@dataclass(frozen=True, slots=True)
class Spot:
    """One fastener. `travel`: seasonal change between it and the fixed line; None: not known. [mm]"""

    run: float
    across: float
    travel: float | None
    is_fixed: bool


def moving_part(m: Meeting) -> Part:
    """The broad one of the two in the meeting plane: the first, but for a batten under a board."""
    if m.second is None:
        return m.first
    return m.second if _broad(m, m.other) > _broad(m, m.first.box) else m.first


def _broad(m: Meeting, box: Box) -> float:
    return min(box.size(m.run), box.size(m.across))


def movement_axis(m: Meeting) -> Axis:
    """The axis across the moving part's grain in the meeting plane."""
    grain = moving_part(m).grain
    if grain not in (m.run, m.across):
        return m.run
    return m.across if grain == m.run else m.run


def spots_of(m: Meeting, bench: Bench) -> tuple[Spot, ...]:
    """Places along the run with the travel each needs; the fixed line is the middle unless said."""
    axis, panel = movement_axis(m), moving_part(m)
    line, at_edge = _fixed_line(m, axis)
    ring = _ring_wall(m)
    if ring is not None:
        spots = _round_a_ring(m, ring)
    else:
        runs = _runs(m, odd=axis == m.run and not at_edge)
        spots = tuple((run, m.middle) for run in runs if not _in_a_lap(m, bench, run))
    offs = [abs((run if axis == m.run else across) - line) for run, across in spots]
    near = _ON_RING if ring is not None else _ON_LINE
    reach = max(near, min(_BY_EDGE, min(offs, default=0.0) + 0.1)) if at_edge else near
    return tuple(
        Spot(*spot, bench.travel(panel, axis, off), off <= reach)
        for spot, off in zip(spots, offs, strict=True)
    )


def _ring_wall(m: Meeting) -> float | None:
    """The wall of a ring that is met on its flat side. [mm]"""
    for part in (m.first, m.second):
        outline = part.shape.outline if part else None
        if outline and outline.kind is OutlineKind.RING and outline.seen_from.axis == m.face.axis:
            return outline.radius
    return None


def _round_a_ring(m: Meeting, wall: float) -> tuple[tuple[float, float], ...]:
    """Eight places in the middle of the ring's wall, two of them on the middle line either way.

    A shift turns them all round the ring.
    """
    radius = min(m.length, m.thin) / 2 - wall / 2
    centre = (m.low + m.high) / 2, m.middle
    angles = (i * pi / 4 + m.shift / radius for i in range(m.settings.count or 8))
    return tuple((centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in angles)


def _in_a_lap(m: Meeting, bench: Bench, run: float) -> bool:
    """Whether that place lies where the second part is lapped across another."""
    for other in bench.meetings_of(m.second) if m.second else ():
        if other.joint.method == "cross lap" and other.motion.is_identity:
            low = max(other.first.box.low[m.run], other.other.low[m.run])
            high = min(other.first.box.high[m.run], other.other.high[m.run])
            if low - _CLEAR < run < high + _CLEAR:
                return True
    return False


def _runs(m: Meeting, *, odd: bool) -> tuple[float, ...]:
    """`odd`: one must stand in the middle, on the fixed line."""
    first = min(rules.number("top fastener first"), m.length / 4)
    if m.settings.every is not None:
        return every(m.low, m.high, m.settings.every, first)
    usual = (
        1
        if m.length < 3 * first
        else count_at_most(m.low, m.high, rules.number("top fastener spacing"), first)
    )
    count = m.settings.count or usual + (1 - usual % 2 if odd else 0)
    return tuple(run + m.shift for run in evenly(m.low, m.high, count, first + m.inset))


def slack_of(m: Meeting) -> float:
    """How far a row may be shifted: not at all where its middle stands on the fixed line. [mm]"""
    if _ring_wall(m) is not None:
        return 0.9 * _ON_RING
    return 0.0 if movement_axis(m) == m.run else min(rules.number("top fastener first"), m.length / 4) / 2


def _fixed_line(m: Meeting, axis: Axis) -> tuple[float, bool]:
    """Where it is, and whether it is an edge of the panel."""
    panel = m.first.box if moving_part(m) is m.first else m.other
    for face in end_faces(axis):
        if m.settings.fixed_at == face.word:
            return panel.face(face), True
    return panel.centre[axis], False


def unknown_movement(m: Meeting, bench: Bench, spots: tuple[Spot, ...]) -> tuple[Notice, ...]:
    """A notice where the travel cannot be worked out; nothing is guessed."""
    if all(spot.travel is not None for spot in spots):
        return ()
    message = "how far it moves is not known: the piece says nothing of the room's air"
    remedy = "write room: {air: {dry: 30 %, damp: 60 %, at: 70 F}}"
    if bench.piece.room.air is not None:
        wood = moving_part(m).material.species
        message = f"how far it moves is not known: no change coefficient for {wood}"
        remedy = "name a wood of the handbook"
    return (notice(m, "movement unknown", message, remedy=remedy),)


def use_of(
    m: Meeting, kind: str, size: str, spots: tuple[Spot, ...], *, travel: float | None = None, fixed: bool
) -> tuple[HardwareUse, ...]:
    """The fasteners at these spots; none for no spots."""
    at = tuple(m.in_piece(m.at(s.run, s.across)) for s in spots)
    use = HardwareUse(kind, size, len(spots), m.joint.id, both_parts(m), (), at, fixed=fixed, travel=travel)
    return (use,) if spots else ()
