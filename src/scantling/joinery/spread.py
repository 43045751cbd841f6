"""Places along a line: evenly spaced, symmetric about the middle. mm."""

from __future__ import annotations

from math import ceil, floor

_SPARE = 1e-6


def evenly(low: float, high: float, count: int, first: float) -> tuple[float, ...]:
    """`count` places from `low + first` to `high - first`; one place is the middle."""
    middle = (low + high) / 2
    reach = (high - low) / 2 - first
    if count <= 1 or reach <= 0:
        return (middle,) * min(count, 1)
    return tuple(middle - reach + 2 * reach * i / (count - 1) for i in range(count))


def every(low: float, high: float, spacing: float, first: float) -> tuple[float, ...]:
    """As many places `spacing` apart as leave at least `first` at both ends, centred."""
    fits = floor((high - low - 2 * first) / spacing + _SPARE) + 1
    middle, count = (low + high) / 2, max(1, fits)
    return tuple(middle + (i - (count - 1) / 2) * spacing for i in range(count))


def count_at_most(low: float, high: float, spacing: float, first: float) -> int:
    """The fewest places no more than `spacing` apart, the ends `first` from the ends; at least 2."""
    return max(2, ceil((high - low - 2 * first) / spacing - _SPARE) + 1)


def snapped(value: float, step: float) -> float:
    """`value` to the nearest `step`, never to nothing."""
    return max(step, floor(value / step + 0.5) * step)
