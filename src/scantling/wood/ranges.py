"""One way to say that a value lies outside the range in which a formula holds."""

from __future__ import annotations

from scantling.errors import OutOfRange


def check_range(
    quantity: str, value: float, low: float | None, high: float | None, unit: str, source: str
) -> None:
    """Raise `OutOfRange` unless low <= value <= high; None leaves a side open."""
    too_low = low is not None and value < low
    too_high = high is not None and value > high
    if too_low or too_high or value != value:
        raise OutOfRange(quantity, value, low, high, unit, source)
