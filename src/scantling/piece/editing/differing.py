"""Two texts of a file side by side: the lines that differ, and the characters that differ in them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher
from enum import Enum

# Comparing takes time by the square: past these, lines found everywhere and single characters count less.
MANY_LINES = 2_000
LONGEST_MARKED = 500  # characters of a line
Marks = tuple[tuple[int, int], ...]


class LineKind(Enum):
    REMOVED = "removed"
    ADDED = "added"
    SAME = "same"
    GAP = "gap"  # lines that are the same and not shown


@dataclass(frozen=True, slots=True)
class DifferingLine:
    """One line; `number`, from 1, is that of the earlier text for what was removed, else of the later one.

    `marks`: the changed characters, as (from, up to but not with).
    """

    kind: LineKind
    number: int
    text: str
    marks: Marks = ()


def difference(before: str, after: str, around: int = 1) -> tuple[DifferingLine, ...]:
    """What differs between two texts, line by line, with `around` lines that are the same on either side."""
    old, new = before.splitlines(), after.splitlines()
    many = len(new) > MANY_LINES
    groups = SequenceMatcher(None, old, new, autojunk=many).get_grouped_opcodes(around)
    found: list[DifferingLine] = []
    for group in groups:
        if found:
            found.append(DifferingLine(LineKind.GAP, 0, ""))
        for tag, a, b, c, d in group:
            if tag == "equal":
                found += [DifferingLine(LineKind.SAME, c + i + 1, line) for i, line in enumerate(new[c:d])]
            else:
                found += _changed(old[a:b], new[c:d], a, c)
    return tuple(found)


def _changed(old: list[str], new: list[str], first_old: int, first_new: int) -> Iterator[DifferingLine]:
    """Pairs of lines that stand for each other, then what is over."""
    for i in range(max(len(old), len(new))):
        was, now = old[i] if i < len(old) else None, new[i] if i < len(new) else None
        marks = _marks(was, now) if was is not None and now is not None else ((), ())
        if was is not None:
            yield DifferingLine(LineKind.REMOVED, first_old + i + 1, was, marks[0])
        if now is not None:
            yield DifferingLine(LineKind.ADDED, first_new + i + 1, now, marks[1])


def _marks(was: str, now: str) -> tuple[Marks, Marks]:
    if max(len(was), len(now)) > LONGEST_MARKED:
        return ((0, len(was)),), ((0, len(now)),)
    changes = SequenceMatcher(None, was, now, autojunk=False).get_opcodes()
    removed = tuple((a, b) for tag, a, b, _, _ in changes if tag != "equal" and a < b)
    added = tuple((c, d) for tag, _, _, c, d in changes if tag != "equal" and c < d)
    return removed, added
