"""The least money any plan must spend: valid, if weak, for the same parts from the same stock.

Area argument: blanks that need thickness t or more can only come from stock at least that thick. Each takes
its rough size and a kerf both ways; what the maker owns of that thickness counts in full; the rest must be
bought. A part counts with the smallest area any of its ways asks for. For sticks the bound counts lengths
that cannot share a stick (Martello and Toth's L2 for bin packing; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from scantling.cutting.cut_plan import Need, Role, Way
from scantling.cutting.solver import SCALE
from scantling.cutting.supply import Source
from scantling.piece.model import MaterialKind

_SLACK = 0.1  # mm
_MANY = 100  # pieces of one kind up to which whole pieces are counted
_FEW = 3  # kinds for sale up to which whole pieces are counted, not areas


def least_money(needs: Sequence[Need], sources: tuple[Source, ...]) -> float:
    """Money that must be spent on these needs, all of which can be met from these sources."""
    once = tuple({(source.id, source.number): source for source in sources}.values())
    levels = sorted({way.thickness for need in needs for way in need.ways})
    by_area = max((_at_level(needs, once, level) for level in levels), default=0.0)
    if needs and needs[0].kind is MaterialKind.LUMBER and len(once) == 1:
        return max(by_area, _sticks([need.ways[0].length for need in needs], once[0]))
    return by_area


def _at_level(needs: Sequence[Need], sources: tuple[Source, ...], level: float) -> float:
    kerf = min(min(s.across.kerf, s.along.kerf) for s in sources)
    asked = sum(min(_area(way, level, kerf) for way in need.ways) for need in needs)
    # Sheets and sticks are matched by their marking: whatever they measure, they serve.
    usable = [s for s in sources if s.timber is None or s.thickness >= level - _SLACK]
    short = asked - sum(_room(s, kerf) * (s.bin.count or 0) for s in usable if not s.bought)
    bought = [(_room(s, kerf), s.price) for s in usable if s.bought]
    return _cover(short, bought) if short > 0 and bought else 0.0


def _cover(short: float, kinds: list[tuple[float, float]]) -> float:
    """Least price of whole pieces of some kinds (area, price) whose areas make up what is short."""
    if len(kinds) > _FEW or any(short > _MANY * area for area, _ in kinds):
        return max(short * min(price / area for area, price in kinds), min(price for _, price in kinds))
    (area, price), *others = kinds
    most = math.ceil(short / area - 1e-9)
    if not others:
        return most * price
    return min(
        count * price + (_cover(short - count * area, others) if count < most else 0.0)
        for count in range(most + 1)
    )


def _room(source: Source, kerf: float) -> float:
    """Area of stock inside its ends, a kerf wider both ways, as the blanks are counted."""
    ends = source.bin.ends if not source.bin.turned else source.bin.edges
    return (source.length - sum(ends) / SCALE + kerf) * (source.width + kerf)


def _area(way: Way, level: float, kerf: float) -> float:
    """Least area of stock at least `level` thick that this way uses up."""
    if way.thickness < level - _SLACK:
        return 0.0
    over_length, over_width = way.rough_over
    length = way.length + over_length + kerf
    if way.role is Role.STAVE:
        return length * (way.width + way.counts[0] * (over_width + way.lap + kerf))
    return way.count * length * (way.width + over_width + kerf)


def _sticks(lengths: list[float], source: Source) -> float:
    """Price of the sticks these lengths need at least, those owned taken off."""
    kerf = source.across.kerf
    room = source.length - sum(source.bin.ends) / SCALE + kerf
    items = sorted(length + kerf for length in lengths)
    number = max(_l2(items, room, least) for least in [0.0, *(i for i in items if i <= room / 2)])
    owned = 0 if source.bought else (source.bin.count or 0)
    return max(number - owned, 0) * source.price


def _l2(items: list[float], room: float, least: float) -> int:
    """Bins needed at least, items shorter than `least` left out of account."""
    hair = 1e-6
    alone = [i for i in items if i > room - least + hair]
    large = [i for i in items if room / 2 + hair < i <= room - least + hair]
    small = [i for i in items if least <= i <= room / 2 + hair]
    spare = len(large) * room - sum(large)
    return len(alone) + len(large) + max(0, math.ceil((sum(small) - spare) / room - hair))
