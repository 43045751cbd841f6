"""Hinges, slides, pins, knobs, and what they want of the gap they stand in."""

from __future__ import annotations

import pytest

from scantling.piece.model import Axis, Face, Hardware, Movement, Swing


def _fitting(bench_of, kind, **more):
    return Hardware("fitting", kind, more.pop("count", 1), bench_of.place, **more)


@pytest.fixture
def lid_and_strip(bench_of):
    """A lid 2 mm in front of a strip, both 20 thick, hinged at the top."""
    lid = bench_of.part("lid", (0, 0, 0), (1000, 300, 20), grain=Axis.WIDE)
    strip = bench_of.part("strip", (0, 302, 0), (1000, 380, 20), grain=Axis.WIDE)
    swing = Movement("lid", frozenset({"lid"}), Swing((0, 300, 20), (1, 0, 0), 95.0), bench_of.place)
    return lid, strip, swing


def test_butt_hinges_are_let_into_both_edges_at_the_pivot(bench_of, lid_and_strip):
    lid, strip, swing = lid_and_strip
    hinge = _fitting(bench_of, "butt hinge 50 mm", count=3, joins=("lid", "strip"))
    made = bench_of.machined([lid, strip], hardware=(hinge,), movements=(swing,))
    mortises = made.by_name["lid"].cuts
    assert len(mortises) == len(made.by_name["strip"].cuts) == 3
    box = mortises[0].box
    # source: by hand: 0.35 x 50 wide from the top; a 2 mm leaf less half the 2 mm gap
    assert box.high[2] == 20.0
    assert box.size(Axis.HIGH) == pytest.approx(17.5)
    assert box.size(Axis.DEEP) == pytest.approx(1.0)
    # source: trade notes: 1/6 to 1/5 of the length from each end
    centres = sorted((c.box.low[0] + c.box.high[0]) / 2 for c in mortises)
    assert centres == pytest.approx([180.0, 500.0, 820.0])
    assert made.by_name["strip"].cuts[0].box.low[1] == pytest.approx(302.0)
    screws = next(u for u in made.hardware if u.kind == "wood screw")
    assert screws.count == 2 * 2 * 3


@pytest.mark.parametrize(("high", "count"), [(480, 2), (700, 3)])
def test_a_door_hangs_on_the_usual_number_of_hinges(bench_of, high, count):
    """A cabinet door whose file names no count hung on a single hinge at its middle."""
    stile = bench_of.part("stile", (0, 0, 0), (40, 20, high))
    door = bench_of.part("door", (42, 0, 0), (400, 20, high))
    swing = Movement("door", frozenset({"door"}), Swing((41, 0, 0), (0, 0, 1), -95.0), bench_of.place)
    hinge = _fitting(bench_of, "butt hinge 50 mm", joins=("door", "stile"))
    made = bench_of.machined([stile, door], hardware=(hinge,), movements=(swing,))
    # source: common practice, no source: 2 to 600 mm of door, one more for each 600
    assert len(made.by_name["door"].cuts) == count
    assert next(u.count for u in made.hardware if u.kind == "butt hinge") == count


def test_hinge_screws_stop_short_of_the_far_face(bench_of):
    """The tool's own no. 8 x 25 in a wall 18 thick left 1 mm behind its pilot, and told the maker off."""
    front = bench_of.part("front", (0, 0, 0), (400, 18, 480))
    door = bench_of.part("door", (0, -20, 0), (400, -2, 480))
    swing = Movement("door", frozenset({"door"}), Swing((0, -1, 0), (0, 0, 1), -95.0), bench_of.place)
    hinge = _fitting(bench_of, "butt hinge 65 mm", joins=("door", "front"))
    made = bench_of.machined([front, door], hardware=(hinge,), movements=(swing,))
    # source: by hand: 18 - 2 leaves room for 16
    assert {h.deep for part in made.parts for h in part.holes if h.purpose == "pilot"} == {16.0}


def test_a_continuous_hinge_takes_a_row_of_screws_in_each_edge(bench_of, lid_and_strip):
    lid, strip, swing = lid_and_strip
    hinge = _fitting(bench_of, "continuous hinge", joins=("lid", "strip"), sizes=(("open width", 32.0),))
    made = bench_of.machined([lid, strip], hardware=(hinge,), movements=(swing,))
    holes = made.by_name["lid"].holes
    assert {h.at[2] for h in holes} == {12.0}  # source: by hand: the middle of a 16 leaf below the top edge
    # source: by hand: 25 from both ends, at most 50 apart: 950 / 50 -> 20
    assert len(holes) == 20
    assert len(made.by_name["strip"].holes) == 20


def test_side_slides_get_screws_in_line_and_mind_their_clearance(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 500, 300))
    drawer = bench_of.part("drawer", (30.7, 20, 50), (43.7, 470, 170))
    slide = _fitting(bench_of, "side slide", joins=("drawer", "side"), sizes=(("length", 400.0),))
    made = bench_of.machined([side, drawer], hardware=(slide,))
    mine, theirs = made.by_name["drawer"].holes, made.by_name["side"].holes
    assert [h.at[1:] for h in mine] == [h.at[1:] for h in theirs]
    assert {h.direction for h in mine} == {(1.0, 0.0, 0.0)}
    # source: by hand: a third of 120 up from 50; set back 2.5, first screw 35 in
    assert mine[0].at[2] == pytest.approx(90.0, abs=0.1)
    assert mine[0].at[1] == pytest.approx(20 + 2.5 + 35)
    assert not made.notices  # source: by hand: 30.7 - 18 is the 12.7 it wants


