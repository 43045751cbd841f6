"""Side slides: where the members sit, their screw holes, and the clearance they need."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import pilot
from scantling.joinery.features import Hole
from scantling.joinery.fittings import Fitted, fitted, fitting_notice, meeting_for, not_laid_out, size_of
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import evenly
from scantling.piece.model import Axis, Hardware, Notice, Slide

_TOLERANCE = 0.8  # mm more clearance than stated does no harm: +0.8/-0, common practice, no source


def side_slide(fitting: Hardware, bench: Bench) -> Fitted:
    """Three screws in each member, a third up the moving side; the gap must be what the slide wants."""
    m = meeting_for(fitting, bench)
    if m is None or m.second is None:
        message, remedy = "a slide needs two parts that face each other", "write joins: [drawer side, side]"
        return not_laid_out(fitting, "slide on nothing", message, remedy)
    long = size_of(fitting, "length", m.length)
    front = _front(m, bench, long)
    height = _height(m, size_of(fitting, "height", rules.number("slide height")))
    away = rules.number("slide screw from end")
    places = evenly(min(front, front + long), max(front, front + long), 3, min(away, long / 4))
    gauge, length = rules.number("slide screw gauge"), rules.number("slide screw length")
    firsts = tuple(_pilot(m, bench, place, height, gauge, length) for place in places)
    seconds = tuple(_carrier_pilot(m, bench, place, height, gauge, length) for place in places)
    size = f"{gauge:g} x {bench.number(length)}"
    up = bench.said(height - m.first.box.low[Axis.HIGH])
    words = f"slide {bench.said(long)} long, its middle {up} above the lower edge of {m.first.name}; screws {size} in both members; clearance {bench.said(m.apart)}"
    features = ((m.first.name, firsts), (m.second.name, seconds))
    at = (m.in_piece(_point(m, (places[0] + places[-1]) / 2, height, 0.0)),)
    return fitted(fitting, features, words, at=at, screws=(size, 6),
        numbers=(("long", long), ("clearance", m.apart)), notices=_notices(fitting, bench, m, long),
        source=rules.source("slide clearance"),
    )  # fmt: skip


def _along(m: Meeting) -> Axis:
    """The way it runs: level, in the meeting plane."""
    return next(a for a in (Axis.DEEP, Axis.WIDE) if a != m.face.axis)


def _front(m: Meeting, bench: Bench, long: float) -> float:
    """Low end of the slide: set back from the front of what the two parts share, where it fits."""
    axis = _along(m)
    low, high = m.area.low[axis], m.area.high[axis]
    set_back = min(rules.number("slide set back"), max(0.0, high - low - long))
    if _runs_to_high(m, bench, axis):
        return high - set_back - long
    return low + set_back


def _runs_to_high(m: Meeting, bench: Bench, axis: Axis) -> bool:
    """Whether the moving part comes out toward the high side (a drawer out of the back or the right)."""
    for movement in bench.piece.movements:
        if m.first.name in movement.moves and isinstance(movement.motion, Slide):
            return movement.motion.direction[axis] > 0.5
    return False


def _height(m: Meeting, section: float) -> float:
    """A third up the moving part, clear of its lower edge and within what the two share."""
    low = m.first.box.low[Axis.HIGH]
    up = max(
        m.first.box.size(Axis.HIGH) * rules.number("slide up box"),
        rules.number("slide above edge") + section / 2,
    )
    least, most = m.area.low[Axis.HIGH] + section / 2, m.area.high[Axis.HIGH] - section / 2
    return min(max(low + up, least), most) if most >= least else m.area.centre[Axis.HIGH]


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
    shared = m.area.size(_along(m))
    if long > shared + 0.5:
        message = f"the slide is {bench.said(long)} long, the two parts share {bench.said(shared)}"
        found.append(
            fitting_notice(fitting, "slide too long", message, number=long, remedy="a shorter slide")
        )
    return tuple(found)
