"""The verifier must catch a plan that has been broken, one fault at a time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from scantling.cutting import CutPlan, cut_plan, verify
from scantling.piece.model import MaterialKind
from scantling.shop.model import Defect, Warp


@pytest.fixture(scope="module")
def job(make):
    parts = [make.part(f"rail {i}", 700, 80, 19) for i in range(3)]
    parts += [make.part("leg", 600, 40, 40), make.part("top", 800, 350, 19)]
    parts += [make.part(f"block {i}", 60, 40, 19) for i in range(4)]
    parts += [
        make.part(
            f"bottom {i}",
            700,
            400,
            17.6,
            kind=MaterialKind.SHEET,
            text="birch plywood 18",
            species="birch plywood",
            label=18.0,
        )
        for i in range(2)
    ]
    boards = [
        make.board(f"board {i}", warp=Warp(6, 3, 1, 3), defects=(Defect("knot", 900, 950, 80, 110),))
        for i in range(3)
    ]
    machined, shop = make.piece(*parts), make.shop(*boards, make.sheet(), make.sold())
    plan = cut_plan(machined, shop, seconds=0.2)
    assert verify(plan, machined, shop) == ()
    return plan, machined, shop


def _board(plan: CutPlan, **changes) -> CutPlan:
    first = next(l for l in plan.layouts if l.kind is MaterialKind.SOLID and len(l.cuts) > 4)
    return replace(plan, layouts=tuple(replace(l, **changes) if l is first else l for l in plan.layouts))


def _first(plan: CutPlan):
    return next(l for l in plan.layouts if l.kind is MaterialKind.SOLID and len(l.cuts) > 4)


def shifted_blank(plan: CutPlan) -> CutPlan:
    placed = _first(plan).placed
    return _board(plan, placed=(replace(placed[0], x=placed[0].x + 5), *placed[1:]))


def shifted_cut(plan: CutPlan) -> CutPlan:
    cuts = _first(plan).cuts
    return _board(plan, cuts=(*cuts[:2], replace(cuts[2], at=cuts[2].at - 4), *cuts[3:]))


def no_kerf(plan: CutPlan) -> CutPlan:
    return _board(plan, cuts=tuple(replace(c, kerf=0.0) for c in _first(plan).cuts))


def thin_kerf(plan: CutPlan) -> CutPlan:
    cuts = _first(plan).cuts
    return _board(plan, cuts=(*cuts[:1], replace(cuts[1], kerf=0.5), *cuts[2:]))


def board_twice(plan: CutPlan) -> CutPlan:
    return replace(plan, layouts=(*plan.layouts, plan.layouts[0]))


def cut_left_out(plan: CutPlan) -> CutPlan:
    return _board(plan, cuts=_first(plan).cuts[:-1])


def blank_left_out(plan: CutPlan) -> CutPlan:
    return replace(plan, blanks=plan.blanks[1:])


def blank_too_small(plan: CutPlan) -> CutPlan:
    blank = plan.blanks[0]
    return replace(plan, blanks=(replace(blank, length=blank.length - 5), *plan.blanks[1:]))


def no_allowance(plan: CutPlan) -> CutPlan:
    rail = next(b for b in plan.blanks if b.part == "rail 0")
    return replace(
        plan, blanks=tuple(replace(b, rough_width=b.width) if b is rail else b for b in plan.blanks)
    )


def thin_layer(plan: CutPlan) -> CutPlan:
    return replace(
        plan,
        blanks=tuple(replace(b, thickness=b.thickness - 2) if b.part == "leg" else b for b in plan.blanks),
    )


def stave_left_out_of_glue_up(plan: CutPlan) -> CutPlan:
    return replace(
        plan,
        glue_ups=tuple(replace(g, blanks=g.blanks[1:]) if g.part == "top" else g for g in plan.glue_ups),
    )


def narrow_stave(plan: CutPlan) -> CutPlan:
    return replace(
        plan,
        blanks=tuple(replace(b, width=b.width - 15) if b.id == "top stave 1" else b for b in plan.blanks),
    )


def other_wood(plan: CutPlan) -> CutPlan:
    return replace(plan, blanks=(replace(plan.blanks[-1], species="walnut, black"), *plan.blanks[:-1]))


def wrong_money(plan: CutPlan) -> CutPlan:
    return replace(plan, money=plan.money + 1)


def bound_too_high(plan: CutPlan) -> CutPlan:
    return replace(plan, bound=plan.money + 5)


def areas_wrong(plan: CutPlan) -> CutPlan:
    return replace(plan, areas=replace(plan.areas, kerf=plan.areas.kerf + 5000))


def other_saw(plan: CutPlan) -> CutPlan:
    return _board(plan, cuts=tuple(replace(c, machine="gang saw") for c in _first(plan).cuts))


def longer_board(plan: CutPlan) -> CutPlan:
    return _board(plan, length=_first(plan).length + 100)


def boastful_flat(plan: CutPlan) -> CutPlan:
    return _board(plan, flat=tuple((name, 30.0) for name, _ in _first(plan).flat))


def thicker_blank(plan: CutPlan) -> CutPlan:
    return replace(plan, blanks=tuple(replace(b, thickness=24.5) for b in plan.blanks))


def gang_undone(plan: CutPlan) -> CutPlan:
    return replace(
        plan,
        layouts=tuple(
            replace(l, pieces=tuple(replace(p, flattened=None) for p in l.pieces)) for l in plan.layouts
        ),
    )


def part_unmet_in_silence(plan: CutPlan) -> CutPlan:
    return replace(plan, blanks=tuple(b for b in plan.blanks if b.part != "rail 1"))


BREAKS: tuple[Callable[[CutPlan], CutPlan], ...] = (
    shifted_blank,
    shifted_cut,
    no_kerf,
    thin_kerf,
    board_twice,
    cut_left_out,
    blank_left_out,
    blank_too_small,
    no_allowance,
    thin_layer,
    stave_left_out_of_glue_up,
    narrow_stave,
    other_wood,
    wrong_money,
    bound_too_high,
    areas_wrong,
    other_saw,
    longer_board,
    boastful_flat,
    thicker_blank,
    gang_undone,
    part_unmet_in_silence,
)


@pytest.mark.parametrize("broken", BREAKS, ids=lambda f: f.__name__)
def test_broken_plan_is_caught(job, broken: Callable[[CutPlan], CutPlan]) -> None:
    plan, machined, shop = job
    assert verify(broken(plan), machined, shop)


def test_knot_under_a_blank_is_caught(job) -> None:
    """The same plan on boards where a knot turns out to lie under a blank."""
    plan, machined, shop = job
    layout = _first(plan)
    p = layout.placed[0]
    knot = Defect("knot", p.x + 10, p.x + 30, p.y + 5, p.y + 15)
    boards = tuple(replace(b, defects=(knot,)) if b.id == layout.stock else b for b in shop.boards)
    assert any("defect" in c for c in verify(plan, machined, replace(shop, boards=boards)))


def test_board_more_warped_than_planned_is_caught(job) -> None:
    plan, machined, shop = job
    boards = tuple(replace(b, warp=Warp(60, 40, 5, 30)) for b in shop.boards)
    found = verify(plan, machined, replace(shop, boards=boards))
    assert any("flattened" in c for c in found)
    assert any("crooked" in c for c in found)


def test_machine_gone_is_caught(job) -> None:
    plan, machined, shop = job
    assert verify(plan, machined, replace(shop, machines=()))
