"""Against an exact program: one thing a crosscut segment, some made whole, as layers or as staves."""

from __future__ import annotations

import math
import random

import pytest
from ortools.sat.python import cp_model

from scantling.cutting.solver.master import Aim, attainable, merged, root
from scantling.cutting.solver.problem import Choice, Item, Panel, Problem, Stock

_LENGTH, _WIDTH, _KERF, _PRICES = 100_000, 20_000, 300, (0, 7)
_STAVES = 500  # a panel of two strips, each as wide as a bin


def _problem(draw: random.Random) -> Problem:
    stocks = tuple(
        Stock(n, _LENGTH, _WIDTH, 1 - n or None, p, 1e-9, _KERF, 200) for n, p in enumerate(_PRICES)
    )
    sizes = [draw.randrange(26, 90) * 1000 for _ in range(draw.randint(4, 6))]
    items = tuple(Item(n, size, 19_000, 0, frozenset({0, 1})) for n, size in enumerate(sizes))
    panel = Panel(_STAVES, draw.randrange(26, 60) * 1000, 38_000, 0, 19_000, 19_500, (2, 2), 0, (19_500,) * 2)
    ways = (frozenset({0}), frozenset({1, 2}), frozenset({_STAVES}))
    return Problem(stocks, items, (panel,), choices=(Choice(ways, (0.0,) * 3),))


def _least(problem: Problem) -> float:
    """Bins of one dimension, each want an interval as long as it is and a kerf."""
    model = cp_model.CpModel()
    ways = [model.new_bool_var("") for _ in problem.choices[0].ways]
    model.add_exactly_one(ways)
    pieces = [(i.id, i.length) for i in problem.items] + [(_STAVES, problem.panels[0].length)] * 2
    bins = [(_PRICES[0], model.new_bool_var(""))]
    bins += [(_PRICES[1], model.new_bool_var("")) for _ in range(len(pieces))]
    lies = [[model.new_bool_var("") for _ in bins] for _ in pieces]
    for (want, _), row in zip(pieces, lies, strict=True):
        named = [y for y, way in zip(ways, problem.choices[0].ways, strict=True) if want in way]
        model.add(sum(row) == (sum(named) if named else 1))
    for number, (_, used) in enumerate(bins):
        filled = sum((size + _KERF) * row[number] for (_, size), row in zip(pieces, lies, strict=True))
        model.add(filled <= (_LENGTH + _KERF) * used)
    model.minimize(sum(price * used for price, used in bins))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return solver.objective_value


@pytest.mark.parametrize("seeds", [range(8), range(8, 16)])
def test_the_bound_with_a_choice_is_never_over_the_least_money_and_mostly_reaches_it(seeds: range) -> None:
    met = 0
    for seed in seeds:
        problem = _problem(random.Random(seed))
        top = root(merged(problem), Aim(1.0, 0.0, 0.0), (), math.inf)
        least, bound = _least(problem), attainable(top.bound, _PRICES)
        assert bound <= least + 1e-9
        met += bound == pytest.approx(least)
    assert met > len(seeds) // 2
