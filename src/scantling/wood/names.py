"""How makers' words for woods and panels are compared."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from scantling.errors import ScantlingError

_NOT_WORD = re.compile(r"[^a-z0-9]+")


@dataclass(eq=False)
class UnknownSpecies(ScantlingError):
    """No wood or panel goes by these words; `nearest` lists names that look like them."""

    words: str
    nearest: tuple[str, ...] = ()
    what: str = "wood"

    def __str__(self) -> str:
        hint = f" (nearest: {', '.join(self.nearest)})" if self.nearest else ""
        return f'no {self.what} is called "{self.words}"{hint}'


def plain(words: str) -> str:
    """Lower case, single spaces, no punctuation: `Yellow-poplar` and `yellow poplar` are the same."""
    return _NOT_WORD.sub(" ", words.lower()).strip()


def nearest_names(words: str, known: Iterable[str]) -> tuple[str, ...]:
    """Up to three known names that look like `words`, best first."""
    return tuple(get_close_matches(plain(words), sorted(known), n=3, cutoff=0.6))
