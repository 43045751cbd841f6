"""Boards cut as planned: their blanks exist, their offcuts are stock, what was spoiled is made again."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from scantling.cutting import CutPlan, board_cut, board_left_alone, cut_plan, rack_left, verify
from scantling.piece.model import MaterialKind
from scantling.quantity import LengthUnit
from scantling.shop.model import Defect, Warp

SHEET = {"kind": MaterialKind.SHEET, "text": "birch plywood 18", "species": "birch plywood", "label": 18.0}


def planned(machined, shop, before: CutPlan | None = None, seconds: float = 0.1) -> CutPlan:
    plan = cut_plan(machined, shop, seconds=seconds, before=before)
    assert verify(plan, machined, shop) == ()
    return plan


def cut_line(plan: CutPlan, stock: str) -> str:
    layout = next(layout for layout in plan.layouts if layout.stock == stock)
    return board_cut(plan, layout, LengthUnit.MM).line


def test_blanks_that_are_cut_want_no_wood(make) -> None:
    rails = make.piece(*(make.part(f"rail {i}", 700, 80, 19) for i in range(3)))
    shop = make.shop(make.board("W1"))
    line = cut_line(planned(rails, shop), "W1")
    machined = make.noted(rails, f"boards:\n  {line}")
    plan = planned(machined, shop)
    assert plan.blanks == ()
    assert plan.layouts == ()
    assert sorted(blank.part for blank in plan.made) == ["rail 0", "rail 1", "rail 2"]
    assert plan.unheeded == ()


def test_what_a_cut_board_gave_is_told_in_its_own_words(make) -> None:
    machined = make.piece(make.part("rail", 700, 80, 19))
    plan = planned(machined, make.shop(make.board("W1", 1000, 100)))
    # source: by hand; 700 + 2 x 50 for snipe, 80 + 6; what is left is too short or too narrow to keep
    assert cut_line(plan, "W1").startswith("W1: {cut: {rail: 800 x 86 x 19}")


def test_an_offcut_is_stock_of_its_own(make) -> None:
    first = make.part("rail", 700, 80, 19)
    shop = make.shop(make.board("W1", 2400, 180))
    line = cut_line(planned(make.piece(first), shop), "W1")
    assert "left: [" in line
    machined = make.noted(make.piece(first, make.part("slat", 600, 60, 19)), f"boards:\n  {line}")
    plan = planned(machined, shop)
    (layout,) = plan.layouts
    assert layout.stock.startswith("W1 offcut ")
    assert [placed.blank for placed in layout.placed] == ["slat"]


def test_a_part_may_be_wanted_from_an_offcut_and_an_offcut_cut_in_its_turn(make) -> None:
    parts = [make.part(name, 600, 60, 19) for name in ("rail", "slat", "stay")]
    shop = make.shop(make.board("W1"), make.board("W2"))
    first = "W1: {cut: {rail: 700 x 66 x 19}, left: [1650 x 180 at 740 x 0]}"
    machined = make.noted(make.piece(*parts), f"slat: {{from: W1 offcut 1}}\nboards:\n  {first}")
    plan = planned(machined, shop)
    assert plan.unheeded == ()
    offcut = next(layout for layout in plan.layouts if layout.stock == "W1 offcut 1")
    assert "slat" in {placed.blank for placed in offcut.placed}
    second = "W1 offcut 1: {cut: {slat: 700 x 66 x 19}, left: [900 x 180 at 740 x 0]}"
    again = make.noted(machined, f"stay: {{from: W1 offcut 1 offcut 1}}\nboards:\n  {first}\n  {second}")
    plan = planned(again, shop)
    assert plan.unheeded == ()
    assert [layout.stock for layout in plan.layouts] == ["W1 offcut 1 offcut 1"]


def test_an_offcut_keeps_its_share_of_the_warp_and_its_knots(make) -> None:
    board = make.board("W1", 2000, 200, warp=Warp(8, 4, 2, 6), defects=(Defect("knot", 1500, 1550, 20, 40),))
    record = make.noted(
        make.piece(make.part("rail", 700, 80, 19)),
        "boards: {W1: {cut: {rail: 800 x 86 x 19}, left: [1000 x 100 at 1000 x 10]}}",
    ).piece.record
    (offcut,) = rack_left(make.shop(board), record, LengthUnit.MM).shop.boards
    # source: by hand; half as long and half as wide: a quarter of bow, crook, cup and twist
    assert offcut.warp == Warp(2, 1, 0.5, 1.5)
    assert Defect("knot", 500, 550, 10, 30) in offcut.defects
    # it holds the board's far end: 25 of it checked
    assert Defect("check", 975, 1000, 0, 100) in offcut.defects


def test_a_spoiled_part_is_planned_again(make) -> None:
    rails = make.piece(*(make.part(f"rail {i}", 700, 80, 19) for i in range(2)))
    shop = make.shop(make.board("W1"), make.board("W2"))
    line = cut_line(planned(rails, shop), "W1")
    plan = planned(make.noted(rails, f"rail 1: {{spoiled: 1}}\nboards:\n  {line}"), shop)
    assert [blank.part for blank in plan.blanks] == ["rail 1"]
    assert [blank.part for blank in plan.made] == ["rail 0"]


def test_a_blank_noted_twice_is_one_blank(make) -> None:
    machined = make.noted(
        make.piece(make.part("rail", 700, 80, 19)),
        "boards: {W1: {cut: {rail: 800 x 86 x 19}}, W2: {cut: {rail: 801 x 86 x 19}}}",
    )
    plan = planned(machined, make.shop(make.board("W1"), make.board("W2")))
    assert [blank.rough_length for blank in plan.made] == [801]
    assert plan.glue_ups == ()


def test_a_layer_that_is_cut_leaves_the_others(make) -> None:
    leg = make.part("leg", 600, 44, 44)
    shop = make.shop(make.board("W1", 760, 70, 32), make.board("W2", 760, 70, 32))
    plan = planned(make.piece(leg), shop)
    assert [blank.id for blank in plan.blanks] == ["leg layer 1", "leg layer 2"]
    machined = make.noted(make.piece(leg), f"boards:\n  {cut_line(plan, 'W1')}")
    again = planned(machined, shop, plan)
    assert len(again.blanks) == 1
    (glued,) = again.glue_ups
    assert sorted(glued.blanks) == ["leg layer 1", "leg layer 2"]


def test_staves_that_are_cut_leave_the_rest_of_the_width(make) -> None:
    top = make.part("top", 800, 300, 19)
    shop = make.shop(*(make.board(f"W{i}", 1000, 120) for i in range(4)))
    plan = planned(make.piece(top), shop)
    first = plan.layouts[0].stock
    again = planned(make.noted(make.piece(top), f"boards:\n  {cut_line(plan, first)}"), shop, plan)
    assert len(again.made) + len(again.blanks) == len(plan.blanks)
    assert {layout.stock for layout in again.layouts} == {layout.stock for layout in plan.layouts[1:]}


def test_a_part_that_has_grown_since_is_planned_anew_and_told(make) -> None:
    shop = make.shop(make.board("W1"), make.board("W2"))
    line = cut_line(planned(make.piece(make.part("rail", 700, 80, 19)), shop), "W1")
    plan = planned(make.noted(make.piece(make.part("rail", 900, 80, 19)), f"boards:\n  {line}"), shop)
    (told,) = plan.unheeded
    assert "its sizes have changed since" in told.reason
    assert [blank.length for blank in plan.blanks] == [900]


def test_a_blank_for_no_part_of_the_piece_is_told(make) -> None:
    machined = make.piece(make.part("left rail", 700, 80, 19))
    noted = make.noted(machined, "boards: {W1: {cut: {left rial: 800 x 86 x 19}}}")
    (told,) = planned(noted, make.shop(make.board("W1"), make.board("W2"))).unheeded
    assert "has no such part" in told.reason
    assert told.best == "did you mean left rail?"


def test_a_board_cut_without_a_word_of_what_it_gave(make) -> None:
    machined = make.noted(make.piece(make.part("rail", 700, 80, 19)), "boards: {W1: cut}")
    plan = planned(machined, make.shop(make.board("W1"), make.board("W2")))
    (told,) = plan.unheeded
    assert "does not say what it gave" in told.reason
    assert [layout.stock for layout in plan.layouts] == ["W2"]


def test_sheets_of_a_stack_are_counted_down_and_keep_their_numbers(make) -> None:
    machined = make.piece(*(make.part(f"panel {i}", 2300, 1100, 17.6, **SHEET) for i in range(3)))
    shop = make.shop(make.sheet(count=3))
    plan = planned(machined, shop)
    assert [layout.stock for layout in plan.layouts] == ["ply", "ply#2", "ply#3"]
    again = planned(make.noted(machined, f"boards:\n  {cut_line(plan, 'ply#2')}"), shop, plan)
    assert [layout.stock for layout in again.layouts] == ["ply", "ply#3"]


def test_names_that_yaml_would_misread_are_quoted() -> None:
    assert board_left_alone("W2").line == "W2: leave"
    assert board_left_alone("walnut 4/4#2").line == "walnut 4/4#2: leave"
    assert board_left_alone("best: the wide one").line == '"best: the wide one": leave'
    assert board_left_alone("[x]").stock == '"[x]"'


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("unit", list(LengthUnit))
def test_a_job_cut_board_by_board_stays_as_it_was_marked_out(
    make, racks, seed: int, unit: LengthUnit
) -> None:
    """Each board is cut in turn and noted; the rest of the plan never moves, until all is cut."""
    made = racks.case(seed, 8, 12, sells=True)
    machined = replace(made.machined, piece=replace(made.machined.piece, unit=unit))
    plan = planned(machined, made.shop)
    lacking = plan.unmet
    lines: list[str] = []
    draw = random.Random(seed)
    while plan.layouts:
        layout = draw.choice(plan.layouts)
        lines.append("  " + board_cut(plan, layout, unit).line)
        units = "inches" if unit is LengthUnit.INCHES else "mm"
        machined = make.noted(machined, f"units: {units}\nboards:\n" + "\n".join(lines))
        again = planned(machined, made.shop, plan)
        stay = {other.stock: other.placed for other in plan.layouts if other is not layout}
        assert {other.stock: other.placed for other in again.layouts} == stay
        assert again.unmet == lacking
        plan = again
    assert not plan.blanks


@pytest.mark.parametrize("seed", range(6))
def test_spoiled_parts_disturb_nothing_that_has_room(make, racks, seed: int) -> None:
    """One part of a cut board is spoiled: what is laid on other boards stays on them."""
    made = racks.case(seed, 8, 12, sells=True)
    plan = planned(made.machined, made.shop)
    layout = plan.layouts[0]
    blanks = {blank.id: blank.part for blank in plan.blanks}
    spoiled = blanks[layout.placed[0].blank]
    line = board_cut(plan, layout, LengthUnit.MM).line
    machined = make.noted(made.machined, f"units: mm\n{spoiled}: {{spoiled: 1}}\nboards:\n  {line}")
    again = planned(machined, made.shop, plan)
    assert any(blank.part == spoiled for blank in again.blanks) or again.unmet
    was = {p.blank: l.stock for l in plan.layouts for p in l.placed if blanks[p.blank] != spoiled}
    now = {p.blank: l.stock for l in again.layouts for p in l.placed}
    moved = [blank for blank in now if blank in was and now[blank] != was[blank]]
    assert not moved or again.money < plan.money
