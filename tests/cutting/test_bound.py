"""The bound never exceeds what the best plan costs, found here by trying everything."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting import cut_plan, verify
from scantling.cutting.bound import _cover
from scantling.piece.model import MaterialKind

ROOM = 2438.4 - 20.0  # ends trimmed
KERF = 3.2


def fewest_sticks(lengths: list[float]) -> int:
    """By trying every way to share out the lengths."""
    for count in range(1, len(lengths) + 1):
        for shares in product(range(count), repeat=len(lengths)):
            loads = [0.0] * count
            for length, share in zip(lengths, shares, strict=True):
                loads[share] += length + KERF
            if all(load <= ROOM + KERF + 1e-9 for load in loads):
                return count
    raise AssertionError("a length longer than a stick")


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(300, 2400).map(float), min_size=1, max_size=6))
def test_sticks_against_every_way(make, lengths: list[float]) -> None:
    # source: independent; enumeration of all assignments
    parts = [
        make.part(f"slat {i}", length, 88.9, 38.1, kind=MaterialKind.LUMBER, text="pine 2x4", species="pine")
        for i, length in enumerate(lengths)
    ]
    machined, shop = make.piece(*parts), make.shop(make.stick())
    plan = cut_plan(machined, shop, seconds=0.05)
    assert verify(plan, machined, shop) == ()
    fewest = 5.0 * fewest_sticks(lengths)
    assert plan.bound <= fewest <= plan.money
    assert plan.money <= fewest + 5.0


def test_bound_of_a_board_that_must_be_bought(make) -> None:
    """Nothing owned is thick enough, so one thick board at least."""
    # source: by hand; 4.67 board feet at 8.00 by its label
    machined = make.piece(make.part("rail", 900, 90, 19))
    shop = make.shop(make.board(thickness=15), make.sold())
    plan = cut_plan(machined, shop, seconds=0.05)
    assert plan.bound == plan.money == 37.33


def test_owned_stock_that_is_large_enough_bounds_nothing(make) -> None:
    machined = make.piece(make.part("rail", 900, 90, 19))
    plan = cut_plan(machined, make.shop(make.board(), make.sold()), seconds=0.05)
    assert plan.bound == 0


def test_bound_of_pieces_past_counting_is_by_area_and_at_once() -> None:
    # source: by hand; 1e9 mm² from kinds of 1, 2 and 3 mm² at 1, 1.5 and 3: least price an mm² is 0.75
    assert _cover(1e9, [(1.0, 1.0), (2.0, 1.5), (3.0, 3.0)]) == pytest.approx(0.75e9)


def _thin_sheets(make):
    """1/4 in, 5.2 mm as measured, at 42; and 6 mm at 45."""
    quarter = replace(make.sheet("quarter", price=42.0), label=6.35, thickness=5.2, owned=False, count=1)
    six = replace(make.sheet("six", price=45.0), label=6.0, thickness=6.0, owned=False, count=1)
    return quarter, six


def _thin_part(make):
    sheet = {"kind": MaterialKind.SHEET, "text": "birch plywood 6", "species": "birch plywood", "label": 6.0}
    return make.piece(make.part("back", 500, 200, 6.0, **sheet))


def test_the_sheet_marked_nearest_is_taken(make) -> None:
    machined, shop = _thin_part(make), make.shop(*_thin_sheets(make))
    plan = cut_plan(machined, shop, seconds=0.1)
    # source: by hand: 6 is marked 6; the quarter inch, 6.35, only stands in where there is no other
    assert [layout.stock for layout in plan.layouts] == ["six"]
    assert (plan.money, plan.bound) == (45.0, 45.0)


def test_a_sheet_thinner_than_marked_does_not_lift_the_bound(make) -> None:
    machined, shop = _thin_part(make), make.shop(_thin_sheets(make)[0])
    plan = cut_plan(machined, shop, seconds=0.1)
    # source: by hand: the only sheet there is costs 42, though it measures 5.2
    assert (plan.money, plan.bound) == (42.0, 42.0)
    assert plan.bound <= plan.money
