"""Long parts drawn at a useful scale: stretches with nothing on them are left out, with break lines."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

BREAK = 5.0  # paper mm between the two halves of a break
KEEP = 11.0  # paper mm kept on each side of anything worth seeing

Interval = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Fold:
    """Maps a true length to paper. `kept`: intervals that are drawn, in order. [mm]"""

    kept: tuple[Interval, ...]
    scale: float

    @property
    def paper(self) -> float:
        """Length on paper, breaks included."""
        return sum(b - a for a, b in self.kept) / self.scale + BREAK * (len(self.kept) - 1)

    @property
    def breaks(self) -> tuple[float, ...]:
        """Paper places at which the left half of each break ends."""
        return tuple(self.at(end) for _, end in self.kept[:-1])

    def at(self, place: float) -> float:
        """Paper place of a true place; inside a break: the nearer side of it."""
        before = 0.0
        for index, (low, high) in enumerate(self.kept):
            last = index == len(self.kept) - 1
            if place <= high or last:
                return before + (max(place, low) if index else place) / self.scale - low / self.scale
            if place < (high + self.kept[index + 1][0]) / 2:
                return before + (high - low) / self.scale
            before += (high - low) / self.scale + BREAK
        return before

    def shown(self, low: float, high: float) -> list[Interval]:
        """The pieces of a true interval that are drawn."""
        first, last = self.kept[0][0], self.kept[-1][1]
        pieces = []
        for a, b in self.kept:
            start = low if a == first else max(low, a)
            end = high if b == last else min(high, b)
            if start <= end:
                pieces.append((start, end))
        return pieces


def unfolded(length: float, scale: float) -> Fold:
    """The whole length."""
    return Fold(((0.0, length),), scale)


def folded(length: float, worth: Iterable[float], scale: float) -> Fold:
    """Only the neighbourhoods of the places worth seeing, ends always among them."""
    keep = KEEP * scale
    intervals = sorted((max(0.0, p - keep), min(length, p + keep)) for p in {0.0, length, *worth})
    return Fold(tuple(_merged(intervals, least_gap=2 * BREAK * scale)), scale)


def _merged(intervals: Sequence[Interval], least_gap: float) -> list[Interval]:
    merged: list[Interval] = []
    for low, high in intervals:
        if merged and low - merged[-1][1] < least_gap:
            merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
        else:
            merged.append((low, high))
    return merged
