"""The recipe: fill at once, bound by the linear program, then dive into it until value and bound meet."""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scantling.cutting.solver.sticks.every import every_pattern
from scantling.cutting.solver.sticks.filling import one_after_another
from scantling.cutting.solver.sticks.problem import StickProblem
from scantling.cutting.solver.sticks.relaxing import Counts, Pattern, Relaxed
from scantling.cutting.solver.sticks.solution import Cut, StickAnswer

_ROUNDS = 4000  # of pricing
_BENDS = (0.0, 0.02, 0.1, 0.3, 1.0)
_NODES = 500  # of branching among the patterns met
_ALL_NODES = 100_000  # among all there are
_DIVES = 200


@dataclass
class _Best:
    """The cheapest set of patterns met."""

    problem: StickProblem
    patterns: list[Pattern]
    left: list[int]

    @property
    def key(self) -> tuple[int, int]:
        short = sum(n * w.length for n, w in zip(self.left, self.problem.wanted, strict=True))
        return short, sum(self.problem.sticks[p.stick].cost for p in self.patterns)

    def offer(self, patterns: list[Pattern], left: list[int]) -> None:
        other = _Best(self.problem, patterns, left)
        if other.key < self.key:
            self.patterns, self.left = patterns, left


def solve(problem: StickProblem, *, seconds: float, seed: int = 0, steps: int = sys.maxsize) -> StickAnswer:
    """All that is wanted for the least cost found, with a proven bound; proven best where the two meet.

    `seconds`: the clock at which it stops, whatever it has; `seed`: in which order dives are tried; `steps`:
    linear programs after which no more is tried, so that the same is tried on any machine.
    """
    until = time.monotonic() + seconds
    demand = tuple(0 if n in problem.too_long else w.demand for n, w in enumerate(problem.wanted))
    supply = tuple(stick.supply for stick in problem.sticks)
    best = _Best(problem, [], list(demand))
    if any(demand):
        for bend in _BENDS:
            best.offer(*one_after_another(problem, demand, supply, bend))
    relaxed = Relaxed(problem, demand, supply, list(dict.fromkeys(best.patterns)))
    shares = relaxed.solve(_ROUNDS, until, enough=best.key[1])
    bound = relaxed.bound
    dearest = sum(demand) * max((stick.cost for stick in problem.sticks), default=0)
    if bound > dearest:  # more than a stick for every length: there are not enough sticks
        return _answer(problem, best, bound, relaxed.steps)
    for step in (_dive_once, _branch, _dive_often):
        if best.key > (0, bound) and relaxed.steps < steps and time.monotonic() < until:
            draw = random.Random(seed)
            bound = step(_Hunt(relaxed, shares, demand, supply, best, bound, draw, until, steps))
    return _answer(problem, best, bound, relaxed.steps)


@dataclass
class _Hunt:
    """Where the search stands: value and bound have not met yet."""

    relaxed: Relaxed
    shares: np.ndarray
    demand: Counts
    supply: tuple[int | None, ...]
    best: _Best
    bound: int
    draw: random.Random
    until: float
    steps: int

    @property
    def is_over(self) -> bool:
        """Whether value and bound have met, or enough was tried."""
        met = self.best.key <= (0, self.bound)
        return met or self.relaxed.steps >= self.steps or time.monotonic() > self.until


def _dive_once(hunt: _Hunt) -> int:
    """Settle patterns bit by bit, the largest shares first, and price anew for what is left."""
    _one_dive(hunt, None)
    hunt.relaxed.restart(hunt.demand, hunt.supply)
    return hunt.bound


def _branch(hunt: _Hunt) -> int:
    """The best in whole patterns: of all there are where those are few, else of those met."""
    every = every_pattern(hunt.relaxed.problem, hunt.demand, hunt.supply)
    if every is not None:
        hunt.relaxed.add(every)
    whole, least = hunt.relaxed.whole(
        min(_NODES if every is None else _ALL_NODES, hunt.steps * 10), hunt.until
    )
    if len(whole):
        times = np.rint(whole).astype(int)
        settled = [p for p, n in zip(hunt.relaxed.patterns, times, strict=True) for _ in range(int(n))]
        hunt.best.offer(settled, _still(hunt.demand, settled))
    if every is None or hunt.best.key[0]:
        return hunt.bound
    return max(hunt.bound, min(hunt.relaxed.at_least(least), hunt.best.key[1]))


