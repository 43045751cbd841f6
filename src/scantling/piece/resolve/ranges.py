"""Both ends of every `within` tried, so that a re-fit neither breaks the piece nor turns its grain unseen."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.errors import ResolveError
from scantling.piece.facts import NO_FACTS, ShopFacts
from scantling.piece.language.document import Document
from scantling.piece.model import Axis, NamedSize, Notice, Piece
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.whole import NO_SETTINGS, resolve
from scantling.quantity import format_angle
from scantling.quantity.kinds import Kind

_HALVINGS = 12  # to 1/4096 of the range: finer than a pencil line


def range_notices(
    document: Document, facts: ShopFacts = NO_FACTS, settings: Mapping[str, str] = NO_SETTINGS
) -> tuple[Notice, ...]:
    """What goes wrong at the ends of the ranges of a piece that resolves as it stands.

    One notice for each end at which the piece cannot be worked out or a part's grain turns, with the
    size at which that begins. Raises ResolveError if the piece does not resolve as it stands.
    """
    tried = _Tried(document, facts, settings)
    found = []
    for size in tried.piece.sizes:
        if size.range is not None:
            for end in dict.fromkeys((size.range.low, size.range.high)):
                notice = _at_end(tried, size, end)
                found.extend([notice] if notice else [])
    return tuple(found)


class _Tried:
    """The piece as it stands, and as it would be with one size changed."""

    def __init__(self, document: Document, facts: ShopFacts, settings: Mapping[str, str]) -> None:
        self._document, self._facts, self._settings = document, facts, settings
        self.piece = resolve(document, facts, settings=settings)
        self._grain = _grain_of(self.piece)

    def wrong(self, size: NamedSize, value: float) -> str:
        """What is wrong at that value; empty if nothing."""
        settings = {**self._settings, size.name: _phrase(size, value)}
        try:
            piece = resolve(self._document, self._facts, settings=settings)
        except ResolveError as error:
            return str(error)
        turned = [name for name, axis in _grain_of(piece).items() if self._grain.get(name, axis) is not axis]
        return f"the grain of {turned[0]} turns" if turned else ""


def _grain_of(piece: Piece) -> dict[str, Axis]:
    return {part.name: part.grain for part in piece.parts}


def _phrase(size: NamedSize, value: float) -> str:
    unit = {Kind.LENGTH: "mm", Kind.ANGLE: "deg", Kind.COUNT: "pcs"}.get(size.kind)
    return f"{value:.9g} {unit}" if unit else f"{value * 100:.9g} %"


def _at_end(tried: _Tried, size: NamedSize, end: float) -> Notice | None:
    wrong = tried.wrong(size, end)
    if not wrong:
        return None
    good, bad = size.value, end
    for _ in range(_HALVINGS):
        middle = (good + bad) / 2
        found = tried.wrong(size, middle)
        if found:
            bad, wrong = middle, found
        else:
            good = middle
    return Notice(
        "range cannot be used whole",
        f"from {size.name} {_value(tried, size, bad)} on toward {_value(tried, size, end)}: {wrong}",
        size.place,
        number=bad,
        remedy=f"end the range at {_value(tried, size, good)}, or say what shall hold there",
    )


def _value(tried: _Tried, size: NamedSize, value: float) -> str:
    if size.kind is Kind.LENGTH:
        return shown(value, tried.piece.unit)
    return format_angle(value) if size.kind is Kind.ANGLE else f"{value:g}"
