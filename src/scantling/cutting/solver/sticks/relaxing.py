"""The linear program over patterns, and what it proves: column generation (Gilmore and Gomory 1961).

A pattern is one stick with what is cut from it; the program takes fractions of patterns so that every demand
is met at least cost. Its bound is worked out in whole numbers from rounded prices, so that it is proven
whatever the program's tolerances (Lagrange's bound; Farley 1990 where a stick can be had without end).
"""

from __future__ import annotations

import math
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

import highspy
import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.sticks.knapsack import QUICK, best_fill, good_fill
from scantling.cutting.solver.sticks.problem import StickProblem

Ints = NDArray[np.int64]
Counts = tuple[int, ...]  # of each length, in the order of the problem

_FINEST = 1_000_000  # prices are rounded down to this part of a unit of cost, or coarser
_MOST = 2**61  # a price times a room stays under this: the knapsacks count in 64 bits
_GAIN = 1e-6  # what a pattern must gain to be worth taking in
_DEAR = 1000.0  # a length left out costs this many of the dearest stick


@dataclass(frozen=True, slots=True)
class Pattern:
    """One stick; `fill` of each of its clear stretches, as counts."""

    stick: int
    fill: tuple[Counts, ...]

    @property
    def counts(self) -> Counts:
        return tuple(map(sum, zip(*self.fill, strict=True)))


