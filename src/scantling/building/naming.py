"""Parts as makers speak of them: `4 legs`, `the fixed top`, `drawer sides`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from scantling.piece.model import Part, PartName, Piece
from scantling.quantity import listed

_IRREGULAR = {"shelf": "shelves", "leaf": "leaves", "knife": "knives", "foot": "feet", "dado": "dadoes"}


def plural(noun: str) -> str:
    """The plural of a noun's last word."""
    *before, last = noun.split(" ")
    return " ".join([*before, _plural_word(last)])


def _plural_word(word: str) -> str:
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if re.search(r"(ss|x|z|ch|sh)$", word):
        return word + "es"
    if re.search(r"[^aeiou]y$", word):
        return word[:-1] + "ies"
    return word if word.endswith("s") else word + "s"


def numbered(count: int, noun: str) -> str:
    """`1 joint`, `4 joints`."""
    return f"{count} {noun if count == 1 else plural(noun)}"


@dataclass(frozen=True)
class Names:
    """Names of one piece's parts, grouped by the definition they are copies of."""

    piece: Piece

    @cached_property
    def _copies(self) -> dict[str, list[PartName]]:
        copies: dict[str, list[PartName]] = {}
        for part in self.piece.parts:
            copies.setdefault(part.definition, []).append(part.name)
        return copies

    @cached_property
    def _order(self) -> dict[PartName, int]:
        return {part.name: at for at, part in enumerate(self.piece.parts)}

    def noun(self, name: PartName) -> str:
        """What one copy is called when it does not matter which: `leg`, `drawer side`."""
        part = self.piece.part(name)
        return part.name if self.is_single(part) else part.definition.replace("/", " ")

    def is_single(self, part: Part) -> bool:
        return len(self._copies[part.definition]) == 1

    def in_order(self, names: Iterable[PartName]) -> tuple[PartName, ...]:
        """Each once, in the order of the piece."""
        return tuple(sorted(set(names), key=self._order.__getitem__))

    def counted(self, names: Iterable[PartName]) -> str:
        """`4 legs, the fixed top and left side panel`: copies counted, single parts by name."""
        return listed(self.counts(names))

    def counts(self, names: Iterable[PartName]) -> tuple[str, ...]:
        """The items of `counted`."""
        return tuple(
            found[0] if len(found) == 1 else self._several(found) for found in self.by_noun(names).values()
        )

    def any_counts(self, names: Iterable[PartName]) -> tuple[str, ...]:
        """`2 legs`, `a side panel`: for one of several equal sets, where no copy is meant in particular."""
        return tuple(
            _with_article(noun) if len(found) == 1 else self._several(found)
            for noun, found in self.by_noun(names).items()
        )

    def by_noun(self, names: Iterable[PartName]) -> dict[str, list[PartName]]:
        """Parts by what one copy is called, in the order of the piece."""
        grouped: dict[str, list[PartName]] = {}
        for name in self.in_order(names):
            grouped.setdefault(self.noun(name), []).append(name)
        return grouped

    def _several(self, found: list[PartName]) -> str:
        return f"{len(found)} {plural(self.noun(found[0]))}"


def _with_article(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"
