"""Names for new lines: the heading a wood belongs under, and the next free mark to chalk on it."""

from __future__ import annotations

import re

from scantling.errors import Place
from scantling.piece.language.document import Scalar, as_name
from scantling.shop.boards import BOARD
from scantling.shop.editing.entries import FILE
from scantling.shop.editing.lines import lines_of
from scantling.shop.phrases import Phrase
from scantling.shop.rows import heading
from scantling.wood import UnknownSpecies, species_named

_MARK = re.compile(r"([^\d\s]*)(\d+)")
_STOCK = ("boards", "sheets", "lumber", "for sale")


def next_name(text: str, section: str, group: str) -> str:
    """The next free mark under a heading: W13 after W12. A new heading takes its wood's first letter."""
    lines = lines_of(text, section)
    here = [line.label for line in lines if as_name(line.group) == as_name(group)]
    letters = _letters(here) or _first_letter(group)
    taken = {as_name(line.label) for each in _STOCK for line in lines_of(text, each)}
    numbers = [
        int(found[2]) for name in taken if (found := _MARK.fullmatch(name)) and _same(found[1], letters)
    ]
    return f"{letters}{max(numbers, default=0) + 1}"


def name_for(text: str, section: str, group: str) -> str:
    """A mark for stock; fittings may stand under their kind alone."""
    return "" if section == "hardware" else next_name(text, section, group)


def headings_of(text: str, section: str) -> tuple[str, ...]:
    """The headings of a section in order of writing. Raises ReadError."""
    return tuple(dict.fromkeys(line.group for line in lines_of(text, section) if line.group))


def heading_meant(text: str, section: str, words: str) -> str:
    """The heading in the file that says what `words` say; `words` themselves if there is none."""
    plain = " ".join(words.split())
    groups = headings_of(text, section)
    for group in groups:
        if as_name(group) == as_name(plain):
            return group
    wanted = _meaning(plain) if section == "boards" else None
    found = (group for group in groups if wanted and _covers(wanted, _meaning(group)))
    return next(found, plain)


_Meaning = tuple[str, dict[str, str]]


def _meaning(words: str) -> _Meaning:
    """The wood by its handbook name, and what the heading shares. Raises ReadError."""
    wood, shared = heading(Scalar(words, Place(FILE, 1, 1)), BOARD)
    plain = {word: said.text.lower() for word, said in shared.items() if isinstance(said, Phrase)}
    try:
        return species_named(wood.text).name, plain
    except UnknownSpecies:
        return as_name(wood.text), plain


def _covers(wanted: _Meaning, there: _Meaning) -> bool:
    """The same wood, thickness and surface, and nothing wanted that is not said there."""
    surfaces = [said.get("surface", "rough") for _, said in (wanted, there)]
    nominal = [said.get("nominal", "") for _, said in (wanted, there)]
    more = all(there[1].get(word) == said for word, said in wanted[1].items() if word != "surface")
    return wanted[0] == there[0] and surfaces[0] == surfaces[1] and nominal[0] == nominal[1] and more


def _letters(names: list[str]) -> str:
    found = [each[1] for name in names if (each := _MARK.fullmatch(name))]
    return max(found, key=found.count, default="")


def _first_letter(group: str) -> str:
    word = re.match(r"[^,\d]+", group)
    last = word[0].split()[-1:] if word else []
    return last[0][0].upper() if last else "B"


def _same(name: str, letters: str) -> bool:
    return as_name(name) == as_name(letters)
