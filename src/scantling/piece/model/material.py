"""What parts are made of, as far as the piece needs to know."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class MaterialKind(Enum):
    SOLID = "solid"  # timber milled to size: `cherry 3/4`, `cherry`
    SHEET = "sheet"  # manufactured panel: `birch plywood 18`
    LUMBER = "lumber"  # dressed, by nominal size: `pine 2x4`


@dataclass(frozen=True, slots=True)
class Material:
    """A resolved material.

    `text` is what the maker wrote for the alternative taken (`walnut plywood 3/4`);
    `species` the canonical species or panel name of `wood/` (`walnut, black`; `hardwood plywood`).
    `thick` and `broad` are the real sizes after the shop's facts, `label` the size as written. [mm]
    `measured` is False where the trade's usual size stood in for a measured one.
    `alternatives`: all that the maker named, in order; `free`: any of them may be taken.
    """

    name: str
    text: str
    kind: MaterialKind
    species: str
    thick: float | None = None
    broad: float | None = None
    label: float | None = None
    measured: bool = False
    alternatives: tuple[str, ...] = ()
    free: bool = False
