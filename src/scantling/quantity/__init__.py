"""Lengths, angles, counts, masses, temperatures and money as people write and read them.

Knows units, fractions and rounding; knows nothing of wood, files or formulas.
Gives reading (`parse_*`), showing (`format_*`, `dual`) and the kinds of quantity.
"""

from scantling.quantity.errors import QuantityError
from scantling.quantity.kinds import MM_PER_INCH, Kind, LengthUnit, Quantity
from scantling.quantity.reading import parse_kind, parse_length, parse_quantity
from scantling.quantity.showing import (
    Shown,
    Style,
    dual,
    format_angle,
    format_length,
    format_mass,
    format_money,
    format_ratio,
    format_temperature,
)
from scantling.quantity.units import KNOWN_UNITS, unit_meant
from scantling.quantity.words import listed

__all__ = [
    "KNOWN_UNITS",
    "MM_PER_INCH",
    "Kind",
    "LengthUnit",
    "Quantity",
    "QuantityError",
    "Shown",
    "Style",
    "dual",
    "format_angle",
    "format_length",
    "format_mass",
    "format_money",
    "format_ratio",
    "format_temperature",
    "listed",
    "parse_kind",
    "parse_length",
    "parse_quantity",
    "unit_meant",
]
