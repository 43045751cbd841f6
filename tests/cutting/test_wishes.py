"""Wishes of the build record: parts from certain boards, boards left alone, grain that may turn."""

from __future__ import annotations

import random

import pytest

from scantling.cutting import CutPlan, cut_plan, verify
from scantling.piece.model import MaterialKind
from scantling.shop.model import Warp

SHEET = {"kind": MaterialKind.SHEET, "text": "birch plywood 18", "species": "birch plywood", "label": 18.0}


def planned(machined, shop, seconds: float = 0.1) -> CutPlan:
    plan = cut_plan(machined, shop, seconds=seconds)
    assert verify(plan, machined, shop) == ()
    return plan


def boards_of(plan: CutPlan, part: str) -> set[str]:
    mine = {blank.id for blank in plan.blanks if blank.part == part}
    return {layout.stock for layout in plan.layouts for p in layout.placed if p.blank in mine}


@pytest.fixture
def job(make):
    parts = [make.part(f"rail {i}", 700, 80, 19) for i in range(3)]
    shop = make.shop(*(make.board(f"W{i}", length=2400 - i) for i in range(1, 5)), make.sold())
    return make.piece(*parts), shop


@pytest.mark.parametrize("board", ["W1", "W2", "W4", "w3", "cherry 4/4"])
def test_a_part_comes_from_the_board_named(make, job, board: str) -> None:
    machined = make.noted(job[0], f"rail 1: {{from: {board}}}")
    plan = planned(machined, job[1])
    assert {stock.lower() for stock in boards_of(plan, "rail 1")} == {board.lower()}
    assert plan.unheeded == ()


def test_any_of_the_boards_named_will_do(make, job) -> None:
    plan = planned(make.noted(job[0], "rail 1: {from: [W2, W4]}"), job[1])
    assert boards_of(plan, "rail 1") <= {"W2", "W4"}


def test_a_board_left_alone_is_not_cut(make, job) -> None:
    machined = make.noted(job[0], "boards: {W1: leave, W2: leave, W3: leave}")
    plan = planned(machined, job[1])
    assert {layout.stock for layout in plan.layouts} == {"W4"}


def test_everything_left_alone_is_bought(make, job) -> None:
    machined = make.noted(job[0], "boards: {W1: leave, W2: leave, W3: leave, W4: leave}")
    assert planned(machined, job[1]).money > 0


def test_a_wish_for_a_board_left_alone_is_told_and_dropped(make, job) -> None:
    machined = make.noted(job[0], "rail 1: {from: W2}\nboards: {W2: leave}")
    plan = planned(machined, job[1])
    (told,) = plan.unheeded
    assert "W2 is to be left alone" in told.reason
    assert told.place is not None
    assert told.place.line == 2
    assert not plan.unmet
    assert boards_of(plan, "rail 1").isdisjoint({"W2"})


@pytest.mark.parametrize(
    ("board", "words"),
    [
        ("W9", "nothing on the rack or for sale is called W9"),
        ("oak 1", "no cherry"),
        ("W1#2", "not that many of W1"),
    ],
)
def test_a_board_that_is_not_there_is_told(make, job, board: str, words: str) -> None:
    machined, shop = job
    shop = make.shop(*shop.boards, make.board("oak 1", species="white oak"), *shop.for_sale)
    plan = planned(make.noted(machined, f"rail 1: {{from: {board}}}"), shop)
    (told,) = plan.unheeded
    assert words in told.reason
    assert not plan.unmet


def test_an_unknown_board_left_alone_is_told_with_the_nearest(make, job) -> None:
    (told,) = planned(make.noted(job[0], "boards: {W11: leave}"), job[1]).unheeded
    assert "called W11" in told.reason
    assert "did you mean W1?" in told.best


def test_a_board_too_bent_says_what_it_would_give(make) -> None:
    machined = make.noted(make.piece(make.part("rail", 1100, 150, 19)), "rail: {from: bent}")
    shop = make.shop(make.board("flat"), make.board("bent", warp=Warp(bow=20, twist=8)))
    plan = planned(machined, shop)
    (told,) = plan.unheeded
    # source: by hand; 25.4 - 20 (1200/2400)^2 - 4 (1200/2400)(156/180) - 1.6 = 17.07
    assert told.best.startswith("the best that can be had is 17.1 mm from bent; it gives 19 mm where")
    assert boards_of(plan, "rail") == {"flat"}


