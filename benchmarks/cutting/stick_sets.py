"""Bin packing and cutting stock drawn by the published recipes (from memory); the numbers drawn are ours.

Falkenauer 1996 (uniform, triplets) · Scholl, Klein and Jürgens 1997 (three sets) · Wäscher and Gau 1996 ·
Schoenfield 2002 (large items of 1 to 800 in 1000, as in his hard set)
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator

from benchmarks.cutting.stick_files import Instance, packing

from scantling.cutting.solver.sticks import Length, Stick, StickProblem


def uniform(draw: random.Random, count: int) -> StickProblem:
    return packing(150, [draw.randint(20, 100) for _ in range(count)])


def triplets(draw: random.Random, count: int) -> StickProblem:
    sizes: list[int] = []
    for _ in range(count // 3):
        first = draw.randint(380, 490)
        second = draw.randint(250, (1000 - first) // 2)
        sizes += [first, second, 1000 - first - second]
    return packing(1000, sizes)


def scholl_1(draw: random.Random) -> StickProblem:
    low, count = draw.choice((1, 20, 30)), draw.choice((50, 100, 200, 500))
    return packing(draw.choice((100, 120, 150)), [draw.randint(low, 100) for _ in range(count)])


def scholl_2(draw: random.Random) -> StickProblem:
    mean, spread = draw.choice((333, 200, 143, 111)), draw.choice((0.2, 0.5, 0.9))
    low, high = round(mean * (1 - spread)), round(mean * (1 + spread))
    return packing(1000, [draw.randint(low, high) for _ in range(draw.choice((50, 100, 200, 500)))])


def scholl_3(draw: random.Random) -> StickProblem:
    return packing(100_000, [draw.randint(20_000, 35_000) for _ in range(200)])


def waescher(draw: random.Random) -> StickProblem:
    share = draw.choice((0.25, 0.5, 0.75, 1.0))
    wanted: Counter[int] = Counter()
    for _ in range(draw.choice((10, 20, 30, 40, 50))):
        wanted[draw.randint(1, round(10_000 * share))] += draw.randint(1, 2 * draw.choice((10, 50)))
    lengths = tuple(Length(length, demand) for length, demand in sorted(wanted.items(), reverse=True))
    return StickProblem((Stick(10_000),), lengths)


def large(draw: random.Random) -> StickProblem:
    return packing(1000, [draw.randint(1, 800) for _ in range(draw.choice((160, 180, 200)))])


def sets(each: int, seed: int) -> Iterator[tuple[str, Instance]]:
    """So many of every set."""
    made = {
        **{f"uniform {n}": lambda d, n=n: uniform(d, n) for n in (120, 250, 500, 1000)},
        **{f"triplets {n}": lambda d, n=n: triplets(d, n) for n in (60, 120, 249, 501)},
        "Scholl 1": scholl_1,
        "Scholl 2": scholl_2,
        "Scholl 3": scholl_3,
        "Wäscher": waescher,
        "large": large,
    }
    for name, make in made.items():
        for number in range(each):
            yield name, Instance(f"{name} {number}", make(random.Random(f"{seed} {name} {number}")))
