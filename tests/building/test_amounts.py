"""Areas, board feet, clamps, glue, finish and money: small cases worked by hand."""

from __future__ import annotations

import pytest

from scantling.building.areas import coated, outside, surface
from scantling.building.bench import Bench
from scantling.building.clamping import Clamping, clamp_words, clamping, clamps_along
from scantling.building.gluing import clamping_of
from scantling.building.naming import Names, numbered, plural
from scantling.building.shopping import board_feet, glue_litres, item_for, shopping
from scantling.building.tables import finish_named, glue_named, minutes
from scantling.cutting.cut_plan import Areas, Blank, CutPlan, GlueUp, Role
from scantling.joinery.features import HardwareUse
from scantling.piece.model import Coats, MaterialKind
from scantling.quantity import listed
from scantling.shop import read_shop_text

SHOP = """
shop: a test
units: inches
clamps: {bar clamp: "4, opens 24", long clamp: "2, opens 50"}
hardware: {dowel: {3/8 x 2: "price 6.50 for 50, on hand 30"}}
supplies: {wood glue: "20 a litre", wiping varnish: "30 a litre, covers 10 m2, on hand 0.5"}
"""


@pytest.fixture
def shop():
    return read_shop_text(SHOP, "shop.yaml")


def _plan(blanks=(), glue_ups=()):
    return CutPlan(tuple(blanks), (), tuple(glue_ups), (), Areas(0, 0, 0, 0, 0), 0.0, 0.0, 0.0)


def _blank(name: str, role: Role, long: float, wide: float, thick: float) -> Blank:
    return Blank(
        name, "cube", role, 0, 2, MaterialKind.SOLID, "cherry, black", thick, wide, long, wide + 6, long + 25
    )


@pytest.fixture
def cube(make_part, make_piece):
    part = make_part("cube", (0, 0, 0), (1000, 1000, 1000))
    return make_piece([part], [], finish=(Coats("wiping varnish", 2, ("all",), part.place),))


def test_areas_of_a_cube_and_of_a_stack(make_part, make_piece, cube):
    assert surface(cube.parts[0]) == pytest.approx(6.0)  # source: by hand, 6 x 1 m²
    assert coated(cube, ("all",)) == coated(cube, ("outside",)) == pytest.approx(6.0)
    low, high = (
        make_part("low", (0, 0, 0), (1000, 1000, 500)),
        make_part("high", (0, 0, 500), (1000, 1000, 1000)),
    )
    stack = make_piece([low, high], [])
    assert outside(stack) == pytest.approx(6.0)  # source: by hand: the two hidden faces do not count
    assert coated(stack, ("low",)) == pytest.approx(4.0)  # source: by hand, 2 x 1 + 4 x 0.5


@pytest.mark.parametrize(
    ("length", "width", "nominal", "feet"),
    # source: board foot = in x in x ft / 12 by nominal thickness; 8/4 counts 2, under 1 in counts 1
    [(96, 6, "4/4", 4.0), (96, 6, "8/4", 8.0), (96, 6, "5/4", 5.0), (96, 6, "3/4", 4.0)],
)
def test_board_feet(length, width, nominal, feet):
    assert board_feet(length * 25.4, width * 25.4, nominal) == pytest.approx(feet)


def test_clamps_by_the_spacing_rule(shop, machined, cube):
    # source: by hand: 920 - 2 x 45 = 830; 830 / 90 = 9.2 gaps -> 11 clamps; 830 / 250 = 3.3 -> 5
    assert clamps_along(920, 90) == 11
    assert clamps_along(920, 250) == 5
    assert clamps_along(50, 250) == 2
    bench = Bench(machined(cube), _plan(), shop)
    assert clamping(bench, 5, 500) == Clamping(5, 525.0, 6)
    assert clamping(bench, 5, 1000) == Clamping(5, 1025.0, 2)
    assert "borrow 3" in clamp_words(bench, clamping(bench, 5, 1000))
    assert Clamping(4, 500, 9).rounds(5) == 3  # source: by hand, two at a time


def test_a_lamination_wants_clamps_in_rows(shop, machined, cube):
    blanks = [_blank(name, Role.LAYER, 920, 180, 20) for name in ("a", "b")]
    bench = Bench(machined(cube), _plan(blanks, [GlueUp("cube", Role.LAYER, ("a", "b"), "wide")]), shop)
    need = clamping_of(bench, bench.cuts.glue_ups[0])
    assert (need.wanted, need.opening) == (22, 65.0)  # source: by hand, 2 rows of 11; 2 x 20 + 25


def test_glue_by_area(shop, machined, cube):
    blanks = [_blank(name, Role.STAVE, 1000, 100, 20) for name in ("a", "b", "c")]
    bench = Bench(machined(cube), _plan(blanks, [GlueUp("cube", Role.STAVE, ("a", "b", "c"), "wide")]), shop)
    # source: by hand: 2 lines x 1 m x 0.02 m = 0.04 m² x 0.2 kg / 1.1 kg a litre x 1.2
    assert glue_litres(bench) == pytest.approx(0.04 * 0.2 / 1.1 * 1.2)


def test_finish_by_area_and_coats(shop, machined, cube):
    lines = shopping(Bench(machined(cube), _plan(), shop))
    line = next(line for line in lines if line.item == "wiping varnish")
    # source: by hand: 6 m² x 2 coats / 10 m² a litre x 1.15 = 1.38; less 0.5 on hand, whole litres
    assert (line.need, line.buy, line.cost) == pytest.approx((1.38, 1.0, 30.0))


def test_fittings_come_in_packs(shop, cube, machined):
    from dataclasses import replace

    sizes = (("diameter", 9.525), ("length", 50.8))
    use = HardwareUse("dowel", "3/8 x 2", 90, "j", sizes=sizes)
    other = HardwareUse("knob", "1 1/4", 2, "k")
    bench = Bench(replace(machined(cube), hardware=(use, other)), _plan(), shop)
    assert item_for(bench, use) is not None
    assert item_for(bench, replace(use, sizes=(("diameter", 6.35), ("length", 50.8)))) is None
    dowels, knobs = (line for line in shopping(bench) if line.group == "hardware")
    # source: by hand: 90 less 30 on hand is 60, two packs of 50
    assert (dowels.need, dowels.buy, dowels.cost) == (90, 100, 13.0)
    assert (knobs.buy, knobs.cost) == (2, 0.0)
    assert "not in the shop file" in knobs.note


def test_words_find_their_finish_and_glue():
    assert finish_named("Hardwax oil").name == "hardwax oil"
    assert finish_named("boiled linseed oil").oils_dry
    assert not finish_named("shellac").oils_dry
    assert glue_named("slow-set glue").open_minutes > glue_named("wood glue").open_minutes
    assert minutes("dowels", 2) == 18.0  # source: times.csv, 6 to 12 minutes a joint


def test_names_as_makers_speak(table_frame):
    assert [plural(noun) for noun in ("leg", "shelf", "tray box", "end rail", "batten", "foot")] == [
        "legs", "shelves", "tray boxes", "end rails", "battens", "feet",
    ]  # fmt: skip
    assert (numbered(1, "joint"), numbered(3, "joint")) == ("1 joint", "3 joints")
    assert listed(["a", "b", "c"]) == "a, b and c"
    names = Names(table_frame)
    some = [part.name for part in table_frame.parts if part.definition == "leg"] + ["front rail"]
    assert names.counted(some) == "4 legs and front rail"
    assert names.counted(["left front leg"]) == "left front leg"
    assert names.any_counts(["left front leg", "left back leg", "left end rail"]) == ("2 legs", "an end rail")
