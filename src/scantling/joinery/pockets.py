"""Pocket screws and nails."""

from __future__ import annotations

from math import cos, radians, sin, tan

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import by_part, centre_side, drive_of, head_hole, thread_hole
from scantling.joinery.features import Feature, HardwareUse, Hole
from scantling.joinery.made import Made, both_parts, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import count_at_most, evenly
from scantling.piece.model import Face, Notice, Vec3

_PILOT = 3.2  # mm: the drill for a pocket screw's shank
_COLLAR = 8.0  # mm of wood between pocket floor and the meeting face, along the screw


def pocket_screws(m: Meeting, bench: Bench) -> Made:
    """Pockets at 15 degrees in the inner broad face of the first part, screws into the second."""
    length = (
        m.settings.size[-1] if m.settings.size else rules.row_for("pocket screws", "thick", m.thin)["length"]
    )
    edge = rules.number("pocket edge")
    count = m.settings.count or count_at_most(m.low, m.high, rules.number("pocket spacing"), edge)
    runs = tuple(run + m.shift for run in evenly(m.low, m.high, count, min(edge, m.length / 4)))
    side = centre_side(m, bench, m.across)
    bite = max(1.0, length - _COLLAR)
    first = tuple(hole for run in runs for hole in _pocket(m, run, side))
    second = tuple(m.in_second(_angled(m, run, side, bite)) for run in runs)
    use = HardwareUse(
        "pocket screw", bench.number(length), count, m.joint.id, both_parts(m),
        (("length", length),), tuple(m.in_piece(m.at(run, m.middle)) for run in runs),
    )  # fmt: skip
    words = (
        f"{count} pocket screws {bench.said(length)}, pockets in the {side.word} of {m.first.name},"
        f" the first {bench.said(runs[0] - m.low)} from the edge"
    )
    numbers = (("count", float(count)), ("length", length), ("bite", bite))
    made = layout(
        m,
        words,
        numbers,
        glued=m.square_area if m.settings.glue else 0.0,
        source=rules.source("pocket screws"),
    )
    slack = max(0.0, runs[0] - m.shift - m.low - edge / 2)
    return Made(first, second, made, (use,), _pocket_notices(m, bench, bite), slack)


def _direction(m: Meeting, side: Face) -> Vec3:
    """From the pocket toward the second part: along the normal and away from the pocketed face."""
    angle = radians(rules.number("pocket angle"))
    out, inward = m.face.normal, side.opposite.normal
    mixed = tuple(cos(angle) * a + sin(angle) * b for a, b in zip(out, inward, strict=True))
    return (mixed[0], mixed[1], mixed[2])


def _pocket(m: Meeting, run: float, side: Face) -> tuple[Hole, Hole]:
    """The pocket, and the shank's hole that comes out in the middle of the meeting face."""
    angle = radians(rules.number("pocket angle"))
    reach = m.thin / 2 / tan(angle)
    at = m.at(run, m.first.box.face(side), -reach)
    long = reach / cos(angle)
    towards = _direction(m, side)
    pocket = Hole(at, towards, rules.number("pocket diameter"), long - _COLLAR, "pocket", m.joint.id)
    return pocket, Hole(at, towards, _PILOT + 0.8, long, "clearance", m.joint.id)


def _angled(m: Meeting, run: float, side: Face, deep: float) -> Hole:
    return Hole(m.at(run, m.middle), _direction(m, side), _PILOT, deep, "pilot", m.joint.id)


def _pocket_notices(m: Meeting, bench: Bench, bite: float) -> tuple[Notice, ...]:
    left = m.second_room - bite * cos(radians(rules.number("pocket angle")))
    if left >= rules.number("pocket short of far face") - 1.0:
        return ()
    message = f"the screws come within {bench.said(max(0.0, left))} of the far face"
    return (
        notice(m, "screw pokes through", message, number=left, remedy="use a shorter screw", must=left < 1.0),
    )


def nails(m: Meeting, bench: Bench) -> Made:
    """Brads through the thinner part, 2.5 times as long as it is thick, short of the far face."""
    drive = drive_of(m, from_first=m.first_room <= m.second_room)
    diameter = m.settings.size[0] if len(m.settings.size) > 1 else rules.number("nail diameter")
    wish = rules.number("nail length over thickness") * drive.through
    reach = drive.through + drive.into - rules.number("screw short of far face")
    length = m.settings.size[-1] if m.settings.size else min(wish, reach)
    first = min(rules.number("nail edge over diameter") * diameter, m.length / 4)
    spacing = m.settings.every or rules.number("nail spacing")
    runs = evenly(m.low, m.high, m.settings.count or count_at_most(m.low, m.high, spacing, first), first)
    bore = rules.number("nail pilot over diameter") * diameter
    passed: list[Feature] = [head_hole(drive, r, m.middle, bore, drive.through, "pilot") for r in runs]
    deep = max(0.1, length - drive.through)
    threaded: list[Feature] = [thread_hole(drive, r, m.middle, bore, deep, "pilot") for r in runs]
    use = HardwareUse(
        "nail", f"{bench.number(diameter)} x {bench.number(length)}", len(runs), m.joint.id, both_parts(m),
        (("diameter", diameter), ("length", length)), tuple(m.in_piece(m.at(r, m.middle)) for r in runs),
    )  # fmt: skip
    words = (
        f"{len(runs)} nails {bench.said(length)} long, the first {bench.said(runs[0] - m.low)} from the end"
    )
    numbers = (("count", float(len(runs))), ("length", length))
    glued = m.square_area if m.settings.glue else 0.0
    made = layout(m, words, numbers, glued=glued, source=rules.source("nail length over thickness"))
    return Made(*by_part(drive, passed, threaded), made, (use,), _nail_notices(m, bench, length, reach))


def _nail_notices(m: Meeting, bench: Bench, length: float, reach: float) -> tuple[Notice, ...]:
    if length <= reach + 2.0:
        return ()
    message = f"nails {bench.said(length)} long come through; at most {bench.said(reach)}"
    return (notice(m, "nail pokes through", message, number=length, remedy="use shorter nails", must=True),)
