"""Whatever the rack and the parts: a sound plan, the same every time, in about a second."""

from __future__ import annotations

import time

import pytest

from scantling.cutting import cut_plan, verify


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize(("boards", "parts", "sells"), [(4, 20, True), (10, 30, False), (3, 30, False)])
def test_every_plan_is_sound(racks, seed: int, boards: int, parts: int, sells: bool) -> None:
    made = racks.case(seed, boards, parts, sells=sells)
    plan = cut_plan(made.machined, made.shop, seed=seed, seconds=0.15)
    assert verify(plan, made.machined, made.shop) == ()
    if sells:
        assert not plan.unmet or all("flattening" in u.reason for u in plan.unmet)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize(("boards", "parts", "sells"), [(5, 24, True), (10, 30, False)])
def test_every_plan_from_boards_told_at_stations_is_sound(
    racks, seed: int, boards: int, parts: int, sells: bool
) -> None:
    made = racks.told_at_stations(racks.case(seed, boards, parts, sells=sells), seed, 0.7)
    plan = cut_plan(made.machined, made.shop, seed=seed, seconds=0.15)
    assert verify(plan, made.machined, made.shop) == ()
    assert plan.layouts


def test_same_input_same_plan(racks) -> None:
    made = racks.case(5, 8, 30)
    first = cut_plan(made.machined, made.shop, seconds=0.1)
    assert first == cut_plan(made.machined, made.shop, seconds=0.1)


def test_twenty_boards_sixty_parts_in_about_a_second(racks) -> None:
    made = racks.case(7, 20, 60)
    start = time.process_time()
    plan = cut_plan(made.machined, made.shop, seconds=0.5)
    taken = time.process_time() - start
    assert verify(plan, made.machined, made.shop) == ()
    assert not plan.unmet
    assert taken < 5.0  # generous: measured with coverage on; benchmarks/cutting holds the second
