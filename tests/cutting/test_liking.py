"""What a maker would do where the money is the same: whole, one thickness of board, few and equal staves."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.cutting import Role, cut_plan, verify
from scantling.cutting.demand import demand_of
from scantling.cutting.plan import plan_demand
from scantling.piece.model import BuildKind, Built
from scantling.shop.model import BoardForSale

INCH = 25.4


def sold(make, thick: float, price: float = 8.0) -> BoardForSale:
    """Rough board for sale, 96 x 7, its thickness in quarters."""
    return replace(make.sold(f"cherry {thick:g}/4", thick / 4 * INCH, price), nominal=f"{thick:g}/4")


def roles(plan, part: str) -> set[Role]:
    return {blank.role for blank in plan.blanks if blank.part == part}


def test_nobody_laminates_a_batten_a_board_gives(make) -> None:
    """A 1 in batten beside twelve 4/4 rails with room for its layers: a 5/4 board is bought for it whole."""
    batten = make.part("batten", 500, 75, INCH)
    rails = [make.part(f"rail {n}", 1100, 70, 19) for n in range(3)]
    shop = make.shop(sold(make, 4), sold(make, 5))
    machined = make.piece(batten, *rails)
    plan = cut_plan(machined, shop, seconds=0.3)
    # source: by hand: three rails 1200 long rough, 76 wide, two abreast, leave half a 4/4 board, room for two
    # layers of 13.7; yet the 5/4 board (32 rough) gives the batten whole, and money is spent on it
    assert roles(plan, "batten") == {Role.WHOLE}
    assert plan.money == pytest.approx(round(8 * 7 * 8 / 12, 2) + round(8 * 1.25 * 7 * 8 / 12, 2))
    assert verify(plan, machined, shop) == ()


def test_a_batten_is_laminated_where_nothing_else_gives_it(make) -> None:
    machined, shop = make.piece(make.part("batten", 500, 75, INCH)), make.shop(sold(make, 4))
    plan = cut_plan(machined, shop, seconds=0.3)
    # source: by hand: a 4/4 board is 25.4 thick rough and never 25.4 planed
    assert roles(plan, "batten") == {Role.LAYER}


def test_layers_come_from_one_thickness_of_board(make) -> None:
    """Four legs of two layers of 23 from 5/4 boards; a lone thicker board is not mixed in."""
    legs = [make.part(f"leg {n}", 700, 44, 44, built=Built(BuildKind.LAYERS, 2, 2)) for n in range(4)]
    shop = make.shop(make.board("thick", 900, 60, 40, owned=True), make.board("a", 2400, 180, 32),
                     make.board("b", 2400, 180, 32))  # fmt: skip
    machined = make.piece(*legs)
    plan = cut_plan(machined, shop, seconds=0.3)
    assert {layout.stock for layout in plan.layouts} <= {"a", "b"}
    assert verify(plan, machined, shop) == ()


def test_layers_are_mixed_rather_than_missing(make) -> None:
    legs = [make.part(f"leg {n}", 700, 44, 44, built=Built(BuildKind.LAYERS, 2, 2)) for n in range(2)]
    shop = make.shop(make.board("thick", 900, 180, 40), make.board("thin", 900, 110, 32))
    machined = make.piece(*legs)
    plan = cut_plan(machined, shop, seconds=0.3)
    # source: by hand: four layers 44 + 3 + 6 = 53 wide; the thin board holds two, the thick one the others
    assert plan.unmet == ()
    assert {layout.stock for layout in plan.layouts} == {"thick", "thin"}


def test_three_equal_staves_rather_than_five(make) -> None:
    """A panel 450 wide from boards 178 wide, as many as are wanted: three of 152."""
    machined, shop = make.piece(make.part("side", 650, 450, 19)), make.shop(sold(make, 4))
    plan = cut_plan(machined, shop, seconds=0.3)
    # source: by hand: 450 + 6 = 456 = 3 x 152; a stave is at most 160 wide, so two are too few
    assert [blank.width for blank in plan.blanks] == pytest.approx([152, 152, 152])
    # each 650 + 100 long, three along a board of 2438 less 25 at its ends: one board is enough
    assert len(plan.layouts) == 1


def test_uneven_staves_where_they_save_a_board(make) -> None:
    """Two boards 110 and 70 wide give a panel 150 wide in two staves, unequal ones."""
    shop = make.shop(make.board("broad", 900, 110), make.board("narrow", 900, 70))
    machined = make.piece(make.part("shelf", 700, 150, 19, built=Built(BuildKind.STAVES, 2, 3)))
    plan = cut_plan(machined, shop, seconds=0.3)
    # source: by hand: 150 + 6 = 156; 78 + 6 does not come from the narrow board, 64 - kerf less does
    assert plan.unmet == ()
    assert len(plan.blanks) == 2
    assert sum(blank.width for blank in plan.blanks) >= 156
    assert verify(plan, machined, shop) == ()


def test_the_same_demand_gives_the_same_plan(make) -> None:
    machined = make.piece(*[make.part(f"panel {n}", 600, 300, 19) for n in range(3)])
    shop = make.shop(sold(make, 4))
    demand = demand_of(machined, shop)
    assert plan_demand(demand, shop, seconds=0.2) == plan_demand(demand, shop, seconds=0.2)
