"""Spans worked out: where a part, a group or a space begins and ends along one axis."""

from __future__ import annotations

from typing import assert_never

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
from scantling.piece.resolve import names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.directions import DIRECTIONS
from scantling.piece.resolve.faces import FACE_OF_WORD, Reader, extent
from scantling.piece.resolve.narrowing import agreed, meant, mirrored_words
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.tree import SIDES, SPACE, Reach, Seen, Thing
from scantling.piece.resolve.values import Value
from scantling.piece.resolve.wanting import place_at, size_in


def read_span(asker: Asker, span: Span) -> Reach:
    """The reach a span phrase gives to the one who asks; ends before it begins is an error."""
    reach = _read(asker, span)
    least = -TOUCH if asker.thing is not None and asker.thing.family.kind == SPACE else TOUCH
    if reach.size < least:
        remedy = "the low side (left, front, bottom) stands first"
        if asker.scope.used_at is not None:
            remedy = "there is no room for it: make the space bigger, or a setting of the kit smaller"
        raise asker.error(_backward(asker, reach), span, remedy)
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
            start = _place(asker.at_end(-1), span.low)
            stop = _place(asker.at_end(1), span.high)
            return Reach(start.number, stop.number, start.faces, stop.faces)
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
            return _of_row(asker, span)
    assert_never(span)


def _of_row(asker: Asker, span: SizeAlone) -> Reach:
    """A size alone: its row gives the place."""
    size = size_in(asker, span.size)
    low = asker.scope.common.workings.row_start(asker.thing, asker.axis) if asker.thing else None
    if low is None:
        raise asker.error(
            f"this says how big, {shown(size, asker.scalar.unit)}, but not where",
            span,
            "write `3 up from bottom`, `3 centred on middle`, or spread it in a row",
        )
    return Reach(low, low + size)


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
    sign = sign_of(asker, span)
    size = size_in(asker, span.size)
    if size < 0:
        raise asker.error("a size may not be below zero", span.size, "turn the direction round")
    start = _place(asker.at_end(-sign), span.start)
    if sign > 0:
        return Reach(start.number, start.number + size, low_faces=start.faces)
    return Reach(start.number - size, start.number, high_faces=start.faces)


def sign_of(asker: Asker, span: Measured) -> int:
    """Which way a size is measured: 1 rightward, backward, upward. Raises ResolveError."""
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
    side = asker.written_sides.get(asker.axis)
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
