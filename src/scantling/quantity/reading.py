"""One quantity from one text."""

from __future__ import annotations

from scantling.quantity.errors import QuantityError
from scantling.quantity.kinds import Kind, LengthUnit, Quantity
from scantling.quantity.scanning import Scanned, plain_spaces, scan_number, starts_number
from scantling.quantity.units import unit_meant

MINUS = "-−"
_MONEY_SIGNS = "$€£"
_WANTED = {
    Kind.LENGTH: "a length, such as 1 1/2, 38 mm",
    Kind.ANGLE: "an angle, such as 8 deg",
    Kind.COUNT: "a count, such as 4",
    Kind.RATIO: "a share, such as 60 %",
    Kind.MASS: "a mass, such as 18 lb, 8 kg",
    Kind.TEMPERATURE: "a temperature, such as 70 F, 21 C",
    Kind.MONEY: "a sum of money, such as 12.50",
}
_BARE_ALLOWED = frozenset((Kind.LENGTH, Kind.COUNT, Kind.MONEY))


def parse_quantity(text: str, unit: LengthUnit) -> Quantity:
    """A signed number with or without unit; a bare one is a length in `unit`.

    Raises QuantityError, with the character where reading stopped.

    >>> parse_quantity('1 1/2', LengthUnit.INCHES).value
    38.1
    """
    scanned, sign = _scan_all(text, unit)
    return Quantity(sign * scanned.value, scanned.kind or Kind.LENGTH)


def parse_length(text: str, unit: LengthUnit) -> float:
    """A length in mm; bare numbers are in `unit`. Raises QuantityError."""
    return parse_kind(text, Kind.LENGTH, unit)


def parse_kind(text: str, kind: Kind, unit: LengthUnit = LengthUnit.MM) -> float:
    """A quantity that must be of `kind`, in its inside unit. Raises QuantityError.

    Bare numbers are allowed for lengths (in `unit`), counts and money; money may carry $, € or £
    before it, which is not kept.
    """
    if kind is Kind.MONEY:
        text = _without_money_sign(text)
    scanned, sign = _scan_all(text, unit)
    bare = scanned.kind is None
    if bare and kind in _BARE_ALLOWED:
        value = scanned.value if kind is Kind.LENGTH else scanned.plain
    elif scanned.kind is kind:
        value = scanned.value
    else:
        raise QuantityError(f'"{text.strip()}" is not {_WANTED[kind].partition(",")[0]}', 0, _wanted(kind))
    if kind is Kind.COUNT and value != int(value):
        raise QuantityError(f'"{text.strip()}" is not a whole number', 0, _wanted(kind))
    return sign * value


def _wanted(kind: Kind) -> str:
    return f"write {_WANTED[kind]}"


def _without_money_sign(text: str) -> str:
    stripped = text.lstrip()
    return stripped[1:] if stripped[:1] in _MONEY_SIGNS else text


def _scan_all(text: str, unit: LengthUnit) -> tuple[Scanned, float]:
    text = plain_spaces(text)
    at = len(text) - len(text.lstrip())
    sign = 1.0
    if text[at : at + 1] and text[at] in MINUS:
        sign, at = -1.0, at + 1
        at += len(text[at:]) - len(text[at:].lstrip())
    if not starts_number(text, at):
        raise QuantityError(f'"{text.strip()}" is not a number', at)
    scanned = scan_number(text, at, unit)
    rest = text[scanned.end :].strip()
    if rest:
        remedy = "write a point, as in 3.5" if rest[0] == "," else ""
        if scanned.kind is None and rest.isalpha():
            remedy = unit_meant(rest)
        raise QuantityError(
            f'"{rest}" was not expected after the number', text.index(rest, scanned.end), remedy
        )
    return scanned, sign
