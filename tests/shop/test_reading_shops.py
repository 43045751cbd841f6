"""A shop file read entry by entry; each number worked by hand."""

from __future__ import annotations

import pytest

from scantling.quantity import LengthUnit
from scantling.shop.model import BoardFace, MachineKind, Surface


def test_a_board_in_one_line(shop_of):
    shop = shop_of(
        "boards:\n  walnut, 4/4 rough, moisture 7 %:\n"
        "    W1: 96 x 7 1/2 x 1, bow 1/2, crook 1/4, cup 1/8, twist 3/8, rings rift, figure curl, price 40\n"
    )
    board = shop.boards[0]
    # source: by hand, 25.4 mm an inch
    assert (board.length, board.width, board.thickness) == pytest.approx((2438.4, 190.5, 25.4))
    assert board.warp.bow == pytest.approx(12.7)
    assert board.warp.crook == pytest.approx(6.35)
    assert board.warp.cup == pytest.approx(3.175)
    assert board.warp.twist == pytest.approx(9.525)
    assert (board.species, board.nominal, board.surface) == ("walnut", "4/4", Surface.ROUGH)
    assert (board.moisture, board.rings, board.figure, board.price) == (7.0, "rift", "curl", 40.0)
    assert board.owned
    assert (board.place.line, board.place.character) == (5, 5)


def test_a_line_overrides_its_heading_and_mm_stand_in_an_inch_file(shop_of):
    shop = shop_of(
        "boards:\n  cherry, rough, moisture 9:\n    C: 1000 mm x 152 mm x 1, S2S, moisture 6, for sale\n"
    )
    board = shop.boards[0]
    assert (board.length, board.width) == pytest.approx((1000.0, 152.0))  # source: exact
    assert (board.surface, board.moisture, board.owned) == (Surface.TWO_FACES, 6.0, False)


def test_a_mapping_says_the_same_as_a_line(shop_of):
    line = shop_of("boards:\n  oak:\n    B: 40 x 6 x 1, bow 1/8, knot 3 to 4 x 1 to 2\n")
    mapping = shop_of(
        "boards:\n  oak:\n    B:\n      size: 40 x 6 x 1\n      bow: 1/8\n"
        "      defects:\n        - knot 3 to 4 x 1 to 2\n"
    )
    assert line.boards == mapping.boards


def test_defects_reach_the_far_end_and_edge(shop_of):
    shop = shop_of(
        "boards:\n  oak:\n    B: 40 x 6 x 1, wane 10 to end x 5 to edge on other, "
        "sound knot 1 to 2 x 0 to 1\n"
    )
    wane, knot = shop.boards[0].defects
    # source: by hand
    assert (wane.from_end, wane.to_end, wane.from_edge, wane.to_edge) == pytest.approx(
        (254, 1016, 127, 152.4)
    )
    assert wane.face is BoardFace.OTHER
    assert (knot.kind, knot.face) == ("sound knot", BoardFace.BOTH)


def test_a_sheet_measures_less_than_its_label(shop_of):
    shop = shop_of(
        "sheets:\n  birch plywood 18:\n    P1: 2440 x 1220 x 17.6, on hand 2\n"
        "    P2: 2440 x 1220, for sale 3\n",
        "mm",
    )
    owned, sold = shop.sheets
    assert (owned.label, owned.thickness, owned.count, owned.owned) == (18.0, 17.6, 2, True)
    assert (sold.thickness, sold.count, sold.owned) == (18.0, 3, False)


def test_on_hand_and_for_sale_are_two_stacks(shop_of):
    shop = shop_of("lumber:\n  pine 2x4:\n    L: 96, on hand 2, for sale, price 4\n")
    owned, sold = shop.lumber
    assert (owned.id, owned.count, owned.owned) == ("L", 2, True)
    assert (sold.id, sold.count, sold.owned) == ("L to buy", None, False)
    # source: PS 20, minimum dressed dry sizes of a 2x4: 1 1/2 x 3 1/2 in
    assert (sold.thickness, sold.width) == pytest.approx((38.1, 88.9))


def test_measured_lumber_keeps_its_measure(shop_of):
    shop = shop_of("lumber:\n  pine 2x4:\n    L: 96 x 3 7/16 x 1 15/32\n")
    # source: by hand
    assert (shop.lumber[0].width, shop.lumber[0].thickness) == pytest.approx((87.3125, 37.30625))


