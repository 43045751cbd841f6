"""Dado, groove, rabbet and tongue."""

from __future__ import annotations

import pytest

from scantling.piece.model import Axis, Face


def _cut(made, name):
    (cut,) = made.by_name[name].cuts
    return cut


def test_shelf_in_a_dado_grows_by_its_depth_and_stops_short_of_the_front(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 300, 700), material=bench_of.ply)
    shelf = bench_of.part("shelf", (18, 0, 300), (618, 300, 317.6), material=bench_of.ply, grain=Axis.WIDE)
    made = bench_of.machined([side, shelf], [bench_of.joint(shelf, side, "dado")])
    cut = _cut(made, "side")
    # source: by hand: a third of 18 is 6; 17.6 measured + 0.15 fit; 12 short at the front, out at the back
    assert cut.box.size(Axis.WIDE) == pytest.approx(6.0)
    assert cut.box.size(Axis.HIGH) == pytest.approx(17.75)
    assert (cut.box.low[1], cut.box.high[1]) == pytest.approx((12.0, 300.0))
    assert made.by_name["shelf"].overall_length == pytest.approx(606.0)
    assert made.by_name["shelf"].additions[0].box.low[1] == pytest.approx(12.0)


@pytest.mark.parametrize("words", [{"through": True}, {"runs": 0.5}])
def test_through_or_a_sliding_part_lets_the_dado_run_out(bench_of, words):
    side = bench_of.part("side", (0, 0, 0), (18, 300, 700))
    shelf = bench_of.part("shelf", (18, 0, 300), (618, 300, 318))
    made = bench_of.machined([side, shelf], [bench_of.joint(shelf, side, "dado", **words)])
    assert _cut(made, "side").box.low[1] == pytest.approx(0.0)


def test_a_panel_grows_by_groove_less_gap_on_four_sides(bench_of):
    stiles = [
        bench_of.part("left stile", (0, 0, 0), (50, 20, 600)),
        bench_of.part("right stile", (350, 0, 0), (400, 20, 600)),
    ]
    rails = [
        bench_of.part("bottom rail", (50, 0, 0), (350, 20, 60)),
        bench_of.part("top rail", (50, 0, 550), (350, 20, 600)),
    ]
    panel = bench_of.part("panel", (50, 5, 60), (350, 15, 550))
    frame = [*stiles, *rails]
    joints = [bench_of.joint(panel, part, "groove", deep=10.0, gap=2.0) for part in frame]
    made = bench_of.machined([*frame, panel], joints)
    # source: by hand: 10 - 2 = 8 a side
    assert made.by_name["panel"].cut_box.sizes == pytest.approx((316.0, 10.0, 506.0))
    # source: by hand: the panel's corner needs 8 + gap 2 beyond the sight edge in the stile
    stile = _cut(made, "left stile").box
    assert (stile.low[2], stile.high[2]) == pytest.approx((50.0, 560.0))
    assert made.layouts[0].glued_area == 0.0  # a solid panel is not glued


def test_back_in_a_rabbet_runs_out_to_the_rear_edge(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 300, 700))
    back = bench_of.part("back", (18, 287, 0), (618, 293, 700), grain=Axis.HIGH)
    made = bench_of.machined([side, back], [bench_of.joint(back, side, "rabbet")])
    box = _cut(made, "side").box
    # source: by hand: half of 18 deep; from the back's face (0.075 fit) to the rear edge at 300
    assert (box.low[1], box.high[1]) == pytest.approx((286.925, 300.0))
    assert box.size(Axis.WIDE) == pytest.approx(9.0)
    assert made.by_name["back"].cut_box.size(Axis.WIDE) == pytest.approx(609.0)


def test_tongue_with_a_shoulder_that_stands_off(bench_of):
    rail = bench_of.part("rail", (0, 0, 0), (600, 50, 18))
    runner = bench_of.part("runner", (100, 50, 0), (150, 400, 18))
    made = bench_of.machined([rail, runner], [bench_of.joint(runner, rail, "tongue", stand_off=3.0)])
    tongue = made.by_name["runner"].additions[0]
    # source: by hand: a third of 18 is 6 thick, 8 long; the shoulder cut back 3 above and below
    assert tongue.box.size(Axis.HIGH) == pytest.approx(6.0)
    assert tongue.box.size(Axis.DEEP) == pytest.approx(8.0)
    shoulders = made.by_name["runner"].cuts
    assert [c.box.size(Axis.DEEP) for c in shoulders] == pytest.approx([3.0, 3.0])
    assert {c.face for c in shoulders} == {Face.FRONT}


def test_a_groove_deeper_than_the_part_says_what_would_do(bench_of):
    side = bench_of.part("side", (0, 0, 0), (12, 300, 100))
    bottom = bench_of.part("bottom", (12, 0, 10), (300, 300, 16))
    made = bench_of.machined([side, bottom], [bench_of.joint(bottom, side, "groove", deep=12.0)])
    (notice,) = [n for n in made.notices if n.must]
    assert "10 mm" in notice.message  # source: by hand: 12 - 2


def test_a_breadboard_end_is_pegged_in_slots_outside_the_glue(bench_of):
    from scantling.piece.model import Air, Room

    board = bench_of.part("board", (0, 0, 0), (900, 500, 22), grain=Axis.WIDE)
    end = bench_of.part("end", (900, 0, 0), (980, 500, 22), grain=Axis.DEEP)
    joint = bench_of.joint(board, end, "tongue", glue=bench_of.glue("part", "middle", 75.0))
    made = bench_of.machined([board, end], [joint], room=Room(air=Air(0.25, 0.60, 21.0)))
    pegs = made.by_name["end"].holes
    slots = [c for c in made.by_name["board"].cuts if c.kind == "slot"]
    assert len(pegs) == len(slots) == made.hardware[0].count == 2  # source: by hand: 50 in from both edges
    assert all(p.through for p in pegs)
    # source: by hand: a 25 tongue, pegs at half of it
    assert {p.at[0] for p in pegs} == {912.5}
    lengths = [s.box.size(Axis.DEEP) for s in slots]
    assert lengths[0] == pytest.approx(lengths[1])
    assert lengths[0] > 6.35 + 3


def test_a_solid_panel_gets_room_for_its_seasons_or_a_notice(bench_of):
    from scantling.piece.model import Air, Room

    stile = bench_of.part("stile", (0, 0, 0), (50, 20, 600))
    panel = bench_of.part("panel", (50, 5, 50), (350, 15, 550), grain=Axis.HIGH)
    joint = bench_of.joint(panel, stile, "groove")
    known = bench_of.machined([stile, panel], [joint], room=Room(air=Air(0.25, 0.60, 21.0)))
    gap = dict(known.layouts[0].numbers)["gap"]
    # source: Wood Handbook eq. 13-2 by hand: 300 x 0.00365 x 5.6 / 2 + 1, capped at half of the 9 groove
    assert gap == pytest.approx(min(300 * 0.00365 * 5.6 / 2 + 1, 4.5), abs=0.3)
    assert not known.notices
    unknown = bench_of.machined([stile, panel], [joint])
    assert [n.code for n in unknown.notices] == ["movement unknown"]
