"""Find one number with its unit at a given character of a text, the way makers write them.

`1 1/2`, `1-1/2"`, `3' 2 1/4"`, `1½ in`, `38`, `3.8 cm`, `08`, `8 deg`, `4 pcs`, `60 %`, `18 lb`, `70 F`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from scantling.quantity.errors import QuantityError
from scantling.quantity.kinds import Kind, LengthUnit

VULGAR = {
    "½": (1, 2),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "¼": (1, 4),
    "¾": (3, 4),
    "⅕": (1, 5),
    "⅖": (2, 5),
    "⅗": (3, 5),
    "⅘": (4, 5),
    "⅙": (1, 6),
    "⅚": (5, 6),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
    "⅞": (7, 8),
}
MOST_DIGITS = 9
_SPACES = {ord(space): " " for space in "\u00a0\u2007\u2008\u2009\u200a\u202f"}

KG_PER_POUND = 0.45359237  # exact; NIST SP 811, Appendix B.8
KG_PER_OUNCE = KG_PER_POUND / 16

# unit as written -> kind, scale, offset: value inside = scale * (number - offset)
_UNITS: dict[str, tuple[Kind, float, float]] = {
    "mm": (Kind.LENGTH, 1.0, 0.0),
    "cm": (Kind.LENGTH, 10.0, 0.0),
    "m": (Kind.LENGTH, 1000.0, 0.0),
    **dict.fromkeys(("deg", "degrees", "°"), (Kind.ANGLE, 1.0, 0.0)),
    **dict.fromkeys(("pcs", "pc"), (Kind.COUNT, 1.0, 0.0)),
    "%": (Kind.RATIO, 0.01, 0.0),
    **dict.fromkeys(("lb", "lbs"), (Kind.MASS, KG_PER_POUND, 0.0)),
    "oz": (Kind.MASS, KG_PER_OUNCE, 0.0),
    "kg": (Kind.MASS, 1.0, 0.0),
    "g": (Kind.MASS, 0.001, 0.0),
    **dict.fromkeys(("f", "°f"), (Kind.TEMPERATURE, 5 / 9, 32.0)),
    **dict.fromkeys(("c", "°c"), (Kind.TEMPERATURE, 1.0, 0.0)),
}
_FEET = frozenset(("'", "′", "’", "ft", "feet", "foot"))
_INCHES = frozenset(('"', "″", "”", "''", "in", "inch", "inches"))

_FRACTION = re.compile(r"(?P<over>\d+)[/⁄](?P<under>\d+)", re.ASCII)
_MIXED = re.compile(rf"(?P<whole>\d+)(?: +|-){_FRACTION.pattern}(?![\d/.])", re.ASCII)
_VULGAR = re.compile(rf"(?:(?P<whole>\d+)[ -]?)?(?P<vulgar>[{''.join(VULGAR)}])", re.ASCII)
_DECIMAL = re.compile(r"\d*\.\d+|\d+", re.ASCII)
_UNIT = re.compile(
    r" *(?P<unit>''|[\"″”'′’%]|°[FC](?![\w-])|°"
    r"|(?:inches|inch|in|feet|foot|ft|mm|cm|m|degrees|deg|pcs|pc|lbs|lb|oz|kg|g|[FC])(?!\w|-[^\W\d]))",
    re.IGNORECASE,
)
_JOIN = re.compile(r" *-?(?=[\d.½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])| +(?=[\d.½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])")


@dataclass(frozen=True, slots=True)
class Scanned:
    """A number found: `plain` as written, `kind` None and `value` in mm if no unit was written.

    With a unit, `value` is in the inside unit of `kind`. `end` is the character after it.
    `whole`: digits only, no unit. `fraction`: a lone `a/b`.
    """

    plain: float
    value: float
    kind: Kind | None
    end: int
    whole: bool = False
    fraction: bool = False


def plain_spaces(text: str) -> str:
    """The text with typographers' spaces (no-break, thin) made plain, character for character."""
    return text.translate(_SPACES)


def in_mm(number: float, unit: LengthUnit) -> float:
    """A bare number of that unit in mm; inches rounded once, so that 1 1/2 in is 38.1 to the last bit."""
    return number * 127 / 5 if unit is LengthUnit.INCHES else number


def starts_number(text: str, at: int) -> bool:
    """Whether a number begins at that character."""
    first, second = text[at : at + 1], text[at + 1 : at + 2]
    return "0" <= first <= "9" or first in VULGAR or (first == "." and "0" <= second <= "9")


def scan_number(text: str, at: int, unit: LengthUnit) -> Scanned:
    """The longest number with unit that begins at character `at`.

    Raises QuantityError if none begins there, or if it is too long or divides by zero.
    """
    plain, end, whole, fraction = _bare(text, at)
    found = _UNIT.match(text, end)
    if not found:
        return Scanned(plain, in_mm(plain, unit), None, end, whole, fraction)
    name = found["unit"].lower()
    if name in _FEET:
        return _feet(text, plain, found.end())
    if name in _INCHES:
        value = in_mm(plain, LengthUnit.INCHES)
        return Scanned(value, value, Kind.LENGTH, found.end())
    kind, scale, offset = _UNITS[name]
    value = scale * (plain - offset)
    return Scanned(value, value, kind, found.end())


def _feet(text: str, feet: float, end: int) -> Scanned:
    """Feet, and the inches that follow them if any do."""
    inches = 0.0
    join = _JOIN.match(text, end)
    if join and starts_number(text, join.end()):
        inches, after, _, _ = _bare(text, join.end())
        mark = _UNIT.match(text, after)
        if mark and (name := mark["unit"].lower()) not in _INCHES:
            raise QuantityError(f"feet are followed by inches, not by {name}", mark.start("unit"))
        end = mark.end() if mark else after
    value = in_mm(feet * 12 + inches, LengthUnit.INCHES)
    return Scanned(value, value, Kind.LENGTH, end)


def _bare(text: str, at: int) -> tuple[float, int, bool, bool]:
    """A number without unit: its value, its end, whether it is digits only, whether a lone fraction."""
    if found := _MIXED.match(text, at):
        return _whole(found["whole"], at) + _part(found, at, proper=True), found.end(), False, False
    if found := _FRACTION.match(text, at):
        return _part(found, at), found.end(), False, True
    if found := _VULGAR.match(text, at):
        over, under = VULGAR[found["vulgar"]]
        return _whole(found["whole"] or "0", at) + over / under, found.end(), False, False
    if found := _DECIMAL.match(text, at):
        digits = found[0]
        return _decimal(digits, at), found.end(), "." not in digits, False
    raise QuantityError("a number is wanted here", at)


def _part(found: re.Match[str], at: int, *, proper: bool = False) -> float:
    over, under = _whole(found["over"], at), _whole(found["under"], at)
    if under == 0:
        raise QuantityError("nothing can be divided by 0", found.start("under"))
    if proper and over >= under:
        raise QuantityError(
            f"{found['over']}/{found['under']} is not less than one",
            found.start("over"),
            f"with spaces round it, `{found['whole']} - {found['over']}/{found['under']}` subtracts",
        )
    return over / under


def _whole(digits: str, at: int) -> float:
    if len(digits) > MOST_DIGITS:
        raise QuantityError("a number is too long", at, f"at most {MOST_DIGITS} digits")
    return float(digits)


def _decimal(digits: str, at: int) -> float:
    before, _, after = digits.partition(".")
    if max(len(before), len(after)) > MOST_DIGITS:
        raise QuantityError("a number is too long", at, f"at most {MOST_DIGITS} digits")
    return float(digits)
