"""Lengths in messages: the file's unit first, mm or inches beside."""

from __future__ import annotations

from scantling.quantity import Style, dual
from scantling.quantity.kinds import LengthUnit


def shown(mm: float, unit: LengthUnit) -> str:
    """A length as a message shows it."""
    return dual(mm, Style(unit))
