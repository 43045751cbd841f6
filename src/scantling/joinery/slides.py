"""Side slides: where the members sit, their screw holes, and the clearance they need."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.depths import WHOLE
from scantling.joinery.driving import pilot
from scantling.joinery.features import Hole
from scantling.joinery.fittings import (
    Fitted,
    Screws,
    fitted,
    fitting_notice,
    meeting_for,
    not_laid_out,
    size_of,
)
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import evenly
from scantling.piece.model import Axis, Hardware, Notice, Slide

_SCREW_ROOM = 4.0  # mm between a slide's screw and a groove
_TOLERANCE = 0.8  # mm more clearance than stated does no harm: +0.8/-0, common practice, no source


def side_slide(fitting: Hardware, bench: Bench) -> Fitted:
    """Three screws in each member, a third up the moving side; the gap must be what the slide wants."""
    m = meeting_for(fitting, bench)
    if m is None or m.second is None:
        message, remedy = "a slide needs two parts that face each other", "write joins: [drawer side, side]"
        return not_laid_out(fitting, "slide on nothing", message, remedy)
    long = size_of(fitting, "length", m.length)
    low, high = _reach(m, bench, long)
    height = _height(m, bench, size_of(fitting, "height", rules.number("slide height")))
    away = rules.number("slide screw from end")
    shared = max(low, m.area.low[_along(m)]), min(high, m.area.high[_along(m)])
    places = evenly(*shared, 3, min(away, (shared[1] - shared[0]) / 4))
    gauge, length = rules.number("slide screw gauge"), rules.number("slide screw length")
    firsts = tuple(_pilot(m, bench, place, height, gauge, length) for place in places)
    seconds = tuple(_carrier_pilot(m, bench, place, height, gauge, length) for place in places)
    size = f"{gauge:g} x {bench.number(length)}"
    up = bench.said(height - m.first.box.low[Axis.HIGH])
    words = (
        f"slide {bench.said(long)} long, its middle {up} above the lower edge of {m.first.name};"
        f" screws {size} in both members; clearance {bench.said(m.apart)}"
    )
    features = ((m.first.name, firsts), (m.second.name, seconds))
    at = (m.in_piece(_point(m, (places[0] + places[-1]) / 2, height, 0.0)),)
    return fitted(fitting, features, words, at=at, screws=Screws(gauge, length, 6, size),
        numbers=(("long", long), ("clearance", m.apart)), notices=_notices(fitting, bench, m, long),
        source=rules.source("slide clearance"),
    )  # fmt: skip


def _along(m: Meeting) -> Axis:
    """The way it runs: level, in the meeting plane."""
    return next(a for a in (Axis.DEEP, Axis.WIDE) if a != m.face.axis)


def _reach(m: Meeting, bench: Bench, long: float) -> tuple[float, float]:
    """Where the slide lies along its run: set back from the front of what the two parts share.

    One longer than the side (it runs over the front and back of a tray) lies evenly about it.
    """
    axis = _along(m)
    low, high = m.area.low[axis], m.area.high[axis]
    own = m.first.box.low[axis], m.first.box.high[axis]
    if long > high - low:
        return sum(own) / 2 - long / 2, sum(own) / 2 + long / 2
    set_back = min(rules.number("slide set back"), high - low - long)
    if _runs_to_high(m, bench, axis):
        return high - set_back - long, high - set_back
    return low + set_back, low + set_back + long


def _runs_to_high(m: Meeting, bench: Bench, axis: Axis) -> bool:
    """Whether the moving part comes out toward the high side (a drawer out of the back or the right)."""
    motions = (each.motion for each in bench.piece.movements if m.first.name in each.moves)
    return any(isinstance(motion, Slide) and motion.direction[axis] > 0.5 for motion in motions)


def _height(m: Meeting, bench: Bench, section: float) -> float:
    """A third up the moving part, or half where a groove is there; within what the two share."""
    low = m.first.box.low[Axis.HIGH]
    tall, edge = m.first.box.size(Axis.HIGH), rules.number("slide above edge") + section / 2
    grooves = _grooves(m, bench)
    ups = [max(tall * share, edge) for share in (rules.number("slide up box"), 0.5)]
    ups += [high - low for _, high in grooves]
    up = next((up for up in ups if not any(a < low + up < b for a, b in grooves)), ups[0])
    least, most = m.area.low[Axis.HIGH] + section / 2, m.area.high[Axis.HIGH] - section / 2
    return min(max(low + up, least), most) if most >= least else m.area.centre[Axis.HIGH]


def _grooves(m: Meeting, bench: Bench) -> list[tuple[float, float]]:
    """Heights between which the moving part is housed for another (its bottom), and a screw's room."""
    housed = (o for o in bench.meetings_of(m.first) if o.second is m.first and o.joint.method in WHOLE)
    spans = ((o.area.low[Axis.HIGH], o.area.high[Axis.HIGH]) for o in housed if o.motion.is_identity)
    return [
        (low - _SCREW_ROOM, high + _SCREW_ROOM)
        for low, high in spans
        if high - low < m.first.box.size(Axis.HIGH) / 2
    ]


def _point(m: Meeting, along: float, height: float, depth: float) -> tuple[float, float, float]:
    at = [0.0, 0.0, height]
    at[_along(m)] = along
    at[m.face.axis] = m.plane + m.face.sign * depth
    return (at[0], at[1], at[2])


def _pilot(m: Meeting, bench: Bench, along: float, height: float, gauge: float, length: float) -> Hole:
    deep = min(length, m.first_room - 2.0)
    bore = pilot(bench, m.first, gauge)
    return Hole(_point(m, along, height, 0.0), m.face.opposite.normal, bore, deep, "pilot", m.joint.id)


def _carrier_pilot(
    m: Meeting, bench: Bench, along: float, height: float, gauge: float, length: float
) -> Hole:
    deep = max(1.0, min(length, m.second_room - m.apart - 2.0))
    bore = pilot(bench, m.second, gauge)
    at = _point(m, along, height, m.apart)
    return m.in_second(Hole(at, m.face.normal, bore, deep, "pilot", m.joint.id))


def _notices(fitting: Hardware, bench: Bench, m: Meeting, long: float) -> tuple[Notice, ...]:
    wanted, found = size_of(fitting, "clearance", rules.number("slide clearance")), []
    if not wanted - 0.05 <= m.apart <= wanted + _TOLERANCE + 0.05:
        message = (
            f"the gap is {bench.said(m.apart)}, the slide wants {bench.said(wanted)} (up to 0.8 mm more)"
        )
        remedy = "make the side gap that, or pack it out"
        found.append(
            fitting_notice(
                fitting, "slide clearance", message, number=m.apart, remedy=remedy, must=m.apart < wanted
            )
        )
    moving = _moving_length(m, bench)
    if long > moving + 1.0:
        message = f"the slide is {bench.said(long)} long, what it carries is {bench.said(moving)}"
        found.append(
            fitting_notice(fitting, "slide too long", message, number=long, remedy="a shorter slide")
        )
    return tuple(found)


def _moving_length(m: Meeting, bench: Bench) -> float:
    """How long everything that moves with the first part is, along the run."""
    axis, names = _along(m), {m.first.name}
    for movement in bench.piece.movements:
        if m.first.name in movement.moves and isinstance(movement.motion, Slide):
            names |= movement.moves
    boxes = [part.box for part in bench.piece.parts if part.name in names]
    return max(box.high[axis] for box in boxes) - min(box.low[axis] for box in boxes)
