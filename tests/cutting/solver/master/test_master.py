"""The bound is proven: never above a plan, equal to the least money where that is known."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting.solver.master import Aim, Plan, attainable, improved, merged, plan_of, root
from scantling.cutting.solver.problem import SCALE, Choice, Item, Panel, Problem, Stock
from scantling.cutting.solver.search import Search

MONEY = Aim(1.0, 0.0, 0.0)
WOOD = Aim(20.0, 1 / SCALE**2, 1.0)


def _stock(pool: int, money: float, count: int | None, length: int = 100_000) -> Stock:
    return Stock(pool, length, 20_000, count, money, 1e-4, 300, 200)


def _item(number: int, length: int, width: int, stocks: int = 1) -> Item:
    return Item(number, length, width, 0, frozenset(range(stocks)))


def _bound(problem: Problem, aim: Aim = MONEY) -> float:
    return root(merged(problem), aim, (), math.inf).bound


def _start(problem: Problem, seed: int = 2) -> Plan:
    """The quick search's filling as a plan; its wants are classes where all differ."""
    filling = Search(problem, seed).fill()
    assert not filling.unmet
    plan = plan_of(merged(problem), WOOD, {}, filling.bins.values())
    assert plan is not None
    return plan


def test_three_items_of_which_two_never_share_a_bin_cost_three_bins() -> None:
    problem = Problem((_stock(0, 7.0, None),), tuple(_item(n, 60_000, 12_000) for n in range(3)))
    assert _bound(problem) == pytest.approx(21.0, abs=1e-3)


def test_equal_items_are_one_class_and_panels_alike_one_that_asks_for_both() -> None:
    panels = tuple(Panel(n, 40_000, 16_000, 300, 4_000, 9_000, (2, 4), 0, (9_000,)) for n in (8, 9))
    problem = Problem(
        (_stock(0, 7.0, None),), (_item(0, 500, 500), _item(1, 500, 500), _item(2, 700, 500)), panels
    )
    made = merged(problem)
    assert made.members == {0: (0, 1), 2: (2,), 8: (8, 9)}
    assert made.always["item", 0] == 2
    assert (made.always["width", 8], made.always["fewest", 8], made.always["strips", 8]) == (32_000, 4, 8)
    assert (made.problem.panels[0].need, made.problem.panels[0].counts) == (32_000, (4, 8))


def test_owned_bins_run_out() -> None:
    stocks = (_stock(0, 0.0, 1), _stock(1, 5.0, None))
    problem = Problem(stocks, tuple(_item(n, 60_000, 12_000, 2) for n in range(3)))
    assert _bound(problem) == pytest.approx(10.0, abs=1e-3)


def test_the_cheapest_way_of_a_choice_bounds_it_with_what_it_weighs() -> None:
    items = (_item(0, 90_000, 19_000), *(_item(n, 90_000, 19_000) for n in (1, 2)))
    for against, least in ((0.0, 4.0), (1.5, 5.5), (9.0, 8.0)):
        choice = Choice((frozenset({1, 2}), frozenset({0})), (0.0, against))
        problem = Problem((_stock(0, 4.0, None),), items, choices=(choice,))
        assert _bound(problem, Aim(1.0, 0.0, 1.0)) == pytest.approx(least, abs=1e-3)


def test_money_that_may_not_be_spent_raises_the_bound_on_wood() -> None:
    """The owned bin has room for both but is worth more wood than the one that is bought."""
    stocks = (_stock(0, 0.0, None), Stock(1, 60_000, 20_000, None, 5.0, 1e-5, 300, 200))
    problem = Problem(stocks, (_item(0, 50_000, 15_000, 2),))
    free, none = (_bound(problem, Aim(0.0, 1 / SCALE**2, 0.0, limit)) for limit in (math.inf, 0.0))
    assert 0 < free < none / 5


SIZES = st.lists(st.tuples(st.integers(20_000, 95_000), st.integers(3_000, 19_000)), min_size=1, max_size=6)


@settings(max_examples=12, deadline=None)
@given(SIZES)
def test_no_plan_is_under_the_bound_and_looking_longer_never_makes_it_worse(
    sizes: list[tuple[int, int]],
) -> None:
    panel = Panel(99, 40_000, 16_000, 300, 4_000, 9_000, (2, 4), 0, (9_000, 9_000))
    items = tuple(_item(n, *size, 2) for n, size in enumerate(dict.fromkeys(sizes)))
    problem = Problem((_stock(0, 0.0, 1), _stock(1, 5.0, None)), items, (panel,))
    start = _start(problem)
    top = root(merged(problem), WOOD, start.bins, math.inf)
    found = improved(top, [start], 6, 1, math.inf)
    assert top.bound <= found.cost <= start.cost
    spent = sum(problem.stocks[bin_.stock].money for bin_ in start.bins)
    assert _bound(problem) <= spent + 1e-9
    assert improved(top, [start], 6, 1, math.inf) == found


def test_a_plan_with_something_missing_is_none() -> None:
    problem = Problem((_stock(0, 7.0, None),), (_item(0, 60_000, 12_000), _item(1, 50_000, 12_000)))
    plan = _start(problem)
    assert plan_of(merged(problem), WOOD, {}, plan.bins[:1]) is None


def test_what_is_over_is_left_out_of_a_plan() -> None:
    problem = Problem((_stock(0, 7.0, None),), (_item(0, 60_000, 12_000),))
    plan = _start(problem)
    assert plan_of(merged(problem), WOOD, {}, [*plan.bins, *plan.bins]) == plan


def test_sums_that_can_be_spent() -> None:
    assert attainable(10.01, (7.5, 5.0)) == pytest.approx(12.5)
    assert attainable(3.0, (0.0,)) == 3.0
    assert attainable(14.9, (4.996,)) == 14.9  # a multiple of 5.00 would be more than three cost
