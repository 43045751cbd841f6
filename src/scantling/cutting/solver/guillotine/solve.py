"""The recipe: bound, fill in several orders, then ask for less and less until bound and sheets meet."""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.compiled import compile_all
from scantling.cutting.solver.guillotine import kernel, places, tree, worths
from scantling.cutting.solver.guillotine.bounds import least_cost
from scantling.cutting.solver.guillotine.covering import covering_bound
from scantling.cutting.solver.guillotine.places import Job
from scantling.cutting.solver.guillotine.problem import SheetProblem
from scantling.cutting.solver.guillotine.solution import SheetAnswer
from scantling.cutting.solver.guillotine.told import told
from scantling.cutting.solver.guillotine.tree import FIELDS, FILLED, HEADS, KIND, NONE

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]

_STEPS_AT_ONCE = 200
_HISTORY, _HISTORY_UNEQUAL = 200, 1000  # steps
_HISTORY_KEPT = 100
_LEAST_HISTORY = 20
_HISTORY_COST = 100
_BY_TURNS = 20_000  # steps of one kind of search, then of the other, where sheets are unequal
_ENDLESS = 2**62
_MANY = 10**6  # as good as without end: of stages, and of sheets where a supply has none
_FIRST = 0.2  # share of time and steps before the dearer bound is asked for
_PROVING = 0.3  # share of them for that bound at most
_LAST = 0.3  # share of them kept for leftovers
_FIRST_STEPS = 2000
_STALE = 20_000  # steps after which a search begins again from the best
_FEW, _SMALL = 60, 400  # pieces
_ANYTHING = 1e30  # in a history: whatever comes is accepted
_LITTLE = 10_000  # pieces times steps that are sooner done than machine code is at hand
_PATIENCE = 6  # steps for each piece (and ten) without better leftovers, then no more


@dataclass
class Filled:
    """Sheets as the kernel keeps them, and the numbers of the pieces that are loose."""

    nodes: Ints
    heads: Ints
    loose: Ints

    def cost(self, job: Job) -> int:
        kinds = self.heads[:, KIND]
        return int(job.costs[kinds[kinds != NONE]].sum())

    def copy(self) -> Filled:
        return Filled(self.nodes.copy(), self.heads.copy(), self.loose.copy())


def solve(problem: SheetProblem, *, seconds: float, seed: int = 0, steps: int = sys.maxsize) -> SheetAnswer:
    """All that is wanted from the cheapest sheets found, with a proven bound.

    `seconds`: the clock at which it stops, whatever it has; `steps`: how often something is taken apart at
    most, so that the same is tried on any machine; `seed`: in which order.
    """
    begun = time.monotonic()
    large = problem.too_large
    demand = np.array([0 if n in large else w.demand for n, w in enumerate(problem.wanted)], np.int64)
    numbers = np.repeat(np.arange(len(demand)), demand)
    left = [w.demand if n in large else 0 for n, w in enumerate(problem.wanted)]
    if not len(numbers):
        return SheetAnswer(problem, (), 0, tuple((n, count) for n, count in enumerate(left) if count))
    if len(numbers) ** 2 > _LITTLE:
        compile_all(tree, places, kernel, worths)
    job = job_of(problem, numbers)
    state = np.array([seed * 7919 + 88172645463325252], np.int64)
    most = _HISTORY_UNEQUAL if is_unequal(job) else _HISTORY
    history, costs = np.empty(_history(steps, most)), np.empty(_history(steps, _HISTORY_COST))
    hunt = Hunt(job, _begun(job, state), state, least_cost(problem, demand), history, costs)
    _pursue(hunt, problem, demand, begun, seconds, steps)
    for piece in hunt.best.loose:
        left[int(numbers[piece])] += 1
    unmet = tuple((number, count) for number, count in enumerate(left) if count)
    sheets = told(problem, numbers, hunt.best.nodes, hunt.best.heads)
    return SheetAnswer(problem, sheets, 0 if unmet else hunt.bound, unmet, hunt.done)


