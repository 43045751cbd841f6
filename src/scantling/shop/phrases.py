"""Lines of a shop file split into clauses that remember their places."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

from scantling.errors import Place
from scantling.piece.language.document import Scalar


@dataclass(frozen=True, slots=True)
class Phrase:
    """Some words of a scalar: `text` starts `offset` characters into it."""

    text: str
    scalar: Scalar
    offset: int = 0

    @staticmethod
    def of(scalar: Scalar) -> Phrase:
        return Phrase(scalar.text, scalar)

    def place(self, at: int = 0) -> Place:
        """Where the character `at` of the phrase stands in the file."""
        at = min(max(at, 0), len(self.text))
        return self.scalar.place_at(self.offset + at, max(len(self.text) - at, 1))

    def part(self, start: int, stop: int) -> Phrase:
        """The words from `start` to `stop`, without blanks at either side."""
        words = self.text[start:stop]
        lead = len(words) - len(words.lstrip())
        return Phrase(words.strip(), self.scalar, self.offset + start + lead)

    def after(self, length: int) -> Phrase:
        return self.part(length, len(self.text))

    def clauses(self) -> tuple[Phrase, ...]:
        """The phrase cut at its commas."""
        edges = [-1, *(found.start() for found in re.finditer(",", self.text)), len(self.text)]
        return tuple(self.part(a + 1, b) for a, b in pairwise(edges))
