"""Chances against closed forms, and what must hold whatever is drawn."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from benchmarks.cutting.racks import HERE, case
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting import cut_plan
from scantling.cutting.chances import RobustYield, Spread, readings, robust
from scantling.cutting.cut_plan import Areas, Blank, CutPlan, Piece2D, Placed, Role, StockLayout
from scantling.piece.model import MaterialKind
from scantling.quantity import LengthUnit
from scantling.shop.model import Board, Machine, MachineKind, Shop, Station, Surface, Warp

SAMPLES = 20_000
STRAIGHT = Warp(0.0, 0.0, 0.0, 0.0)


def _phi(z: float) -> float:
    """The normal distribution (in terms of the error function: any handbook of statistics)."""
    return (1 + math.erf(z / math.sqrt(2))) / 2


def _shop(*boards: Board) -> Shop:
    return Shop("s", LengthUnit.MM, boards, machines=(Machine("plane", MachineKind.HAND_PLANE, HERE),))


def _board(name: str = "B1", warp: Warp = STRAIGHT, thickness: float = 25.0) -> Board:
    return Board(name, "cherry", 2000.0, 200.0, thickness, Surface.ROUGH, warp, HERE, end_waste=0.0)


def _plan(thickness: float, length: float = 500.0, width: float = 100.0, stock: str = "B1") -> CutPlan:
    blank = Blank(
        "rail",
        "rail",
        Role.WHOLE,
        1,
        1,
        MaterialKind.SOLID,
        "cherry",
        thickness,
        width,
        length,
        width,
        length,
    )
    placed = Placed("rail", 0.0, 0.0, length, width)
    piece = Piece2D("1", 0.0, 0.0, length, width, "blank", "rail")
    layout = StockLayout(
        stock, MaterialKind.SOLID, "cherry", 2000.0, 200.0, 25.0, False, 0.0, (placed,), (piece,), ()
    )
    return CutPlan((blank,), (layout,), (), (), Areas(0, 0, 0, 0, 0), 0.0, 0.0, 0.0)


def _chance(plan: CutPlan, *boards: Board, **more: float) -> RobustYield:
    return robust(
        plan, _shop(*boards), samples=int(more.get("samples", SAMPLES)), seed=int(more.get("seed", 0))
    )


@pytest.mark.parametrize("spare", [-0.6, -0.3, 0.0, 0.3, 0.9])
def test_a_straight_board_fails_as_often_as_its_thickness_was_read_wrong(spare: float) -> None:
    """Rough both faces: 1.6 mm come off; thickness spreads by THICKNESS_ROUGH. No warp: gaps still spread."""
    plan = _plan(25.0 - 1.6 - spare, length=20.0, width=20.0)  # so small that no reading of warp matters
    found = _chance(plan, _board())
    exact = _phi(spare / readings.THICKNESS_ROUGH)
    assert found.chance == pytest.approx(exact, abs=4 * math.sqrt(exact * (1 - exact) / SAMPLES) + 0.002)
    assert found.error == pytest.approx(math.sqrt(found.chance * (1 - found.chance) / SAMPLES))


def test_width_fails_beyond_what_a_rough_blank_may_lack() -> None:
    """The blank takes all of the width; 3 mm may be missing; no crook, but its reading spreads a little."""
    found = _chance(_plan(10.0, length=200.0, width=202.0), _board())
    exact = _phi((200 + 3 - 202) / readings.WIDTH)
    assert found.chance == pytest.approx(exact, abs=0.02)
    assert found.doubtful[0].lacks == "width"


def test_just_as_read_it_is_sure_or_hopeless() -> None:
    sure = Spread(0.0)
    warp = Warp(8.0, 0.0, 0.0, 0.0)  # of which the blank has a sixteenth
    for thickness, chance in ((25 - 1.6 - 0.5, 1.0), (25 - 1.6 - 0.5 + 0.01, 0.0)):
        found = robust(_plan(thickness), _shop(_board(warp=warp)), spread=sure)
        assert found.chance == chance
    assert found.boards[0].first == "rail"
    assert found.doubtful[0].short == pytest.approx(0.01)


@settings(max_examples=30, deadline=None)
@given(
    st.floats(0, 12),
    st.floats(0, 3),
    st.floats(0, 8),
    st.floats(15, 24),
    st.floats(0.1, 3),
    st.integers(0, 9),
)
def test_more_thickness_asked_or_more_bow_is_never_likelier(
    bow: float, cup: float, twist: float, thickness: float, more: float, seed: int
) -> None:
    board = _board(warp=Warp(bow, 0.0, cup, twist))
    before = _chance(_plan(thickness), board, samples=500, seed=seed).chance
    assert _chance(_plan(thickness + more), board, samples=500, seed=seed).chance <= before
    worse = replace(board, warp=replace(board.warp, bow=bow + more))
    assert _chance(_plan(thickness), worse, samples=500, seed=seed).chance <= before


def test_a_planer_alone_mills_the_draws_that_are_flat_enough() -> None:
    """No sled, no jointer: a blank with under 0.8 mm to lose is planed as it lies, others are not at all."""
    board = _board(warp=Warp(0.4, 0.0, 0.0, 0.0))
    plan = _plan(18.0, length=1900.0)
    shop = replace(_shop(board), machines=(Machine("planer", MachineKind.PLANER, HERE),))
    some = robust(plan, shop, samples=SAMPLES).chance
    assert 0.2 < some < 0.9
    assert robust(plan, _shop(board), samples=SAMPLES).chance > some


def test_boards_that_could_stand_in_are_counted_and_lessen_the_concern() -> None:
    plan = _plan(23.0)
    alone, two = _chance(plan, _board()), _chance(plan, _board(), _board("B2", thickness=30.0))
    assert (alone.doubtful[0].elsewhere, two.doubtful[0].elsewhere) == (0, 1)
    assert two.doubtful[0].concern == pytest.approx(alone.doubtful[0].concern / 2)
    assert two.chance == alone.chance


def test_the_same_seed_gives_the_same_and_the_order_of_boards_is_all_one() -> None:
    made = case(1, 6, 14)
    plan = cut_plan(made.machined, made.shop)
    first = robust(plan, made.shop, seed=3)
    assert robust(plan, made.shop, seed=3) == first
    turned = robust(replace(plan, layouts=plan.layouts[::-1]), made.shop, seed=3)
    assert turned.chance == first.chance
    assert {(b.stock, b.chance, b.first) for b in turned.boards} == {
        (b.stock, b.chance, b.first) for b in first.boards
    }
    assert robust(plan, made.shop, seed=4).doubtful != first.doubtful


def test_every_blank_of_every_rack_is_sure_where_all_is_as_it_was_read() -> None:
    for seed in range(4):
        made = case(seed, 10, 30)
        plan = cut_plan(made.machined, made.shop)
        assert robust(plan, made.shop, spread=Spread(0.0), samples=3).chance == 1.0


def test_a_board_told_at_stations_is_drawn_about_what_is_lost_at_the_place() -> None:
    # source: by hand; level for its first half, then a kink: 25 less 1.6 leaves 23.4 where the blank lies
    kink = (Station(700.0, 0.0), Station(1400.0, 0.0), Station(1700.0, 8.0), Station(2000.0, 0.0))
    told = replace(_board(), stations=kink)
    certain = Spread(0.0)
    for wanted, chance in ((23.3, 1.0), (23.5, 0.0)):
        found = robust(_plan(wanted), _shop(told), spread=certain)
        assert found.chance == chance
    # half the boards are thinner than read, and gaps are misread
    assert 0.2 < robust(_plan(23.3), _shop(told)).chance < 0.6
