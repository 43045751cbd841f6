"""Which places of a drawing are taken, so that no label, number or arrow covers another."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from scantling.packet.canvas import Point


@dataclass(frozen=True, slots=True)
class Patch:
    """An upright rectangle of paper about `middle`, `size` = (wide, high). [mm]"""

    middle: Point
    size: Point

    def clear_of(self, other: Patch) -> bool:
        """Whether the two touch at most along an edge."""
        return any(
            abs(a - b) >= (m + n) / 2 - 1e-9
            for a, b, m, n in zip(self.middle, other.middle, self.size, other.size, strict=True)
        )

    def within(self, corner: Point, room: Point) -> bool:
        """Whether it lies inside the rectangle from `corner` (upper left) of size `room`."""
        return all(
            c - 1e-9 <= m - s / 2 and m + s / 2 <= c + r + 1e-9
            for m, s, c, r in zip(self.middle, self.size, corner, room, strict=True)
        )


@dataclass
class Taken:
    """The patches used so far."""

    patches: list[Patch] = field(default_factory=list)

    def take(self, patch: Patch) -> None:
        self.patches.append(patch)

    def is_free(self, patch: Patch) -> bool:
        return all(patch.clear_of(other) for other in self.patches)

    def first_free(self, wishes: Iterable[Patch]) -> Patch | None:
        """The first of the wishes that is free, taken at once; None when none is."""
        found = next((patch for patch in wishes if self.is_free(patch)), None)
        if found:
            self.take(found)
        return found
