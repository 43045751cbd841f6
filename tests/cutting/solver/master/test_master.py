"""The bound is proven: never above a plan, equal to the least money where that is known."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting.solver.master import solve
from scantling.cutting.solver.master.relaxed import attainable
from scantling.cutting.solver.problem import Choice, Item, Panel, Problem, Stock
from scantling.cutting.solver.search import Search


def _stock(pool: int, money: float, count: int | None, length: int = 100_000) -> Stock:
    return Stock(pool, length, 20_000, count, money, 1e-9, 300, 200)


def _item(number: int, length: int, width: int, stocks: int = 1) -> Item:
    return Item(number, length, width, 0, frozenset(range(stocks)))


def test_three_items_of_which_two_never_share_a_bin_cost_three_bins() -> None:
    problem = Problem((_stock(0, 7.0, None),), tuple(_item(n, 60_000, 12_000) for n in range(3)))
    found = solve(problem, 0, 30, math.inf)
    assert found.bound == pytest.approx(21.0)
    assert found.filling is not None
    assert found.filling.cost[1] == pytest.approx(21.0)


def test_owned_bins_run_out() -> None:
    stocks = (_stock(0, 0.0, 1), _stock(1, 5.0, None))
    problem = Problem(stocks, tuple(_item(n, 60_000, 12_000, 2) for n in range(3)))
    assert solve(problem, 0, 30, math.inf).bound == pytest.approx(10.0)


def test_the_cheapest_way_of_a_choice_bounds_it() -> None:
    items = (_item(0, 90_000, 19_000), *(_item(n, 90_000, 19_000) for n in (1, 2)))
    choice = Choice((frozenset({1, 2}), frozenset({0})))
    problem = Problem((_stock(0, 4.0, None),), items, choices=(choice,))
    assert solve(problem, 0, 30, math.inf).bound == pytest.approx(4.0)


@settings(max_examples=10, deadline=None)
@given(st.lists(st.tuples(st.integers(20_000, 95_000), st.integers(3_000, 19_000)), min_size=1, max_size=6))
def test_no_plan_is_under_the_bound(sizes: list[tuple[int, int]]) -> None:
    panel = Panel(99, 40_000, 16_000, 300, 4_000, 9_000, (2, 4), 0, (9_000, 9_000))
    items = tuple(_item(n, *size, 2) for n, size in enumerate(sizes))
    problem = Problem((_stock(0, 0.0, 1), _stock(1, 5.0, None)), items, (panel,))
    found = solve(problem, 1, 20, math.inf)
    plan = Search(problem, 2).fill()
    assert found.filling is not None
    assert not found.filling.unmet
    assert not plan.unmet
    assert found.bound <= min(plan.cost[1], found.filling.cost[1]) + 1e-9
    again = solve(problem, 1, 20, math.inf)
    assert again.filling is not None
    assert (again.bound, again.filling.cost) == (found.bound, found.filling.cost)


def test_sums_that_can_be_spent() -> None:
    assert attainable(10.01, (7.5, 5.0)) == pytest.approx(12.5)
    assert attainable(3.0, (0.0,)) == 3.0
    assert attainable(14.9, (4.996,)) == 14.9  # a multiple of 5.00 would be more than three cost
