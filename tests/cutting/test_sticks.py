"""Dimension lumber planned to a proven end."""

from __future__ import annotations

import random
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting import cut_plan, verify
from scantling.piece.model import MaterialKind


def slats(make, lengths: list[float]):
    return make.piece(
        *(
            make.part(
                f"slat {i}", length, 88.9, 38.1, kind=MaterialKind.LUMBER, text="pine 2x4", species="pine"
            )
            for i, length in enumerate(lengths)
        )
    )


@settings(max_examples=15, deadline=None)
@given(st.lists(st.integers(300, 2400).map(float), min_size=8, max_size=30), st.booleans())
def test_plans_of_sticks_are_within_a_stick_of_what_is_proven(
    make, lengths: list[float], longer: bool
) -> None:
    """Nearly all are proven best; some fill so many sticks to the last per cent that nobody knows."""
    sold = [make.stick(), replace(make.stick("2x4 long", 3657.6), price=8.0)] if longer else [make.stick()]
    machined, shop = slats(make, lengths), make.shop(*sold)
    plan = cut_plan(machined, shop, seconds=0.05)
    assert verify(plan, machined, shop) == ()
    assert plan.unmet == ()
    assert plan.bound <= plan.money <= plan.bound + 5.0


def test_two_that_only_go_together_one_way(make) -> None:
    """Longest first spends a stick more: 1460 + 950 twice and 720 + 720 + 950 once fill three to the end."""
    # source: by hand; three sticks give 3 x 2418 and 7 213 is asked for with its kerfs
    machined = slats(make, [1460.0, 1460.0, 950.0, 950.0, 950.0, 720.0, 720.0])
    plan = cut_plan(machined, make.shop(make.stick()), seconds=0.05)
    assert (plan.money, plan.bound, len(plan.layouts)) == (15.0, 15.0, 3)


def test_own_sticks_first_and_the_shortest_that_will_do(make) -> None:
    own = replace(make.stick("2x4 own", 1220.0, 3), owned=True, price=0.0)
    long = replace(make.stick("2x4 own long", 3000.0, 2), owned=True, price=0.0)
    machined = slats(make, [1100.0] * 3)
    plan = cut_plan(machined, make.shop(long, own, make.stick()), seconds=0.05)
    assert plan.money == plan.bound == 0
    assert {layout.length for layout in plan.layouts} == {1220.0} or len(plan.layouts) == 2


def test_many_sticks_take_seconds(make) -> None:
    draw = random.Random(5)
    lengths = [float(draw.randint(200, 2300)) for _ in range(400)]
    machined, shop = slats(make, lengths), make.shop(make.stick())
    plan = cut_plan(machined, shop)
    assert verify(plan, machined, shop) == ()
    assert plan.status == "optimal"


def test_a_price_between_cents_never_lifts_the_bound_over_the_money(make) -> None:
    stick = replace(make.stick(), price=4.996)
    machined = slats(make, [1460.0, 1460.0, 950.0, 950.0, 950.0, 720.0, 720.0])
    plan = cut_plan(machined, make.shop(stick), seconds=0.05)
    assert len(plan.layouts) == 3
    assert plan.bound <= 3 * 4.996