def _pursue(
    hunt: Hunt, problem: SheetProblem, demand: Ints, begun: float, seconds: float, steps: int
) -> None:
    """Search; a dearer bound where the first is not met; search on; then better leftovers."""
    if (not hunt.is_over or problem.keep) and steps * len(hunt.job.sizes) > _LITTLE:
        compile_all(tree, places, kernel, worths)
    searching = 1 - _LAST if problem.keep else 1.0
    hunt.search(begun + _FIRST * seconds, min(_FIRST_STEPS, round(_FIRST * steps)))
    if not hunt.is_over and not len(hunt.best.loose):
        limit = (time.monotonic() + _PROVING * seconds, round(_PROVING * steps))
        hunt.bound = covering_bound(problem, demand, hunt.bound, hunt.best.cost(hunt.job), limit)
    hunt.search(begun + searching * seconds, round(searching * steps))
    if problem.keep and not len(hunt.best.loose):
        hunt.polish(begun + seconds, steps)


def is_unequal(job: Job) -> bool:
    """Whether some sheets cost more than others."""
    return len(set(job.costs.tolist())) > 1


def _history(steps: int, most: int) -> int:
    """Of so many steps: short where there is no time to come back from afar."""
    return max(_LEAST_HISTORY, min(most, steps // _LEAST_HISTORY))


def job_of(problem: SheetProblem, numbers: Ints) -> Job:
    """The problem in arrays; `numbers`: of the rectangle each piece is."""
    sizes = [problem.takes(int(n)) for n in numbers]
    turns = [problem.wanted[int(n)].turns for n in numbers]
    kinds = problem.sheets
    stages = _MANY if problem.stages is None else problem.stages
    first = {"": -1, "along": 0, "across": 1}[problem.first]
    keep = problem.keep or (_ENDLESS, _ENDLESS)
    return Job(
        np.array(sizes, np.int64).reshape(-1, 2),
        np.array(turns, np.int64),
        np.array([[problem.lies_on(int(n), k) for k in range(len(kinds))] for n in numbers], np.int64),
        np.array(problem.rooms, np.int64).reshape(-1, 2),
        np.array([sheet.cost for sheet in kinds], np.int64),
        np.array([_MANY if sheet.supply is None else sheet.supply for sheet in kinds], np.int64),
        _flaws(problem),
        np.array([problem.kerf, stages, problem.trimming, first, max(keep), min(keep)], np.int64),
    )


def _flaws(problem: SheetProblem) -> Ints:
    """Flaws from the trimmed corner."""
    rows = []
    for kind, sheet in enumerate(problem.sheets):
        x, y = sheet.corner(problem.kerf)
        rows += [(kind, f.x0 - x, f.x1 - x, f.y0 - y, f.y1 - y) for f in sheet.flaws]
    return np.array(rows, np.int64).reshape(-1, 5)


def _begun(job: Job, state: Ints) -> Filled:
    """Everything in the best of a few orders."""
    sizes = job.sizes.astype(float)
    areas = job.sizes.prod(axis=1)
    keys = (sizes.prod(axis=1), sizes[:, 1], sizes[:, 0], sizes.max(axis=1) ** 1.5 * sizes.min(axis=1))
    tries = [_put_in_order(job, np.argsort(-key, kind="stable"), state) for key in keys]
    return min(tries, key=lambda each: (int(areas[each.loose].sum()), each.cost(job)))


def _put_in_order(job: Job, order: Ints, state: Ints) -> Filled:
    """With room for twice the sheets that areas ask for, and twice that again until it is enough."""
    count = len(job.sizes)
    limit = int(min(job.supplies.sum(), count))
    smallest = int(job.rooms.prod(axis=1).min())
    area = int(job.sizes.prod(axis=1).sum())
    slots = min(limit, 2 * (area // smallest + 2))
    while True:
        filled = _put_on(job, order, slots, state)
        if not len(filled.loose) or slots >= limit:
            return filled
        slots = min(limit, 2 * slots)


def _put_on(job: Job, order: Ints, slots: int, state: Ints) -> Filled:
    nodes = np.zeros((slots, _most_nodes(job), FIELDS), np.int64)
    heads = np.full((slots, HEADS), NONE, np.int64)
    order = order.copy()
    touched = np.zeros(slots, np.bool_)
    missing = kernel.put_in(nodes, heads, 0, slots, job, order, _ENDLESS, 0.0, 0.0, touched, state)
    return Filled(nodes, heads, order[:missing])


def _most_nodes(job: Job) -> int:
    """Of a sheet: a few for each of the smallest pieces that go on the largest."""
    areas = np.sort(job.sizes.prod(axis=1))
    most = int(np.searchsorted(np.cumsum(areas), job.rooms.prod(axis=1).max(), side="right"))
    return 6 * min(most, len(areas)) + 12


@dataclass
class Hunt:
    """The best met, and where the search for something cheaper stands.

    `done`: steps taken in all. `now`: within a budget, with something loose; `whole`: with nothing loose;
    each with its history and the step it began at.
    """

    job: Job
    best: Filled
    state: Ints
    bound: int
    history: Floats
    costs: Floats
    done: int = 0
    now: Filled | None = None
    since: int = 0
    whole: Filled | None = None
    since_whole: int = 0

    @property
    def is_over(self) -> bool:
        """Whether nothing cheaper is to be had."""
        return not len(self.best.loose) and self.best.cost(self.job) <= self.bound

    def search(self, until: float, steps: int) -> None:
        """Until nothing cheaper is to be had, the clock says so, or that many steps are taken in all."""
        while not self.is_over and self.done < steps and time.monotonic() < until:
            some = min(_STEPS_AT_ONCE, steps - self.done)
            if self._is_turn_of_whole:
                self._all_in(some)
                continue
            budget = _ENDLESS if len(self.best.loose) else self.best.cost(self.job) - 1
            if self.now is None or self.done - self.since > _STALE:
                self.now, self.since = _within(self.best, self.job, budget), self.done
                self.history[:] = _ANYTHING if self._is_shaken else np.inf
            self._step(self.now, budget, some)

    @property
    def _is_turn_of_whole(self) -> bool:
        """Whether to go on with nothing loose: at times if sheets are unequal, always if pieces are many."""
        if len(self.best.loose) or not is_unequal(self.job):
            return False
        turn = self.done // _BY_TURNS + (len(self.job.sizes) <= _FEW)
        return not self._is_shaken or turn % 2 == 0

    @property
    def _is_shaken(self) -> bool:
        """Whether to begin by taking whatever comes: from unequal sheets few pieces find back soon."""
        return is_unequal(self.job) and len(self.job.sizes) <= _SMALL

    def _all_in(self, steps: int) -> None:
        """Towards less cost with nothing loose."""
        if self.whole is None or self.done - self.since_whole > _STALE:
            self.whole, self.since_whole = self.best.copy(), self.done
            self.costs[:] = -_ANYTHING if self._is_shaken else np.inf
        now, best = self.whole, self.best
        self.done, better = kernel.all_in(
            now.nodes, now.heads, best.nodes, best.heads, self.job, _ENDLESS, True, self.done, steps,
            self.costs, self.state,
        )  # fmt: skip
        if better:
            self.now = None

    def _step(self, now: Filled, budget: int, steps: int) -> None:
        loose = np.empty(len(self.job.sizes), np.int64)
        count = len(now.loose)
        loose[:count] = now.loose
        count, self.done = kernel.improved(
            now.nodes, now.heads, loose, count, self.job, budget, self.done, steps, self.history, self.state
        )
        now.loose = loose[:count]
        if budget == _ENDLESS and self._missing(now) < self._missing(self.best):
            self.best = now.copy()
        if not count:
            self.best, self.now = now, None

    def _missing(self, filled: Filled) -> int:
        """Area that found no room."""
        return int(self.job.sizes.prod(axis=1)[filled.loose].sum())

    def polish(self, until: float, steps: int) -> None:
        """Better leftovers at the same cost."""
        best, now, budget = self.best, self.best.copy(), self.best.cost(self.job)
        history, better = np.full(_HISTORY_KEPT, np.inf), self.done
        patience = _PATIENCE * (10 + len(self.job.sizes))
        while self.done < min(steps, better + patience) and time.monotonic() < until:
            some = min(_STEPS_AT_ONCE, steps - self.done, better + patience - self.done)
            self.done, last = kernel.all_in(
                now.nodes, now.heads, best.nodes, best.heads, self.job, budget, False, self.done, some,
                history, self.state,
            )  # fmt: skip
            better = max(better, last)


def _within(filled: Filled, job: Job, budget: int) -> Filled:
    """With the emptiest sheets for their cost taken out until the rest is within the budget."""
    now = filled.copy()
    loose = np.empty(len(job.sizes), np.int64)
    count = len(now.loose)
    loose[:count] = now.loose
    touched = np.zeros(len(now.heads), np.bool_)
    while now.cost(job) > budget:
        kinds = now.heads[:, KIND]
        costly = [s for s in range(len(kinds)) if kinds[s] != NONE and job.costs[kinds[s]]]
        least = min(costly, key=lambda s: now.heads[s, FILLED] / job.costs[kinds[s]])
        count = kernel.closed(now.nodes, now.heads, least, loose, count, touched)
    now.loose = loose[:count]
    return now
