"""The linear program over ways to cut one sheet, and what it proves: column generation.

Fractions of ways are taken so that every demand is met at least cost (Gilmore and Gomory 1965). A way may
take more of a piece than is wanted, has any number of stages, any first direction and no flaw: what is proven
so holds for stricter rules as well. The program only proposes prices. What they prove is counted again in
whole numbers from prices rounded down (Lagrange's bound; Farley 1990 where a sheet can be had without end).
"""

from __future__ import annotations

import math
import time
from dataclasses import dataclass
from fractions import Fraction

import highspy
import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.guillotine import worths
from scantling.cutting.solver.guillotine.problem import SheetProblem
from scantling.cutting.solver.guillotine.worths import ACROSS, ALONG, places

Ints = NDArray[np.int64]

_FINEST = 1_000_000  # prices are rounded down to this part of a unit of cost, or coarser
_MOST = 2**61  # a price times a number of pieces stays under this
_GAIN = 1e-6  # what a way must gain to be worth taking in
_DEAR = 1000.0  # a piece left out costs this many of the dearest sheet
_LARGEST = 30_000_000  # sums of a table, above which none is made
WORK_A_STEP = 20_000  # sums that take about as long as one step of the search


@dataclass(frozen=True)
class _Room:
    """A kind of sheet, by the places that count on it."""

    along: Ints
    across: Ints
    below_along: Ints
    below_across: Ints

    @property
    def work(self) -> int:
        return len(self.along) * len(self.across) * (len(self.along) + len(self.across)) // 2


def covering_bound(
    problem: SheetProblem, demand: Ints, least: int, enough: int, limit: tuple[float, int]
) -> int:
    """A cost that no plan for this demand can be under; at least `least`.

    It stops at `enough`, or at the time and after the steps of `limit`, with what is proven by then.
    """
    until, steps = limit
    covering = _Covering(problem, demand)
    rounds = steps * WORK_A_STEP // max(covering.work, 1)
    if covering.work > _LARGEST:
        return least
    while least < enough and rounds > 0 and time.monotonic() < until:
        value, bound, is_done = covering.priced()
        least, rounds = max(least, bound), rounds - 1
        if is_done or least >= value - _GAIN:
            break
    return least


class _Covering:
    """The program over the ways met so far."""

    def __init__(self, problem: SheetProblem, demand: Ints) -> None:
        kinds = range(len(problem.sheets))
        wanted: dict[tuple[int, int, bool, tuple[bool, ...]], int] = {}
        for number, count in enumerate(demand.tolist()):
            if count:
                lies = tuple(problem.lies_on(number, kind) for kind in kinds)
                key = (*problem.takes(number), problem.wanted[number].turns, lies)
                wanted[key] = wanted.get(key, 0) + count
        self.problem, self.demand = problem, list(wanted.values())
        straight = [(long, wide) for long, wide, *_ in wanted]
        turned = [(wide, long) for long, wide, turns, _ in wanted if turns]
        self.sizes = np.array(straight + turned, np.int64)
        self.rows = [*range(len(straight)), *(row for row, key in enumerate(wanted) if key[2])]
        self.lies = np.array([key[3] for key in wanted], np.int64)
        self.rooms = [self._room(*room) for room in problem.rooms]
        self.work = sum(room.work for room in self.rooms)
        self.costs = [sheet.cost for sheet in problem.sheets]
        self.dearest = _MOST // (1 + max(long * wide for long, wide in problem.rooms))
        self.scale = max(1, min(_FINEST, self.dearest // max(*self.costs, 1)))
        self.solver = self._program()

    def _room(self, length: int, width: int) -> _Room:
        along, across = places(self.sizes[:, 0], length), places(self.sizes[:, 1], width)
        return _Room(along, across, _below(along, length), _below(across, width))

    def _program(self) -> highspy.Highs:
        """A row for each piece and each kind of sheet; at first each piece may be left out, dearly."""
        solver = highspy.Highs()
        solver.setOptionValue("output_flag", False)
        solver.setOptionValue("threads", 1)
        for asked in self.demand:
            solver.addRow(asked, highspy.kHighsInf, 0, [], [])
        for sheet in self.problem.sheets:
            most = highspy.kHighsInf if sheet.supply is None else sheet.supply
            solver.addRow(-highspy.kHighsInf, most, 0, [], [])
        dear = _DEAR * (1 + max(self.costs))
        for row in range(len(self.demand)):
            solver.addCol(dear, 0, highspy.kHighsInf, 1, [row], [1.0])
        return solver

    def priced(self) -> tuple[float, int, bool]:
        """Value of the program, the bound that its prices prove, and whether no way is worth taking in."""
        self.solver.run()
        value = self.solver.getInfo().objective_function_value
        duals = np.array(self.solver.getSolution().row_dual)
        worth, dues = duals[: len(self.demand)], duals[len(self.demand) :]
        prices = np.floor(np.clip(worth * self.scale, 0.0, float(self.dearest))).astype(np.int64)
        earned, is_done = [], True
        for kind, room in enumerate(self.rooms):
            worth_here = prices * self.lies[:, kind]
            most, done, at = worths.table(
                room.along,
                room.across,
                room.below_along,
                room.below_across,
                self.sizes,
                worth_here[self.rows],
            )
            earned.append(int(most[-1, -1]))
            if earned[-1] / self.scale + dues[kind] > self.costs[kind] + _GAIN:
                is_done = False
                self._take_in(kind, _counts(room, done, at, self.rows, len(self.demand)))
        return value, self._proven(prices, earned), is_done

    def _take_in(self, kind: int, counts: Ints) -> None:
        rows = np.flatnonzero(counts)
        cost, limit = float(self.costs[kind]), len(self.demand) + kind
        values = [*counts[rows].astype(float).tolist(), 1.0]
        self.solver.addCol(cost, 0, highspy.kHighsInf, len(values), [*rows.tolist(), limit], values)

    def _proven(self, prices: Ints, earned: list[int]) -> int:
        """What is wanted at these prices, less what the sheets of a supply earn over their cost."""
        costs = [cost * self.scale for cost in self.costs]
        supplies = [sheet.supply for sheet in self.problem.sheets]
        asked = sum(int(p) * d for p, d in zip(prices, self.demand, strict=True))
        endless = [k for k, supply in enumerate(supplies) if supply is None and earned[k] > 0]
        down = min([Fraction(1), *(Fraction(costs[k], earned[k]) for k in endless)])
        over = sum(
            supply * max(Fraction(0), down * earned[k] - costs[k])
            for k, supply in enumerate(supplies)
            if supply is not None
        )
        unit = math.gcd(*self.costs) or 1
        return math.ceil((down * asked - over) / self.scale / unit) * unit


def _below(places_: Ints, room: int) -> Ints:
    """For every length the number of the last place not beyond it."""
    return np.searchsorted(places_, np.arange(room + 1), side="right").astype(np.int64) - 1


def _counts(room: _Room, done: Ints, at: Ints, rows: list[int], kinds: int) -> Ints:
    """How many of each piece the best way of cutting takes."""
    counts = np.zeros(kinds, np.int64)
    todo = [(len(room.along) - 1, len(room.across) - 1)]
    while todo:
        i, j = todo.pop()
        cut = int(at[i, j])
        if done[i, j] >= 0:
            counts[rows[int(done[i, j])]] += 1
        elif done[i, j] == ACROSS:
            todo += [(cut, j), (int(room.below_along[room.along[i] - room.along[cut]]), j)]
        elif done[i, j] == ALONG:
            todo += [(i, cut), (i, int(room.below_across[room.across[j] - room.across[cut]]))]
    return counts
