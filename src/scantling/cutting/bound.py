"""The least money any plan must spend: valid, if weak, for the same parts from the same stock.

Area argument: parts that need thickness t or more can only come from stock at least that thick. What the
maker owns of that thickness counts in full; the rest must be bought at the best price an area. Every part
counts with the smallest area any of its ways asks for.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.cutting.cut_plan import Need, Role, Way
from scantling.cutting.supply import Source

_SLACK = 0.1  # mm


def least_money(needs: Sequence[Need], sources: tuple[Source, ...]) -> float:
    """Money that must be spent on these needs, all of which can be met from these sources."""
    levels = sorted({way.thickness for need in needs for way in need.ways})
    return max((_at_level(needs, sources, level) for level in levels), default=0.0)


def _at_level(needs: Sequence[Need], sources: tuple[Source, ...], level: float) -> float:
    asked = sum(min(_area(way, level) for way in need.ways) for need in needs)
    once = {source.id: source for source in sources if source.thickness >= level - _SLACK}
    usable = list(once.values())
    short = asked - sum(_owned(source) for source in usable if not source.bought)
    if short <= 0:
        return 0.0
    bought = [s for s in usable if s.bought]
    if not bought:
        return 0.0
    by_area = short * min(s.price / (s.length * s.width) for s in bought)
    return max(by_area, min(s.price for s in bought), _whole_pieces(short, bought))


def _whole_pieces(short: float, bought: Iterable[Source]) -> float:
    """Where only one kind is for sale, whole pieces of it."""
    kinds = list(bought)
    if len(kinds) != 1:
        return 0.0
    area = kinds[0].length * kinds[0].width
    return -(-short // area) * kinds[0].price


def _owned(source: Source) -> float:
    return source.length * source.width * (source.bin.count or 0)


def _area(way: Way, level: float) -> float:
    """Least area of stock at least `level` thick that this way uses up."""
    if way.thickness < level - _SLACK:
        return 0.0
    count = 1 if way.role is Role.STAVE else way.count
    return count * way.length * way.width
