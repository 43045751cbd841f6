"""Which ways of cutting one bin are worth most: what the pricing of column generation is asked and gives.

A want of the problem stands for all that are alike; `most` says how many of it are asked for in all.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.cutting.solver.bin import Bin


@dataclass(frozen=True, slots=True)
class Worth:
    """What a bin may earn by what lies in it and by what it leaves, in money.

    `item`: item id → each one laid; `width`: panel id → each unit of a strip's useful width (less `extra`);
    `strip`: panel id → each strip laid, seldom positive. Those not named earn nothing. `wood`: how much a
    unit of the value of wood weighs: leftovers worth keeping earn it, and each strip costs its glue line.
    """

    item: Mapping[int, float]
    width: Mapping[int, float]
    strip: Mapping[int, float]
    wood: float = 0.0


@dataclass(frozen=True, slots=True)
class Priced:
    """`bound`: no bin of the stock earns more; `bins`: the best met, each sound in full (kerf, bars, crook,
    no more of a want than asked for), best first, with what it earns.
    """

    bound: float
    bins: tuple[tuple[float, Bin], ...]
