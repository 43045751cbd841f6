"""Two-dimensional sets under a time limit: `python -m benchmarks.cutting.sheets [FOLDER] [--turns]`.

FOLDER: files of the common plain-text layouts, read as `sheet_files` says; without one, the ten classic
classes drawn by their recipes, or (`--unequal`) sheets of several sizes. Prints cost, bound, gap and
processor time of each problem, then a line for each set. Every answer is cut over again; a fault is printed,
and makes the exit code 1.
"""

from __future__ import annotations

import sys
import time
from functools import partial

from benchmarks.cutting.sheet_files import SheetInstance, read
from benchmarks.cutting.sheet_sets import sets, unequal
from benchmarks.cutting.tables import Row, asked_for, in_folder, shown

from scantling.cutting.solver.guillotine import solve
from scantling.cutting.solver.guillotine.checking import faults


def main(words: list[str]) -> int:
    asked = asked_for(
        "benchmarks.cutting.sheets",
        words,
        turns="pieces may lie across",
        unequal="draw sheets of several sizes",
    )
    draw = unequal if asked.unequal else sets
    drawn = draw(asked.each, asked.seed, turns=asked.turns)
    if asked.folder:
        drawn = (instance for _, instance in in_folder(asked.folder, partial(read, turns=asked.turns)))
    return shown(_row(instance, asked.seconds, asked.seed) for instance in drawn)


def _row(instance: SheetInstance, seconds: float, seed: int) -> Row:
    start = time.process_time()
    answer = solve(instance.problem, seconds=seconds, seed=seed)
    took = time.process_time() - start
    wrong = tuple(faults(answer))
    return Row(instance.set, instance.name, answer.value, answer.bound, answer.proven, took, wrong)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
