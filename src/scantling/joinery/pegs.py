"""Pegs of a breadboard end: through the end and through slots in the tongue, so that the board can move."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.depths import is_breadboard
from scantling.joinery.features import Cut, Feature, HardwareUse, Hole
from scantling.joinery.made import both_parts, notice
from scantling.joinery.meeting import Meeting, end_faces
from scantling.joinery.spread import count_at_most, evenly
from scantling.piece.model import Notice

_FROM_END = 50.0  # mm from the board's edge to the outer peg
_SPARE = 0.5  # mm


@dataclass(frozen=True, slots=True)
class Pegged:
    """Slots of the first part's tongue, holes through the second, the pegs themselves."""

    first: tuple[Feature, ...] = ()
    second: tuple[Feature, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    notices: tuple[Notice, ...] = ()


def pegs(m: Meeting, bench: Bench, long: float) -> Pegged:
    """Pegs at half the tongue's length, none in the glued stretch; nothing for other tongues."""
    if not is_breadboard(m) or m.second is None:
        return Pegged()
    low, high = m.low + _FROM_END, m.high - _FROM_END
    places = evenly(low, high, count_at_most(low, high, rules.number("peg spacing"), 0.0), 0.0)
    glued = m.glued_along
    dry = tuple(place for place in places if not glued[0] - 10.0 <= place <= glued[1] + 10.0)
    diameter = rules.number("peg diameter")
    at = tuple(m.in_piece(m.at(place, m.middle, long / 2)) for place in dry)
    sizes = (("diameter", diameter), ("length", m.other.size(m.across)))
    use = HardwareUse("peg", bench.number(diameter), len(dry), m.joint.id, both_parts(m), sizes, at)
    slots = tuple(_slot(m, bench, place, diameter, long) for place in dry)
    return Pegged(slots, tuple(_hole(m, place, diameter, long) for place in dry), (use,), _unknown(m, bench))


def _hole(m: Meeting, place: float, diameter: float, long: float) -> Hole:
    face = end_faces(m.across)[1]
    at = m.at(place, m.other.face(face), long / 2)
    deep = m.other.size(m.across)
    return m.in_second(Hole(at, face.opposite.normal, diameter, deep, "peg", m.joint.id, through=True))


def _slot(m: Meeting, bench: Bench, place: float, diameter: float, long: float) -> Cut:
    """Right through the tongue, as long as the board moves between the peg and the glue."""
    travel = bench.travel(m.first, m.run, place - sum(m.glued_along) / 2) or 0.0
    half = (diameter + travel + _SPARE) / 2
    depth = (long / 2 - diameter / 2, long / 2 + diameter / 2)
    across = (m.area.low[m.across], m.area.high[m.across])
    block = m.block((place - half, place + half), across, depth)
    return Cut(block, end_faces(m.across)[1], "slot", m.joint.id, round_ends=True)


def _unknown(m: Meeting, bench: Bench) -> tuple[Notice, ...]:
    if bench.travel(m.first, m.run, 1.0) is not None:
        return ()
    message = "how long the peg slots must be is not known: the piece says nothing of the room's air"
    remedy = "write room: {air: {dry: 30 %, damp: 60 %, at: 70 F}}"
    return (notice(m, "movement unknown", message, remedy=remedy),)
