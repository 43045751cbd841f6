"""Biscuits and loose tenons: equal slots in both parts and a slip of wood in each."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Cut, HardwareUse, Shaped
from scantling.joinery.made import Made, both_parts, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import count_at_most, evenly
from scantling.piece.model import Notice

_BISCUIT_THICK = 4.0
_LEAST_TENON = 10.0  # mm into a part: less than this is refused


def biscuits(m: Meeting, bench: Bench) -> Made:
    """Biscuits: the largest size for the thickness; one slot in each part for each."""
    size = rules.row_for("biscuits", "thick", m.thin)
    deep, long = size["width"] / 2 + 1.0, size["length"]
    first = max(long / 2 + 5.0, rules.number("biscuit first"))
    spacing = m.settings.every or rules.number("biscuit spacing")
    count = m.settings.count or (
        1 if m.length < 2 * first + long else count_at_most(m.low, m.high, spacing, first)
    )
    runs = evenly(m.low, m.high, count, first)
    cuts = [_pair(m, run, (long, _BISCUIT_THICK), (deep, deep), "slot") for run in runs]
    name = f"no. {size['number']:g}"
    use = HardwareUse("biscuit", name, count, m.joint.id, both_parts(m), at=_spots(m, runs))
    first_in = bench.said(runs[0] - m.low)
    words = f"{counted(count, 'biscuit')} {name}, the first {first_in} from the end; the glue holds"
    made = layout(m, words, (("count", float(count)),), glued=m.square_area, source=rules.source("biscuits"))
    firsts, seconds = tuple(a for a, _ in cuts), tuple(b for _, b in cuts)
    return Made(firsts, seconds, made, (use,), _biscuit_notices(m, bench, deep))


def _biscuit_notices(m: Meeting, bench: Bench, deep: float) -> tuple[Notice, ...]:
    left = min(m.first_room, m.second_room) - deep
    if left >= 1.0 and m.thin >= _BISCUIT_THICK + 6.0:
        return ()
    message = (
        f"a biscuit slot is {bench.said(deep)} deep and 4 mm thick; {bench.said(max(left, 0.0))} is left"
    )
    return (
        notice(m, "no room for a biscuit", message, number=deep, remedy="use dowels or screws", must=True),
    )


def loose_tenon(m: Meeting, bench: Bench) -> Made:
    """Loose tenons a third of the thickness, about 35 mm wide, one up to each 110 mm of run."""
    thick = bench.rounded(m.settings.size[0] if m.settings.size else m.thin * rules.number("tenon thickness"))
    wish = m.settings.deep or rules.number("loose tenon depth")
    space, left = rules.number("tenon glue space"), rules.number("tenon wood left")
    into = tuple(max(bench.step, min(wish, room - left - space)) for room in (m.first_room, m.second_room))
    count, wide = _widths(m)
    shoulder = rules.number("tenon shoulder")
    centred = evenly(m.low, m.high, count, max(shoulder, m.length / (2 * count) - wide / 2) + wide / 2)
    runs = tuple(run + m.shift for run in centred)
    cuts = [_pair(m, run, (wide, thick), (into[0] + space, into[1] + space), "mortise") for run in runs]
    sizes = (("thick", thick), ("wide", wide), ("length", sum(into)))
    name = " x ".join(bench.number(size) for _, size in sizes)
    use = HardwareUse("loose tenon", name, count, m.joint.id, both_parts(m), sizes, _spots(m, runs))
    words = (
        f"{counted(count, 'loose tenon')} {bench.said(thick)} thick, {bench.said(wide)} wide,"
        f" {bench.said(sum(into))} long; mortises {bench.said(into[0] + space)} deep in"
        f" {m.first.name}, {bench.said(into[1] + space)} on"
    )
    glued = 2 * (wide + thick) * sum(into) * count
    made = layout(
        m, words, (("count", float(count)), *sizes), glued=glued, source=rules.source("loose tenon depth")
    )
    short = _short(m, bench, min(into), wish)
    firsts, seconds = tuple(a for a, _ in cuts), tuple(b for _, b in cuts)
    return Made(firsts, seconds, made, (use,), short, max(0.0, centred[0] - wide / 2 - m.low - shoulder))


def _widths(m: Meeting) -> tuple[int, float]:
    free = m.length - 2 * rules.number("tenon shoulder")
    count = m.settings.count or max(1, round(m.length / rules.number("loose tenon spacing")))
    return count, min(rules.number("loose tenon width"), 0.75 * free / count)


def _short(m: Meeting, bench: Bench, deep: float, wish: float) -> tuple[Notice, ...]:
    if deep >= wish - 0.1:
        return ()
    message = f"the loose tenon goes {bench.said(deep)} in, not {bench.said(wish)}, to leave 6 mm behind it"
    remedy, must = "thicken the part, or use dowels", deep < _LEAST_TENON
    return (notice(m, "loose tenon shortened", message, number=deep, remedy=remedy, must=must),)


def _pair(
    m: Meeting, run: float, size: tuple[float, float], deep: tuple[float, float], kind: str
) -> tuple[Cut, Cut | Shaped]:
    """A slot `size` (along the run, across it) as deep in each part as `deep` says."""
    along = (run - size[0] / 2, run + size[0] / 2)
    across = (m.middle - size[1] / 2, m.middle + size[1] / 2)
    first = Cut(m.block(along, across, (0.0, -deep[0])), m.face, kind, m.joint.id, round_ends=True)
    return first, m.second_cut(m.block(along, across, (0.0, deep[1])), kind, round_ends=True)


def _spots(m: Meeting, runs: tuple[float, ...]) -> tuple[tuple[float, float, float], ...]:
    return tuple(m.in_piece(m.at(run, m.middle)) for run in runs)
