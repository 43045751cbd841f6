"""What a phrase comes to: a number with its kind; a place also has an axis and the faces it names.

A place is not a size: place ± size = place, place - place = size, anything else with a place is an error.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from scantling.piece.model import Axis
from scantling.quantity.kinds import Kind

if TYPE_CHECKING:
    from scantling.piece.resolve.tree import Thing

NOUN = {
    Kind.LENGTH: "a length",
    Kind.ANGLE: "an angle",
    Kind.COUNT: "a count",
    Kind.RATIO: "a ratio",
    Kind.MASS: "a mass",
    Kind.TEMPERATURE: "a temperature",
    Kind.MONEY: "money",
}


WRITTEN = {
    Kind.LENGTH: "a size, such as `3 1/2` or `38 mm`",
    Kind.ANGLE: "an angle, such as `8 deg`",
    Kind.COUNT: "a plain number, such as `8`",
    Kind.RATIO: "a share, such as `60 %`",
    Kind.MASS: "a mass, such as `40 lb` or `18 kg`",
    Kind.TEMPERATURE: "a temperature, such as `70 F` or `21 C`",
    Kind.MONEY: "a sum of money",
}
_NEEDS_UNIT = (Kind.MASS, Kind.TEMPERATURE)  # a bare number could be of either of two units


class Mismatch(Exception):
    """Two values that do not go together; carries what to say and what to write instead."""

    def __init__(self, message: str, remedy: str = "") -> None:
        super().__init__(message)
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Value:
    """`number` in the inside unit; `kind` None is a bare number that meets its kind later.

    `scale`: mm for each bare unit. `power`: 2 for an area. `axis`: set for a place.
    `faces`: the parts whose face this place is, with nothing added.
    """

    number: float
    kind: Kind | None = None
    scale: float = 1.0
    power: int = 1
    axis: Axis | None = None
    faces: frozenset[Thing] = frozenset()

    @property
    def is_bare(self) -> bool:
        return self.kind is None

    @property
    def is_place(self) -> bool:
        return self.axis is not None

    @property
    def noun(self) -> str:
        if self.axis is not None:
            return f"a place along {self.axis.word}"
        if self.kind is Kind.LENGTH and self.power != 1:
            return "an area" if self.power == 2 else "no length"
        return "a bare number" if self.kind is None else NOUN[self.kind]

    def as_kind(self, kind: Kind | None) -> Value:
        """A bare number takes the kind it meets."""
        if self.kind is not None or kind is None:
            return self
        number = self.number * self.scale if kind is Kind.LENGTH else self.number
        return Value(number, kind)


def length(mm: float) -> Value:
    """A size in mm."""
    return Value(mm, Kind.LENGTH)


def place(axis: Axis, at: float, faces: frozenset[Thing] = frozenset()) -> Value:
    """A place along an axis, with the parts whose face it is."""
    return Value(at, Kind.LENGTH, axis=axis, faces=faces)


def wanted(value: Value, kind: Kind, what: str) -> float:
    """The number of `value` as `kind`; a place or another kind is a Mismatch."""
    if value.is_bare and kind in _NEEDS_UNIT:
        raise Mismatch(
            f"{what} wants {NOUN[kind]}, but {value.number:g} says no unit", f"write {WRITTEN[kind]}"
        )
    taken = value.as_kind(kind)
    if taken.is_place:
        raise Mismatch(
            f"{what} wants {NOUN[kind]}, but this is {taken.noun}",
            "a place less a place is a size: `right of A to left of B`, or `right - left of B`",
        )
    if taken.kind is not kind or taken.power != 1:
        raise Mismatch(f"{what} wants {NOUN[kind]}, but this is {taken.noun}", f"write {WRITTEN[kind]}")
    return taken.number


def added(a: Value, b: Value, sign: int) -> Value:
    """The sum (sign 1) or the difference (sign -1) of two values."""
    a, b = _met(a, b)
    if a.is_place and b.is_place:
        return _between_places(a, b, sign)
    if b.is_place:
        if sign < 0:
            raise Mismatch("a size less a place has no meaning", "write the place first")
        a, b = b, a
    if a.kind is not b.kind or a.power != b.power:
        verb = "added to" if sign > 0 else "taken from"
        raise Mismatch(f"{b.noun} cannot be {verb} {a.noun}")
    return replace(a, number=a.number + sign * b.number, faces=frozenset())


def _between_places(a: Value, b: Value, sign: int) -> Value:
    if sign > 0:
        raise Mismatch(
            "two places cannot be added",
            "add a size to a place, or use `centred on` for the middle between two faces",
        )
    same_axis(a, b)
    return length(a.number - b.number)


def same_axis(a: Value, b: Value) -> None:
    """Raise a Mismatch if two places lie along different axes."""
    if a.axis is not b.axis and a.axis is not None and b.axis is not None:
        raise Mismatch(f"{a.noun} and {b.noun} do not lie along the same way")


def multiplied(a: Value, b: Value) -> Value:
    """A times b: numbers, shares and counts scale; two lengths make an area."""
    _no_place(a, b)
    if a.kind is None and b.kind is None:
        return Value(a.number * b.number, None, a.scale)
    if a.kind is Kind.LENGTH and b.kind is Kind.LENGTH:
        return Value(a.number * b.number, Kind.LENGTH, power=a.power + b.power)
    if {a.kind, b.kind} == {None, Kind.RATIO}:
        return Value(a.number * b.number, None, a.scale if a.is_bare else b.scale)
    plain, other = (a, b) if a.kind in (None, Kind.RATIO, Kind.COUNT) else (b, a)
    if plain.kind not in (None, Kind.RATIO, Kind.COUNT):
        raise Mismatch(f"{a.noun} cannot be multiplied by {b.noun}")
    return replace(other, number=plain.number * other.number)


def divided(a: Value, b: Value) -> Value:
    """A divided by b."""
    _no_place(a, b)
    if b.number == 0:
        raise Mismatch("this divides by zero")
    if b.kind is None or (b.kind in (Kind.RATIO, Kind.COUNT) and a.kind is not b.kind):
        return replace(a, number=a.number / b.number)
    a, b = _met(a, b)
    if a.kind is not b.kind:
        raise Mismatch(f"{a.noun} cannot be divided by {b.noun}")
    if a.power == b.power:
        return Value(a.number / b.number)
    return Value(a.number / b.number, a.kind, power=a.power - b.power)


def negative(a: Value) -> Value:
    """A size turned round."""
    _no_place(a)
    return replace(a, number=-a.number)


def limited(a: Value, b: Value, choose: Callable[[float, float], float]) -> Value:
    """The smaller or the larger of two values of one kind, or of two places along one axis."""
    a, b = _met(a, b)
    if a.is_place != b.is_place:
        raise Mismatch(f"{a.noun} cannot be compared with {b.noun}")
    same_axis(a, b)
    if a.kind is not b.kind or a.power != b.power:
        raise Mismatch(f"{a.noun} cannot be compared with {b.noun}")
    return a if choose(a.number, b.number) == a.number else b


def compared(a: Value, b: Value) -> tuple[float, float]:
    """The two numbers, once both are of one kind."""
    a, b = _met(a, b)
    if a.kind is not b.kind or a.is_place != b.is_place or a.power != b.power:
        raise Mismatch(f"{a.noun} cannot be compared with {b.noun}")
    same_axis(a, b)
    return a.number, b.number


def _met(a: Value, b: Value) -> tuple[Value, Value]:
    return a.as_kind(b.kind), b.as_kind(a.kind)


def _no_place(*values: Value) -> None:
    if any(value.is_place for value in values):
        raise Mismatch(
            "a place cannot be multiplied or divided",
            "take a size: `width of X`, or one place less another",
        )
