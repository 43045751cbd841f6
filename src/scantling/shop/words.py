"""Words of a shop file turned into numbers: lengths in mm, masses in kg, ratios, money, areas in m²."""

from __future__ import annotations

import re

from scantling.quantity import QuantityError, parse_kind
from scantling.quantity.kinds import Kind, LengthUnit

STANDARD_GRAVITY = 9.80665  # m/s²; exact, CGPM 1901
SQUARE_METRES_PER_SQUARE_FOOT = 0.3048**2

_NUMBER = re.compile(r"\d+(\.\d+)?|\.\d+")
_BY = re.compile(r"\s+[x×]\s+", re.IGNORECASE)


class AmissError(ValueError):
    """Words that cannot be used; `at` counts characters from their start."""

    def __init__(self, message: str, at: int = 0) -> None:
        super().__init__(message)
        self.message = message
        self.at = at


def length(text: str, unit: LengthUnit) -> float:
    """A length in mm, zero or more."""
    value = _kind(text, Kind.LENGTH, unit)
    if not 0 <= value <= 1e5:
        raise AmissError(f'"{text}" is not a length a shop can have')
    return value


def some_length(text: str, unit: LengthUnit) -> float:
    """A length in mm, more than zero."""
    value = length(text, unit)
    if value <= 0:
        raise AmissError("this must be more than zero")
    return value


def lengths(text: str, unit: LengthUnit) -> tuple[float, ...]:
    """`96 x 7 1/2 x 1` as lengths in mm."""
    found, start = [], 0
    for gap in [*_BY.finditer(text), None]:
        piece = text[start : gap.start() if gap else len(text)]
        found.append(_shifted(piece, unit, start))
        start = gap.end() if gap else start
    return tuple(found)


def _shifted(text: str, unit: LengthUnit, start: int) -> float:
    try:
        return some_length(text, unit)
    except AmissError as amiss:
        raise AmissError(amiss.message, amiss.at + start) from None


def number(text: str) -> float:
    """A plain number, zero or more."""
    if not _NUMBER.fullmatch(text.strip()):
        raise AmissError(f'"{text}" is not a plain number')
    return float(text)


def count(text: str) -> int:
    """A whole number, zero or more."""
    if not re.fullmatch(r"\d{1,6}", text.strip()):
        raise AmissError(f'"{text}" is not a whole number')
    return int(text)


def percent(text: str) -> float:
    """`42 %` or `42`, as 42."""
    value = number(text.replace("%", " ").strip())
    if value > 100:
        raise AmissError("more than 100 %")
    return value


def money(text: str) -> float:
    """A price, with or without the sign of its currency; zero or more."""
    return _not_negative(_kind(text, Kind.MONEY, LengthUnit.MM))


def mass(text: str, unit: LengthUnit) -> float:
    """`75 lb` or `34 kg`, as kg."""
    return _not_negative(_kind(text, Kind.MASS, unit))


def force(text: str, unit: LengthUnit) -> float:
    """`400 lb` or `180 kg`, as N; also `1800 N`."""
    newtons = re.fullmatch(r"(.*\d)\s*N", text.strip())
    return number(newtons[1]) if newtons else mass(text, unit) * STANDARD_GRAVITY


def temperature(text: str, unit: LengthUnit) -> float:
    """`66 F` or `19 C`, as °C."""
    return _kind(text, Kind.TEMPERATURE, unit)


def _kind(text: str, kind: Kind, unit: LengthUnit) -> float:
    try:
        return parse_kind(text, kind, unit)
    except QuantityError as error:
        raise AmissError(str(error), error.at) from None


def _not_negative(value: float) -> float:
    if value < 0:
        raise AmissError("this cannot be less than nothing")
    return value


def area(text: str) -> float:
    """`17 m2` or `180 sq ft`, as m²."""
    found = re.fullmatch(r"([\d.]+)\s*(m2|m²|sq m|sq ft|ft2)", text.strip().lower())
    if not found:
        raise AmissError(f'"{text}" is not an area such as 17 m2 or 180 sq ft')
    per = SQUARE_METRES_PER_SQUARE_FOOT if found[2] in ("sq ft", "ft2") else 1.0
    return number(found[1]) * per
