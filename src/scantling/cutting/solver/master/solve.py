"""The recipe: fill, price bins until none gains, prove, and put whole bins together anew."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass

from scantling.cutting.solver.bin import Bin, without
from scantling.cutting.solver.master.relaxed import Relaxed, attainable
from scantling.cutting.solver.pricing import Pricer
from scantling.cutting.solver.problem import Problem
from scantling.cutting.solver.search import Filling, Key, Search

_NODES = 500


@dataclass(frozen=True)
class Mastered:
    """`bound`: no filling that meets all wants, each choice by one way, costs less money.

    `filling`: the best one met; None if the problem has choices, which only the bound decides so far.
    """

    filling: Filling | None
    bound: float
    rounds: int


def solve(problem: Problem, seed: int, rounds: int, until: float) -> Mastered:
    """Price bins for so many rounds, or until the clock says `until`: the bound holds whenever it stops."""
    search = Search(problem, seed)
    first = None if problem.choices else search.fill()
    relaxed = Relaxed(problem)
    relaxed.add(first.bins.values() if first else ())
    done = _priced(relaxed, rounds, until)
    bound = attainable(relaxed.bound, (stock.money for stock in problem.stocks))
    if first is None:
        return Mastered(None, bound, done)
    left = until - time.monotonic()
    if left <= 0 or (not first.unmet and first.cost[1] <= bound):
        return Mastered(first, bound, done)
    again = search.resume(_once(problem, relaxed.whole(_NODES, left)))
    return Mastered(min(first, again, key=lambda f: f.cost), bound, done)


def _priced(relaxed: Relaxed, rounds: int, until: float) -> int:
    """How many rounds were done."""
    problem = relaxed.problem
    most = {i.id: 1 for i in problem.items} | {p.id: p.counts[1] for p in problem.panels}
    pricer = Pricer(problem, most)
    for done in range(rounds):
        if time.monotonic() >= until:
            return done
        worth = relaxed.prices()
        priced = pricer.round(worth)
        relaxed.prove(worth, priced)
        if not relaxed.add(bin_ for each in priced for _, bin_ in each.bins):
            return done + 1
    return rounds


def _once(problem: Problem, bins: Iterable[Bin]) -> dict[Key, Bin]:
    """Whole bins with every item left in one place only, and no panel wider than asked for."""
    panels = {p.id: p for p in problem.panels}
    laid: dict[int, int] = {}
    kept: dict[Key, Bin] = {}
    for bin_ in bins:
        over = set()
        for want, (width, count) in bin_.strip_widths.items():
            panel = panels.get(want)
            gives = 1 if panel is None else width - count * panel.extra
            if laid.get(want, 0) + gives > (1 if panel is None else panel.need):
                over.add(want)
            else:
                laid[want] = laid.get(want, 0) + gives
        left = without(bin_, frozenset(over))
        if left.segments:
            pool = problem.stocks[left.stock].pool
            copy = sum(other == pool for other, _ in kept)
            kept[(pool, copy)] = Bin(left.stock, copy, left.segments)
    return kept
