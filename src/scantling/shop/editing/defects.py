"""Defects drawn on a board, written beside it as a maker would; each by its number on the line, from 1."""

from __future__ import annotations

from scantling.errors import Conflict, ReadError
from scantling.shop.defects import SHAPE
from scantling.shop.editing.entries import Path, names_of, shop_of
from scantling.shop.editing.lines import Line, line_at, lines_of, with_defect, with_one_more, without_defect
from scantling.shop.editing.measures import defect_words
from scantling.shop.editing.tables import verified
from scantling.shop.model import Board, Defect


def board_path(text: str, board: str) -> Path:
    """Where the line of that board stands. Raises ReadError if it is not there any more."""
    place = board_of(shop_of(text).boards, board).place
    lines = lines_of(text, "boards")
    return next(line.path for line in lines if line.at == (place.line, place.character))


def add_defect(text: str, board: str, defect: Defect) -> str:
    """`text` with a defect more on that board. Raises ReadError."""
    path = board_path(text, board)
    return verified(text, with_one_more(text, path, _words(text, board, defect)), (path,))


def change_defect(text: str, board: str, number: int, defect: Defect, was: str) -> str:
    """`text` with one defect moved, sized or named anew. Raises Conflict if it no longer says `was`."""
    path, words = board_path(text, board), _words(text, board, defect)
    _as_shown(line_at(text, path), number, was, words)
    return verified(text, with_defect(text, path, number, words), (path,))


def remove_defect(text: str, board: str, number: int, was: str) -> str:
    """`text` without one defect. Raises Conflict if it no longer says `was`."""
    path = board_path(text, board)
    _as_shown(line_at(text, path), number, was, "")
    return verified(text, without_defect(text, path, number), (path,))


def defect_lines(text: str, board: str) -> tuple[str, ...]:
    """The defects of a board as written, in order. Raises ReadError."""
    return line_at(text, board_path(text, board)).defects


def defect_reaches(words: str) -> tuple[str, str, str, str]:
    """The four lengths of a written defect, as written: from and to along, from and to across."""
    found = SHAPE.fullmatch(words)
    assert found is not None  # `read_shop_text` refuses any other
    return found[2], found[3], found[4], found[5]


def _as_shown(line: Line, number: int, was: str, wanted: str) -> None:
    there = 0 < number <= len(line.defects)
    now = line.defects[number - 1] if there else ""
    if not there or now != was:
        raise Conflict(now, was, wanted)


def _words(text: str, board: str, defect: Defect) -> str:
    shop = shop_of(text)
    return defect_words(defect, board_of(shop.boards, board), shop)


def board_of(boards: tuple[Board, ...], board: str) -> Board:
    """The board of that name. Raises ReadError if it is not there any more."""
    for each in boards:
        if names_of((each.id,)) == names_of((board,)):
            return each
    raise ReadError(f'board "{board}" is not in the shop file any more', None, "load the page again")