@pytest.mark.parametrize(
    ("sold_as", "inches"),
    # source: published table of hardwood board thickness (quarters.csv)
    [("4/4 rough", 1.0), ("4/4 S2S", 0.8125), ("8/4 rough", 2.0), ("8/4 surfaced two faces", 1.75)],
)
def test_timber_for_sale_has_the_trades_thickness(shop_of, sold_as, inches):
    shop = shop_of(f"for sale:\n  cherry {sold_as}: 96 x 8, price 9.50\n")
    timber = shop.for_sale[0]
    assert timber.thickness == pytest.approx(inches * 25.4)
    assert (timber.price_per_board_foot, timber.species) == (9.5, "cherry")


def test_machines_and_clamps(shop_of):
    shop = shop_of(
        "machines:\n  the old saw: is a table saw, kerf 1/8\n  planer: widest 12, sled 1 1/2, snipe 2\n"
        "  drill: yes\nclamps:\n  bar clamp: 6, opens 36, force 100 lb\n"
    )
    saw, planer, drill = shop.machines
    assert (saw.kind, saw.name, saw.kerf) == (MachineKind.TABLE_SAW, "the old saw", pytest.approx(3.175))
    assert planer.sled
    assert planer.sled_thickness == pytest.approx(38.1)
    assert (drill.kind, drill.most_width) == (MachineKind.DRILL, None)
    # source: 1 lb = 0.45359237 kg exactly, x 9.80665 m/s2
    assert shop.clamps[0].force == pytest.approx(444.822, abs=0.001)


def test_a_fittings_label_is_its_size(shop_of):
    shop = shop_of(
        "hardware:\n  dowel:\n    3/8 x 2: price 6.50 for 50, on hand 30\n  side slide:\n"
        "    14: price 17.50 for 2, rating 75 lb, clearance 13 mm\n"
        "  wood screw:\n    8 x 1 1/4: price 7 for 100\n"
        "    1/4 x 4: price 9 for 10\n  lid stay: price 12, reach 9\n"
    )
    by_id = {item.id: item for item in shop.hardware}
    dowel = by_id["dowel 3/8 x 2"]
    assert dict(dowel.sizes) == pytest.approx({"diameter": 9.525, "length": 50.8})
    assert (dowel.price, dowel.pack, dowel.on_hand) == (6.5, 50, 30)
    slide = by_id["side slide 14"]
    assert dict(slide.sizes) == pytest.approx({"length": 355.6, "clearance": 13.0})
    assert slide.rating == pytest.approx(34.019, abs=0.001)  # source: exact pound
    # source: Wood Handbook Table 8-9, number 8 screw 4.17 mm
    assert dict(by_id["wood screw 8 x 1 1/4"].sizes)["diameter"] == pytest.approx(4.17, abs=0.01)
    assert dict(by_id["wood screw 1/4 x 4"].sizes)["diameter"] == pytest.approx(6.35)
    assert by_id["lid stay"].name == "lid stay"


def test_a_metric_screw_is_named_by_its_diameter(shop_of):
    shop = shop_of(
        "hardware:\n  wood screw:\n    3.5 x 30: price 4 for 50\n    4 x 40: price 5 for 50\n", "mm"
    )
    assert [dict(item.sizes)["diameter"] for item in shop.hardware] == [3.5, 4.0]


def test_supplies_and_the_rest(shop_of):
    shop = shop_of(
        "supplies:\n  wiping varnish: 34 a litre, covers 100 sq ft, on hand 0.5\n"
        "air: {dry: 30 %, damp: 50 %, at: 68 F}\nhours a week: 6\nfraction: 1/16\nlikes: [tenon, dowels]\n"
    )
    supply = shop.supplies[0]
    assert (supply.unit, supply.price, supply.on_hand) == ("litre", 34.0, 0.5)
    assert supply.covers == pytest.approx(9.2903, abs=1e-4)  # source: 1 ft = 0.3048 m exactly
    assert (shop.climate.humidity, shop.climate.dry, shop.climate.damp) == pytest.approx((0.4, 0.3, 0.5))
    assert shop.climate.temperature == pytest.approx(20.0)  # source: (68 - 32) x 5 / 9
    assert (shop.hours_a_week, shop.fraction, shop.unit) == (6.0, 16, LengthUnit.INCHES)
    assert shop.likes == ("tenon", "dowels")


def test_every_example_shop_reads(example_shops):
    from scantling.shop import read_shop

    assert len(example_shops) == 10
    for path in example_shops:
        shop = read_shop(path)
        assert shop.machines
        assert "invented" in shop.note
