"""Drawing scales: the usual ones of each system, and the largest that fits.

Metric reducing scales as in ISO 5455 (from memory) with 1:2.5, 1:4 and 1:8 between; inch scales as furniture
drawings use them, full to 1/8 in = 1 ft, with 1:10 and 1:20 between (common practice, no source).
"""

from __future__ import annotations

from math import ceil

from scantling.quantity.kinds import LengthUnit

_METRIC = (1.0, 2.0, 2.5, 4.0, 5.0, 8.0, 10.0, 15.0, 20.0, 25.0, 50.0, 100.0)
_INCH = (1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 32.0, 48.0, 64.0, 96.0)


def fitting_scale(wide: float, high: float, room: tuple[float, float], unit: LengthUnit) -> float:
    """The least reduction at which `wide` x `high` mm of furniture fits into `room` mm of paper."""
    need = max(wide / room[0], high / room[1])
    scales = _INCH if unit is LengthUnit.INCHES else _METRIC
    return next((scale for scale in scales if scale >= need - 1e-9), need)


def snug_scale(wide: float, high: float, room: tuple[float, float]) -> float:
    """A scale for drawings nobody measures: the room is filled, in whole or half numbers."""
    return rounded_scale(max(wide / room[0], high / room[1]))


def rounded_scale(need: float) -> float:
    """The next scale of at least `need` in halves up to 10, then in whole numbers; 1 at the least."""
    steps = 2 if need <= 10 else 1
    return max(1.0, ceil(need * steps - 1e-9) / steps)


def scale_words(scale: float) -> str:
    """What is printed beside a drawing: "Scale 1:4"."""
    return "Full size" if scale == 1 else f"Scale 1:{scale:g}"
