"""A cell as people type or paste it, made into words a shop file reads: `17,6`, `$ 1,240.50`, `3/4"`."""

from __future__ import annotations

import re

from scantling.errors import Place, ReadError
from scantling.quantity.kinds import LengthUnit
from scantling.shop.editing.columns import Column, Sort
from scantling.shop.editing.entries import FILE

_YES = frozenset(("yes", "y", "x", "true", "1", "✓"))
_NO = frozenset(("no", "n", "false", "0", "-"))
_BOTH_MARKS = re.compile(r"(?<=\d)([.,'’ ])(?=\d{3}([.,]))")
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d)")
_SIGNS = re.compile(r"[$€£¥]|\b(?:USD|EUR|GBP|CHF)\b")
_SPACES = str.maketrans(dict.fromkeys("\u00a0\u2007\u2008\u2009\u200a\u202f\t", " "))
_NUMERIC = frozenset((Sort.SIZE, Sort.LENGTH, Sort.NUMBER, Sort.MONEY, Sort.HOW_MANY))


def cleaned(words: str, column: Column, unit: LengthUnit, said_in: str = "") -> str:
    """The cell with plain spaces, points for decimal commas, and no signs of money.

    `said_in`: the unit its column's head names, added to a bare length if the file's is another.
    Raises ReadError for a comma that would begin a new clause.
    """
    plain = " ".join(words.translate(_SPACES).split())
    if column.sort is Sort.FLAG:
        return _flag(plain)
    if column.sort in _NUMERIC:
        plain = _number(plain, column.sort)
    if column.sort in (Sort.SIZE, Sort.LENGTH) and said_in and said_in != unit.value:
        plain = _with_unit(plain, said_in)
    if "," in plain and column.sort not in (Sort.NAME, Sort.GROUP):
        raise ReadError(f'"{plain}" has a comma', Place(FILE, 1, 1), "write it without one")
    return plain


def _flag(plain: str) -> str:
    low = plain.lower()
    return "yes" if low in _YES else "no" if low in _NO else plain


def _number(plain: str, sort: Sort) -> str:
    if sort is Sort.MONEY:
        plain = " ".join(_SIGNS.sub(" ", plain).split())
        plain = re.sub(r"(?<=\d) ?/ ?(?=[A-Za-z])", " a ", plain)
    plain = _BOTH_MARKS.sub(lambda mark: "" if mark[1] != mark[2] else mark[0], plain)
    return _DECIMAL_COMMA.sub(".", plain)


def _with_unit(plain: str, said_in: str) -> str:
    bare = re.fullmatch(r"[\d./ ½¼¾⅛⅜⅝⅞-]+", plain)
    return f"{plain} {'in' if said_in == LengthUnit.INCHES.value else said_in}" if bare else plain
