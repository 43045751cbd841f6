"""What a formula comes to for the one who asks: names looked up, faces read, kinds minded."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import assert_never

from scantling.piece.language.phrases import (
    Arithmetic,
    AtLeast,
    AtMost,
    Expression,
    FaceOf,
    FunctionOf,
    Name,
    Negative,
    Number,
    Otherwise,
    OwnSize,
    Rounded,
    SizeOf,
    When,
)
from scantling.piece.model import Material
from scantling.piece.resolve import materials, named, names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.conditions import holds
from scantling.piece.resolve.faces import bare_face, face_of_named
from scantling.piece.resolve.measures import bare_size, size_of_named
from scantling.piece.resolve.values import (
    Mismatch,
    Value,
    added,
    divided,
    length,
    limited,
    multiplied,
    negative,
    place,
    wanted,
)
from scantling.quantity.kinds import Kind


def value_of(asker: Asker, formula: Expression) -> Value:
    """The value of a formula; a ResolveError points at the words that do not go together."""
    try:
        return _value(asker, formula)
    except Mismatch as slip:
        raise asker.error(str(slip), formula, slip.remedy) from None


def _value(asker: Asker, formula: Expression) -> Value:
    match formula:
        case Number():
            return _number(formula)
        case Name():
            return named.size_named(asker, formula)
        case FaceOf():
            return _face(asker, formula)
        case SizeOf():
            return _size(asker, formula)
        case OwnSize():
            return length(own_size(asker, formula))
        case Negative():
            return negative(value_of(asker, formula.value))
        case Arithmetic():
            return _arithmetic(asker, formula)
        case FunctionOf():
            return _function(asker, formula)
        case AtLeast():
            return limited(*_alike(asker, formula), max)
        case AtMost():
            return limited(*_alike(asker, formula), min)
        case Rounded():
            return _rounded(asker, formula)
        case When():
            chosen = formula.value if holds(asker, formula.condition) else formula.other
            return value_of(asker, chosen)
        case Otherwise():
            return _or_else(asker, formula)
    assert_never(formula)


def _alike(asker: Asker, formula: AtLeast | AtMost) -> tuple[Value, Value]:
    """Both sides of a limit; beside a place, a length counts from the low side of my box."""
    a, b = value_of(asker, formula.value), value_of(asker, formula.limit)
    return _placed(asker, a, b), _placed(asker, b, a)


def _placed(asker: Asker, value: Value, beside: Value) -> Value:
    value = value.as_kind(beside.kind)
    if beside.axis is None or value.is_place or value.kind is not Kind.LENGTH or value.power != 1:
        return value
    return place(beside.axis, asker.box(beside.axis).low + value.number)


def _number(formula: Number) -> Value:
    if formula.kind is not None:
        return Value(formula.plain, formula.kind)
    scale = formula.value / formula.plain if formula.plain else 1.0
    return Value(formula.plain, None, scale)


def _face(asker: Asker, formula: FaceOf) -> Value:
    if formula.of is None:
        return bare_face(asker, formula)
    return face_of_named(asker, formula)


def _size(asker: Asker, formula: SizeOf) -> Value:
    return bare_size(asker, formula) if formula.of is None else size_of_named(asker, formula)


def own_size(asker: Asker, formula: OwnSize) -> float:
    """`thick` or `broad` of the asking part's own material, or of a named one. [mm]"""
    material = _material(asker, formula)
    size = material.thick if formula.word == "thick" else material.broad
    if size is None:
        bought = "thickness" if formula.word == "thick" else "width"
        example = f"{material.text} 3/4" if formula.word == "thick" else "pine 1x4"
        raise asker.error(
            f'"{material.text}" says no {bought} it is bought at',
            formula,
            f"write it with the material, as in `{example}`, or a size here",
        )
    return size


def _material(asker: Asker, formula: OwnSize) -> Material:
    if formula.of is not None:
        return _named_material(asker, formula, formula.of)
    if asker.thing is None:
        raise asker.error(
            f"`{formula.word}` is the material of a part, and no part asks here",
            formula,
            f"write `{formula.word} of` a material",
        )
    return asker.thing.common.workings.material(asker.thing)


def _named_material(asker: Asker, formula: OwnSize, name: Name) -> Material:
    home = asker.scope.home
    if materials.is_material(home, name.text):
        return materials.named(home, name.text)
    if names.look_up(asker.scope, name.words, asker.place(name)) is not names.NOTHING:
        size = "thickness" if formula.word == "thick" else "width"
        raise asker.error(
            f'"{name.text}" is a thing, and `{formula.word} of` is of a material',
            name,
            f"write `{size} of {name.text}`",
        )
    raise asker.error(f'no material is called "{name.text}"', name, nearest(name.text, materials.names(home)))


def _or_else(asker: Asker, formula: Otherwise) -> Value:
    """The material's own size; the other one where it is sold by none."""
    material = _material(asker, formula.value)
    size = material.thick if formula.value.word == "thick" else material.broad
    return value_of(asker, formula.other) if size is None else length(size)


_OPERATIONS: dict[str, Callable[[Value, Value], Value]] = {
    "+": lambda a, b: added(a, b, 1),
    "-": lambda a, b: added(a, b, -1),
    "*": multiplied,
    "/": divided,
}


def _arithmetic(asker: Asker, formula: Arithmetic) -> Value:
    left, right = value_of(asker, formula.left), value_of(asker, formula.right)
    return _OPERATIONS[formula.sign](left, right)


def _function(asker: Asker, formula: FunctionOf) -> Value:
    value = value_of(asker, formula.value)
    if formula.name == "tan":
        degrees = wanted(value, Kind.ANGLE, "`tan`")
        return Value(math.tan(math.radians(degrees)), Kind.RATIO)
    if value.number < 0 or value.is_place:
        raise Mismatch("`sqrt` wants an area or a number that is not below zero")
    if value.kind is Kind.LENGTH:
        if value.power % 2:
            raise Mismatch("`sqrt` of a length has no meaning", "multiply two lengths first")
        return replace(value, number=math.sqrt(value.number), power=value.power // 2)
    return replace(value, number=math.sqrt(value.number))


_ROUNDINGS: dict[str, Callable[[float], float]] = {
    "up": lambda steps: math.ceil(steps - 1e-9),
    "down": lambda steps: math.floor(steps + 1e-9),
    "near": lambda steps: math.floor(steps + 0.5),
}


def _rounded(asker: Asker, formula: Rounded) -> Value:
    value, step = value_of(asker, formula.value), value_of(asker, formula.step)
    if step.is_place:
        raise Mismatch("a step is a size, not a place")
    step = step.as_kind(value.kind)
    if value.is_place or value.kind is not step.kind or step.number <= 0:
        raise Mismatch(f"{value.noun} cannot be rounded to steps of {step.noun}")
    return replace(value, number=_ROUNDINGS[formula.way](value.number / step.number) * step.number)
