"""Precedence, schedule and weeks, worked by hand."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.building.build_plan import Stage, Step
from scantling.building.draft import Draft, precedence
from scantling.building.schedule import Sessions, schedule, weeks


def _draft(*parts: str) -> Draft:
    return Draft(Stage.JOINTS, "do", "it", parts)


def test_a_step_follows_the_last_that_touched_its_parts():
    drafts = [_draft("a"), _draft("b"), _draft("a", "b"), _draft("c"), _draft("b"), _draft()]
    assert precedence(drafts) == ((), (), (0, 1), (), (2,), (3, 4))


def test_what_another_arrow_says_is_left_out():
    assert precedence([_draft("a", "b"), _draft("a"), _draft("a", "b")]) == ((), (0,), (1,))


@given(st.lists(st.sets(st.sampled_from("abcdef")), max_size=14))
def test_arrows_point_backward_and_order_shared_parts(touched):
    drafts = [_draft(*sorted(parts)) for parts in touched]
    before = precedence(drafts)
    reach: list[set[int]] = []
    for at, arrows in enumerate(before):
        assert all(arrow < at for arrow in arrows)
        reach.append(set(arrows).union(*(reach[arrow] for arrow in arrows)))
    for late in range(len(drafts)):
        for early in range(late):
            if touched[late] & touched[early] or not touched[late]:
                assert early in reach[late]


def _step(number: int, active: float, wait: float = 0.0, after: tuple[int, ...] = ()) -> Step:
    return Step(number, Stage.JOINTS, "t", "t", active=active, wait=wait, after=after)


def test_sessions_turn_shop_time_into_time_on_the_wall():
    eight = Sessions(8)
    # source: by hand: 8 h a week in sessions of at most 4 h is two of 240 min, half a week (5040 min) apart
    assert (eight.count, eight.long, eight.apart) == (2, 240.0, 5040.0)
    assert eight.wall(240) == 240
    assert eight.wall(241) == 5041
    assert eight.worked(1000) == 240  # between sessions nothing is worked
    assert eight.worked(5040 + 60) == 300


def test_work_goes_on_while_glue_dries():
    steps = (_step(1, 60, 120), _step(2, 30, after=(1,)), _step(3, 50))
    slots = schedule(steps, 8)
    # source: by hand: 3 fills the wait of 1; 2 starts when it is over, at 180
    assert [(slot.step, slot.start, slot.end) for slot in slots] == [(1, 0, 60), (3, 60, 110), (2, 180, 210)]
    assert slots[0].free_at == 180


def test_a_night_in_clamps_costs_no_session():
    steps = (_step(1, 240, 24 * 60), _step(2, 30, after=(1,)))
    slots = schedule(steps, 8)
    # source: by hand: the session ends at 240; the next begins 5040 - 240 minutes later, over a day
    assert slots[1].start == pytest.approx(240)
    assert weeks(slots, steps, 8) == pytest.approx((5040 + 30) / (7 * 24 * 60))


@given(
    st.lists(
        st.tuples(st.floats(1, 300), st.sampled_from([0.0, 45.0, 1440.0]), st.sets(st.integers(1, 12))),
        min_size=1,
        max_size=12,
    )
)
def test_one_maker_does_one_thing_and_no_wait_is_cut_short(rows):
    steps = tuple(
        _step(number, active, wait, tuple(n for n in sorted(after) if n < number))
        for number, (active, wait, after) in enumerate(rows, start=1)
    )
    slots = schedule(steps, 6)
    free = {slot.step: slot.free_at for slot in slots}
    assert sorted(free) == [step.number for step in steps]
    for early, late in pairwise(slots):
        assert late.start >= early.end - 1e-6
    for slot in slots:
        assert all(free[n] <= slot.start + 1e-6 for n in steps[slot.step - 1].after)


def test_every_board_that_is_sawn_is_told(planned):
    _, _, cuts, build, _ = planned
    sawn = {name for step in build.steps for name in step.stock}
    assert sawn == {layout.stock for layout in cuts.layouts if any(not _late(layout, c) for c in layout.cuts)}


def _late(layout, cut):
    """Whether a cut is made after planing, in what was planed in one length."""
    parent = {child: c.of for c in layout.cuts for child in c.gives if child}
    planed = {piece.id for piece in layout.pieces if piece.flattened is not None}
    node, chain = cut.of, [cut.of]
    while node in parent:
        node = parent[node]
        chain.append(node)
    return bool(planed & set(chain))
