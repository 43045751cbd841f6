"""Readers of the common plain-text sets of two-dimensional bin packing; layouts known from memory.

Numbers apart by space or line end; what follows other words on a line is passed over.

- class files, many problems in one: for each the class, how many pieces, two running numbers, the bin's
  height and width, then each piece's height and width
- one problem a file: how many kinds, the bin's width and height, then for each kind its number, width, height
  and demand, perhaps more that is not needed here
- sheets of several sizes, one problem a file: how many kinds of sheet; for each its length, width, how many
  (0: as many as wanted) and cost (left out: its area); how many kinds of piece; for each its length, width
  and demand. Where more numbers follow: how many flaws; for each the number of its sheet (from 1), then where
  it begins along and across, its length and width
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from benchmarks.cutting.stick_files import FormatError

from scantling.cutting.solver.guillotine import Flaw, Rectangle, SheetKind, SheetProblem

_WHOLE = re.compile(r"\d+")
_KINDS = 3  # fewest numbers told of a kind, and its demand


@dataclass(frozen=True)
class SheetInstance:
    set: str
    name: str
    problem: SheetProblem


def read(path: Path, *, turns: bool) -> list[SheetInstance]:
    """The problems of one file, pieces free to turn or not. Raises FormatError."""
    lines = list(_lines(path.read_text(encoding="utf-8", errors="replace")))
    if not lines:
        raise FormatError(f"{path.name}: there are no numbers in it")
    if len(lines) > 1 and len(lines[0]) == 1 and len(lines[1]) >= 2 and len(lines) == lines[0][0] + 2:
        return [SheetInstance(path.parent.name, path.stem, _one(path, lines, turns))]
    if len(lines) > 1 and len(lines[0]) == 1 and len(lines[1]) in (3, 4):
        return [SheetInstance(path.parent.name, path.stem, _unequal(path, lines, turns))]
    return list(_classes(path, [number for line in lines for number in line], turns))


def _one(path: Path, lines: list[list[int]], turns: bool) -> SheetProblem:
    wanted = []
    for line in lines[2:]:
        if len(line) < _KINDS:
            raise FormatError(f"{path.name}: expected number, width, height and demand, found {line}")
        demand = line[_KINDS] if len(line) > _KINDS else 1
        wanted.append(Rectangle(line[1], line[2], demand, turns))
    return _problem(path, (lines[1][0], lines[1][1]), wanted)


def _classes(path: Path, numbers: list[int], turns: bool) -> Iterator[SheetInstance]:
    at = 0
    while at < len(numbers):
        if at + 6 > len(numbers):
            raise FormatError(f"{path.name}: it ends within the head of a problem")
        kind, count, number, _, high, wide = numbers[at : at + 6]
        sizes = numbers[at + 6 : at + 6 + 2 * count]
        if len(sizes) < 2 * count:
            raise FormatError(f"{path.name}: class {kind}, {count} pieces: only {len(sizes) // 2} are told")
        wanted = [Rectangle(w, h, 1, turns) for h, w in zip(sizes[::2], sizes[1::2], strict=True)]
        yield SheetInstance(f"class {kind}", f"{count}/{number}", _problem(path, (wide, high), wanted))
        at += 6 + 2 * count


def _unequal(path: Path, lines: list[list[int]], turns: bool) -> SheetProblem:
    kinds, rest = _told(path, lines, "sheet: length, width, how many, perhaps cost", (3, 4))
    pieces, rest = _told(path, rest, "piece: length, width and demand", (3,))
    flaws, rest = _told(path, rest, "flaw: sheet, place and size", (5,)) if rest else ([], rest)
    if rest:
        raise FormatError(f"{path.name}: nothing more was expected after {len(flaws)} flaws, found {rest[0]}")
    if any(not 1 <= kind <= len(kinds) for kind, *_ in flaws):
        raise FormatError(f"{path.name}: flaws lie on sheets 1 to {len(kinds)}")
    lying: dict[int, list[Flaw]] = {}
    for kind, x, y, long, wide in flaws:
        lying.setdefault(kind - 1, []).append(Flaw(x, x + long, y, y + wide))
    try:
        sheets = tuple(
            SheetKind(
                k[0], k[1], k[3] if len(k) > 3 else k[0] * k[1], k[2] or None, flaws=tuple(lying.get(n, ()))
            )
            for n, k in enumerate(kinds)
        )
        return SheetProblem(sheets, tuple(Rectangle(*piece, turns) for piece in pieces))
    except ValueError as error:
        raise FormatError(f"{path.name}: {error}") from None


def _told(
    path: Path, lines: list[list[int]], what: str, sizes: tuple[int, ...]
) -> tuple[list[list[int]], list[list[int]]]:
    """A count and so many lines of so many numbers; and the lines that follow."""
    count = lines[0][0] if lines and len(lines[0]) == 1 else -1
    told, rest = lines[1 : 1 + count], lines[1 + max(count, 0) :]
    if count < 0 or len(told) < count or any(len(line) not in sizes for line in told):
        raise FormatError(f"{path.name}: expected a count, then as many lines, each of a {what}")
    return told, rest


def _problem(path: Path, sheet: tuple[int, int], wanted: list[Rectangle]) -> SheetProblem:
    try:
        return SheetProblem((SheetKind(*sheet),), tuple(wanted))
    except ValueError as error:
        raise FormatError(f"{path.name}: {error}") from None


def _lines(text: str) -> Iterator[list[int]]:
    """Lines that begin with numbers, and these; what follows the first other word is a remark."""
    for line in text.splitlines():
        numbers = []
        for word in line.partition("#")[0].replace(",", " ").split():
            if not _WHOLE.fullmatch(word):
                break
            numbers.append(int(word))
        if numbers:
            yield numbers
