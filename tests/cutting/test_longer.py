"""Looking longer: sound plans, never worse than the quick one, never under what is proven."""

from __future__ import annotations

import pytest
from benchmarks.cutting.racks import case, told_at_stations

from scantling.cutting import cut_plan, verify
from scantling.cutting.plan import LONG


@pytest.mark.parametrize(("seed", "boards", "parts"), [(0, 5, 12), (1, 5, 12), (2, 8, 20)])
def test_looking_longer_is_sound_and_no_worse_and_proven(seed: int, boards: int, parts: int) -> None:
    made = case(seed, boards, parts)
    quick = cut_plan(made.machined, made.shop)
    longer = cut_plan(made.machined, made.shop, seconds=LONG)
    assert verify(longer, made.machined, made.shop) == ()
    assert len(longer.unmet) <= len(quick.unmet)
    assert longer.money <= quick.money
    assert longer.bound <= longer.money
    if not longer.unmet:
        assert 0 < longer.weight_bound <= longer.weight
        if longer.money == quick.money:
            assert longer.weight <= quick.weight


@pytest.mark.parametrize("seed", range(3))
def test_looking_longer_heeds_where_boards_told_at_stations_are_flat(seed: int) -> None:
    made = told_at_stations(case(seed, 5, 14), seed)
    quick = cut_plan(made.machined, made.shop)
    longer = cut_plan(made.machined, made.shop, seconds=LONG)
    assert verify(longer, made.machined, made.shop) == ()
    assert longer.money <= quick.money
    assert longer.bound <= longer.money
    assert longer.unmet or longer.weight_bound <= longer.weight
