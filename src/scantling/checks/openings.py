"""Openings between slats and spindles in which a small child's head could be caught."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.piece.model import Axis, Box, PartName

NARROW = 65.0  # mm: no head goes in; common practice
SLAT = 120.0  # mm: a broader part is no slat
CLOSED = 0.6  # of an opening's breadth and length: what covers more closes it
BODY = 300.0  # mm: a slat shorter than a child is wide closes no opening


def head_openings(examined: Examined) -> Iterator[Finding]:
    """The widest trap in each row of three slats or more that nothing closes."""
    rows: dict[str, list[PartName]] = defaultdict(list)
    for part in examined.piece.parts:
        if _is_slat(examined.bounds(part.name)) and part.name not in examined.movement_of:
            rows[part.definition].append(part.name)
    for names in rows.values():
        traps = list(_traps(examined, names)) if len(names) >= 3 else []
        if traps:
            yield _finding(examined, names, max(traps))


def _is_slat(box: Box) -> bool:
    thin, broad, long = sorted(box.sizes)
    return broad <= SLAT and thin <= SLAT / 2 and long >= BODY


def _traps(examined: Examined, names: list[PartName]) -> Iterator[float]:
    """Open gaps between neighbours along the way the row runs, of the trapping width. [mm]"""
    boxes = [examined.bounds(name) for name in names]
    row = max(Axis, key=lambda a: max(b.low[a] for b in boxes) - min(b.low[a] for b in boxes))
    long = max((a for a in Axis if a != row), key=boxes[0].size)
    for before, after in pairwise(sorted(boxes, key=lambda box: box.low[row])):
        gap = after.low[row] - before.high[row]
        opening = before.with_span(row, before.high[row], after.low[row])
        if NARROW < gap < rule("head opening").allowed and not _closed(examined, opening, row, long):
            yield gap


def _closed(examined: Examined, opening: Box, row: Axis, long: Axis) -> bool:
    """Whether one part lies before, in or behind most of it: a panel, a back, a drawer front."""
    for part in examined.piece.parts:
        box = examined.bounds(part.name)
        shares = [
            (min(box.high[a], opening.high[a]) - max(box.low[a], opening.low[a])) / opening.size(a)
            for a in (row, long)
        ]
        if min(shares) > CLOSED:
            return True
    return False


def _finding(examined: Examined, names: list[PartName], gap: float) -> Finding:
    wide = rule("head opening").allowed
    return rule("head opening").found(
        f"{names[0]} and its like stand {examined.length(gap)} apart; where small children come, openings "
        f"of {examined.length(NARROW)} to {examined.length(wide)} are avoided (cots and bunks have their own "
        "law)",
        names[:4],
        gap,
        mend=Mend(f"set them {examined.length(NARROW)} apart or less"),
        place=examined.piece.part(names[0]).place,
    )
