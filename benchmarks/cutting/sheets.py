"""Two-dimensional sets under a time limit: `python -m benchmarks.cutting.sheets [FOLDER] [--turns]`.

FOLDER: files of the common plain-text layouts, read as `sheet_files` says; without one, the ten classic
classes drawn by their recipes. Prints sheets, bound, gap and processor time of each problem, then a line for
each set. Every answer is cut over again; a fault is printed, and makes the exit code 1.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Iterator
from functools import partial

from benchmarks.cutting.sheet_files import SheetInstance, read
from benchmarks.cutting.sheet_sets import sets
from benchmarks.cutting.tables import Row, asked_for, in_folder, shown

from scantling.cutting.solver.guillotine import NOTHING, Piece, SheetAnswer, solve


def main(words: list[str]) -> int:
    asked = asked_for("benchmarks.cutting.sheets", words, turns="pieces may lie across")
    drawn = sets(asked.each, asked.seed, turns=asked.turns)
    if asked.folder:
        drawn = (instance for _, instance in in_folder(asked.folder, partial(read, turns=asked.turns)))
    return shown(_row(instance, asked.seconds, asked.seed) for instance in drawn)


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


def _row(instance: SheetInstance, seconds: float, seed: int) -> Row:
    start = time.process_time()
    answer = solve(instance.problem, seconds=seconds, seed=seed)
    took = time.process_time() - start
    wrong = tuple(faults(answer))
    return Row(instance.set, instance.name, answer.value, answer.bound, answer.proven, took, wrong)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
