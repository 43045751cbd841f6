"""A new line from its cells: the sizes first, then each word in the table's order, defects last."""

from __future__ import annotations

import re
from collections.abc import Mapping

from scantling.errors import Place, ReadError
from scantling.shop.editing import clauses as phrase
from scantling.shop.editing.columns import Column, Sort, columns_of
from scantling.shop.editing.entries import FILE
from scantling.shop.editing.lines import KINDS

BY = re.compile(r"\s+[x×]\s+", re.IGNORECASE)


def line_words(section: str, cells: Mapping[str, str]) -> str:
    """`97 x 7 1/2 x 1, bow 3/8`; `yes` where there is nothing to say."""
    return ", ".join(words for _, words in clause_pieces(section, cells)) or phrase.BARE_YES


def clause_pieces(section: str, cells: Mapping[str, str]) -> list[tuple[str, str]]:
    """Each clause of the line with the key of the column it comes from. Raises ReadError."""
    pieces: list[tuple[str, str]] = []
    if size := size_words(cells, section):
        pieces.append(("length", phrase.written(KINDS[section], "size", size)))
    for column in columns_of(section):
        pieces.extend((column.key, words) for words in _clauses(section, column, cells.get(column.key, "")))
    return pieces


def _clauses(section: str, column: Column, words: str) -> list[str]:
    if not words or column.sort in (Sort.NAME, Sort.GROUP, Sort.SIZE):
        return []
    if column.sort is Sort.DEFECTS:
        return defects_listed(words)
    value = word_value(words, column)
    return [] if value is None else [phrase.written(KINDS[section], column.word, value)]


def word_value(words: str, column: Column) -> str | None:
    """What follows the word in a line; None for no clause."""
    if column.sort is Sort.FLAG:
        return {"": None, "yes": "", "no": None}.get(words, words)
    if column.sort is Sort.HOW_MANY and words == "any":
        return ""
    return words or None


def defects_listed(words: str) -> list[str]:
    """Defects of a cell, one from the other by `;`."""
    return [" ".join(each.split()) for each in words.split(";") if each.strip()]


def size_words(cells: Mapping[str, str], section: str) -> str | None:
    """The size cells in one: `97 x 7 1/2 x 1`. Raises ReadError if one before another is empty."""
    columns = [c for c in columns_of(section) if c.sort is Sort.SIZE]
    parts = [cells.get(column.key, "") for column in columns]
    while parts and not parts[-1]:
        parts.pop()
    for column, part in zip(columns, parts, strict=False):
        if not part:
            raise ReadError(
                f"{column.key} is not said", Place(FILE, 1, 1), "write length x width x thickness"
            )
    return " x ".join(parts) or None
