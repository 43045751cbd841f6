"""The small table of facts `resolve` wants from a shop. `shop/` fills it; the piece knows no shop."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class SheetFact:
    """A sheet good as it is on hand: marked `label`, measuring `thick`. [mm]"""

    name: str  # as written in the shop, lower case: "walnut plywood", "birch plywood"
    label: float
    thick: float


@dataclass(frozen=True, slots=True)
class LumberFact:
    """Dressed lumber by nominal size: "pine", "2x4" -> 38.1 x 88.9. [mm]"""

    name: str
    nominal: str
    thick: float
    broad: float


@dataclass(frozen=True, slots=True)
class HardwareFact:
    """One fitting the shop has or can buy. `kind` in plain words ("side slide", "butt hinge").

    `sizes`: e.g. {"length": 355.6, "clearance": 12.7, "open width": 50.8}. [mm]
    """

    item: str
    kind: str
    sizes: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ShopFacts:
    sheets: tuple[SheetFact, ...] = ()
    lumber: tuple[LumberFact, ...] = ()
    hardware: tuple[HardwareFact, ...] = ()
    methods: tuple[str, ...] = ()  # joint methods the shop's tools can make, best liked first
    woods: tuple[str, ...] = ()  # species on the rack or for sale, as written


NO_FACTS = ShopFacts()
