"""Pocket screws and nails."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.angled import Pocket
from scantling.joinery.bench import Bench
from scantling.joinery.driving import by_part, centre_side, drive_of, head_hole, thread_hole
from scantling.joinery.features import Feature, HardwareUse
from scantling.joinery.made import Made, both_parts, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import count_at_most, evenly
from scantling.piece.model import Notice


def pocket_screws(m: Meeting, bench: Bench) -> Made:
    """Pockets in the inner broad face of the first part, screws into the second."""
    pocket = Pocket(m, centre_side(m, bench, m.across), from_first=True)
    length = pocket.length(bench)
    edge = rules.number("pocket edge")
    count = m.settings.count or count_at_most(m.low, m.high, rules.number("pocket spacing"), edge)
    first_in = min(edge, m.length / 4) + m.inset
    runs = tuple(run + m.shift for run in evenly(m.low, m.high, count, first_in))
    first = tuple(hole for run in runs for hole in pocket.holes(run))
    second = tuple(pocket.pilot(run, pocket.bite(length)) for run in runs)
    at = tuple(m.in_piece(m.at(run, m.middle)) for run in runs)
    sizes = (("length", length),)
    use = HardwareUse("pocket screw", bench.number(length), count, m.joint.id, both_parts(m), sizes, at)
    words = (
        f"{counted(count, 'pocket screw')} {bench.said(length)}, in the {pocket.side.word} of "
        f"{m.first.name}, the first {bench.said(runs[0] - m.low)} from the edge"
    )
    numbers = (("count", float(count)), ("length", length), ("bite", pocket.bite(length)))
    glued = m.square_area if m.settings.glue else 0.0
    made = layout(m, words, numbers, glued=glued, source=rules.source("pocket screws"))
    slack = max(0.0, runs[0] - m.shift - m.low - edge / 2)
    return Made(first, second, made, (use,), pocket_notices(m, bench, pocket.left(length)), slack)


def pocket_notices(m: Meeting, bench: Bench, left: float) -> tuple[Notice, ...]:
    """A notice where the screws come near the far face, or out of it."""
    if left >= rules.number("pocket short of far face") - 1.0:
        return ()
    message = f"the screws come within {bench.said(max(0.0, left))} of the far face"
    remedy = "use a shorter screw"
    return (notice(m, "screw pokes through", message, number=left, remedy=remedy, must=left < 1.0),)


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