def test_more_wanted_from_a_board_than_it_holds(make) -> None:
    """Three rails of 725 are wanted from a board 1600 long and 90 wide: two go, the third is told."""
    rails = [make.part(f"rail {i}", 700, 75, 19) for i in range(3)]
    machined = make.noted(make.piece(*rails), "\n".join(f"rail {i}: {{from: small}}" for i in range(3)))
    plan = planned(machined, make.shop(make.board("small", 1700, 90), make.board("large")))
    # source: by hand; 700 + 2 x 50 for snipe = 800 each, 1700 - 50 at the ends holds two, 90 only one abreast
    (told,) = plan.unheeded
    assert told.reason.startswith("small has no room for rail")
    assert not plan.unmet
    assert sum(boards_of(plan, f"rail {i}") == {"small"} for i in range(3)) == 2


def test_wished_parts_go_before_others_that_want_the_board(make) -> None:
    rails = [make.part(f"rail {i}", 700, 75, 19) for i in range(4)]
    machined = make.noted(make.piece(*rails), "rail 3: {from: small}")
    plan = planned(machined, make.shop(make.board("small", 900, 90), make.board("large")))
    assert boards_of(plan, "rail 3") == {"small"}
    assert plan.unheeded == ()


def test_a_sheet_of_a_stack_may_be_named(make) -> None:
    panels = [make.part(f"panel {i}", 600, 300, 17.6, **SHEET) for i in range(2)]
    machined = make.noted(make.piece(*panels), "panel 0: {from: ply#2}\npanel 1: {from: ply}")
    plan = planned(machined, make.shop(make.sheet(count=3)))
    assert boards_of(plan, "panel 0") == {"ply#2"}
    assert plan.unheeded == ()


def test_grain_that_may_turn_saves_a_sheet(make) -> None:
    """A panel as long as the sheet is wide, its grain along: it only fits across."""
    panel = make.part("panel", 1000, 500, 17.6, **SHEET)
    shop = make.shop(make.sheet(length=800.0, width=1220.0))
    assert planned(make.piece(panel), shop).unmet
    plan = planned(make.noted(make.piece(panel), "panel: {grain: may turn}"), shop)
    assert not plan.unmet
    assert not plan.blanks[0].grain_fixed


def test_grain_of_a_board_cannot_turn(make, job) -> None:
    (told,) = planned(make.noted(job[0], "rail 1: {grain: may turn}"), job[1]).unheeded
    assert "its grain runs with the board" in told.reason


def test_staves_of_a_panel_come_from_the_boards_named(make) -> None:
    machined = make.noted(make.piece(make.part("top", 800, 350, 19)), "top: {from: [W2, W3]}")
    plan = planned(machined, make.shop(*(make.board(f"W{i}") for i in range(1, 5))), 0.2)
    assert boards_of(plan, "top") <= {"W2", "W3"}
    assert plan.unheeded == ()


@pytest.mark.parametrize("seed", range(8))
def test_whatever_is_wished_the_plan_is_sound(make, racks, seed: int) -> None:
    """Random wishes on random racks: all are met or told, and a part left without wood has none anyway."""
    made = racks.case(seed, 8, 16, sells=seed % 2 == 0)
    draw = random.Random(seed)
    names = [*(board.id for board in made.shop.boards), "no such board"]
    lines = [f"{part.name}: {{from: {draw.choice(names)}}}" for part in draw.sample(made.machined.parts, 5)]
    left = draw.sample(names[:-1], 2)
    machined = make.noted(
        made.machined, "\n".join([*lines, f"boards: {{{left[0]}: leave, {left[1]}: leave}}"])
    )
    plan = cut_plan(machined, made.shop, seconds=0.1)
    assert verify(plan, machined, made.shop) == ()
    told = {name for each in plan.unheeded for name in each.stock}
    assert {layout.stock for layout in plan.layouts}.isdisjoint(left)
    for noted in machined.piece.record.measured:
        assert boards_of(plan, noted.part) <= set(noted.stock) or told & set(noted.stock)
