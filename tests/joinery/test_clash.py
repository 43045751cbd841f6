"""Features that meet in one part."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.joinery.bounds import wood_between
from scantling.joinery.features import Hole
from scantling.piece.model import WALL, Room


def test_wood_between_crossing_bores():
    one = Hole((0, 0, 0), (1, 0, 0), 10, 50, "dowel", "a")
    two = Hole((25, -25, 8), (0, 1, 0), 6, 50, "dowel", "b")
    assert wood_between(one, two) == pytest.approx(0.0)  # source: by hand: 8 apart, radii 5 and 3


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(-50, 50), min_size=6, max_size=6), st.floats(1, 60), st.floats(1, 60))
def test_wood_between_agrees_with_sampling(places, long, other_long):
    one = Hole(tuple(places[:3]), (1, 0, 0), 4, long, "dowel", "a")
    two = Hole(tuple(places[3:]), (0, 0.6, 0.8), 4, other_long, "dowel", "b")
    steps = [i / 60 for i in range(61)]
    least = min(
        sum((p + s * long * d - q - t * other_long * e) ** 2 for p, d, q, e in zip(
            one.at, one.direction, two.at, two.direction, strict=True)) ** 0.5
        for s in steps for t in steps
    )  # fmt: skip
    # source: independent: the least of 61 x 61 sampled pairs of points
    assert wood_between(one, two) <= least - 4 + 1e-6
    assert wood_between(one, two) >= least - 4 - 1.5


def test_screws_move_out_of_the_way_of_dowels(bench_of):
    side = bench_of.part("side", (0, 0, 0), (40, 300, 300))
    rail = bench_of.part("rail", (40, 100, 100), (400, 120, 200))
    plate = bench_of.part("plate", (0, 300, 100), (40, 320, 200))
    joints = [bench_of.joint(rail, side, "dowels"), bench_of.joint(plate, side, "screws", line=2)]
    made = bench_of.machined([side, rail, plate], joints)
    assert not [n for n in made.notices if n.code == "joints clash"]


def test_what_cannot_be_kept_apart_is_reported_with_numbers(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (30, 30, 700))
    front = bench_of.part("front", (30, 5, 600), (440, 25, 640))
    side = bench_of.part("side", (5, 30, 600), (25, 440, 640))
    dowels = {"size": (10.0, 44.0), "count": 2}
    joints = [
        bench_of.joint(front, leg, "dowels", **dowels),
        bench_of.joint(side, leg, "dowels", line=2, **dowels),
    ]
    made = bench_of.machined([leg, front, side], joints)
    clashes = [n for n in made.notices if n.code == "joints clash"]
    assert clashes
    assert all(n.parts == ("leg",) and "mm" in n.message and n.remedy for n in clashes)
    assert made.by_name["leg"].holes


def test_a_tenon_is_shortened_where_bed_bolts_cross_the_post(bench_of):
    post = bench_of.part("post", (0, 0, 0), (70, 70, 500))
    end = bench_of.part("end", (70, 20, 200), (1500, 50, 380))
    rail = bench_of.part("rail", (20, 70, 200), (50, 2000, 380))
    joints = [bench_of.joint(end, post, "tenon", deep=38.0), bench_of.joint(rail, post, "bed bolts", line=2)]
    made = bench_of.machined([post, end, rail], joints)
    (notice,) = [n for n in made.notices if n.code == "tenon shortened"]
    # source: by hand: bolt 35 from the face, less its bore, 3 of wood and 1.5 of glue space
    assert notice.number == pytest.approx(35 - (9.525 + 0.8) / 2 - 3 - 1.5)
    assert not [n for n in made.notices if n.must]


def test_rows_shifted_out_of_the_way_stay_mirror_images(bench_of):
    """Two brackets under a shelf, each dowelled up past a tenon that enters it from behind."""
    shelf = bench_of.part("shelf", (0, 0, 300), (1000, 300, 340))
    parts, joints = [shelf], []
    for side, low in (("left", 100), ("right", 700)):
        copy = {"copy_words": (side,), "mirrored": side == "right"}
        ledge = bench_of.part(f"{side} ledge", (low, 100, 250), (low + 200, 120, 300), **copy)
        peg = bench_of.part(f"{side} peg", (low + 90, 120, 280), (low + 110, 250, 300), grain=1, **copy)
        parts += [ledge, peg]
        joints += [bench_of.joint(ledge, shelf, "dowels", count=3, line=2)]
        joints += [bench_of.joint(peg, ledge, "round tenon", line=1, size=(12.0,), deep=15.0)]
    made = bench_of.machined(parts, joints)
    left, right = made.by_name["left ledge"].holes, made.by_name["right ledge"].holes
    there = sorted(round(1000 - h.at[0], 3) for h in left if h.purpose == "dowel")
    here = sorted(round(h.at[0], 3) for h in right if h.purpose == "dowel")
    assert here == there
    plain = bench_of.machined([shelf, parts[1]], [joints[0]]).by_name["left ledge"].holes
    assert sorted(h.at[0] for h in plain) != sorted(h.at[0] for h in left if h.purpose == "dowel")
    assert not [n for n in made.notices if n.code == "joints clash"]


def test_screws_from_two_sides_into_one_stick_pass_each_other(bench_of):
    """A slat screwed down into a leg and a rail screwed sideways into it, both in its middle by default."""
    leg = bench_of.part("leg", (0, 0, 0), (60, 38, 400))
    slat = bench_of.part("slat", (-100, -26, 400), (300, 63, 438), grain=0)
    rail = bench_of.part("rail", (-38, -20, 311), (0, 300, 400), grain=1)
    long = {"size": (10.0, 89.0), "gauge": True}
    joints = [bench_of.joint(slat, leg, "screws", **long), bench_of.joint(rail, leg, "screws", line=2)]
    made = bench_of.machined([leg, slat, rail], joints)
    assert not [n for n in made.notices if n.code == "joints clash"]
    holes = made.by_name["leg"].holes
    pairs = [(a, b) for a in holes for b in holes if a.owner < b.owner]
    # source: rule table, holes apart
    assert pairs
    assert min(wood_between(a, b) for a, b in pairs) >= 3.0
    assert len({h.at[1] for h in holes}) == 2  # one row stands aside


def test_one_screw_with_no_room_is_told_to_give_way(bench_of):
    """`change count, every or deep` is no help where a single screw crosses a dowel in a thin rail."""
    side = bench_of.part("side", (-40, 0, 0), (0, 38, 200))
    rail = bench_of.part("rail", (0, 0, 100), (400, 38, 119), grain=0)
    runner = bench_of.part("runner", (0, 38, 100), (13, 300, 119), grain=1)
    joints = [
        bench_of.joint(rail, side, "dowels", size=(10.0, 60.0)),
        bench_of.joint(runner, rail, "screws", line=2),
    ]
    made = bench_of.machined([side, rail, runner], joints)
    (clash,) = [n for n in made.notices if n.code == "joints clash"]
    assert clash.must
    assert "another way" in clash.remedy


def test_dowels_of_a_cleat_give_way_to_screws_bound_to_the_studs(bench_of):
    """A cleat dowelled to its top, and screwed to a wall whose one stud stands at a dowel."""
    top = bench_of.part("top", (0, 0, 60), (500, 300, 80), grain=0)
    cleat = bench_of.part("cleat", (0, 280, 0), (500, 300, 60), grain=0)
    behind = bench_of.part("behind", (0, 300, 0), (500, 320, 60), grain=0)
    up = bench_of.joint(cleat, top, "dowels", size=(10.0, 60.0), count=3)
    wall = replace(bench_of.joint(cleat, behind, "screws", line=2), second=WALL, second_face=None)
    made = bench_of.machined([top, cleat], [up, wall], room=Room(studs=400.0, first_stud=250.0))
    assert not [n for n in made.notices if n.code == "joints clash"]
    screws = [h for h in made.by_name["cleat"].holes if h.purpose == "clearance"]
    # source: by hand: the one stud behind the cleat
    assert [h.at[0] for h in screws] == [250.0]


def test_a_face_frames_pocket_screws_keep_clear_of_its_dowels(bench_of):
    """A stile dowelled to the edge of a bottom, and a rail 40 broad on pocket screws at the same height."""
    stile = bench_of.part("stile", (0, 0, 0), (40, 20, 500))
    rail = bench_of.part("rail", (40, 0, 80), (800, 20, 120), grain=0)
    bottom = bench_of.part("bottom", (18, 20, 80), (800, 400, 98), grain=0)
    joints = [
        bench_of.joint(stile, bottom, "dowels"),
        bench_of.joint(rail, stile, "pocket screws", line=2),
    ]
    made = bench_of.machined([stile, rail, bottom], joints)
    assert not [n for n in made.notices if n.code == "joints clash"]
    assert [h for h in made.by_name["stile"].holes if h.purpose == "pilot"]
