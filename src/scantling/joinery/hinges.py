"""Butt hinges, continuous hinges and lid stays."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import pilot
from scantling.joinery.features import Cut, Feature, Hole
from scantling.joinery.fittings import (
    Fitted,
    Screws,
    fitted,
    fitting_notice,
    item_screw,
    marked_size,
    meeting_for,
    not_laid_out,
    size_of,
)
from scantling.joinery.made import counted
from scantling.joinery.meeting import Meeting, end_faces
from scantling.joinery.spread import count_at_most, evenly
from scantling.piece.model import Face, Hardware, Notice, Swing

_PIVOT = (Face.TOP, Face.FRONT, Face.LEFT)  # where the piece has no movement for the hinge
_BEHIND = 2.0  # mm of wood behind a hinge screw's pilot
_EDGE = 10.0  # mm from the end of a leaf to its outer screws


@dataclass(frozen=True, slots=True)
class Leaf:
    """`pivot`: the side of the meeting on which the knuckle lies; `deep`: of its mortise. [mm]"""

    pivot: Face
    long: float
    wide: float
    deep: float


def butt_hinge(fitting: Hardware, bench: Bench) -> Fitted:
    """Equal mortises in both edges, as deep as the leaf less half the gap; pilots in their floors."""
    m = meeting_for(fitting, bench)
    if m is None or m.second is None:
        return _no_edge(fitting)
    long = size_of(fitting, "length", marked_size(fitting, bench) or 50.8)
    thick = size_of(fitting, "thick", rules.number("butt hinge leaf thick"))
    wish = rules.number("butt hinge leaf width over length") * long
    leaf = Leaf(_pivot(m, fitting, bench), long, min(wish, m.thin), max(0.0, thick - max(0.0, m.apart) / 2))
    count = fitting.count if fitting.count > 1 else _count(m)
    runs = evenly(m.low, m.high, count, max(rules.number("butt hinge from end") * m.length, long / 2))
    row = rules.row_for("hinge screws", "leaf", long)
    holes = 3 if long >= 60 else 2
    screw = _screw_that_fits(m, bench, row["length"])
    features = _leaf_features(m, bench, leaf, runs, row["gauge"], screw, holes)
    size = f"{row['gauge']:g} x {bench.number(screw)}"
    words = (
        f"{counted(count, 'butt hinge')} {bench.said(long)}, the first {bench.said(runs[0] - m.low)} in;"
        f" mortises {bench.said(leaf.wide)} wide, {bench.said(leaf.deep)} deep; screws {size}"
    )
    return fitted(
        fitting,
        features,
        words,
        at=[m.in_piece(m.at(run, m.area.face(leaf.pivot))) for run in runs],
        count=count,
        screws=Screws(row["gauge"], screw, 2 * holes * count, size),
        numbers=(("long", long), ("deep", leaf.deep)),
        notices=_crowded(fitting, bench, m, leaf, count),
        source=rules.source("butt hinge from end"),
    )


def _screw_that_fits(m: Meeting, bench: Bench, usual: float) -> float:
    """The usual length for the leaf, or the longest sold that stops short of the thinner part's far face."""
    most = min(m.first_room, m.second_room - m.apart) - _BEHIND
    if usual <= most:
        return usual
    series = (r["length"] for r in rules.rows("screw lengths") if bool(r["inch"]) is bench.inches)
    return max((length for length in series if length <= most), default=usual)


def _count(m: Meeting) -> int:
    """2 up to 600 mm (door) or 900 mm (lid), and one more for each 600 mm."""
    first = 600.0 if m.run == 2 else 900.0
    return 2 + max(0, ceil((m.length - first) / 600.0))


def _crowded(fitting: Hardware, bench: Bench, m: Meeting, leaf: Leaf, count: int) -> tuple[Notice, ...]:
    if count * leaf.long <= m.length:
        return ()
    message = f"{count} hinges of {bench.said(leaf.long)} do not fit on an edge {bench.said(m.length)} long"
    return (fitting_notice(fitting, "hinges crowded", message, remedy="fewer or shorter hinges", must=True),)


def _pivot(m: Meeting, fitting: Hardware, bench: Bench) -> Face:
    """The side where the movement on this hinge turns; else top, front or left."""
    sides = end_faces(m.across)
    for movement in bench.piece.movements:
        turns = movement.hardware == fitting.name or m.first.name in movement.moves
        if turns and isinstance(movement.motion, Swing) and m.first.placement.is_identity:
            about = movement.motion.about[m.across]
            return min(sides, key=lambda f: abs(m.area.face(f) - about))
    return next(face for face in _PIVOT if face in sides)


