"""An error shown in the maker's own words: the line of the file, with a mark under what is meant."""

from __future__ import annotations

import re
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

from rich.cells import cell_len

from scantling.errors import Place, ReadError

SHOWN_BEFORE = 60  # characters of a long line shown before the words meant
_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")


def with_line(error: ReadError, folders: Sequence[Path]) -> str:
    """The message, then the line it speaks of; files are looked for in `folders`, then among the kits."""
    place = error.place
    line = _line_of(place, folders) if place else None
    if place is None or line is None:
        return str(error)
    at = place.character - 1
    start = max(0, at - SHOWN_BEFORE)
    meant = line[at : at + min(max(place.length, 1), SHOWN_BEFORE)]
    shown = _printable(line[start : start + 2 * SHOWN_BEFORE]).rstrip()
    mark = " " * cell_len(_printable(line[start:at])) + "^" * max(1, cell_len(_printable(meant)))
    return f"{error}\n    {shown}\n    {mark}"


def _printable(text: str) -> str:
    """As wide on a screen as it is long, so that the mark stands under its words."""
    return "".join(letter if letter.isprintable() else " " for letter in text)


def _line_of(place: Place, folders: Sequence[Path]) -> str | None:
    for source in (*(folder / place.file for folder in folders), files("scantling.piece") / place.file):
        try:
            lines = _BREAK.split(source.read_bytes().decode("utf-8-sig"))
        except (OSError, ValueError):
            continue
        if 0 < place.line <= len(lines):
            return lines[place.line - 1]
    return None
