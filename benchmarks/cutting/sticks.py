"""One-dimensional sets under a time limit: `python -m benchmarks.cutting.sticks [FOLDER] [--seconds 10]`.

FOLDER: files of the common plain-text layouts, read as `stick_files` says; without one, sets drawn by the
published recipes. Prints value, bound, gap, whether it is proven, and processor time of each, then a line for
each set. Every answer is counted over again piece by piece; a fault is printed, and makes the exit code 1.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from benchmarks.cutting.stick_files import FormatError, Instance, read
from benchmarks.cutting.stick_sets import sets

from scantling.cutting.solver.sticks import StickAnswer, StickProblem, solve


@dataclass(frozen=True)
class Row:
    set: str
    name: str
    answer: StickAnswer
    best: int | None
    seconds: float
    faults: list[str]


def main(words: list[str]) -> int:
    asked = _asked(words)
    found = _folder(asked.folder) if asked.folder else sets(asked.each, asked.seed)
    solve(StickProblem((), ()), seconds=1)  # what is compiled once is compiled before the first is timed
    rows = [_row(name, instance, asked.seconds, asked.seed) for name, instance in found]
    for row in rows:
        _print(row)
    by_set: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        by_set[row.set].append(row)
    for name, mine in [*by_set.items(), ("all", rows)]:
        _print_set(name, mine)
    return int(any(row.faults for row in rows))


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
    return Row(name, instance.name, answer, instance.best, took, list(faults(instance.problem, answer)))


def _folder(folder: Path) -> Iterator[tuple[str, Instance]]:
    for path in sorted(p for p in folder.rglob("*") if p.is_file()):
        try:
            yield from ((path.parent.name, instance) for instance in read(path))
        except FormatError as error:
            print(f"passed over: {error}", file=sys.stderr)


def _print(row: Row) -> None:
    answer = row.answer
    known = f"  best known {row.best}" if row.best is not None else ""
    proven = "proven" if answer.proven else f"gap {answer.value - answer.bound}"
    print(
        f"{row.set:14} {row.name:24} {answer.value:7} {answer.bound:7} {proven:8} {row.seconds:7.2f} s{known}"
    )
    for fault in row.faults:
        print("    fault:", fault)


def _print_set(name: str, rows: list[Row]) -> None:
    if rows:
        times = [row.seconds for row in rows]
        proven = sum(row.answer.proven for row in rows)
        value, bound = (sum(getattr(row.answer, which) for row in rows) for which in ("value", "bound"))
        print(
            f"{name:14} {proven} of {len(rows)} proven, value {value}, bound {bound}, "
            f"mean {sum(times) / len(times):.2f} s, longest {max(times):.2f} s"
        )


def _asked(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.cutting.sticks")
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--each", type=int, default=5, help="how many of each set are drawn")
    parser.add_argument("--seed", type=int, default=0)
    return parser.parse_args(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
