"""Two-dimensional sets under a time limit: `python -m benchmarks.cutting.sheets [FOLDER] [--turns]`.

FOLDER: files of the common plain-text layouts, read as `sheet_files` says; without one, the ten classic
classes drawn by their recipes. Prints sheets, bound, gap and processor time of each problem, then a line for
each set. Every answer is cut over again; a fault is printed, and makes the exit code 1.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from benchmarks.cutting.sheet_files import SheetInstance, read
from benchmarks.cutting.sheet_sets import sets
from benchmarks.cutting.stick_files import FormatError

from scantling.cutting.solver.guillotine import NOTHING, Piece, SheetAnswer, solve


@dataclass(frozen=True)
class Row:
    instance: SheetInstance
    answer: SheetAnswer
    seconds: float
    faults: list[str]


def main(words: list[str]) -> int:
    asked = _asked(words)
    drawn = sets(asked.each, asked.seed, turns=asked.turns)
    rows = []
    for instance in _folder(asked.folder, asked.turns) if asked.folder else drawn:
        start = time.process_time()
        answer = solve(instance.problem, seconds=asked.seconds, seed=asked.seed)
        rows.append(Row(instance, answer, time.process_time() - start, list(faults(answer))))
        _print(rows[-1])
    by_set: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        by_set[row.instance.set].append(row)
    for name, mine in [*by_set.items(), ("all", rows)]:
        _print_set(name, mine)
    return int(any(row.faults for row in rows))


def faults(answer: SheetAnswer) -> Iterator[str]:
    """What is wrong with an answer, every sheet cut over again from its whole size."""
    problem = answer.problem
    made: Counter[int] = Counter()
    for sheet in answer.sheets:
        yield from _cut(sheet, (0, 0, problem.sheet.length, problem.sheet.width), problem.kerf)
        made.update(leaf.wanted for leaf in sheet.leaves() if leaf.wanted != NOTHING)
        for leaf in sheet.leaves():
            if leaf.wanted != NOTHING:
                want = problem.wanted[leaf.wanted]
                ways = {(want.length, want.width), (want.width, want.length) if want.turns else (0, 0)}
                if (leaf.length, leaf.width) not in ways:
                    yield f"{leaf} is not {want}"
    unmet = dict(answer.unmet)
    for number, want in enumerate(problem.wanted):
        if made[number] + unmet.get(number, 0) != want.demand:
            yield f"{made[number]} made of {want}"
    if answer.bound > answer.value and not unmet:
        yield "the bound is above the value"


def _cut(piece: Piece, box: tuple[int, int, int, int], kerf: int) -> Iterator[str]:
    x, y, length, width = box
    if (piece.x, piece.y, piece.length, piece.width) != box:
        yield f"{piece} should be {box}"
    if not piece.parts:
        return
    low = (x, y, piece.at - x, width) if piece.across else (x, y, length, piece.at - y)
    at = piece.at + kerf
    high = (at, y, x + length - at, width) if piece.across else (x, at, length, y + width - at)
    for part, expected in zip(piece.parts, (low, high), strict=False):
        yield from _cut(part, expected, kerf)


def _folder(folder: Path, turns: bool) -> Iterator[SheetInstance]:
    for path in sorted(p for p in folder.rglob("*") if p.is_file()):
        try:
            yield from read(path, turns=turns)
        except FormatError as error:
            print(f"passed over: {error}", file=sys.stderr)


def _print(row: Row) -> None:
    answer = row.answer
    proven = "proven" if answer.proven else f"gap {answer.value - answer.bound}"
    name = f"{row.instance.set:10} {row.instance.name:16}"
    print(f"{name} {answer.value:6} {answer.bound:6} {proven:8} {row.seconds:7.2f} s")
    for fault in row.faults:
        print("    fault:", fault)


def _print_set(name: str, rows: list[Row]) -> None:
    if rows:
        proven = sum(row.answer.proven for row in rows)
        value, bound = (sum(getattr(row.answer, which) for row in rows) for which in ("value", "bound"))
        mean = sum(row.seconds for row in rows) / len(rows)
        print(f"{name:10} {proven} of {len(rows)} proven, sheets {value}, bound {bound}, mean {mean:.2f} s")


def _asked(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.cutting.sheets")
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--turns", action="store_true", help="pieces may lie across")
    parser.add_argument("--each", type=int, default=1, help="how many of each class and number are drawn")
    parser.add_argument("--seed", type=int, default=0)
    return parser.parse_args(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
