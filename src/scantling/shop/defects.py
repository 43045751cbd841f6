"""Defects as written beside a board: `knot 30 to 32 1/2 x 2 to 4 on other`.

Along the board from the chalked end, then across from the straighter edge; `end` and `edge` are the
far ones.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from scantling.errors import ReadError
from scantling.quantity.kinds import LengthUnit
from scantling.shop.model import BoardFace, Defect
from scantling.shop.phrases import Phrase
from scantling.shop.words import AmissError, length

DEFECTS = (
    "sound knot",
    "knot",
    "check",
    "split",
    "wane",
    "pith",
    "hole",
    "sapwood",
    "stain",
    "bark",
)
EXAMPLE = "write knot 30 to 32 x 2 to 4, and if it is on one face only: on best, or on other"

SHAPE = re.compile(
    rf"({'|'.join(DEFECTS)})\s+(.+?)\s+to\s+(.+?)\s+x\s+(.+?)\s+to\s+(.+?)(?:\s+on\s+(best|other|both))?",
    re.IGNORECASE,
)


def defects_of(said: Iterable[Phrase], long: float, wide: float, unit: LengthUnit) -> tuple[Defect, ...]:
    """Each phrase as a rectangle on a board `long` by `wide`. [mm]"""
    return tuple(_defect(phrase, long, wide, unit) for phrase in said)


def _defect(phrase: Phrase, long: float, wide: float, unit: LengthUnit) -> Defect:
    found = SHAPE.fullmatch(phrase.text)
    if not found:
        raise ReadError("this defect cannot be read", phrase.place(), EXAMPLE)
    along = [_reach(phrase, found.span(i), "end", long, unit) for i in (2, 3)]
    across = [_reach(phrase, found.span(i), "edge", wide, unit) for i in (4, 5)]
    if along[0] >= along[1] or across[0] >= across[1]:
        raise ReadError("a defect runs from the smaller to the larger", phrase.place(), EXAMPLE)
    face = BoardFace((found[6] or "both").lower())
    return Defect(found[1].lower(), along[0], along[1], across[0], across[1], face)


def _reach(phrase: Phrase, span: tuple[int, int], far: str, limit: float, unit: LengthUnit) -> float:
    words = phrase.part(*span)
    if words.text.lower() == far:
        return limit
    try:
        value = length(words.text, unit)
    except AmissError as amiss:
        raise ReadError(amiss.message, words.place(amiss.at), EXAMPLE) from None
    if value > limit + 1e-6:
        raise ReadError("this lies beyond the board", words.place(), f'the far {far} is written "{far}"')
    return value
