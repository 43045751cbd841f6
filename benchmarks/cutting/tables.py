"""What the runs over published sets share: files of a folder, the table, and what may be asked for."""

from __future__ import annotations

import argparse
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from benchmarks.cutting.stick_files import FormatError

T = TypeVar("T")


@dataclass(frozen=True)
class Row:
    """One problem run. `seconds`: of processor time; `note`: what else is known of it."""

    set: str
    name: str
    value: int
    bound: int
    proven: bool
    seconds: float
    faults: tuple[str, ...]
    note: str = ""


def asked_for(program: str, words: list[str], **flags: str) -> argparse.Namespace:
    """The folder, if any, and the limits; `flags`: further ones, with what they say."""
    parser = argparse.ArgumentParser(prog=f"python -m {program}")
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--each", type=int, default=1, help="how many of each kind are drawn")
    parser.add_argument("--seed", type=int, default=0)
    for flag, said in flags.items():
        parser.add_argument(f"--{flag}", action="store_true", help=said)
    return parser.parse_args(words)


def in_folder(folder: Path, read: Callable[[Path], list[T]]) -> Iterator[tuple[str, T]]:
    """The problems of every file, by its folder's name; a file that cannot be read is told of."""
    for path in sorted(p for p in folder.rglob("*") if p.is_file()):
        try:
            yield from ((path.parent.name, instance) for instance in read(path))
        except FormatError as error:
            print(f"passed over: {error}", file=sys.stderr)


def shown(rows: Iterator[Row]) -> int:
    """Print each row as it comes, then a line for each set; the exit code: 1 if anything was at fault."""
    by_set: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        _print(row)
        by_set[row.set].append(row)
    everything = [row for mine in by_set.values() for row in mine]
    for name, mine in [*by_set.items(), ("all", everything)]:
        _print_set(name, mine)
    return int(any(row.faults for row in everything))


def _print(row: Row) -> None:
    proven = "proven" if row.proven else f"gap {row.value - row.bound}"
    print(
        f"{row.set:14} {row.name:24} {row.value:7} {row.bound:7} {proven:8} {row.seconds:7.2f} s  {row.note}"
    )
    for fault in row.faults:
        print("    fault:", fault)


def _print_set(name: str, rows: Sequence[Row]) -> None:
    if rows:
        times = [row.seconds for row in rows]
        value, bound = sum(row.value for row in rows), sum(row.bound for row in rows)
        proven = sum(row.proven for row in rows)
        print(
            f"{name:14} {proven} of {len(rows)} proven, value {value}, bound {bound}, "
            f"mean {sum(times) / len(times):.2f} s, longest {max(times):.2f} s"
        )
