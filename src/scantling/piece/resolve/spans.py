"""Spans worked out: where a part, a group or a space begins and ends along one axis."""

from __future__ import annotations

from dataclasses import replace
from typing import assert_never

from scantling.errors import ResolveError
from scantling.piece.language.document import Scalar, as_scalar
from scantling.piece.language.parse import parse_span
from scantling.piece.language.phrases import (
    Between,
    Centred,
    Expression,
    FromTo,
    Measured,
    Name,
    SameAs,
    SizeAlone,
    Span,
)
from scantling.piece.model import TOUCH, Axis, face_of
from scantling.piece.resolve import copies, names, spaces
from scantling.piece.resolve.asker import Asker, place_for
from scantling.piece.resolve.faces import FACE_OF_WORD, Reader, extent
from scantling.piece.resolve.narrowing import agreed, meant, mirrored_words
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.tree import PART, SIDES, SPACE, Reach, Seen, Thing
from scantling.piece.resolve.values import Value
from scantling.piece.resolve.wanting import place_at, size_in

DIRECTIONS = {
    "right": (Axis.WIDE, 1),
    "left": (Axis.WIDE, -1),
    "back": (Axis.DEEP, 1),
    "forward": (Axis.DEEP, -1),
    "up": (Axis.HIGH, 1),
    "down": (Axis.HIGH, -1),
}


def reach_of(thing: Thing, axis: Axis) -> Reach:
    """The span of a thing along an axis of its scope's frame, worked out once.

    Raises ResolveError: unknown names, wrong kinds, a circle, an end before its beginning.
    """
    scalar = thing.family.node.get(axis.word)
    words = scalar if isinstance(scalar, Scalar) else thing.family.key
    label = f"{thing.label} {axis.word}"
    return thing.common.once(("reach", id(thing), axis), label, words, lambda: _worked_out(thing, axis))


def _worked_out(thing: Thing, axis: Axis) -> Reach:
    if thing.family.kind == SPACE and spaces.splits_along(thing, axis):
        return spaces.split_reach(thing, axis, reach_as_written)
    return reach_as_written(thing, axis)


def reach_as_written(thing: Thing, axis: Axis) -> Reach:
    """The span its own words give, before any split."""
    source = thing.family.split_from or thing.family
    node = source.node.get(axis.word)
    if node is None:
        return _unsaid(thing, axis)
    scalar = as_scalar(node, f"{axis.word} of {source.name}")
    asker = Asker(thing.scope, scalar, thing, axis)
    return read_span(asker, parse_span(scalar))


def _unsaid(thing: Thing, axis: Axis) -> Reach:
    """What is not said: the space it stands in; a group shares its parent's box."""
    if thing.standing is not None or thing.family.kind != PART and thing.family.kind != SPACE:
        return place_for(thing, axis)
    raise ResolveError(
        f"nothing says where it stands {axis.word}",
        thing.family.key.place,
        f"add `{axis.word}: ...`, or stand it `in` a space",
        (thing.label,),
    )


def read_span(asker: Asker, span: Span) -> Reach:
    """The reach a span phrase gives to the one who asks; ends before it begins is an error."""
    reach = _read(asker, span)
    least = -TOUCH if asker.thing is not None and asker.thing.family.kind == SPACE else TOUCH
    if reach.size < least:
        raise asker.error(_backward(asker, reach), span, "the low side (left, front, bottom) stands first")
    return reach


def _backward(asker: Asker, reach: Reach) -> str:
    unit = asker.scalar.unit
    low, high = shown(reach.low, unit), shown(reach.high, unit)
    if abs(reach.size) <= TOUCH:
        return f"this leaves nothing: it begins and ends at {low}"
    return f"this comes out at {shown(reach.size, unit)}: it begins at {low} and ends at {high}"


def _read(asker: Asker, span: Span) -> Reach:
    assert asker.axis is not None
    match span:
        case FromTo():
            low = _place(replace(asker, end=-1), span.low)
            high = _place(replace(asker, end=1), span.high)
            return Reach(low.number, high.number, low.faces, high.faces)
        case Between():
            return _between(asker, span)
        case Measured():
            return _measured(asker, span)
        case Centred():
            size = size_in(asker, span.size)
            middle = _place(asker, span.middle).number
            return Reach(middle - size / 2, middle + size / 2)
        case SameAs():
            return _same_as(asker, span)
        case SizeAlone():
            size = size_in(asker, span.size)
            assert asker.thing is not None
            low = copies.row_start(asker, size, span)
            return Reach(low, low + size)
    assert_never(span)


def _place(asker: Asker, formula: Expression) -> Value:
    assert asker.axis is not None
    return place_at(asker, formula, asker.axis)


def _between(asker: Asker, span: Between) -> Reach:
    low, low_faces = _near_face(asker, span.first, 1)
    high, high_faces = _near_face(asker, span.second, -1)
    return Reach(low, high, low_faces, high_faces)


def _near_face(asker: Asker, name: Name, sign: int) -> tuple[float, frozenset[Thing]]:
    """The face of a part that looks to the other; a face word that names no part is my box's face."""
    assert asker.axis is not None
    bare = FACE_OF_WORD.get(name.text)
    words = mirrored_words(asker, name.words)
    if bare is not None and names.look_up(asker.scope, words, asker.place(name)) is names.NOTHING:
        if bare.axis is not asker.axis:
            raise asker.error(f"`{name.text}` does not lie along {asker.axis.word}", name)
        box = asker.box(bare.axis)
        return (box.low, box.low_faces) if bare.sign < 0 else (box.high, box.high_faces)
    reader = Reader(asker, name)
    parts: set[Thing] = set()
    axis = asker.axis

    def read(seen: Seen) -> float:
        number, faces = reader.face(seen, face_of(axis, sign))
        parts.update(faces)
        return number

    return agreed(asker, name, meant(asker, name), read, name), frozenset(parts)


def _measured(asker: Asker, span: Measured) -> Reach:
    assert asker.axis is not None
    sign = _sign(asker, span)
    size = size_in(asker, span.size)
    if size < 0:
        raise asker.error("a size may not be below zero", span.size, "turn the direction round")
    start = _place(replace(asker, end=-sign), span.start)
    if sign > 0:
        return Reach(start.number, start.number + size, low_faces=start.faces)
    return Reach(start.number - size, start.number, high_faces=start.faces)


def _sign(asker: Asker, span: Measured) -> int:
    assert asker.axis is not None
    if span.direction in DIRECTIONS:
        axis, sign = DIRECTIONS[span.direction]
        if axis is not asker.axis:
            raise asker.error(
                f"`{span.direction}` does not run along {asker.axis.word}",
                span,
                f"along {asker.axis.word} write {_directions_along(asker.axis)}",
            )
        return sign
    side = asker.sides.get(asker.axis)
    if side is None:
        raise asker.error(
            f"`{span.direction}` is for paired copies, and this is not one of a pair along {asker.axis.word}",
            span,
            f"write {_directions_along(asker.axis)}, or add `copies:`",
        )
    outward = SIDES[side][1]
    return outward if span.direction == "outward" else -outward


def _directions_along(axis: Axis) -> str:
    return " or ".join(f"`{word}`" for word, (a, _) in DIRECTIONS.items() if a is axis)


def _same_as(asker: Asker, span: SameAs) -> Reach:
    assert asker.axis is not None
    axis = asker.axis
    seen = meant(asker, span.part)
    low = agreed(asker, span.part, seen, lambda s: extent(s, axis).low, span)
    high = agreed(asker, span.part, seen, lambda s: extent(s, axis).high, span)
    return Reach(low, high)
