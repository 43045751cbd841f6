"""Quantities as a maker writes them into a file of either unit, exact to a millionth."""

from __future__ import annotations

from scantling.quantity import MM_PER_INCH, LengthUnit, Style, format_length
from scantling.quantity.kinds import Kind

_EXACT = 1e-6  # mm


def number_words(mm: float, unit: LengthUnit) -> str:
    """A length without its unit: `1 5/8`, `17.6`."""
    plain = format_length(mm, Style(unit, 64))
    if abs(plain.error_mm) < _EXACT:
        return plain.number
    number = mm / MM_PER_INCH if unit is LengthUnit.INCHES else mm
    return f"{number:.6f}".rstrip("0").rstrip(".")


def quantity_words(value: float, kind: Kind, unit: LengthUnit) -> str:
    """A size of any kind, in the inside unit, as it is written in a file of that unit."""
    if kind is Kind.LENGTH:
        return number_words(value, unit)
    if kind is Kind.RATIO:
        return f"{value * 100:g} %"
    suffix = {Kind.ANGLE: " deg", Kind.COUNT: " pcs"}.get(kind, "")
    return f"{value:g}{suffix}"
