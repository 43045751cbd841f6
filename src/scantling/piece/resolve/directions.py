"""The six directions a maker writes: the axis each runs along, and which way."""

from __future__ import annotations

from scantling.piece.model import Axis

DIRECTIONS: dict[str, tuple[Axis, int]] = {
    "right": (Axis.WIDE, 1),
    "left": (Axis.WIDE, -1),
    "back": (Axis.DEEP, 1),
    "forward": (Axis.DEEP, -1),
    "up": (Axis.HIGH, 1),
    "down": (Axis.HIGH, -1),
}
