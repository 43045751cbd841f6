"""From a cut plan made by hand to the steps at saw and planer."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.building.bench import Bench
from scantling.building.finishing import finishing, sanding_parts
from scantling.building.gluing import gluing
from scantling.building.milling import choosing, milling
from scantling.building.sawing import cuts_after_planing, rough_cuts
from scantling.building.sizing import sizing
from scantling.cutting.cut_plan import (
    Areas,
    Blank,
    CutPlan,
    GlueUp,
    Piece2D,
    Placed,
    Role,
    SawCut,
    StockLayout,
)
from scantling.piece.model import Coats, MaterialKind
from scantling.shop import read_shop_text
from scantling.shop.model import Surface, Warp

SHOP = """
shop: a test
units: mm
boards:
  cherry, 4/4 rough:
    W1: 2000 x 200 x 27, bow 6, twist 4
for sale:
  cherry 4/4 rough: 2400 x 200, price 8
machines:
  circular saw: kerf 2
  table saw: kerf 3
  {flattener}
  hand plane: yes
"""


def _shop(flattener: str = "planer: widest 320, thinnest 5, sled 40"):
    return read_shop_text(SHOP.format(flattener=flattener), "shop.yaml")


def _blank(part: str, role: Role, at: int, long: float, wide: float, thick: float) -> Blank:
    return Blank(
        f"{part} {role.value} {at}",
        part,
        role,
        at,
        2,
        MaterialKind.SOLID,
        "cherry, black",
        thick,
        wide,
        long,
        wide + 6,
        long + 25,
    )


LAYERS = tuple(_blank("leg", Role.LAYER, at, 700, 45, 21) for at in (0, 1))
RAIL = _blank("rail", Role.WHOLE, 0, 400, 80, 19)

BOARD = StockLayout(
    stock="W1",
    kind=MaterialKind.SOLID,
    species="cherry",
    length=2000,
    width=200,
    thickness=27,
    bought=False,
    price=0.0,
    placed=(
        Placed(LAYERS[0].id, 25, 0, 725, 51),
        Placed(LAYERS[1].id, 25, 53, 725, 51),
        Placed(RAIL.id, 752, 0, 425, 86),
    ),
    pieces=(
        Piece2D("stock", 0, 0, 2000, 200, "stock"),
        Piece2D("a", 25, 0, 725, 200, "part way"),
        Piece2D("b", 752, 0, 425, 200, "part way"),
        Piece2D("r3", 25, 53, 725, 147, "part way"),
        Piece2D("rest", 1179, 0, 821, 200, "offcut"),
    ),
    cuts=(
        SawCut(1, "stock", True, 23, 2, ("", "r1"), "circular saw", 23),
        SawCut(2, "r1", True, 750, 2, ("a", "r2"), "circular saw", 725),
        SawCut(3, "r2", True, 1177, 2, ("b", "rest"), "circular saw", 425),
        SawCut(4, "a", False, 51, 2, ("l1", "r3"), "table saw", 51),
        SawCut(5, "r3", False, 104, 2, ("l2", ""), "table saw", 51),
        SawCut(6, "b", False, 86, 2, ("rail", ""), "table saw", 86),
    ),
)


@pytest.fixture
def stand(make_part, make_piece):
    leg = make_part("leg", (0, 0, 0), (40, 40, 700))
    rail = make_part("rail", (40, 0, 600), (440, 19, 680))
    return make_piece([leg, rail], [])


@pytest.fixture
def bench(stand, machined):
    def on(shop=None, layout=BOARD) -> Bench:
        glue_ups = (GlueUp("leg", Role.LAYER, tuple(b.id for b in LAYERS), "wide"),)
        cuts = CutPlan((*LAYERS, RAIL), (layout,), glue_ups, (), Areas(0, 0, 0, 0, 0), 0.0, 0.0, 0.0)
        return Bench(machined(stand), cuts, shop or _shop())

    return on


def test_boards_are_chosen_then_cut_short_then_ripped(bench):
    on = bench()
    (choose,) = choosing(on)
    assert choose.settings == ("W1: 2 leg layers and rail",)
    across, along = rough_cuts(on)
    # source: by hand, the cuts of the plan above
    assert across.settings == ("W1: across at 23, 750, 1177 mm",)
    assert along.settings == ("W1 from 25 to 750: along at 51, 104 mm", "W1 from 752 to 1177: along at 86 mm")
    assert (across.machine, along.machine) == ("circular saw", "table saw")
    assert set(across.parts) == {"leg", "rail"}


@pytest.mark.parametrize(
    ("flattener", "where", "machine"),
    [
        ("planer: widest 320, sled 40", "on the sled", "planer"),
        ("jointer: widest 200", "with the jointer", "jointer"),
        ("jointer: widest 50", "with the hand plane", "hand plane"),
        ("planer: widest 320", "with the hand plane", "hand plane"),
    ],
)
def test_flattened_with_what_the_shop_has(bench, flattener, where, machine):
    flatten = [draft for draft in milling(bench(_shop(flattener))) if draft.title.startswith("Flatten")]
    named = {draft.machine for draft in flatten if where in draft.title}
    assert named == {machine}


def test_flat_surfaced_boards_are_not_flattened(bench):
    shop = _shop()
    flat = replace(shop.boards[0], surface=Surface.TWO_FACES, warp=Warp(bow=0.1))
    titles = [draft.title for draft in milling(bench(replace(shop, boards=(flat,))))]
    assert not any(title.startswith("Flatten") for title in titles)


def test_one_setting_for_each_thickness_and_width(bench):
    drafts = {draft.title: draft for draft in milling(bench())}
    planed = drafts["Plane 3 blanks to thickness"]
    assert [line.split(":")[1].strip() for line in planed.settings] == ["2 leg layers", "rail"]
    assert planed.settings[0].startswith("21 mm")
    ripped = drafts["Straighten an edge and rip 3 blanks to width"]
    assert ripped.settings == ("80 mm: rail", "45 mm: 2 leg layers")


def test_a_layered_leg_is_glued_then_squared(bench):
    glue, square = gluing(bench())
    assert glue.title == "Glue up leg from 2 layers"
    assert glue.wait >= 24 * 60
    assert square.title == "Square leg"
    assert square.settings == ("40 x 40 mm: leg",)


def test_parts_are_cut_to_length_longest_first(bench):
    (cut,) = sizing(bench())
    assert cut.settings == ("700 mm: leg", "400 mm: rail")


def test_a_bought_board_rests_before_it_is_cut(bench):
    layout = replace(BOARD, stock="cherry 4/4 rough#1", bought=True)
    first, _ = choosing(bench(layout=layout))
    assert "Buy 1 board of cherry 4/4 rough;" in first.text
    assert first.wait == 7 * 24 * 60


def test_ganged_blanks_are_parted_after_planing(bench):
    pieces = (*BOARD.pieces[:2], replace(BOARD.pieces[2], flattened=19.0), *BOARD.pieces[3:])
    on = bench(layout=replace(BOARD, pieces=pieces))
    (late,) = cuts_after_planing(on)
    assert late.settings == ("W1 from 752 to 1177: along at 86 mm",)
    assert not any("1177: along" in line for draft in rough_cuts(on) for line in draft.settings)


def test_sheets_are_cut_in_the_order_numbered(bench):
    sheet = replace(BOARD, stock="P1", kind=MaterialKind.SHEET, cuts=BOARD.cuts[:2] + BOARD.cuts[3:4])
    draft = next(d for d in rough_cuts(bench(layout=sheet)) if "sheet" in d.title)
    assert draft.settings[0].startswith("P1 (mm): 1 across 23, 2 across 750")


def test_coats_wait_for_each_other(stand, machined):
    piece = replace(stand, finish=(Coats("oil varnish", 2, ("rail",), stand.parts[0].place),))
    on = Bench(machined(piece), CutPlan((), (), (), (), Areas(0, 0, 0, 0, 0), 0, 0, 0), _shop())
    first, last = finishing(on)
    assert first.parts == ("rail",)
    # source: finishes.csv, oil varnish recoated after 12 h, in light use after 48 h
    assert (first.wait, last.wait) == (12 * 60, 48 * 60)
    assert any("Oily rags" in caution for caution in first.cautions)
    (sand,) = sanding_parts(on)
    assert sand.settings == ("grits 80, 120, 150",)


def test_settings_name_bit_depth_and_distance(stand, machined):
    from scantling.building.features import settings_of
    from scantling.joinery.features import Cut, Hole
    from scantling.piece.model import Box, Face

    made = machined(stand)
    leg, rail = made.parts
    cuts = (
        Cut(Box((10, 0, 100), (16, 8, 200)), Face.FRONT, "groove", "j"),
        Cut(Box((10, 0, 200), (16, 8, 350)), Face.FRONT, "groove", "j"),
        Cut(Box((10, 0, 500), (16, 8, 600)), Face.FRONT, "groove", "other"),
    )
    holes = tuple(Hole((40, 20, z), (-1, 0, 0), 8.0, 25.0, "dowel", "j") for z in (610, 670))
    on = Bench(
        replace(made, parts=(replace(leg, cuts=cuts, holes=holes), rail)),
        CutPlan((), (), (), (), Areas(0, 0, 0, 0, 0), 0, 0, 0),
        _shop(),
    )
    # source: by hand; the first two grooves lie end to end and are one pass, 10 in from the left
    assert settings_of(on, frozenset({"j"}), ("leg", "rail")) == (
        "2 dowel holes 8 mm, 25 mm deep, in leg",
        "1 groove 6 x 250 long, 8 mm deep, in leg, 10 mm from the left edge",
    )
