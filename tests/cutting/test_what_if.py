"""A board that is found otherwise after marking out: only what it no longer gives is moved."""

from __future__ import annotations

from dataclasses import replace

from scantling.cutting import CutPlan, cut_plan, verify
from scantling.piece.model import BuildKind, Built


def homes(plan: CutPlan) -> dict[str, str]:
    return {placed.blank: layout.stock for layout in plan.layouts for placed in layout.placed}


def test_a_board_found_a_millimetre_thinner_loses_only_what_hung_on_it(make) -> None:
    """25.4 rough gives 23.8 at most: a 23.5 rail, until the board measures 24.4; slats of 19 do not mind."""
    machined = make.piece(
        make.part("rail", 700, 60, 23.5), *(make.part(f"slat {n}", 700, 40, 19) for n in range(4))
    )
    marked = make.shop(make.board("A"), make.board("B", length=1200))
    before = cut_plan(machined, marked, seconds=0.1)
    assert not before.unmet
    board = homes(before)["rail"]
    thinner = replace(
        marked, boards=tuple(replace(b, thickness=b.thickness - (b.id == board)) for b in marked.boards)
    )
    after = cut_plan(machined, thinner, seconds=0.1, before=before)
    assert verify(after, machined, thinner) == ()
    assert not after.unmet
    moved = {blank for blank, stock in homes(after).items() if homes(before)[blank] != stock}
    assert moved == {"rail"}


def test_a_board_found_thicker_moves_nothing(make) -> None:
    machined = make.piece(*(make.part(f"slat {n}", 700, 40, 19) for n in range(5)))
    marked = make.shop(make.board("A"), make.board("B", length=1200))
    before = cut_plan(machined, marked, seconds=0.1)
    thicker = replace(marked, boards=tuple(replace(b, thickness=b.thickness + 1) for b in marked.boards))
    assert homes(cut_plan(machined, thicker, seconds=0.1, before=before)) == homes(before)


def test_a_board_found_too_thin_for_all_says_what_can_no_longer_be_had(make) -> None:
    whole = Built(BuildKind.ONE_PIECE)
    machined = make.piece(make.part("rail", 700, 60, 23.5, built=whole), make.part("slat", 700, 40, 19))
    marked = make.shop(make.board("A"))
    before = cut_plan(machined, marked, seconds=0.1)
    assert not before.unmet
    thinner = replace(marked, boards=(replace(marked.boards[0], thickness=24.4),))
    after = cut_plan(machined, thinner, seconds=0.1, before=before)
    assert verify(after, machined, thinner) == ()
    assert [lacking.blank.part for lacking in after.unmet] == ["rail"]
    assert "after flattening" in after.unmet[0].reason
    assert homes(after) == {"slat": "A"}
