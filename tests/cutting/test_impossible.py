"""What cannot be planned is told part by part, and all that can be is planned none the less."""

from __future__ import annotations

import pytest

from scantling.cutting import CutPlan, cut_plan, verify
from scantling.piece.model import BuildKind, Built, MaterialKind
from scantling.shop.model import Warp

PLY = "birch plywood"


def told(plan: CutPlan) -> dict[str, str]:
    return {lacking.blank.part: lacking.reason for lacking in plan.unmet}


def test_an_empty_rack_and_nothing_for_sale(make) -> None:
    machined = make.piece(make.part("rail", 900, 90, 19), make.part("leg", 700, 40, 40))
    plan = cut_plan(machined, make.shop(), seconds=0.1)
    assert verify(plan, machined, make.shop()) == ()
    assert told(plan) == dict.fromkeys(("rail", "leg"), "no black cherry is on the rack or for sale")
    assert (plan.layouts, plan.money, plan.status) == ((), 0, "partly impossible")


def test_one_part_is_impossible_and_the_others_are_planned(make) -> None:
    """A part longer than any board, one wider than any machine here can flatten, and one that goes."""
    whole = Built(BuildKind.ONE_PIECE)
    machined = make.piece(
        make.part("long", 3000, 60, 19),
        make.part("wide", 900, 400, 19, built=whole),
        make.part("rail", 900, 90, 19),
    )
    shop = make.shop(make.board(), make.board("slab", width=450))
    plan = cut_plan(machined, shop, seconds=0.1)
    assert verify(plan, machined, shop) == ()
    assert told(plan).keys() == {"long", "wide"}
    assert "no board" in told(plan)["long"]
    assert "planer" in told(plan)["wide"]
    assert {blank.part for blank in plan.blanks} == {"rail"}


def test_a_shop_without_machines(make) -> None:
    machined = make.piece(make.part("rail", 900, 90, 19))
    shop = make.shop(make.board(), machines=())
    plan = cut_plan(machined, shop, seconds=0.1)
    assert verify(plan, machined, shop) == ()
    assert "would" in told(plan)["rail"]


def test_sheets_and_sticks_that_are_not_there(make) -> None:
    machined = make.piece(
        make.part(
            "shelf", 500, 300, 18, kind=MaterialKind.SHEET, text="birch plywood", species="birch plywood"
        ),
        make.part("slat", 3000, 88.9, 38.1, kind=MaterialKind.LUMBER, text="pine 2x4", species="pine"),
        make.part("post", 2000, 88.9, 38.1, kind=MaterialKind.LUMBER, text="pine 2x4", species="pine"),
    )
    shop = make.shop(make.stick())
    plan = cut_plan(machined, shop, seconds=0.1)
    assert verify(plan, machined, shop) == ()
    assert told(plan)["shelf"] == "no birch plywood marked 18 mm is on the rack or for sale"
    assert "large enough" in told(plan)["slat"]
    assert "post" not in told(plan)
    assert (plan.money, plan.bound) == (5.0, 5.0)


@pytest.mark.parametrize("thick", [12.0, 25.4])
def test_two_parts_wished_from_a_board_with_room_for_one(make, thick: float) -> None:
    """Where the board is too thin for either, both are told; otherwise one of them."""
    machined = make.piece(make.part("rail 1", 1900, 150, 19), make.part("rail 2", 1900, 150, 19))
    noted = make.noted(machined, "rail 1: {from: small}\nrail 2: {from: small}")
    shop = make.shop(make.board("small", thickness=thick), make.board("large"), make.board("third"))
    plan = cut_plan(noted, shop, seconds=0.1)
    assert verify(plan, noted, shop) == ()
    assert plan.unmet == ()
    assert len(plan.unheeded) == (2 if thick < 19 else 1)
    used = {layout.stock for layout in plan.layouts}
    assert ("small" in used) is (thick > 19)


def test_wished_from_a_board_that_is_to_be_left_alone(make) -> None:
    noted = make.noted(
        make.piece(make.part("rail", 900, 90, 19)), "boards: {best: leave}\nrail: {from: best}"
    )
    shop = make.shop(make.board("best"), make.board("other"))
    plan = cut_plan(noted, shop, seconds=0.1)
    assert verify(plan, noted, shop) == ()
    assert [unheeded.part for unheeded in plan.unheeded] == ["rail"]
    assert [layout.stock for layout in plan.layouts] == ["other"]


def test_a_board_so_twisted_that_it_gives_nothing(make) -> None:
    machined = make.piece(make.part("rail", 2000, 150, 19, built=Built(BuildKind.ONE_PIECE)))
    shop = make.shop(make.board("propeller", warp=Warp(twist=60)))
    plan = cut_plan(machined, shop, seconds=0.1)
    assert verify(plan, machined, shop) == ()
    (lacking,) = plan.unmet
    assert "propeller" in lacking.best
