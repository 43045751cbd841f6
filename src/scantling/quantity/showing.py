"""Quantities for people: inches in fractions, millimetres, pounds; the rounding error is always known."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, gcd

from scantling.errors import OutOfRange
from scantling.quantity.kinds import MM_PER_INCH, LengthUnit
from scantling.quantity.scanning import KG_PER_POUND, in_mm

FRACTIONS = (1, 2, 4, 8, 16, 32, 64)


@dataclass(frozen=True, slots=True)
class Style:
    """How lengths are shown: the unit, and for inches the smallest part of one (64 means 1/64 in).

    Raises OutOfRange unless `fraction` is 1, 2, 4, 8, 16, 32 or 64.
    """

    unit: LengthUnit
    fraction: int = 32

    def __post_init__(self) -> None:
        if self.fraction not in FRACTIONS:
            raise OutOfRange("fraction of an inch", self.fraction, 1, 64, "(a power of two)")


@dataclass(frozen=True, slots=True)
class Shown:
    """A length as shown. `shown_mm` is what the words say, `error_mm` that less the true length.

    `number` is the words without the unit.
    """

    text: str
    shown_mm: float
    error_mm: float
    number: str


def format_length(mm: float, style: Style) -> Shown:
    """`mm` to the nearest step of `style`: 1/32 in, or 0.1 mm.

    >>> format_length(41.275, Style(LengthUnit.INCHES)).text
    '1 5/8 in'
    """
    if style.unit is LengthUnit.MM:
        shown = _tenth(mm)
        return Shown(f"{_decimal(shown)} mm", shown, shown - mm, _decimal(shown))
    parts = _nearest(mm / MM_PER_INCH * style.fraction)
    number = _fraction(parts, style.fraction)
    shown = in_mm(parts / style.fraction, style.unit)
    return Shown(f"{number} in", shown, shown - mm, number)


def dual(mm: float, style: Style) -> str:
    """Both units, the maker's own first: `1 5/8 in (41.3 mm)` or `41.3 mm (1 5/8 in)`."""
    other = LengthUnit.MM if style.unit is LengthUnit.INCHES else LengthUnit.INCHES
    return f"{format_length(mm, style).text} ({format_length(mm, Style(other, style.fraction)).text})"


def format_mass(kg: float, style: Style) -> str:
    """A mass in both units, the maker's own first: `18 lb (8.2 kg)`."""
    pounds, kilos = f"{_decimal(_tenth(kg / KG_PER_POUND))} lb", f"{_decimal(_tenth(kg))} kg"
    return f"{pounds} ({kilos})" if style.unit is LengthUnit.INCHES else f"{kilos} ({pounds})"


def format_angle(degrees: float) -> str:
    """An angle to 0.1 degree: `12.6°`."""
    return f"{_decimal(_tenth(degrees))}°"


def format_temperature(celsius: float, style: Style) -> str:
    """A temperature to whole degrees, the maker's own unit first: `70 °F (21 °C)`."""
    fahrenheit, plain = f"{_nearest(celsius * 9 / 5 + 32)} °F", f"{_nearest(celsius)} °C"
    return f"{fahrenheit} ({plain})" if style.unit is LengthUnit.INCHES else f"{plain} ({fahrenheit})"


def format_ratio(ratio: float) -> str:
    """A share in whole percent: `60 %`."""
    return f"{_nearest(ratio * 100)} %"


def format_money(amount: float) -> str:
    """A sum of money with two decimals and no sign: `12.50`."""
    return f"{_nearest(amount * 100) / 100:.2f}"


def _nearest(value: float) -> int:
    """The nearest whole number; halves go away from zero, as one reads a rule."""
    return floor(value + 0.5) if value >= 0 else -floor(-value + 0.5)


def _tenth(value: float) -> float:
    return _nearest(value * 10) / 10


def _decimal(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _fraction(parts: int, fraction: int) -> str:
    sign = "-" if parts < 0 else ""
    whole, over = divmod(abs(parts), fraction)
    if not over:
        return f"{sign}{whole}"
    common = gcd(over, fraction)
    part = f"{over // common}/{fraction // common}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
