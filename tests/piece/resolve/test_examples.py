"""The ten example files give the sizes worked out by hand."""

import math

import pytest

from scantling.piece.facts import SheetFact, ShopFacts
from scantling.piece.model import Axis

TEN = {
    "sewing-desk": 18,
    "four-legged-stool": 8,
    "chest-of-drawers": 67,
    "wall-cabinet": 13,
    "bed-with-slats": 27,
    "round-table": 9,
    "bookcase": 11,
    "wall-shelf": 7,
    "hall-bench": 13,
    "sliding-lid-box": 6,
}


@pytest.mark.parametrize(("name", "count"), TEN.items())
def test_every_part_and_nothing_unexplained(example, name, count):
    # source: independent; counted from the files by a reader written before this one (179 in all)
    piece = example(name)
    assert len(piece.parts) == count
    assert [n for n in piece.notices if n.code != "usual size assumed"] == []


def test_ten_pieces_hold_179_parts_and_345_joined_pairs(example):
    # source: independent; the same two counts from an earlier reader of the same ten files
    pieces = [example(name) for name in TEN]
    assert sum(len(piece.parts) for piece in pieces) == 179
    assert sum(len(piece.joints) for piece in pieces) == 345


def test_hall_bench_front_rail(example, inches):
    # source: by hand; 42 - 2 x 1/2 overhang - 2 x 1 3/4 legs = 37 1/2 between shoulders;
    # legs 18 - 3/4 = 17 1/4 high; rail 6 down from there; 3/4 back from 1/2 + 1/8
    rail = example("hall-bench").part("front rail")
    assert inches(*rail.box.low) == (2.25, 0.625, 11.25)
    assert inches(*rail.box.sizes) == (37.5, 0.75, 6.0)
    assert rail.grain is Axis.WIDE


def test_stool_legs_lean_9_degrees_both_ways(example):
    # source: by hand; tan 9 = 0.158384; shift 22.5 x 0.158384 = 3.5636; true length
    # 22.5 x sqrt(1 + 2 x 0.025086) = 23.0575; resultant atan(sqrt 2 x 0.158384) = 12.63 deg
    leg = example("four-legged-stool").part("left front leg")
    wide, deep = leg.shape.lean.shift
    height = leg.box.size(Axis.HIGH)
    assert (round(wide / 25.4, 4), round(deep / 25.4, 4)) == (-3.5636, -3.5636)
    assert math.hypot(wide, deep, height) / 25.4 == pytest.approx(23.0575, abs=1e-4)
    assert round(math.degrees(math.atan(math.hypot(wide, deep) / height)), 2) == 12.63


def test_stool_legs_mirror(example):
    piece = example("four-legged-stool")
    back = piece.part("right back leg").shape.lean.shift
    front = piece.part("left front leg").shape.lean.shift
    assert back == pytest.approx((-front[0], -front[1]))


def test_stool_stretchers_meet_the_legs_at_their_own_height(example, inches):
    # source: by hand; at 7 up the leg's middle is 3.25 + 15.5 x tan 9 = 5.7050 from the middle, its
    # diameter 1 + 0.375 x 7 / 22.5 = 1.1167; leaning round section: half / sqrt(1 - a²) with
    # a = tan 9 / sqrt(1 + 2 tan² 9) = 0.15456, so 0.55833 / 0.98798 = 0.56512;
    # side stretcher 2 x (5.7050 - 0.56512) = 10.2797 (10 9/32);
    # cross stretcher 2 x (5.7050 - 0.4375) = 10.5349 (10 17/32)
    piece = example("four-legged-stool")
    assert inches(piece.part("left side stretcher").length) == pytest.approx((10.2797,), abs=2e-4)
    assert inches(piece.part("cross stretcher").length) == pytest.approx((10.5349,), abs=2e-4)


def test_bed_slats_keep_the_gap_small(example, inches):
    # source: by hand; between rails 86 - 1 3/8 - 9/16 - 1 3/8 - 9/16 = 82 1/8; 14 slats of 3 1/2 leave
    # 33 1/8 in 15 gaps = 2.2083 (2 7/32); 13 would leave 36 5/8 in 14 = 2.616, over 2 1/2
    slats = [part for part in example("bed-with-slats").parts if part.definition == "slat"]
    assert len(slats) == 14
    gap = slats[1].box.low[Axis.DEEP] - slats[0].box.high[Axis.DEEP]
    assert inches(gap) == (2.2083,)


def test_chest_has_six_openings_and_five_frames(example, inches):
    # source: by hand; 43 1/4 - 3/4 rail - 4 plinth - 3/4 frame = 37 3/4, less 5 x 3/4 = 34 for six;
    # 4 + 4 1/2 + 5 + 5 1/2 + 6 1/4 = 25 1/4, so the rest is 8 3/4
    piece = example("chest-of-drawers")
    heights = [inches(s.box.size(Axis.HIGH))[0] for s in piece.spaces if s.name.startswith("opening")]
    assert heights == [4, 4.5, 5, 5.5, 6.25, 8.75]
    assert sum(part.name.startswith("frame ") for part in piece.parts) == 25


