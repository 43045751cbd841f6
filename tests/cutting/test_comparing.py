"""Two plans, and several ways to come by the wood, side by side."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.cutting import compare, cut_plan, layout_facts, routes, share_used, tightest, verify
from scantling.shop.model import Surface, Warp


def money(sum_of: float) -> str:
    return f"{sum_of:.2f}"


@pytest.fixture
def rails(make):
    return make.piece(*(make.part(f"rail {i}", 700, 80, 19) for i in range(3)))


def test_the_same_plan_is_no_difference(make, rails) -> None:
    plan = cut_plan(rails, make.shop(make.board()), seconds=0.1)
    difference = compare(plan, plan)
    assert difference.is_nothing
    assert difference.sentences(money) == ("nothing changes",)


def test_what_a_board_left_alone_costs(make, rails) -> None:
    shop = make.shop(make.board("W1"), make.sold())
    before = cut_plan(rails, shop, seconds=0.1)
    after = cut_plan(make.noted(rails, "boards: {W1: leave}"), shop, seconds=0.1)
    difference = compare(before, after)
    # source: by hand; one board of 4.67 board feet at 8.00
    assert difference.money == 37.33
    assert difference.freed == ("W1",)
    assert difference.added == ("cherry 4/4",)
    assert [moved.part for moved in difference.moved] == ["rail 0", "rail 1", "rail 2"]
    assert difference.blanks_moved == 3
    said = difference.sentences(money)
    assert said[0] == "37.33 more is spent"
    assert "W1 stays whole" in said
    assert "rail 0 comes from cherry 4/4, not W1" in said[3]


def test_parts_without_wood_are_named_first(make, rails) -> None:
    shop = make.shop(make.board("W1"))
    before = cut_plan(rails, shop, seconds=0.1)
    after = cut_plan(make.noted(rails, "boards: {W1: leave}"), shop, seconds=0.1)
    assert compare(before, after).sentences(money)[0] == "no wood is left for rail 0, rail 1 and rail 2"
    assert compare(after, before).gained == ("rail 0", "rail 1", "rail 2")


def test_routes_side_by_side(make, rails) -> None:
    shop = make.shop(make.board("W1", 900, 100), make.sold())
    found = {route.name: route for route in routes(rails, shop, seconds=0.1)}
    assert list(found) == [
        "mixture as planned",
        "what is on hand",
        "bought rough",
        "bought surfaced",
    ]
    assert all(verify(route.plan, rails, shop) == () for route in found.values())
    assert found["mixture as planned"].cannot == ()
    on_hand = found["what is on hand"]
    # source: by hand; 900 less its ends holds one blank of 800, 100 wide one abreast
    assert len(on_hand.cannot) == 2
    assert on_hand.plan.money == 0
    bought = found["bought rough"].plan
    # source: by hand; the yard's one kind of board is rough, so none of the rails is had surfaced
    assert bought.money > 0
    assert not [layout for layout in bought.layouts if not layout.bought]
    assert len(found["bought surfaced"].cannot) == 3


def test_surfaced_boards_by_themselves(make, rails) -> None:
    """Each kind of board by itself; the mixture is no dearer than the cheaper."""
    surfaced = replace(make.sold("dressed"), surface=Surface.TWO_FACES, price_per_board_foot=12.0)
    shop = make.shop(make.sold("rough"), surfaced)
    found = {route.name: route for route in routes(rails, shop, seconds=0.1)}
    rough, dressed = found["bought rough"], found["bought surfaced"]
    assert {layout.stock.split("#")[0] for layout in rough.plan.layouts} == {"rough"}
    assert {layout.stock.split("#")[0] for layout in dressed.plan.layouts} == {"dressed"}
    # source: by hand; the same board of 4.67 board feet at 8.00 and at 12.00
    assert (rough.plan.money, dressed.plan.money) == (37.33, 56.0)
    assert found["mixture as planned"].plan.money == rough.plan.money


def test_blanks_with_little_to_spare_are_counted(make) -> None:
    machined = make.piece(make.part("a", 700, 80, 19), make.part("b", 700, 80, 23.2))
    (route, *_) = routes(machined, make.shop(make.board("W1")), seconds=0.1)
    # source: by hand; 25.4 - 1.6 = 23.8 leaves 4.8 and 0.6 mm
    assert (route.flatness.tight, route.flatness.milled) == (1, 2)
    assert route.flatness.words == "fair: b from W1 has 0.6 mm to spare"


def test_routes_are_the_same_every_time(make, rails) -> None:
    shop = make.shop(make.board("W1", 900, 100), make.sold())
    assert routes(rails, shop, seconds=0.1) == routes(rails, shop, seconds=0.1)


def test_a_route_of_boards_on_hand_heeds_what_is_cut(make, rails) -> None:
    shop = make.shop(make.board("W1"), make.board("W2"))
    noted = make.noted(rails, "boards: {W1: leave}")
    on_hand = next(route for route in routes(noted, shop, seconds=0.1) if route.name == "what is on hand")
    assert {layout.stock for layout in on_hand.plan.layouts} == {"W2"}


def test_how_near_a_blank_comes_to_too_thin(make) -> None:
    machined = make.piece(make.part("rail", 700, 80, 19))
    shop = make.shop(make.board("bent", warp=Warp(bow=18)))
    plan = cut_plan(machined, shop, seconds=0.1)
    nearest = tightest(plan)
    assert nearest is not None
    # source: by hand; 25.4 - 18 (800/2400)^2 - 1.6 = 21.8, and 19 is wanted
    assert nearest.flat == pytest.approx(21.8)
    assert nearest.lost == pytest.approx(3.6)
    assert nearest.spare == pytest.approx(2.8)
    (route, *_) = routes(machined, shop, seconds=0.1)
    assert route.flatness.words == "ample: rail from bent has 2.8 mm to spare"


def test_nothing_milled_has_no_risk(make) -> None:
    plan = cut_plan(make.piece(), make.shop(), seconds=0.1)
    assert tightest(plan) is None


def test_facts_of_a_board_add_up(make, rails) -> None:
    plan = cut_plan(rails, make.shop(make.board(warp=Warp(6, 3, 1, 3))), seconds=0.1)
    (layout,) = plan.layouts
    facts = layout_facts(plan, layout)
    assert [line.cut for line in facts.lines] == list(layout.cuts)
    for line in facts.lines:
        assert (line.x0 == line.x1) == line.cut.across
    assert facts.areas == plan.areas
    assert facts.used == pytest.approx(share_used(plan))
    assert sorted(blank.part for blank in facts.blanks) == ["rail 0", "rail 1", "rail 2"]
    assert all(blank.spare == pytest.approx(blank.flat - 19) for blank in facts.blanks)
    areas = [piece.length * piece.width for piece in facts.offcuts]
    assert areas == sorted(areas, reverse=True)


def test_layouts_that_do_not_change_are_the_very_same(make, rails) -> None:
    shop = make.shop(make.board("W1", 900, 100), make.board("W2"), make.board("W3"))
    before = cut_plan(rails, shop, seconds=0.1)
    more = replace(rails, parts=(*rails.parts, make.part("slat", 600, 50, 19)))
    after = cut_plan(more, shop, seconds=0.1, before=before)
    assert compare(before, after).blanks_moved == 0
    assert verify(after, more, shop) == ()
