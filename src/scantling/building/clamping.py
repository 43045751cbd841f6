"""How many clamps a glue-up wants and whether the shop has them."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from scantling.building.bench import Bench

EDGE_SPACING = 250.0  # mm between clamps along a glued edge: 200 to 300, maker's guide 8 to 12 in
LAYER_SPACING = 90.0  # mm both ways on a lamination: 75 to 100; common practice
END_INSET = 45.0  # mm from the ends: 1 1/2 to 2 in, maker's guide
SPARE_OPENING = 25.0  # mm for pads and cauls


@dataclass(frozen=True, slots=True)
class Clamping:
    """`wanted` clamps opening at least `opening` for one glue-up; `owned` of the shop open so far."""

    wanted: int
    opening: float
    owned: int

    @property
    def at_once(self) -> int:
        """How many equal glue-ups the shop can clamp at a time; at least one."""
        return max(1, floor(self.owned / self.wanted)) if self.wanted else 1

    def rounds(self, count: int) -> int:
        """How many times the clamps are used for `count` equal glue-ups."""
        return ceil(count / self.at_once)

    @property
    def missing(self) -> int:
        return max(0, self.wanted - self.owned)


def clamps_along(length: float, spacing: float) -> int:
    """Clamps in one row over `length`, the outer two near the ends. At least two."""
    return max(2, ceil((length - 2 * END_INSET) / spacing) + 1)


def clamping(bench: Bench, wanted: int, across: float) -> Clamping:
    """What the shop has for a squeeze over `across` mm of wood."""
    opening = across + SPARE_OPENING
    owned = sum(clamp.count for clamp in bench.shop.clamps if clamp.opens >= opening)
    return Clamping(wanted, opening, owned)


def clamp_words(bench: Bench, need: Clamping) -> str:
    """`5 clamps opening 12 in or more`, and what to do when there are too few."""
    words = f"{need.wanted} clamps opening {bench.show(need.opening)} or more"
    if not need.missing:
        return words
    have = f"the shop has {need.owned}" if need.owned else "the shop has none so long"
    return f"{words} ({have}: borrow {need.missing}, or use stiff cauls and fewer)"
