"""Formulas that must come to one thing: a place along an axis, a size, a count."""

from __future__ import annotations

from scantling.errors import ResolveError
from scantling.piece.language.phrases import Expression, Words
from scantling.piece.model import Axis
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.values import Mismatch, Value, place, wanted
from scantling.quantity.kinds import Kind


def place_at(asker: Asker, formula: Expression, axis: Axis) -> Value:
    """A place along `axis`; a length or a bare number counts from the low side of my box."""
    value = asker.value(formula).as_kind(Kind.LENGTH)
    if value.kind is not Kind.LENGTH or value.power != 1:
        words = asker.scalar.text[formula.offset : formula.offset + formula.length]
        size = {Axis.WIDE: "width", Axis.DEEP: "depth", Axis.HIGH: "height"}[axis]
        remedy = (
            f"write `{size} * {words}`" if value.kind is Kind.RATIO else "a bare number counts in your unit"
        )
        raise asker.error(f"a place along {axis.word} is wanted, but this is {value.noun}", formula, remedy)
    if not value.is_place:
        return place(axis, asker.box(axis).low + value.number)
    if value.axis is not axis:
        raise wrong_way(asker, formula, value, axis)
    return value


def wrong_way(asker: Asker, words: Words, value: Value, axis: Axis) -> ResolveError:
    """`front of leg` under `wide`: the error that names both ways."""
    faces = {Axis.WIDE: "left or right", Axis.DEEP: "front or back", Axis.HIGH: "bottom or top"}
    assert value.axis is not None
    return asker.error(
        f"this is a place along {value.axis.word}, but {axis.word} wants one along {axis.word}",
        words,
        f"along {axis.word} the faces are {faces[axis]}",
    )


def size_in(asker: Asker, formula: Expression, kind: Kind = Kind.LENGTH, what: str = "this") -> float:
    """A size of one kind; a bare number takes that kind."""
    value = asker.value(formula)
    try:
        return wanted(value, kind, what)
    except Mismatch as slip:
        raise asker.error(str(slip), formula, slip.remedy) from None
