"""Dowels: diameter, count and depths by the trade's rules, and by what is on hand."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, pi

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Feature, HardwareUse, Hole
from scantling.joinery.made import Made, both_parts, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import count_at_most, evenly, every
from scantling.piece.model import Notice, Part

_STILL = 0.5  # mm of seasonal change that needs no slot
_AT_STRETCH = 6.0  # mm past the glued stretch that still counts as in it


@dataclass(frozen=True, slots=True)
class Shares:
    """How deep a pin goes into each part, without glue space. [mm]"""

    first: float
    second: float

    @property
    def length(self) -> float:
        return self.first + self.second


def dowels(m: Meeting, bench: Bench) -> Made:
    """Rows of dowels along the run: diameter, count, depth each side and places by the trade's rules."""
    diameter = m.settings.size[0] if m.settings.size else bench.dowel_diameter(m.thin)
    shares = _dowel_shares(m, bench, diameter)
    runs, slack = _places(m, diameter)
    rows = _rows(m, diameter)
    spots = [(run, row) for i, run in enumerate(runs) for row in rows[i % len(rows) :: len(rows)]]
    space = rules.number("dowel glue space")
    first = tuple(m.first_hole(*spot, diameter, shares.first + space, "dowel") for spot in spots)
    second = tuple(_into_second(m, bench, spot, diameter, shares.second + space) for spot in spots)
    size = f"{bench.number(diameter)} x {bench.number(shares.length)}"
    use = HardwareUse(
        "dowel",
        size,
        len(spots),
        m.joint.id,
        parts=both_parts(m),
        sizes=(("diameter", diameter), ("length", shares.length)),
        at=tuple(m.in_piece(m.at(*spot)) for spot in spots),
    )
    words = _dowel_words(m, bench, runs, diameter, shares, len(spots))
    if any(not isinstance(feature, Hole) for feature in second):
        words += "; those outside the glued stretch stay dry, in slots"
    glued = pi * diameter * shares.length * len(spots)
    numbers = (
        ("count", float(len(spots))),
        ("diameter", diameter),
        ("length", shares.length),
        ("deep in first", shares.first + space),
        ("deep in second", shares.second + space),
        ("spacing", runs[1] - runs[0] if len(runs) > 1 else 0.0),
    )
    made = layout(m, words, numbers, glued=glued, source=rules.source("dowel over thickness"))
    return Made(first, second, made, (use,), _dowel_notices(m, bench, diameter, shares), slack)


def _into_second(
    m: Meeting, bench: Bench, spot: tuple[float, float], diameter: float, deep: float
) -> Feature:
    """A hole; for a dry dowel outside the glued stretch a slot along the run, as long as the wood moves."""
    low, high = m.glued_along
    said = m.settings.glue is not None and m.settings.glue.extent == "part"
    if not said or low - _AT_STRETCH <= spot[0] <= high + _AT_STRETCH:
        return m.second_hole(*spot, diameter, deep, "dowel")
    travel = bench.travel(m.first, m.run, spot[0] - (low + high) / 2) or 0.0
    if travel < _STILL:
        return m.second_hole(*spot, diameter, deep, "dowel")
    along, across = (diameter + travel + _STILL) / 2, diameter / 2
    run, rows = (spot[0] - along, spot[0] + along), (spot[1] - across, spot[1] + across)
    return m.second_cut(m.block(run, rows, (0.0, deep)), "slot", round_ends=True)


def _dowel_shares(m: Meeting, bench: Bench, diameter: float) -> Shares:
    """Depths: as deep as wished, or as the wood behind allows; the length said or on hand is shared out."""
    wish = rules.number("dowel depth over diameter") * diameter
    most_first, most_second = (_most_deep(room) for room in (m.first_room, m.second_room))
    if len(m.settings.size) > 1:
        length = m.settings.size[1]
    else:
        length = _ready_length(bench, diameter, min(wish, most_first) + min(wish, most_second))
    if m.settings.deep is not None:
        second = min(m.settings.deep, most_second)
    else:
        second = min(length / 2, most_second)
    first = min(length - second, most_first)
    return Shares(first, min(length - first, most_second))


def _most_deep(room: float) -> float:
    """The deepest share that leaves wood behind the hole: 5 mm, and a quarter of the part."""
    leaves = room - rules.number("dowel wood left") - rules.number("dowel glue space")
    return max(0.0, min(leaves, rules.number("dowel most depth over thickness") * room))


