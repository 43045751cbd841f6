"""Good fillings at once: sticks one after another, each as full as can be, or longest lengths first."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from scantling.cutting.solver.sticks.knapsack import QUICK, good_fill
from scantling.cutting.solver.sticks.problem import StickProblem
from scantling.cutting.solver.sticks.relaxing import Counts, Pattern

Filled = tuple[list[Pattern], list[int]]  # sticks cut, and what is left wanted of each length


def one_after_another(
    problem: StickProblem, demand: Counts, supply: Sequence[int | None], bent: float
) -> Filled:
    """Each next stick is the one whose fullest filling costs least for its length.

    `bent`: how much longer lengths are liked before shorter ones, 0 for not at all.
    """
    left, stock, cut = list(demand), list(supply), list[Pattern]()
    takes = np.array(problem.asked, np.int64)
    values = np.rint(takes.astype(float) ** (1 + bent) / float(takes.max()) ** bent * 16).astype(np.int64)
    while any(left):
        best = _cheapest(problem, takes, values, left, stock)
        if best is None:
            break
        times = _times(best, left, stock)
        cut += [best] * times
        for number, count in enumerate(best.counts):
            left[number] -= times * count
        if (limit := stock[best.stick]) is not None:
            stock[best.stick] = limit - times
    return cut, left


def _cheapest(
    problem: StickProblem, takes: np.ndarray, values: np.ndarray, left: list[int], stock: Sequence[int | None]
) -> Pattern | None:
    found = []
    for stick, rooms in enumerate(problem.rooms):
        if stock[stick] != 0:
            pattern = Pattern(stick, _filled(takes, values, left, rooms))
            length = sum(c * int(t) for c, t in zip(pattern.counts, takes, strict=True)) if rooms else 0
            if length:
                found.append((problem.sticks[stick].cost / length, -length, stick, pattern))
    return min(found, key=lambda f: f[:3])[3] if found else None


def _filled(
    takes: np.ndarray, values: np.ndarray, left: list[int], rooms: Sequence[int]
) -> tuple[Counts, ...]:
    """Every room in turn, from what the rooms before it left wanted."""
    wanted, fill = np.array(left, np.int64), []
    for room in rooms:
        _, counts, _ = good_fill(takes, values, wanted, room, QUICK)
        wanted -= counts
        fill.append(tuple(int(c) for c in counts))
    return tuple(fill)


def _times(pattern: Pattern, left: list[int], stock: Sequence[int | None]) -> int:
    often = min(left[n] // count for n, count in enumerate(pattern.counts) if count)
    limit = stock[pattern.stick]
    return often if limit is None else min(often, limit)
