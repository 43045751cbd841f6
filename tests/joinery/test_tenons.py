"""Tenons: lengths between shoulders and overall, haunches, splitting, two in one leg."""

from __future__ import annotations

import pytest

from scantling.piece.model import Axis
from scantling.quantity import MM_PER_INCH, LengthUnit


def test_hall_bench_front_rail_is_37_1_2_between_shoulders_and_39_1_2_overall(bench_of):
    inch = MM_PER_INCH
    legs = [
        bench_of.part("left leg", (0, 0, 0), (1.75 * inch, 1.75 * inch, 17 * inch)),
        bench_of.part("right leg", (39.25 * inch, 0, 0), (41 * inch, 1.75 * inch, 17 * inch)),
    ]
    rail = bench_of.part("rail", (1.75 * inch, 3.175, 11 * inch), (39.25 * inch, 22.225, 17 * inch))
    joints = [bench_of.joint(rail, leg, "tenon", deep=inch) for leg in legs]
    made = bench_of.machined([*legs, rail], joints, unit=LengthUnit.INCHES)
    # source: piece-language 2.7: "37 1/2 between shoulders, 39 1/2 overall"
    assert made.by_name["rail"].part.length == pytest.approx(37.5 * inch)
    assert made.by_name["rail"].overall_length == pytest.approx(39.5 * inch)
    tenons = [a for a in made.by_name["rail"].additions if a.kind == "tenon"]
    # source: trade notes: 1/3 of 19.05 is 6.35; 152 mm wide is over 125, so two at each end
    assert len(tenons) == 4
    assert tenons[0].box.size(Axis.DEEP) == pytest.approx(6.35)
    # source: trade notes: 15 mm below the leg's top, with a haunch
    assert max(t.box.high[2] for t in tenons) == pytest.approx(17 * inch - 15)
    assert [a for a in made.by_name["rail"].additions if a.kind == "haunch"]
    assert not [n for n in made.notices if n.must]


def test_a_tenon_too_long_for_the_leg_says_what_would_do(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (30, 30, 700))
    rail = bench_of.part("rail", (30, 5, 500), (400, 25, 580))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "tenon", deep=32.0)])
    (notice,) = [n for n in made.notices if n.must]
    # source: brief: 32 mm long, leg 30 mm thick, at most 24 mm leaves 6 mm
    for words in ("tenon 32 mm", "30 mm", "24 mm", "6 mm"):
        assert words in notice.message
    assert made.by_name["rail"].additions


def test_two_tenons_in_one_leg_are_mitred_and_say_so(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700))
    front = bench_of.part("front", (40, 10, 500), (440, 30, 580))
    side = bench_of.part("side", (10, 40, 500), (30, 440, 580))
    joints = [
        bench_of.joint(front, leg, "tenon", deep=30.0),
        bench_of.joint(side, leg, "tenon", deep=30.0, line=2),
    ]
    made = bench_of.machined([leg, front, side], joints)
    assert [n.code for n in made.notices] == ["tenons mitred", "tenons mitred"]
    (one,) = made.by_name["front"].shaped
    (two,) = made.by_name["side"].shaped
    swapped = sorted((v, u) for u, v in one.prism.profile)
    for mine, theirs in zip(swapped, sorted(two.prism.profile), strict=True):
        assert mine == pytest.approx(theirs)  # source: exact, the corner is symmetric
    assert not one.adds
    # source: by hand: 20 thick / 3 -> 6.5 (0.5 steps); cheeks at 16.75 and 23.25 of 40; the tip is at 10
    near = max(u for u, _ in one.prism.profile)
    assert near == pytest.approx(23.25 + 1 / 2**0.5)


def test_short_tenons_in_one_leg_are_left_alone(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (60, 60, 700))
    front = bench_of.part("front", (60, 5, 500), (440, 25, 580))
    side = bench_of.part("side", (5, 60, 500), (25, 440, 580))
    joints = [
        bench_of.joint(front, leg, "tenon", deep=25.0),
        bench_of.joint(side, leg, "tenon", deep=25.0, line=2),
    ]
    made = bench_of.machined([leg, front, side], joints)
    assert not made.notices
    assert not made.by_name["front"].shaped


def test_through_tenon_comes_out_flush(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700))
    rail = bench_of.part("rail", (40, 10, 300), (440, 30, 380))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "through tenon")])
    assert made.by_name["rail"].cut_box.low[0] == pytest.approx(0.0)  # source: exact
    assert made.by_name["leg"].cuts[0].box.size(Axis.WIDE) == pytest.approx(40.0)


def test_dry_tenons_of_a_wide_board_get_longer_mortises(bench_of):
    from scantling.piece.model import Air, Room

    post = bench_of.part("post", (0, 0, 0), (70, 70, 1000))
    board = bench_of.part("board", (70, 25, 400), (1500, 47, 900))
    glue = bench_of.glue("part", "middle", 100.0)
    joint = bench_of.joint(board, post, "tenon", deep=25.0, glue=glue)
    made = bench_of.machined([post, board], [joint], room=Room(air=Air(0.25, 0.60, 21.0)))
    tenons = [a for a in made.by_name["board"].additions if a.kind == "tenon"]
    mortises = [c for c in made.by_name["post"].cuts if c.kind == "mortise"]
    spare = sorted(
        c.box.size(Axis.HIGH) - t.box.size(Axis.HIGH) for c, t in zip(mortises, tenons, strict=True)
    )
    assert len(tenons) > 2
    assert spare[0] == pytest.approx(0.0)  # the glued one in the middle
    assert spare[-1] > 4.0  # source: oak 250 mm off the middle moves about 3 mm over 6 % moisture


def test_the_count_said_is_the_count_of_tenons(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (60, 60, 700))
    rail = bench_of.part("rail", (60, 20, 200), (440, 40, 300))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "tenon", count=2)])
    one, two = (a.box for a in made.by_name["rail"].additions)
    # source: by hand: 100 less two shoulders of 6 is 88; a quarter, 22, between
    assert two.low[2] - one.high[2] == pytest.approx(22.0)
    assert one.size(Axis.HIGH) == pytest.approx(33.0)


def test_a_round_tenon_thicker_than_its_stick_is_a_must_notice(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (60, 60, 700))
    stick = bench_of.part("stick", (60, 20, 200), (440, 40, 220))
    made = bench_of.machined([leg, stick], [bench_of.joint(stick, leg, "round tenon", size=(25.0,))])
    assert [n.code for n in made.notices if n.must] == ["tenon too thick"]
