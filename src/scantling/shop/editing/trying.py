"""Cells tried as a line in a small shop of their own, so that each fault is told at its cell.

The reader of shop files is the only judge: its first complaint is laid at the cell it stands in, that cell
gets words known to be good, and the line is tried again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scantling.errors import ReadError
from scantling.quantity.kinds import LengthUnit
from scantling.shop.editing.columns import EXAMPLES, Column, Sort, columns_of
from scantling.shop.editing.entries import FILE
from scantling.shop.editing.lines import GROUPED
from scantling.shop.editing.written import BY, clause_pieces
from scantling.shop.read import read_shop_text
from scantling.shop.words import AmissError, some_length


def faults_of(section: str, cells: Mapping[str, str], unit: LengthUnit) -> dict[str, ReadError]:
    """What is wrong with the cells of one line, by column key; "" for the line as a whole."""
    columns = columns_of(section)
    faults = dict(_missing(columns, cells)) | dict(_bad_sizes(columns, cells, unit))
    good = _mended(columns, cells, section) if faults else dict(cells)
    for _ in columns:
        found = _first_fault(section, good, unit)
        if found is None:
            break
        key, error = found
        faults.setdefault(key, error)
        if good.get(key, "") == EXAMPLES[section].get(key, ""):
            break
        good = _mended(columns, good, section) if _stands_with_others(columns, key) else good
        good[key] = EXAMPLES[section].get(key, "")
    return faults


def _missing(columns: tuple[Column, ...], cells: Mapping[str, str]) -> Iterator[tuple[str, ReadError]]:
    for column in columns:
        if column.wanted and not cells.get(column.key):
            yield column.key, ReadError("this is wanted", None, f"write its {column.head.lower()}")


def _bad_sizes(
    columns: tuple[Column, ...], cells: Mapping[str, str], unit: LengthUnit
) -> Iterator[tuple[str, ReadError]]:
    for column in columns:
        if column.sort is Sort.SIZE and cells.get(column.key):
            try:
                some_length(cells[column.key], unit)
            except AmissError as amiss:
                yield column.key, ReadError(amiss.message, None, "such as 7 1/2, 0.71 or 18 mm")


def _stands_with_others(columns: tuple[Column, ...], key: str) -> bool:
    return any(c.key == key and c.sort in (Sort.SIZE, Sort.GROUP) for c in columns)


def _mended(columns: tuple[Column, ...], cells: Mapping[str, str], section: str) -> dict[str, str]:
    """Sizes and heading are judged by each other, so they are made good together."""
    good = {c.key: EXAMPLES[section].get(c.key, "") for c in columns if c.sort in (Sort.SIZE, Sort.GROUP)}
    missing = {k: EXAMPLES[section].get(k, "") for k in EXAMPLES[section] if not cells.get(k)}
    return {**cells, **missing, **good}


def _first_fault(section: str, cells: Mapping[str, str], unit: LengthUnit) -> tuple[str, ReadError] | None:
    try:
        pieces = clause_pieces(section, cells)
    except ReadError as error:
        return "length", error
    head, start = _heading(section, cells)
    words = ", ".join(words for _, words in pieces) or "yes"
    try:
        read_shop_text(f"shop: tried\nunits: {unit.value}\n{section}:\n{head}{_quoted(words)}\n", FILE)
    except ReadError as error:
        return _key_at(section, pieces, error, head.count("\n") + 4, start), error
    return None


def _heading(section: str, cells: Mapping[str, str]) -> tuple[str, int]:
    """What stands before the words of the line, and the character where they begin."""
    names = {c.sort: cells.get(c.key, "") for c in columns_of(section)}
    label = _quoted(names[Sort.NAME] or "T1")
    if section not in GROUPED:
        line = f"  {label}: "
        return line, len(line) + 2
    group = _quoted(names[Sort.GROUP])
    if section == "hardware" and not names[Sort.NAME]:
        line = f"  {group}: "
        return line, len(line) + 2
    line = f"    {label}: "
    return f"  {group}:\n{line}", len(line) + 2


def _quoted(words: str) -> str:
    return "'" + words.replace("'", "''") + "'"


def _key_at(section: str, pieces: list[tuple[str, str]], error: ReadError, line: int, start: int) -> str:
    """The column whose words stand where the error is."""
    sorts = {c.sort: c.key for c in columns_of(section)}
    place = error.place
    if place is None or place.line < line:
        return sorts.get(Sort.GROUP, "")
    if place.character < start:
        return sorts[Sort.NAME] if section != "hardware" or line > 4 else sorts[Sort.GROUP]
    at = start
    for key, words in pieces:
        if place.character < at + len(words) + 2:
            return _size_at(section, words, place.character - at) if key == "length" else key
        at += len(words) + 2
    return pieces[-1][0] if pieces else ""


def _size_at(section: str, words: str, at: int) -> str:
    """Which of the sizes stands `at` characters into them."""
    keys = [c.key for c in columns_of(section) if c.sort is Sort.SIZE]
    before = len(BY.findall(words[:at]))
    return keys[min(before, len(keys) - 1)] if keys else "length"
