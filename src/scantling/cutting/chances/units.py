"""What a cut board is milled and ripped as: blanks or gangs, and the segments they lie in. All mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.cutting.cut_plan import Blank, Placed, StockLayout

_HAIR = 1e-6


@dataclass(frozen=True)
class Unit:
    """One piece that is flattened: a blank, or a gang of short ones."""

    blanks: tuple[str, ...]
    x: float
    y: float
    length: float
    width: float
    thickness: float  # wanted of it


@dataclass(frozen=True)
class Segment:
    """Units side by side over one length of the board."""

    units: tuple[Unit, ...]

    @property
    def x0(self) -> float:
        return min(unit.x for unit in self.units)

    @property
    def x1(self) -> float:
        return max(unit.x + unit.length for unit in self.units)

    @property
    def length(self) -> float:
        return self.x1 - self.x0

    @property
    def across(self) -> float:
        """Width they take together, kerfs included."""
        return max(u.y + u.width for u in self.units) - min(u.y for u in self.units)


def segments_of(layout: StockLayout, blanks: dict[str, Blank]) -> tuple[Segment, ...]:
    """Units of a board by the lengths they share, from its first end."""
    found: list[list[Unit]] = []
    end = -1.0
    for unit in sorted(_units(layout, blanks), key=lambda u: (u.x, u.y)):
        if not found or unit.x >= end - _HAIR:
            found.append([])
        found[-1].append(unit)
        end = max(end, unit.x + unit.length)
    return tuple(Segment(tuple(units)) for units in found)


def _units(layout: StockLayout, blanks: dict[str, Blank]) -> list[Unit]:
    gangs = [p for p in layout.pieces if p.flattened is not None]
    within = [(g, [p for p in layout.placed if _holds((g.x, g.y, g.length, g.width), p)]) for g in gangs]
    ganged = {p.blank for _, placed in within for p in placed}
    units = [
        Unit(tuple(p.blank for p in placed), g.x, g.y, g.length, g.width, g.flattened or 0.0)
        for g, placed in within
    ]
    alone = (p for p in layout.placed if p.blank not in ganged)
    return units + [Unit((p.blank,), p.x, p.y, p.length, p.width, blanks[p.blank].thickness) for p in alone]


def _holds(outer: Sequence[float], placed: Placed) -> bool:
    x, y, length, width = outer
    along = x - _HAIR <= placed.x and placed.x + placed.length <= x + length + _HAIR
    return along and y - _HAIR <= placed.y and placed.y + placed.width <= y + width + _HAIR