def _leaf_features(
    m: Meeting, bench: Bench, leaf: Leaf, runs: tuple[float, ...], gauge: float, screw: float, holes: int
) -> tuple[tuple[str, tuple[Feature, ...]], ...]:
    assert m.second is not None
    edge = m.area.face(leaf.pivot)
    across = (edge, edge - leaf.pivot.sign * leaf.wide)
    row, first, second = (across[0] + across[1]) / 2, list[Feature](), list[Feature]()
    for run in runs:
        along = (run - leaf.long / 2, run + leaf.long / 2)
        if leaf.deep > 0.05:
            block = m.block(along, across, (0.0, -leaf.deep))
            first.append(Cut(block, m.face, "hinge mortise", m.joint.id))
            second.append(
                m.second_cut(m.block(along, across, (m.apart, m.apart + leaf.deep)), "hinge mortise")
            )
        for place in evenly(along[0], along[1], holes, _EDGE):
            a, b = _edge_pilots(m, bench, place, row, gauge, screw)
            first.append(a)
            second.append(b)
    return (m.first.name, tuple(first)), (m.second.name, tuple(second))


def _edge_pilots(
    m: Meeting, bench: Bench, run: float, row: float, gauge: float, deep: float
) -> tuple[Hole, Hole]:
    """A pilot in each of the two facing edges."""
    first = m.first_hole(run, row, pilot(bench, m.first, gauge), min(deep, m.first_room - 1.0), "pilot")
    at = m.at(run, row, m.apart)
    bore = pilot(bench, m.second, gauge)
    room = m.second_room - m.apart - 1.0
    second = Hole(at, m.face.normal, bore, max(1.0, min(deep, room)), "pilot", m.joint.id)
    return first, m.in_second(second)


def continuous_hinge(fitting: Hardware, bench: Bench) -> Fitted:
    """A row of pilots along both edges, as long as they share, 50 mm apart."""
    m = meeting_for(fitting, bench)
    if m is None or m.second is None:
        return _no_edge(fitting)
    leaf = size_of(fitting, "open width", rules.number("continuous hinge open width")) / 2
    pivot = _pivot(m, fitting, bench)
    long = min(m.length, size_of(fitting, "length", m.length))
    middle = (m.low + m.high) / 2
    low, high = middle - long / 2, middle + long / 2
    runs = evenly(
        low, high, count_at_most(low, high, rules.number("continuous hinge screw spacing"), 25.0), 25.0
    )
    row = m.area.face(pivot) - pivot.sign * min(leaf, m.thin) / 2
    gauge, length = _screw_of(fitting, bench)
    pairs = [_edge_pilots(m, bench, run, row, gauge, length) for run in runs]
    features = ((m.first.name, tuple(a for a, _ in pairs)), (m.second.name, tuple(b for _, b in pairs)))
    size = f"{gauge:g} x {bench.number(length)}"
    words = f"{bench.said(long)} long, knuckle at the {pivot.word}; {len(runs)} screws {size} in each leaf"
    return fitted(
        fitting,
        features,
        words,
        at=[m.in_piece(m.at(middle, m.area.face(pivot)))],
        count=1,
        screws=Screws(gauge, length, 2 * len(runs), size),
        numbers=(("long", long), ("spacing", runs[1] - runs[0])),
        notices=_wide_leaf(fitting, bench, m, leaf),
        source=rules.source("continuous hinge screw spacing"),
    )


def _screw_of(fitting: Hardware, bench: Bench) -> tuple[float, float]:
    """Gauge and length the shop's item names (`5 x 5/8`), else 5 x 15.9 mm."""
    return item_screw(fitting, bench) or (5.0, 15.875)


def _wide_leaf(fitting: Hardware, bench: Bench, m: Meeting, leaf: float) -> tuple[Notice, ...]:
    found = []
    if leaf > m.thin + 0.5:
        message = f"a leaf {bench.said(leaf)} wide is wider than the edge, {bench.said(m.thin)}"
        found.append(
            fitting_notice(fitting, "leaf too wide", message, number=leaf, remedy="a narrower hinge")
        )
    for part, ends in ((m.first, m.first_end_grain), (m.second, m.second_end_grain)):
        if part is not None and ends:
            message = f"its screws go into end grain of {part.name}"
            found.append(
                fitting_notice(fitting, "screws in end grain", message, remedy="hinge a long-grain edge")
            )
    return tuple(found)


def _no_edge(fitting: Hardware) -> Fitted:
    remedy = "write joins: [lid, back rail]"
    return not_laid_out(fitting, "hinge on nothing", "a hinge needs two parts", remedy)


def lid_stay(fitting: Hardware, _bench: Bench) -> Fitted:
    """Screwed where its own sheet says; no two stays are alike, so nothing is drilled."""
    words = f"{fitting.count} stays; drill from the stay's own sheet, with the lid held where it should stop"
    return fitted(fitting, (), words, source="common practice, no source")
