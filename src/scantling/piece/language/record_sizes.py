"""Sizes in a build record: `29 1/8 x 2 1/4 x 7/8`, `31 x 4 1/2 at 62 x 0`, and counts.

A length is `bare` where its words say no unit.
"""

from __future__ import annotations

import re

from scantling.errors import ReadError
from scantling.piece.language.document import Scalar
from scantling.piece.model import Length
from scantling.quantity import LengthUnit, QuantityError, parse_length

_BETWEEN_SIZES = re.compile(r"\s*[xX×]\s*")
_BETWEEN_PLACE = re.compile(r"\s+at\s+", re.IGNORECASE)
_MOST_TIMES = 99


def parse_blank_size(said: Scalar) -> tuple[Length, ...]:
    """Long, wide and thick. Raises ReadError."""
    return _sizes(said, 0, said.text, "long x wide x thick, as in `29 1/8 x 2 1/4 x 7/8`", 3)


def parse_offcut(said: Scalar) -> tuple[tuple[Length, ...], tuple[Length, ...]]:
    """Long and wide, and where it lay from the end and the edge (empty where not said). Raises ReadError."""
    found = _BETWEEN_PLACE.search(said.text)
    wanted = "long x wide, as in `31 x 4 1/2` or `31 x 4 1/2 at 62 x 0`"
    if found is None:
        return _sizes(said, 0, said.text, wanted, 2), ()
    size = _sizes(said, 0, said.text[: found.start()], wanted, 2)
    return size, _sizes(said, found.end(), said.text[found.end() :], wanted, 2, zero=True)


def parse_times(said: Scalar) -> int:
    """A whole number from 1. Raises ReadError."""
    if not said.text.isdecimal() or not 1 <= int(said.text) <= _MOST_TIMES:
        raise ReadError(
            f'"{said.text}" is not a number of times', said.place, "write a whole number, as in `1`"
        )
    return int(said.text)


def _sizes(
    said: Scalar, offset: int, text: str, wanted: str, count: int, *, zero: bool = False
) -> tuple[Length, ...]:
    starts = [0, *(found.end() for found in _BETWEEN_SIZES.finditer(text))]
    ends = [*(found.start() for found in _BETWEEN_SIZES.finditer(text)), len(text)]
    if len(starts) != count:
        raise ReadError(
            f'"{text}" is not {wanted.partition(",")[0]}', said.place_at(offset, len(text)), wanted
        )
    return tuple(
        _length(said, offset + start, text[start:end], wanted, zero=zero)
        for start, end in zip(starts, ends, strict=True)
    )


def _length(said: Scalar, offset: int, text: str, wanted: str, *, zero: bool) -> Length:
    try:
        mm = parse_length(text, said.unit)
        bare = parse_length(text, LengthUnit.MM) != parse_length(text, LengthUnit.INCHES)
    except QuantityError as error:
        place = said.place_at(offset + min(error.at, max(len(text) - 1, 0)))
        raise ReadError(error.message, place, error.remedy or wanted) from None
    if mm < 0 or (mm == 0 and not zero):
        raise ReadError("a size is more than nothing", said.place_at(offset, max(len(text), 1)), wanted)
    return Length(mm, bare)
