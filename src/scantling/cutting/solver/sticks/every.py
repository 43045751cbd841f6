"""All fullest patterns of a small problem: with these the best in whole patterns is the best there is."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice, product

from scantling.cutting.solver.sticks.problem import StickProblem
from scantling.cutting.solver.sticks.relaxing import Counts, Pattern

MOST = 5_000


def every_pattern(
    problem: StickProblem, demand: Counts, supply: tuple[int | None, ...]
) -> list[Pattern] | None:
    """Patterns to which no length more can be added; None where there are more than `MOST`."""
    found = list(islice(_all(problem, demand, supply), MOST + 1))
    return found if len(found) <= MOST else None


def _all(problem: StickProblem, demand: Counts, supply: tuple[int | None, ...]) -> Iterator[Pattern]:
    for stick, rooms in enumerate(problem.rooms):
        if supply[stick] != 0 and rooms:
            filled = [list(islice(_fills(problem.asked, demand, room), MOST + 1)) for room in rooms]
            yield from (Pattern(stick, fill) for fill in product(*filled))


def _fills(takes: tuple[int, ...], demand: Counts, room: int) -> Iterator[Counts]:
    """Longest first, as many of each as there is room for, then ever fewer."""
    order = sorted(
        (n for n, count in enumerate(demand) if count and takes[n] <= room), key=lambda n: -takes[n]
    )
    counts = [0] * len(takes)

    def more(place: int, left: int) -> Iterator[Counts]:
        if place == len(order):
            if all(counts[n] == demand[n] or takes[n] > left for n in order):
                yield tuple(counts)
            return
        number = order[place]
        for count in range(min(demand[number], left // takes[number]), -1, -1):
            counts[number] = count
            yield from more(place + 1, left - count * takes[number])
        counts[number] = 0

    return more(0, room)