def _ready_length(bench: Bench, diameter: float, most: float) -> float:
    """The longest ready-cut dowel not over `most`; from the rod, `most` to the step below."""
    ready = [length for length in bench.dowel_lengths(diameter) if length <= most + 0.5]
    return ready[-1] if ready else max(bench.step, most // bench.step * bench.step)


def _places(m: Meeting, diameter: float) -> tuple[tuple[float, ...], float]:
    """Places along the run, and how far the row may be shifted."""
    edge = rules.number("dowel edge over diameter") * diameter
    if m.settings.every is not None:
        runs = every(m.low, m.high, m.settings.every, edge)
    else:
        first, spacing = _spacing(m, diameter)
        count = m.settings.count or count_at_most(m.low, m.high, spacing, first)
        runs = evenly(m.low, m.high, count, _first_place(m, first + m.inset, count, diameter))
    slack = max(0.0, runs[0] - m.low - edge)
    shift = max(-slack, min(slack, m.shift))
    return tuple(run + shift for run in runs), slack


def _spacing(m: Meeting, diameter: float) -> tuple[float, float]:
    """First place from the edge and spacing: rail, edge joint or case corner."""
    if m.length <= rules.number("dowel rail widest"):
        return (
            rules.number("dowel rail first over diameter") * diameter,
            rules.number("dowel rail spacing over diameter") * diameter,
        )
    if not m.first_end_grain and not m.second_end_grain and _grain_alike(m):
        first = min(2 * rules.number("dowel case first"), m.length / 4)
        return first, rules.number("dowel edge joint spacing")
    return rules.number("dowel case first"), rules.number("dowel case spacing")


def _grain_alike(m: Meeting) -> bool:
    return m.second is not None and m.first.grain == m.second.grain == m.run


def _first_place(m: Meeting, first: float, count: int, diameter: float) -> float:
    """Nearer the edge where the wished place would crowd the dowels."""
    least = rules.number("dowel edge over diameter") * diameter
    apart = rules.number("dowel spacing over diameter") * diameter
    return max(least, min(first, (m.length - apart * (count - 1)) / 2))


def _rows(m: Meeting, diameter: float) -> tuple[float, ...]:
    """One row in the middle; two staggered ones where the meeting is thick enough."""
    if m.thin < rules.number("dowel second row from") or m.thin < 6 * diameter:
        return (m.middle,)
    return (m.middle - m.thin / 4, m.middle + m.thin / 4)


def _dowel_words(
    m: Meeting, bench: Bench, runs: tuple[float, ...], diameter: float, shares: Shares, count: int
) -> str:
    space = rules.number("dowel glue space")
    apart = f", {bench.said(runs[1] - runs[0])} apart" if len(runs) > 1 else ""
    other = m.second.name if m.second else "the wall"
    return (
        f"{counted(count, 'dowel')} {bench.said(diameter)} x {bench.said(shares.length)}{apart}, the first"
        f" {bench.said(runs[0] - m.low)} from the end; holes {bench.said(shares.first + space)} deep in"
        f" {m.first.name}, {bench.said(shares.second + space)} deep in {other}"
    )


def _dowel_notices(m: Meeting, bench: Bench, diameter: float, shares: Shares) -> tuple[Notice, ...]:
    least = rules.number("dowel least depth over diameter") * diameter
    found = list(_too_thick(m, bench, diameter))
    for part, share, room in (
        (m.first, shares.first, m.first_room),
        (m.second, shares.second, m.second_room),
    ):
        if part is not None and share < least - 0.1:
            found.append(_cannot_hold(m, bench, part, share, least, room))
    return tuple(found)


def _too_thick(m: Meeting, bench: Bench, diameter: float) -> tuple[Notice, ...]:
    """Refused where a thinner dowel would do, or hardly any wood is left; else the thinnest is looked at."""
    least, wall = rules.number("dowel wall"), max(0.0, (m.thin - diameter) / 2)
    if wall >= least:
        return ()
    fitting = [each for each in bench.dowel_diameters if (m.thin - each) / 2 >= least]
    thick = ceil((diameter + 2 * least) / bench.step) * bench.step
    message = (
        f"a {bench.said(diameter)} dowel leaves {bench.said(wall)} beside it in a meeting"
        f" {bench.said(m.thin)} thick"
    )
    remedy = (
        f"write a size of at most {bench.plain(fitting[-1])}"
        if fitting
        else f"no thinner dowel is to be had: join it with a `rabbet` instead, or use wood"
        f" that measures {bench.said(thick)} or more"
    )
    must = bool(fitting) or wall < rules.number("dowel wall of the thinnest")
    return (notice(m, "dowel too thick", message, number=diameter, remedy=remedy, must=must),)


def _cannot_hold(m: Meeting, bench: Bench, part: Part, share: float, least: float, room: float) -> Notice:
    message = (
        f"{part.name} is {bench.said(room)} thick there: a dowel can go {bench.said(share)} in,"
        f" {bench.said(least)} is the least that holds"
    )
    remedy = "use a thinner dowel, or screws through it"
    return notice(m, "too thin to hold", message, number=share, remedy=remedy, must=True)
