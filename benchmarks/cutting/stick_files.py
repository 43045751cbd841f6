"""Readers of the common plain-text sets of bin packing and cutting stock in one dimension.

All are known from memory of their usual layouts: numbers apart by space or line end, `#` to the line's end
passed over. Told apart by how many numbers there are:

- bin packing: how many sizes, the capacity, each size
- cutting stock: how many kinds, the capacity, for each kind its length and its demand
- vector packing in one dimension: a 1, the capacity, how many kinds, for each kind its length and its demand
- many problems in one file: how many; for each its name, then capacity, how many sizes, the best number of
  bins known, each size
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from scantling.cutting.solver.sticks import Length, Stick, StickProblem


class FormatError(Exception):
    """What a file should have said, and where."""


@dataclass(frozen=True)
class Instance:
    """`best`: fewest sticks known, where the file says."""

    name: str
    problem: StickProblem
    best: int | None = None


@dataclass(frozen=True, slots=True)
class _Word:
    text: str
    line: int


def read(path: Path) -> list[Instance]:
    """The problems of one file. Raises FormatError."""
    words = list(_words(path.read_text(encoding="utf-8", errors="replace")))
    if not words:
        raise FormatError(f"{path.name}: it is empty")
    if len(words) > 1 and not _is_number(words[1]):
        return list(_library(path, words))
    numbers = [_number(path, word) for word in words]
    if len(numbers) < 2:
        raise FormatError(f"{path.name}, line 1: expected how many sizes, then the capacity")
    count, capacity, rest = numbers[0], numbers[1], numbers[2:]
    if len(rest) == count:
        return [Instance(path.stem, packing(capacity, rest))]
    if len(rest) == 2 * count:
        wanted = zip(rest[::2], rest[1::2], strict=True)
        return [Instance(path.stem, _problem(path, capacity, dict_of(wanted)))]
    if count == 1 and len(rest) == 1 + 2 * rest[0]:
        wanted = zip(rest[1::2], rest[2::2], strict=True)
        return [Instance(path.stem, _problem(path, capacity, dict_of(wanted)))]
    raise FormatError(
        f"{path.name}: line 1 says {count}, so {count} sizes or {count} pairs of length and demand should "
        f"follow the capacity, but {len(rest)} numbers do"
    )


def packing(capacity: int, sizes: list[int]) -> StickProblem:
    """Sizes to be packed into bins of one capacity."""
    return _problem(None, capacity, Counter(sizes))


def dict_of(pairs: Iterator[tuple[int, int]]) -> Counter[int]:
    """Demand by length; a length named twice is wanted as often as both say."""
    found: Counter[int] = Counter()
    for length, demand in pairs:
        found[length] += demand
    return found


def _library(path: Path, words: list[_Word]) -> Iterator[Instance]:
    at = 1
    for _ in range(_number(path, words[0])):
        if at + 4 > len(words):
            raise FormatError(f"{path.name}: it ends before all {words[0].text} problems are told")
        name, head = words[at].text, [_number(path, word) for word in words[at + 1 : at + 4]]
        capacity, count, best = head
        sizes = [_number(path, word) for word in words[at + 4 : at + 4 + count]]
        if len(sizes) < count:
            raise FormatError(f"{path.name}: {name} should have {count} sizes and has {len(sizes)}")
        yield Instance(name, packing(capacity, sizes), best)
        at += 4 + count


def _problem(path: Path | None, capacity: int, wanted: Counter[int]) -> StickProblem:
    try:
        lengths = tuple(Length(length, demand) for length, demand in sorted(wanted.items(), reverse=True))
        return StickProblem((Stick(capacity),), lengths)
    except ValueError as error:
        raise FormatError(f"{path.name if path else 'sizes'}: {error}") from None


def _words(text: str) -> Iterator[_Word]:
    for number, line in enumerate(text.splitlines(), start=1):
        yield from (_Word(word, number) for word in line.partition("#")[0].split())


def _is_number(word: _Word) -> bool:
    return word.text.lstrip("+").replace(".", "", 1).isdigit()


def _number(path: Path, word: _Word) -> int:
    """A whole number; one written 75.0 counts, one written 75.5 is told of, for nothing may be rounded."""
    try:
        value = float(word.text)
    except ValueError:
        raise FormatError(f"{path.name}, line {word.line}: expected a number, found {word.text!r}") from None
    if value != int(value):
        raise FormatError(f"{path.name}, line {word.line}: {word.text} is not whole; scale the file first")
    return int(value)
