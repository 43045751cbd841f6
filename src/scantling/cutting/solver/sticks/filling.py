"""Good fillings at once: sticks one after another, each as full as can be, or longest lengths first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.sticks.knapsack import QUICK, good_fill
from scantling.cutting.solver.sticks.problem import StickProblem
from scantling.cutting.solver.sticks.relaxing import Counts, Pattern

Ints = NDArray[np.int64]
Filled = tuple[list[Pattern], list[int]]  # sticks cut, and what is left wanted of each length


@dataclass(frozen=True, slots=True)
class _Next:
    """A stick that may be cut next, with the counts of each of its rooms."""

    stick: int
    fill: tuple[Ints, ...]
    counts: Ints
    rank: tuple[float, int, int]  # cost for its length, longest first

    @property
    def pattern(self) -> Pattern:
        return Pattern(self.stick, tuple(tuple(room.tolist()) for room in self.fill))


def one_after_another(
    problem: StickProblem, demand: Counts, supply: Sequence[int | None], bent: float
) -> Filled:
    """Each next stick is the one whose fullest filling costs least for its length.

    `bent`: how much longer lengths are liked before shorter ones, 0 for not at all.
    """
    left, stock, cut = np.array(demand, np.int64), list(supply), list[Pattern]()
    takes = np.array(problem.asked, np.int64)
    values = np.rint(takes * (takes / takes.max()) ** bent).astype(np.int64)
    while left.any():
        able = [_filled(problem, stick, takes, values, left) for stick, n in enumerate(stock) if n != 0]
        best = min((found for found in able if found.counts.any()), key=lambda f: f.rank, default=None)
        if best is None:
            break
        times = _times(best, left, stock)
        cut += [best.pattern] * times
        left -= times * best.counts
    return cut, left.tolist()


def _filled(problem: StickProblem, stick: int, takes: Ints, values: Ints, left: Ints) -> _Next:
    """Every room in turn, from what the rooms before it left wanted."""
    wanted, fill = left.copy(), []
    for room in problem.rooms[stick]:
        _, counts, _ = good_fill(takes, values, wanted, room, QUICK)
        wanted -= counts
        fill.append(counts)
    length = int(((left - wanted) * takes).sum())
    rank = (problem.sticks[stick].cost / max(length, 1), -length, stick)
    return _Next(stick, tuple(fill), left - wanted, rank)


def _times(best: _Next, left: Ints, stock: list[int | None]) -> int:
    """How often the stick can be cut so; as many are taken from the stock."""
    some = best.counts > 0
    often = int((left[some] // best.counts[some]).min())
    limit = stock[best.stick]
    if limit is not None:
        often = min(often, limit)
        stock[best.stick] = limit - often
    return often