def test_setting_the_back_in_changes_depths_only(example):
    # source: by hand; the back moves forward by 3/4, so what ends on it gets 3/4 shallower, nothing else
    first, second = example("chest-of-drawers"), example("chest-of-drawers", back_inset="1")
    changed = [(a, b) for a, b in zip(first.parts, second.parts, strict=True) if a.box.sizes != b.box.sizes]
    assert changed
    for before, after in changed:
        assert before.box.sizes[0] == after.box.sizes[0]
        assert before.box.sizes[2] == after.box.sizes[2]
        assert round(before.box.sizes[1] - after.box.sizes[1], 6) == 19.05


def test_sheet_that_measures_17_6(example):
    # source: by hand; 800 - 2 x 18 = 764 between the sides, 800 - 2 x 17.6 = 764.8
    facts = ShopFacts(sheets=(SheetFact("birch plywood", 18, 17.6), SheetFact("birch plywood", 6, 6)))
    assert round(example("bookcase").part("top").box.size(Axis.WIDE), 6) == 764
    measured = example("bookcase", facts)
    assert round(measured.part("top").box.size(Axis.WIDE), 6) == 764.8
    assert round(measured.part("bay 1 shelf 2").box.size(Axis.WIDE), 6) == 762.8
    assert round(measured.part("middle shelf").box.size(Axis.HIGH), 6) == 17.6
    assert measured.notices == ()


def test_dovetails_to_rabbets_moves_no_part(example):
    # source: exact; every joint is drawn as a butt
    first = example("chest-of-drawers")
    second = example("chest-of-drawers", drawer_corners="rabbet")
    assert [part.box for part in first.parts] == [part.box for part in second.parts]
    method = {(j.first, j.second): j.method for j in second.joints}
    assert method["drawer 1 left side", "drawer 1 front"] == "rabbet"


def test_refit_follows_the_desk(example, inches):
    # source: by hand; 40 mm legs; solid cherry panels, so the line for solid panels holds;
    # later line: loose tenon wins over dowels
    piece = example("sewing-desk-refit")
    assert round(piece.part("left front leg").box.sizes[0], 6) == 40
    methods = {(j.first, j.second): j for j in piece.joints}
    assert methods["left side panel", "left front leg"].method == "loose tenon"
    assert methods["back panel", "left back leg"].settings.glue.where == "top"
    assert inches(piece.overall.high[0]) == (35.0,)


def test_desk_slide_length_comes_from_the_tray_place(example, inches):
    # source: by hand; tray place deep: 15 1/4 - 1 = 14 1/4; less 1 = 13 1/4, down to even inches = 12
    piece = example("sewing-desk")
    slides = [h for h in piece.hardware if h.name == "slide"]
    assert [h.joins for h in slides] == [
        ("tray left side", "left spacer"),
        ("tray right side", "right spacer"),
    ]
    assert inches(dict(slides[0].sizes)["length"]) == (12.0,)
    tray = next(m for m in piece.movements if m.name == "tray")
    assert inches(tray.motion.distance) == (12.0,)
    assert tray.motion.direction == (0.0, -1.0, 0.0)
    assert tray.after == ("lid",)


def test_desk_lid_swings_backward_about_its_upper_back_edge(example, inches):
    # source: by hand; front toward top: cross product (0,-1,0) x (0,0,1) = (-1,0,0);
    # the edge lies 10 15/16 back, 37 up
    lid = next(m for m in example("sewing-desk").movements if m.name == "lid")
    assert lid.motion.axis == (-1.0, 0.0, 0.0)
    assert inches(*lid.motion.about[1:]) == (10.9375, 37.0)
    assert lid.moves == {"lid board", "lid lip"}
    assert lid.motion.angle == 100


def test_round_table_feet_stand_at_quarters(example, inches):
    # source: by hand; column 5 wide about 24, 24; foot 1 runs from 26 1/2 to 45 1/2 back of it; a quarter
    # turn (right to back, back to left) puts foot 2 to the left: 2 1/2 to 21 1/2
    piece = example("round-table")
    assert inches(*piece.part("foot 1").box.low[:2]) == (23.125, 26.5)
    assert inches(piece.part("foot 2").box.low[0], piece.part("foot 2").box.high[0]) == (2.5, 21.5)
    assert piece.part("foot 2").grain is Axis.WIDE
    assert {j.first for j in piece.joints if j.second == "column"} >= {f"foot {n}" for n in (1, 2, 3, 4)}


def test_wall_shelf_brackets_stand_at_studs(example, inches):
    # source: by hand; 2x4 is 1 1/2 x 3 1/2; first stud 8, then 24, 40
    piece = example("wall-shelf")
    lows = [inches(piece.part(f"bracket {n} upright").box.low[0])[0] for n in (1, 2, 3)]
    assert lows == [6.25, 22.25, 38.25]
    assert [j.second for j in piece.joints if j.first.endswith("upright")].count("wall") == 3
    screws = next(j for j in piece.joints if j.first == "bracket 1 arm").settings
    assert screws.gauge
    assert screws.size == (10.0, 76.2)
