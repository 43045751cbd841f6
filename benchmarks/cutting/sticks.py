"""One-dimensional sets under a time limit: `python -m benchmarks.cutting.sticks [FOLDER] [--seconds 10]`.

FOLDER: files of the common plain-text layouts, read as `stick_files` says; without one, sets drawn by the
published recipes. Prints value, bound, gap, whether it is proven, and processor time of each, then a line for
each set. Every answer is counted over again piece by piece; a fault is printed, and makes the exit code 1.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Iterator

from benchmarks.cutting.stick_files import Instance, read
from benchmarks.cutting.stick_sets import sets
from benchmarks.cutting.tables import Row, asked_for, in_folder, shown

from scantling.cutting.solver.sticks import StickAnswer, StickProblem, solve


def main(words: list[str]) -> int:
    asked = asked_for("benchmarks.cutting.sticks", words)
    found = in_folder(asked.folder, read) if asked.folder else sets(asked.each, asked.seed)
    solve(StickProblem((), ()), seconds=1)  # what is compiled once is compiled before the first is timed
    return shown(_row(name, instance, asked.seconds, asked.seed) for name, instance in found)


def faults(problem: StickProblem, answer: StickAnswer) -> Iterator[str]:
    """What is wrong with an answer: sticks overfull, or not everything cut just as often as it is wanted."""
    made: Counter[int] = Counter()
    for cut in answer.cuts:
        stick = problem.sticks[cut.stick]
        lengths = [problem.wanted[n].length for n, _ in answer.laid(cut)]
        made.update({length: lengths.count(length) * cut.times for length in set(lengths)})
        room = stick.length - sum(stick.trim)
        if sum(lengths) + problem.kerf * (len(lengths) - 1) > room:
            yield f"{lengths} is too much for a stick of {room}"
    wanted = Counter({want.length: want.demand for want in problem.wanted if want.demand})
    left = Counter({problem.wanted[n].length: count for n, count in answer.unmet})
    if made + left != wanted:
        yield f"made {made - wanted} too many and {wanted - made - left} too few"
    if not answer.unmet and answer.value < answer.bound:
        yield f"the bound {answer.bound} is more than the value {answer.value}"


def _row(name: str, instance: Instance, seconds: float, seed: int) -> Row:
    start = time.process_time()
    answer = solve(instance.problem, seconds=seconds, seed=seed)
    took = time.process_time() - start
    wrong = tuple(faults(instance.problem, answer))
    known = f"best known {instance.best}" if instance.best is not None else ""
    return Row(name, instance.name, answer.value, answer.bound, answer.proven, took, wrong, known)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