def _dive_often(hunt: _Hunt) -> int:
    """Again and again, a little otherwise each time."""
    for _ in range(_DIVES):
        _one_dive(hunt, hunt.draw)
        hunt.relaxed.restart(hunt.demand, hunt.supply)
        if hunt.is_over:
            break
    return hunt.bound


def _one_dive(hunt: _Hunt, draw: random.Random | None) -> None:
    relaxed, best, shares = hunt.relaxed, hunt.best, hunt.shares
    settled: list[Pattern] = []
    left, supply = list(hunt.demand), list(hunt.supply)
    while any(left):
        before = len(settled)
        for pattern in _chosen(relaxed, shares, draw):
            _settle(pattern, settled, left, supply)
        for bend in _BENDS[:3]:
            more, short = one_after_another(relaxed.problem, tuple(left), supply, bend)
            best.offer([*settled, *more], short)
        if hunt.is_over or len(settled) == before:
            return
        relaxed.restart(tuple(left), tuple(supply))
        shares = relaxed.solve(_ROUNDS, hunt.until)
        spent = sum(relaxed.problem.sticks[p.stick].cost for p in settled)
        if best.key <= (0, spent + relaxed.bound):
            return


def _chosen(relaxed: Relaxed, shares: np.ndarray, draw: random.Random | None) -> list[Pattern]:
    """Whole parts of all shares; where there are none, one pattern of a large share."""
    whole = [(p, int(x + 1e-6)) for p, x in zip(relaxed.patterns, shares, strict=False) if x > 1 - 1e-6]
    if whole:
        return [p for p, times in whole for _ in range(times)]
    order = np.argsort(-shares, kind="stable")
    able = [int(n) for n in order if shares[n] > 1e-9]
    if not able:
        return []
    pick = able[0] if draw is None else able[min(int(draw.expovariate(0.7)), len(able) - 1)]
    return [relaxed.patterns[pick]]


def _settle(pattern: Pattern, settled: list[Pattern], left: list[int], supply: list[int | None]) -> None:
    limit = supply[pattern.stick]
    if limit == 0:
        return
    if limit is not None:
        supply[pattern.stick] = limit - 1
    settled.append(pattern)
    for number, count in enumerate(pattern.counts):
        left[number] = max(left[number] - count, 0)


def _still(demand: Counts, settled: Sequence[Pattern]) -> list[int]:
    left = list(demand)
    for pattern in settled:
        for number, count in enumerate(pattern.counts):
            left[number] = max(left[number] - count, 0)
    return left


def _answer(problem: StickProblem, best: _Best, bound: int, steps: int) -> StickAnswer:
    left = [w.demand if n in problem.too_long else 0 for n, w in enumerate(problem.wanted)]
    unmet = tuple((n, count) for n, count in enumerate(map(sum, zip(left, best.left, strict=True))) if count)
    cuts = _cuts(problem, best.patterns)
    return StickAnswer(problem, cuts, 0 if unmet else bound, unmet, steps)


def _cuts(problem: StickProblem, patterns: Sequence[Pattern]) -> tuple[Cut, ...]:
    """Sticks with the numbers of their lengths; what is more than wanted is left off, empty sticks too."""
    wanted = [w.demand for w in problem.wanted]
    made: Counter[tuple[int, tuple[tuple[int, ...], ...]]] = Counter()
    for pattern in patterns:
        fill = tuple(tuple(_taken(stretch, wanted)) for stretch in pattern.fill)
        if any(fill):
            made[(pattern.stick, fill)] += 1
    return tuple(Cut(stick, fill, times) for (stick, fill), times in made.items())


def _taken(stretch: Counts, wanted: list[int]) -> list[int]:
    taken = []
    for number, count in enumerate(stretch):
        for _ in range(min(count, wanted[number])):
            taken.append(number)
            wanted[number] -= 1
    return taken
