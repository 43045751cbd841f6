"""Ends cut to leaning, tapered and round parts; parts that are themselves turned."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, radians, sin, sqrt, tan

import pytest

from scantling.piece.model import (
    Axis,
    Contact,
    Face,
    Lean,
    Outline,
    OutlineKind,
    Placement,
    Section,
    Shape,
    Taper,
)


def _unit(v):
    return sum(x * x for x in v) == pytest.approx(1.0)


def test_a_rail_to_a_tapered_leg_is_cut_to_its_slope(bench_of):
    taper = Taper(Face.BOTTOM, 30.0, 600.0, frozenset({Face.RIGHT}))
    leg = bench_of.part("leg", (0, 0, 0), (60, 60, 700), shape=Shape(taper=taper))
    rail = bench_of.part("rail", (45, 20, 280), (445, 40, 320))
    joint = bench_of.joint(rail, leg, "tenon", face=Face.LEFT)
    made = bench_of.machined([leg, rail], [joint])
    (trim,) = made.by_name["rail"].trims
    # source: by hand: 30 in 600 off one face: the plane rises 1 in 20, so 1 mm at 20 mm above the middle
    assert _unit(trim.normal)
    assert trim.normal[2] / trim.normal[0] == pytest.approx(-(30 / 600))
    assert trim.normal[0] < 0
    tenon = made.by_name["rail"].additions[0].box
    assert made.by_name["rail"].cut_box.low[0] == tenon.low[0]  # the tenon goes further than the bevel


def test_a_rail_above_the_taper_stays_square(bench_of):
    taper = Taper(Face.BOTTOM, 30.0, 500.0, frozenset({Face.RIGHT}))
    leg = bench_of.part("leg", (0, 0, 0), (60, 60, 700), shape=Shape(taper=taper))
    rail = bench_of.part("rail", (60, 20, 600), (445, 40, 690))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "tenon")])
    assert not made.by_name["rail"].trims


def test_a_rail_to_a_leg_that_leans_one_way_is_cut_to_its_angle(bench_of):
    shift = -700 * tan(radians(9))
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700), shape=Shape(lean=Lean(Face.BOTTOM, (shift, 0.0))))
    rail = bench_of.part("rail", (-15, 10, 300), (400, 30, 340))
    contact = Contact("rail", Face.LEFT, "leg", Face.RIGHT, bench_of.place)
    made = bench_of.machined([leg, rail], contacts=(contact,))
    (trim,) = made.by_name["rail"].trims
    # source: by hand: the leg's face is 9 deg off upright
    assert trim.normal == pytest.approx((-cos(radians(9)), 0.0, sin(radians(9))))
    assert made.by_name["rail"].overall_length - 415 == pytest.approx(20 * tan(radians(9)))


def test_compound_lean_turns_the_face_both_ways_for_a_square_stick_only(bench_of):
    shape = Shape(lean=Lean(Face.BOTTOM, (-100.0, -100.0)))
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700), shape=shape)
    rail = bench_of.part("rail", (-15, 10, 300), (400, 30, 340))
    contact = Contact("rail", Face.LEFT, "leg", Face.RIGHT, bench_of.place)
    square = bench_of.machined([leg, rail], contacts=(contact,)).by_name["rail"].trims[0]
    level_leg = replace(leg, shape=replace(shape, section=Section.LEVEL))
    level = bench_of.machined([level_leg, rail], contacts=(contact,)).by_name["rail"].trims[0]
    assert abs(square.normal[1]) > 0.001
    assert level.normal[1] == pytest.approx(0.0)
    # source: exact: both faces hold the stick's own line, (100, 100, 700) upward
    for trim in (square, level):
        assert sum(a * b for a, b in zip(trim.normal, (100, 100, 700), strict=True)) == pytest.approx(0.0)


def test_a_flat_end_on_a_round_stick_is_lengthened_and_coped(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700), shape=Shape(section=Section.ROUND))
    rail = bench_of.part("rail", (40, 10, 300), (400, 30, 340))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "dowels")])
    (cope,) = made.by_name["rail"].copes
    assert cope.other == "leg"
    # source: by hand: sagitta of a 20 chord on radius 20: 20 - sqrt(400 - 100)
    assert made.by_name["rail"].overall_length - 360 == pytest.approx(20 - sqrt(300))


def test_a_round_tenon_needs_no_cope(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700), shape=Shape(section=Section.ROUND))
    stick = bench_of.part("stick", (40, 10, 300), (400, 30, 320), shape=Shape(section=Section.ROUND))
    made = bench_of.machined(
        [leg, stick], [bench_of.joint(stick, leg, "round tenon", size=(12.0,), deep=20.0)]
    )
    assert not made.by_name["stick"].copes
    (hole,) = made.by_name["leg"].holes
    assert (hole.diameter, hole.at) == (12.0, (40.0, 20.0, 310.0))
    assert made.by_name["stick"].overall_length == pytest.approx(380.0)


def test_a_leaning_legs_tenon_leans_with_it(bench_of):
    shape = Shape(lean=Lean(Face.BOTTOM, (-100.0, 0.0)), section=Section.ROUND)
    leg = bench_of.part("leg", (100, 100, 0), (135, 135, 400), shape=shape)
    seat = bench_of.part("seat", (0, 0, 400), (330, 330, 440), grain=Axis.DEEP)
    made = bench_of.machined([leg, seat], [bench_of.joint(leg, seat, "through tenon", size=(25.0,))])
    (hole,) = made.by_name["seat"].holes
    long = sqrt(100**2 + 400**2)
    # source: by hand: the stick runs 100 over in 400 up; through 40 of seat it is 40 / cos long
    assert hole.direction == pytest.approx((100 / long, 0.0, 400 / long))
    assert hole.deep == pytest.approx(40 * long / 400)
    assert hole.through
    assert made.by_name["leg"].additions[0].direction == hole.direction


def test_both_ends_of_a_bearer_are_dowelled_to_a_ring(bench_of):
    ring = Outline(OutlineKind.RING, Face.TOP, 20.0)
    apron = bench_of.part("apron", (0, 0, 0), (800, 800, 70), grain=Axis.WIDE, shape=Shape(outline=ring))
    bearer = bench_of.part("bearer", (20, 360, 0), (780, 440, 70))
    joint = replace(bench_of.joint(bearer, apron, "dowels", face=Face.LEFT), area=None)
    made = bench_of.machined([apron, bearer], [joint])
    assert {h.direction for h in made.by_name["bearer"].holes} == {(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)}
    rounded = made.by_name["bearer"].shaped
    assert {s.face for s in rounded} == {Face.LEFT, Face.RIGHT}
    # source: exact: every corner taken off lies on or beyond the inner wall, 380 from the middle
    assert min((u - 400) ** 2 + (v - 400) ** 2 for s in rounded for u, v in s.prism.profile) >= 380**2 - 1e-6
    assert "other end" in made.layouts[0].text


def test_features_of_a_turned_part_are_in_its_own_frame(bench_of):
    """A foot at 45 degrees to a column: its socket is a turned prism, its dowels turned holes."""
    turn = radians(45)
    rows = ((cos(turn), -sin(turn), 0.0), (sin(turn), cos(turn), 0.0), (0.0, 0.0, 1.0))
    column = bench_of.part("column", (-50, -50, 0), (50, 50, 500))
    foot = bench_of.part("foot", (50, -20, 0), (350, 20, 120), grain=Axis.WIDE, placement=Placement(rows))
    joint = replace(bench_of.joint(foot, column, "dowels", face=Face.LEFT), area=None, second_face=None)
    made = bench_of.machined([column, foot], [joint])
    for mine, theirs in zip(made.by_name["foot"].holes, made.by_name["column"].holes, strict=True):
        assert mine.at[0] == pytest.approx(50.0)
        assert theirs.at == pytest.approx(foot.placement.point(mine.at))
        assert theirs.direction == pytest.approx((-cos(pi / 4), -sin(pi / 4), 0.0))


def test_a_turned_tenon_takes_a_turned_prism(bench_of):
    turn = radians(45)
    rows = ((cos(turn), -sin(turn), 0.0), (sin(turn), cos(turn), 0.0), (0.0, 0.0, 1.0))
    column = bench_of.part("column", (-50, -50, 0), (50, 50, 500))
    foot = bench_of.part("foot", (50, -20, 0), (350, 20, 120), grain=Axis.WIDE, placement=Placement(rows))
    joint = replace(
        bench_of.joint(foot, column, "tenon", face=Face.LEFT, deep=25.0), area=None, second_face=None
    )
    made = bench_of.machined([column, foot], [joint])
    mortise, _haunch = made.by_name["column"].shaped
    assert mortise.prism.along == int(Axis.HIGH)
    centre = [sum(p[i] for p in mortise.prism.profile) / 4 for i in (0, 1)]
    # source: by hand: from 50 to 50 - 26.5 along the foot's own line
    assert centre == pytest.approx([(50 - 13.25) * cos(turn)] * 2)