@dataclass
class Relaxed:
    """The program over the patterns met so far, for what is still wanted of each length."""

    problem: StickProblem
    demand: Counts
    supply: tuple[int | None, ...]
    patterns: list[Pattern] = field(default_factory=list)
    bound: int = 0
    steps: int = 0

    def __post_init__(self) -> None:
        self._known = set(self.patterns)
        self._counts: list[Ints] = []
        self._takes = np.array(self.problem.asked, np.int64)
        self._all = np.array(self.demand, np.int64)
        self._solver = self._program()
        for pattern in self.patterns:
            self._take_in(pattern)

    @cached_property
    def unit(self) -> int:
        """Every sum that can be spent is a multiple of this."""
        had = (s.cost for s, supply in zip(self.problem.sticks, self.supply, strict=True) if supply != 0)
        return math.gcd(*had) or 1

    @cached_property
    def _scale(self) -> int:
        """Parts of a unit of cost that prices are rounded to."""
        dearest = max((stick.cost for stick in self.problem.sticks), default=0)
        return max(1, min(_FINEST, _MOST // (self._longest * max(dearest, 1))))

    @cached_property
    def _longest(self) -> int:
        return max((room for rooms in self.problem.rooms for room in rooms), default=1)

    def add(self, patterns: Sequence[Pattern]) -> bool:
        """Take in patterns found elsewhere; whether any of them is new."""
        new = [pattern for pattern in dict.fromkeys(patterns) if pattern not in self._known]
        for pattern in new:
            self._known.add(pattern)
            self.patterns.append(pattern)
            self._take_in(pattern)
        return bool(new)

    def solve(self, rounds: int, until: float, enough: int = sys.maxsize) -> NDArray[np.float64]:
        """How much of each pattern, priced to the end, or until the bound reaches `enough`."""
        for _ in range(rounds):
            self._solver.run()
            self.steps += 1
            late = time.monotonic() > until
            found = self._priced(None if late else QUICK) or self._priced(None)
            value = self._solver.getInfo().objective_function_value
            if late or self.bound >= min(value - _GAIN, enough) or not self.add(found):
                break
        self._solver.run()
        return np.array(self._solver.getSolution().col_value[len(self.demand) :])

    def restart(self, demand: Counts, supply: tuple[int | None, ...]) -> None:
        """From now on only this is wanted: patterns that give more of anything are put aside, but for what
        was more than wanted from the start.

        The bound is that of the rest from here on.
        """
        self.demand, self.supply, self.bound = demand, supply, 0
        for row, asked in enumerate(demand):
            self._solver.changeRowBounds(row, asked, highspy.kHighsInf)
        for row, limit in enumerate(supply, start=len(demand)):
            self._solver.changeRowBounds(
                row, -highspy.kHighsInf, highspy.kHighsInf if limit is None else limit
            )
        have = np.array(demand, np.int64)
        for column, counts in enumerate(self._counts, start=len(demand)):
            of_use = (np.minimum(counts, self._all) <= have).all()
            self._solver.changeColBounds(column, 0, highspy.kHighsInf if of_use else 0.0)

    def whole(self, nodes: int, until: float) -> tuple[NDArray[np.float64], float]:
        """The best in whole patterns among those met, as far as so many nodes of branching tell, and what no
        others of these patterns can be under.
        """
        solver = highspy.Highs()
        solver.setOptionValue("log_to_console", False)
        solver.passModel(self._solver.getLp())
        columns = len(self.demand) + len(self.patterns)
        kinds = np.full(columns, highspy.HighsVarType.kInteger)
        solver.changeColsIntegrality(columns, np.arange(columns, dtype=np.int32), kinds)
        solver.setOptionValue("mip_max_nodes", nodes)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("threads", 1)
        solver.setOptionValue("time_limit", max(until - time.monotonic(), 0.01))
        solver.run()
        return np.array(solver.getSolution().col_value[len(self.demand) :]), solver.getInfo().mip_dual_bound

    def at_least(self, value: float) -> int:
        """The least sum that can be spent and is not under `value`, its tolerance taken off."""
        return math.ceil((value - _GAIN * max(1.0, abs(value))) / self.unit) * self.unit

    def _program(self) -> highspy.Highs:
        """A row for each length and each limited stick; at first each length may be left out, dearly."""
        solver = highspy.Highs()
        solver.setOptionValue("output_flag", False)
        solver.setOptionValue("threads", 1)
        for asked in self.demand:
            solver.addRow(asked, highspy.kHighsInf, 0, [], [])
        for supply in self.supply:
            solver.addRow(-highspy.kHighsInf, highspy.kHighsInf if supply is None else supply, 0, [], [])
        dear = _DEAR * (1 + max((stick.cost for stick in self.problem.sticks), default=0))
        for row in range(len(self.demand)):
            solver.addCol(dear, 0, highspy.kHighsInf, 1, [row], [1.0])
        return solver

    def _take_in(self, pattern: Pattern) -> None:
        counts = pattern.counts
        self._counts.append(np.array(counts, np.int64))
        rows = [row for row, count in enumerate(counts) if count]
        values = [float(counts[row]) for row in rows]
        limit = len(self.demand) + pattern.stick
        cost = float(self.problem.sticks[pattern.stick].cost)
        self._solver.addCol(cost, 0, highspy.kHighsInf, len(rows) + 1, [*rows, limit], [*values, 1.0])

    def _priced(self, patience: int | None) -> list[Pattern]:
        """Patterns that gain at the prices of now. With patience for the best (None), the bound these prices
        prove is kept if it is better.
        """
        duals = np.array(self._solver.getSolution().row_dual)
        worth, dues = duals[: len(self.demand)], duals[len(self.demand) :]
        most = _MOST // self._longest
        prices = np.floor(np.clip(worth * self._scale, 0.0, float(most))).astype(np.int64)
        priced = list(self._filled(prices, patience))
        if patience is None:
            self.bound = max(self.bound, self._proven(prices, [value for _, value in priced]))
        return [p for p, value in priced if value / self._scale + dues[p.stick] > self._cost(p.stick) + _GAIN]

    def _cost(self, stick: int) -> int:
        return self.problem.sticks[stick].cost

    def _filled(self, prices: Ints, patience: int | None) -> Iterator[tuple[Pattern, int]]:
        """Each stick filled for what it earns; no more of a length than is wanted."""
        known: dict[int, tuple[int, Counts]] = {}
        most = np.array(self.demand, np.int64)
        for stick, rooms in enumerate(self.problem.rooms):
            usable = rooms if self.supply[stick] != 0 else ()
            for room in usable:
                if room not in known:
                    value, counts = _fill(self._takes, prices, most, room, patience)
                    known[room] = value, tuple(int(c) for c in counts)
            filled = tuple(known[room][1] for room in usable) or ((0,) * len(most),)
            yield Pattern(stick, filled), sum(known[room][0] for room in usable)

    def _proven(self, prices: Ints, earned: Sequence[int]) -> int:
        """Least cost by Lagrange: what is wanted at these prices, less what limited sticks earn over cost."""
        costs = [stick.cost * self._scale for stick in self.problem.sticks]
        asked = sum(int(p) * d for p, d in zip(prices, self.demand, strict=True))
        endless = [s for s, supply in enumerate(self.supply) if supply is None and earned[s] > 0]
        down = min([Fraction(1), *(Fraction(costs[s], earned[s]) for s in endless)])
        over = sum(
            supply * max(Fraction(0), down * earned[s] - costs[s])
            for s, supply in enumerate(self.supply)
            if supply is not None
        )
        return math.ceil((down * asked - over) / self._scale / self.unit) * self.unit


def _fill(takes: Ints, values: Ints, most: Ints, room: int, patience: int | None) -> tuple[int, Ints]:
    if patience is None:
        return best_fill(takes, values, most, room)
    return good_fill(takes, values, most, room, patience)[:2]
