"""What a plan tells the maker besides cuts."""

from __future__ import annotations

from dataclasses import replace

from scantling.cutting import cut_plan, verify
from scantling.piece.model import BuildKind, Built, MaterialKind
from scantling.quantity import LengthUnit
from scantling.shop.model import MachineKind


def test_why_a_part_is_glued_up(make) -> None:
    asked = make.part("leg", 600, 40, 40, built=Built(BuildKind.LAYERS, 2, 2))
    wide = make.part("top", 900, 400, 19)
    thick = make.part("post", 600, 40, 40)
    shop = make.shop(*(make.board(f"board {i}") for i in range(4)))
    plan = cut_plan(make.piece(asked, wide, thick), shop, seconds=0.1)
    why = {g.part: g.why for g in plan.glue_ups}
    assert why["leg"] == "so the piece file asks"
    assert "wide" in why["top"]
    assert "thick" in why["post"]


def test_laminated_to_save_buying(make) -> None:
    """An owned 4/4 board makes a 40 mm leg in layers; the yard's 8/4 would make it whole."""
    yard = replace(make.sold("cherry 8/4", 50.8), nominal="8/4")
    machined, shop = make.piece(make.part("leg", 600, 40, 40)), make.shop(make.board(), yard)
    plan = cut_plan(machined, shop, seconds=0.1)
    assert verify(plan, machined, shop) == ()
    assert plan.money == 0
    assert "less has to be bought" in plan.glue_ups[0].why


def test_copies_are_made_in_one_way(make) -> None:
    legs = [make.part(f"leg {i}", 600, 40, 40) for i in range(4)]
    legs = [replace(leg, part=replace(leg.part, definition="leg")) for leg in legs]
    thin = (make.board(f"board {i}", length=1500) for i in range(4))
    machined, shop = make.piece(*legs), make.shop(make.board("thick", 800, 80, 50.8), *thin)
    plan = cut_plan(machined, shop, seconds=0.2)
    assert verify(plan, machined, shop) == ()
    assert not plan.unmet
    assert len({blank.role for blank in plan.blanks}) == 1


def test_yard_boards_are_chosen_by_what_was_assumed(make) -> None:
    plan = cut_plan(make.piece(make.part("rail", 900, 90, 19)), make.shop(make.sold()), seconds=0.1)
    assert any("choose none worse" in note for note in plan.notes)
    owned = cut_plan(make.piece(make.part("rail", 900, 90, 19)), make.shop(make.board()), seconds=0.1)
    assert any("even bend" in note for note in owned.notes)


def test_cut_too_short_for_the_saw_is_said(make) -> None:
    machines = tuple(
        replace(m, least_length=300.0) if m.kind is MachineKind.CIRCULAR_SAW else m for m in make.machines()
    )
    pad = make.part(
        "pad",
        120,
        100,
        17.6,
        kind=MaterialKind.SHEET,
        text="birch plywood 18",
        species="birch plywood",
        label=18.0,
    )
    shop = make.shop(make.sheet(length=280.0, width=200.0), machines=machines)
    plan = cut_plan(make.piece(pad), shop, seconds=0.05)
    assert any("shorter than the circular saw" in note for note in plan.layouts[0].notes)


def test_panel_that_cannot_be_made_says_how_many_staves_would(make) -> None:
    """Three staves of at most 160 cannot make 706 mm: five could."""
    # source: by hand; 178 wide boards give 170 or so less allowances; 706 / 160 rounds up to 5
    top = make.part("top", 900, 700, 19, built=Built(BuildKind.STAVES, 2, 3))
    shop = make.shop(*(make.board(f"board {i}") for i in range(6)))
    plan = cut_plan(make.piece(top), shop, seconds=0.05)
    assert verify(plan, make.piece(top), shop) == ()
    assert "allow 5 staves" in plan.unmet[0].reason


def test_what_is_said_is_in_the_pieces_unit(make) -> None:
    machined = make.piece(make.part("rail", 3000, 90, 19))
    shop = replace(make.shop(make.board()), unit=LengthUnit.INCHES)
    (lacking,) = cut_plan(machined, shop, seconds=0.1).unmet
    # source: by hand: 3000 + 2 x 50 for snipe; the piece is in mm though the shop is in inches
    assert "3100 mm" in lacking.reason
    assert " in " not in lacking.reason.replace(" in a", "")
