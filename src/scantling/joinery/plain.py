"""Joints that cut nothing: glue, rests, glue blocks, brackets."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import HardwareUse
from scantling.joinery.made import Made, both_parts, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import evenly
from scantling.piece.model import Notice


def glue(m: Meeting, bench: Bench) -> Made:
    """Faces or edges glued as they meet: an edge joint, a lamination, or a butt that holds little."""
    area = m.square_area
    ends = m.first_end_grain or m.second_end_grain
    found: tuple[Notice, ...] = ()
    if ends:
        message = "end grain glued alone holds at best a quarter of the wood's strength"
        remedy = "use dowels, a tenon or screws"
        found = (notice(m, "end grain glued", message, number=0.25, remedy=remedy),)
    words = f"glued over {bench.said(m.length)} by {bench.said(m.thin)}"
    source = "Wood Handbook ch. 10: plain edge joints near wood strength, end-grain butts at most a quarter"
    return Made((), (), layout(m, words, (("area", area),), glued=area, source=source), (), found)


def rests(m: Meeting, _bench: Bench) -> Made:
    """Only touches: nothing is cut and nothing holds."""
    other = m.second.name if m.second else m.joint.second
    return Made((), (), layout(m, f"rests on {other}; nothing holds it", source="as drawn"))


def glue_blocks(m: Meeting, bench: Bench) -> Made:
    """Blocks glued into the inside corner, about 150 mm apart."""
    spacing = m.settings.every or rules.number("glue block spacing")
    count = m.settings.count or max(1, round(m.length / spacing))
    side = max(19.0, min(38.0, m.thin))
    runs = evenly(m.low, m.high, count, m.length / (2 * count))
    use = HardwareUse(
        "glue block", f"{bench.number(side)} x {bench.number(side)} x {bench.number(2 * side)}", count,
        m.joint.id, both_parts(m), (("wide", side), ("length", 2 * side)),
        tuple(m.in_piece(m.at(run, m.middle)) for run in runs),
    )  # fmt: skip
    words = f"{counted(count, 'glue block')} {bench.said(side)} square, {bench.said(2 * side)} long"
    glued = m.square_area + count * 2 * side * side
    made = layout(
        m, words, (("count", float(count)),), glued=glued, source=rules.source("glue block spacing")
    )
    return Made((), (), made, (use,))


def brackets(m: Meeting, bench: Bench) -> Made:
    """Metal angle brackets in the inside corner, with their own screws."""
    spacing = m.settings.every or rules.number("bracket spacing")
    count = m.settings.count or max(2 if m.length > 100 else 1, round(m.length / spacing))
    runs = evenly(m.low, m.high, count, m.length / (2 * count))
    spots = tuple(m.in_piece(m.at(run, m.middle)) for run in runs)
    use = HardwareUse("bracket", "", count, m.joint.id, both_parts(m), at=spots)
    apart = bench.said(m.length / count)
    words = f"{counted(count, 'angle bracket')}, about {apart} apart; drill for their own screws"
    made = layout(m, words, (("count", float(count)),), source=rules.source("bracket spacing"))
    return Made((), (), made, (use,))
