"""What a maker likes: whole before glued up, layers from one thickness of board, staves few and even.

A way is narrowed to variants, best liked first; among plans for the same money the best liked is taken.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from scantling.cutting.cut_plan import Need, Role, Way
from scantling.cutting.milling import Means
from scantling.cutting.solver.problem import SCALE
from scantling.cutting.solver.search import Filling
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, fits, group_of
from scantling.piece.model import MaterialKind

_CLASS = 25.4 / 4  # mm: boards are sold by quarters of an inch
_USUAL = 38.1  # mm: no maker laminates what an 8/4 board gives whole; common practice, no source
_NEVER = 1e4  # money
_GLUE_UP = 2.0  # staves a glue-up is worth: clamps set up, wait, flattening; common practice, no source


def variants_of(need: Need, sources: tuple[Source, ...], means: Means, is_had_whole: bool) -> tuple[Way, ...]:
    """The ways of a need, each narrowed to its liked variants first; as many for each copy of a part.

    Staves of what can be had whole are there to use up narrow pieces: they are not narrowed.
    """
    found: list[Way] = []
    for way in need.ways:
        if way.role is Role.STAVE and not is_had_whole:
            fewest = _fewest(need, way, sources, means)
            found += [_equal(way, fewest), _equal(way, fewest + 1)]
        elif way.role is Role.LAYER and need.kind is MaterialKind.SOLID:
            found.append(_of_thinnest(need, way, sources, means))
        found.append(way)
    return tuple(found)


def _of_thinnest(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> Way:
    """All layers from the thinnest boards that give them."""
    stock = fits(need, way, sources, means)
    thinnest = round(min((sources[number].thickness for number in stock), default=0.0) / _CLASS)
    return replace(way, boards=((thinnest - 0.5) * _CLASS, (thinnest + 0.5) * _CLASS))


def _fewest(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> int:
    """Fewest staves the boards' widths allow."""
    (panel,) = group_of([(need, way)], sources, means).problem.panels
    widest = min(max(panel.widest, default=0) / SCALE, way.stave[1])
    return max(way.counts[0], math.ceil(way.width / widest)) if widest else way.counts[0]


def _equal(way: Way, count: int) -> Way:
    """So many staves, all of one width: one setting of the fence."""
    count = min(count, way.counts[1])
    share = way.width / count
    return replace(way, counts=(count, count), stave=(share, share))


def is_narrowed(way: Way) -> bool:
    """Whether its layers come from boards of one thickness."""
    return not math.isinf(way.boards[1])


def is_never_laminated(need: Need, whole: Sequence[Source]) -> bool:
    """Whether a part no thicker than usual boards can be had whole, from as many boards as it takes."""
    return _is_usual(need) and any(board.bin.count is None for board in whole)


def reluctance(need: Need, way: Way, whole: Sequence[Source], worth: float) -> float:
    """Money a lamination must save to be liked: over the part whole, or over one thickness of board.

    `whole`: boards that give the part whole; `worth`: of its wood by volume [money/mm³]. Beyond any saving
    for what is no thicker than usual boards, else the worth of its wood: common practice, no source.
    """
    if way.role is not Role.LAYER or need.kind is not MaterialKind.SOLID:
        return 0.0
    if whole and _is_usual(need):
        return _NEVER
    times = int(bool(whole)) + int(not is_narrowed(way))
    return times * worth * way.count * way.thickness * way.width * way.length


def _is_usual(need: Need) -> bool:
    return need.ways[0].role is Role.WHOLE and need.ways[0].thickness <= _USUAL


def bother(group: Group, filling: Filling) -> float:
    """What there is to glue of staves: each glue-up, each stave, and its share off an even width."""
    widths: dict[int, list[int]] = {}
    for bin_ in filling.bins.values():
        for spot in bin_.spots:
            if spot.want in group.panels:
                widths.setdefault(spot.want, []).append(spot.width)
    staves = sum(1 + abs(w * len(mine) / sum(mine) - 1) for mine in widths.values() for w in mine)
    return _GLUE_UP * len(widths) + staves
