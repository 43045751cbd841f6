"""The recipe: bound, fill in several orders, then ask for less and less until bound and sheets meet."""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.guillotine import kernel
from scantling.cutting.solver.guillotine.bounds import least_cost
from scantling.cutting.solver.guillotine.places import Job
from scantling.cutting.solver.guillotine.problem import SheetProblem
from scantling.cutting.solver.guillotine.solution import SheetAnswer
from scantling.cutting.solver.guillotine.told import told
from scantling.cutting.solver.guillotine.tree import FIELDS, FILLED, HEADS, KIND, NONE

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]

_STEPS_AT_ONCE = 200
_HISTORY = 1000  # steps
_ENDLESS = 2**62
_MANY = 10**6  # as good as without end: of stages, and of sheets where a supply has none


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
    until = time.monotonic() + seconds
    large = problem.too_large
    demand = np.array([0 if n in large else w.demand for n, w in enumerate(problem.wanted)], np.int64)
    numbers = np.repeat(np.arange(len(demand)), demand)
    job = job_of(problem, numbers)
    state = np.array([seed * 7919 + 88172645463325252], np.int64)
    bound = least_cost(problem, demand)
    best = _begun(job, state)
    done = _improve(best, job, bound, (until, steps), state) if len(numbers) else 0
    left = [w.demand if n in large else 0 for n, w in enumerate(problem.wanted)]
    for piece in best.loose:
        left[int(numbers[piece])] += 1
    unmet = tuple((number, count) for number, count in enumerate(left) if count)
    sheets = told(problem, numbers, best.nodes, best.heads)
    return SheetAnswer(problem, sheets, 0 if unmet else bound, unmet, done)


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
    missing = kernel.put_in(nodes, heads, job, order, _ENDLESS, 0.0, 0.0, touched, state)
    return Filled(nodes, heads, order[:missing])


def _most_nodes(job: Job) -> int:
    """Of a sheet: a few for each of the smallest pieces that go on the largest."""
    areas = np.sort(job.sizes.prod(axis=1))
    most = int(np.searchsorted(np.cumsum(areas), job.rooms.prod(axis=1).max(), side="right"))
    return 6 * min(most, len(areas)) + 12


def _improve(best: Filled, job: Job, bound: int, limit: tuple[float, int], state: Ints) -> int:
    """Steps taken."""
    until, steps = limit
    done = 0
    while done < steps and time.monotonic() < until and (len(best.loose) or best.cost(job) > bound):
        budget = _ENDLESS if len(best.loose) else best.cost(job) - 1
        now = _within(best, job, budget)
        found, done = _pursued(now, job, budget, (until, steps), done, state)
        if not found:
            break
        best.nodes, best.heads, best.loose = now.nodes, now.heads, now.loose
    return done


def _within(filled: Filled, job: Job, budget: int) -> Filled:
    """With the emptiest sheets for their cost taken out until the rest is within the budget."""
    now = filled.copy()
    loose = np.empty(len(job.sizes), np.int64)
    count = len(now.loose)
    loose[:count] = now.loose
    touched = np.zeros(len(now.heads), np.bool_)
    while now.cost(job) > budget:
        open_ = [
            s for s in range(len(now.heads)) if now.heads[s, KIND] != NONE and job.costs[now.heads[s, KIND]]
        ]
        least = min(open_, key=lambda s: now.heads[s, FILLED] / job.costs[now.heads[s, KIND]])
        count = kernel.closed(now.nodes, now.heads, least, loose, count, touched)
    now.loose = loose[:count]
    return now


def _pursued(
    now: Filled, job: Job, budget: int, limit: tuple[float, int], done: int, state: Ints
) -> tuple[bool, int]:
    """Whether everything found room within the budget, and the steps taken by then."""
    until, steps = limit
    history = np.full(_HISTORY, np.inf)
    loose = np.empty(len(job.sizes), np.int64)
    count = len(now.loose)
    loose[:count] = now.loose
    while count and done < steps and time.monotonic() < until:
        count, done = kernel.improved(
            now.nodes, now.heads, loose, count, job, budget, done, min(_STEPS_AT_ONCE, steps - done),
            history, state,
        )  # fmt: skip
    now.loose = loose[:count]
    return count == 0, int(done)