def test_a_slide_with_too_little_room_is_a_must_notice(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 500, 300))
    drawer = bench_of.part("drawer", (29, 20, 50), (42, 470, 170))
    slide = _fitting(bench_of, "side slide", joins=("drawer", "side"), sizes=(("length", 400.0),))
    made = bench_of.machined([side, drawer], hardware=(slide,))
    assert [(n.code, n.must) for n in made.notices] == [("slide clearance", True)]


def test_pin_rows_stand_in_both_sides_of_the_shelf(bench_of):
    sides = [
        bench_of.part("left", (0, 0, 0), (18, 280, 800)),
        bench_of.part("right", (600, 0, 0), (618, 280, 800)),
    ]
    shelf = bench_of.part("shelf", (19, 2, 300), (599, 262, 318))
    pins = _fitting(bench_of, "shelf pin 5", count=4, under="shelf", rows=(37.0, 223.0), every=32.0)
    made = bench_of.machined([*sides, shelf], hardware=(pins,))
    for name, direction in (("left", (-1.0, 0.0, 0.0)), ("right", (1.0, 0.0, 0.0))):
        holes = made.by_name[name].holes
        assert len(holes) == 10  # source: by hand: two rows, the shelf's own and two either way
        assert {h.direction for h in holes} == {direction}
        assert {h.at[1] for h in holes} == {39.0, 225.0}
        # source: by hand: the top of the pin carries the shelf at 300
        assert 297.5 in {h.at[2] for h in holes}


def test_knobs_are_bored_through_at_the_place_said(bench_of):
    door = bench_of.part("door", (0, 0, 0), (400, 20, 600))
    knob = _fitting(bench_of, "knob 25 mm", to="door", at=(("wide", 370.0),))
    made = bench_of.machined([door], hardware=(knob,))
    (hole,) = made.by_name["door"].holes
    assert hole.at == (370.0, 0.0, 300.0)
    assert hole.through
    assert hole.direction == Face.BACK.normal


@pytest.mark.parametrize("kind", ["butt hinge 50 mm", "continuous hinge", "side slide"])
def test_a_fitting_that_joins_nothing_says_what_to_write(bench_of, kind):
    part = bench_of.part("part", (0, 0, 0), (400, 20, 600))
    made = bench_of.machined([part], hardware=(_fitting(bench_of, kind),))
    (notice,) = made.notices
    assert notice.must
    assert "joins:" in notice.remedy


def test_an_unknown_fitting_is_counted_and_left_to_its_sheet(bench_of):
    part = bench_of.part("part", (0, 0, 0), (400, 20, 600))
    made = bench_of.machined([part], hardware=(_fitting(bench_of, "ball catch", to="part", count=2),))
    assert made.hardware[0].count == 2
    assert "its own sheet" in made.layouts[0].text


def test_a_slide_moves_up_where_a_bottom_is_grooved_in(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 500, 300))
    drawer = bench_of.part("drawer", (30.7, 20, 50), (43.7, 470, 170))
    bottom = bench_of.part("bottom", (43.7, 20, 85), (400, 470, 97))
    slide = _fitting(bench_of, "side slide", joins=("drawer", "side"), sizes=(("length", 400.0),))
    groove = bench_of.joint(bottom, drawer, "groove", deep=6.0)
    made = bench_of.machined([side, drawer, bottom], [groove], hardware=(slide,))
    # source: by hand: a third up is 90, in the groove at 85 to 97; half way up is 110
    assert {h.at[2] for h in made.by_name["drawer"].holes} == {110.0}


def test_pins_from_both_sides_of_a_divider_leave_wood_between(bench_of):
    """Two shelves at one height: 10 mm deep from both faces of a divider 17.6 thick."""
    divider = bench_of.part("divider", (500, 0, 0), (517.6, 300, 700))
    sides = [bench_of.part(n, (x, 0, 0), (x + 18, 300, 700)) for n, x in (("left", -18), ("right", 1017.6))]
    shelves = [
        bench_of.part(n, (x, 0, 350), (x + 500, 300, 368), grain=Axis.WIDE)
        for n, x in (("a", 0), ("b", 517.6))
    ]
    pins = tuple(
        Hardware(f"pins {n}", "shelf pin 5", 4, bench_of.place, under=n, rows=(40.0, 260.0), every=32.0)
        for n in ("a", "b")
    )
    made = bench_of.machined([divider, *sides, *shelves], hardware=pins)
    # source: by hand: (17.6 - 3) / 2
    assert {round(h.deep, 3) for h in made.by_name["divider"].holes} == {7.3}
    assert {h.deep for h in made.by_name["left"].holes} == {10.0}
