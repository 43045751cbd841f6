"""Dovetails, fingers, mitres, laps: corners of two 20 mm boards, by hand."""

from __future__ import annotations

import pytest

from scantling.joinery.features import Shaped
from scantling.piece.model import Axis, Face


@pytest.fixture
def corner(bench_of):
    """A front 20 thick, and a side behind its left end, flush outside; 100 high."""
    front = bench_of.part("front", (0, 0, 0), (400, 20, 100))
    side = bench_of.part("side", (0, 20, 0), (20, 300, 100), grain=Axis.DEEP)
    return side, front


def _made(bench_of, corner, method, **settings):
    side, front = corner
    return bench_of.machined([front, side], [bench_of.joint(side, front, method, **settings)])


def _beyond(trim, at):
    return sum(n * (x - p) for n, x, p in zip(trim.normal, at, trim.point, strict=True))


def _area(profile):
    turns = zip(profile, profile[1:] + profile[:1], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in turns)) / 2


def test_through_dovetails_fill_what_they_take(bench_of, corner):
    made = _made(bench_of, corner, "dovetails")
    tails, sockets = made.by_name["side"].shaped, made.by_name["front"].shaped
    # source: exact: one socket for each tail, the same prism
    assert [t.prism for t in tails] == [s.prism for s in sockets]
    assert all(t.adds for t in tails)
    assert not any(s.adds for s in sockets)
    # source: by hand: pitch 2.2 x 20 = 44, so 2 tails of 100; longer by the front's 20
    assert len(tails) == 2
    assert made.by_name["side"].overall_length == pytest.approx(300.0)
    # source: by hand: white oak 1 in 8, 20 deep: 2.5 a flank; pitch 50, pin 12.5 -> 37.5 at tip, 32.5 at root
    assert _area(tails[0].prism.profile) == pytest.approx(20 * (37.5 + 32.5) / 2)
    assert not made.notices


def test_tails_on_the_second_part_put_pins_on_the_first(bench_of, corner):
    made = _made(bench_of, corner, "dovetails", tails_on="front")
    pins = made.by_name["side"].shaped
    # source: by hand: two tails have a pin between and half pins at both edges
    assert len(pins) == 3
    assert {p.prism.along for p in pins} == {int(Axis.DEEP)}
    assert made.by_name["side"].cut_box.low[1] == pytest.approx(0.0)
    # source: by hand: pins of a 100 edge: middle 12.5 + 17.5, two halves of that
    assert sum(_area(p.prism.profile) for p in pins) == pytest.approx(2 * 20 * (12.5 + 17.5) / 2)


def test_half_blind_tails_leave_a_lap(bench_of, corner):
    made = _made(bench_of, corner, "half-blind dovetails")
    # source: by hand: a quarter of 20 is left
    assert made.by_name["side"].cut_box.low[1] == pytest.approx(5.0)


def test_fingers_share_the_corner_exactly(bench_of, corner):
    made = _made(bench_of, corner, "finger joint", size=(10.0,))
    added = sum(a.box.volume for a in made.by_name["side"].additions)
    taken = sum(c.box.volume for c in made.by_name["front"].cuts)
    assert added == pytest.approx(taken)
    # source: by hand: 100 / 10 = 10 -> 11 fingers, 6 of them on the side
    assert len(made.by_name["side"].additions) == 6
    assert added == pytest.approx(20 * 20 * 100 * 6 / 11)


def test_mitre_lengthens_the_first_to_the_outer_corner_and_trims_both(bench_of, corner):
    made = _made(bench_of, corner, "mitre")
    side, front = made.by_name["side"], made.by_name["front"]
    assert side.overall_length == pytest.approx(300.0)  # source: by hand: 280 + 20
    assert front.overall_length == pytest.approx(400.0)
    (a,), (b,) = side.trims, front.trims
    # source: exact: one plane, 45 degrees, opposite sides; through inner corner (20, 20) and outer (0, 0)
    assert a.normal == pytest.approx(tuple(-x for x in b.normal))
    assert _beyond(a, (20, 20, 50)) == pytest.approx(0.0)
    assert _beyond(a, (0, 0, 50)) == pytest.approx(0.0)
    assert _beyond(a, (1, 15, 50)) < 0  # the side keeps its outer wood
    assert _beyond(b, (15, 1, 50)) < 0  # and so does the front


def test_a_mitre_has_no_first_part(bench_of, corner):
    """Written the other way round it left 455 mm of air, and parts in one another."""
    side, front = corner
    right = bench_of.machined([front, side], [bench_of.joint(side, front, "mitre")])
    other = bench_of.machined([front, side], [bench_of.joint(front, side, "mitre")])
    for name in ("front", "side"):
        assert other.by_name[name].cut_box == right.by_name[name].cut_box
        assert [t.normal for t in other.by_name[name].trims] == [t.normal for t in right.by_name[name].trims]


def test_a_lower_first_part_takes_only_a_triangle_from_a_taller_second(bench_of):
    front = bench_of.part("front", (0, 0, 0), (400, 20, 100))
    side = bench_of.part("side", (0, 20, 0), (20, 300, 80), grain=Axis.DEEP)
    made = bench_of.machined([front, side], [bench_of.joint(side, front, "splined mitre")])
    (triangle, slot) = made.by_name["front"].shaped
    assert isinstance(triangle, Shaped)
    assert (triangle.prism.low, triangle.prism.high) == (0.0, 80.0)
    assert _area(triangle.prism.profile) == pytest.approx(200.0)  # source: by hand: half of 20 x 20
    # source: by hand: spline 3.2 thick, 10 into each part
    assert _area(slot.prism.profile) == pytest.approx(3.2 * 20)
    assert made.hardware[0].kind == "spline"


@pytest.mark.parametrize("method", ["dovetails", "finger joint", "mitre"])
def test_a_corner_joint_where_the_second_runs_past_is_reported(bench_of, method):
    front = bench_of.part("front", (-40, 0, 0), (400, 20, 100))
    side = bench_of.part("side", (0, 20, 0), (20, 300, 100), grain=Axis.DEEP)
    made = bench_of.machined([front, side], [bench_of.joint(side, front, method)])
    assert [n.must for n in made.notices if n.code == "not a corner"] == [True]


def test_cross_lap_halves_what_is_shared(bench_of):
    one = bench_of.part("one", (0, 100, 0), (500, 150, 70))
    two = bench_of.part("two", (200, 0, 0), (250, 500, 70))
    made = bench_of.machined([one, two], [bench_of.joint(one, two, "cross lap", face=Face.TOP)])
    a, b = made.by_name["one"].cuts[0].box, made.by_name["two"].cuts[0].box
    assert a.volume == b.volume == pytest.approx(50 * 50 * 35)  # source: by hand
    assert (a.low[2], b.high[2]) == (35.0, 35.0)


def test_notch_clears_the_leg_by_its_gap(bench_of):
    floor = bench_of.part("floor", (0, 0, 0), (500, 300, 6), grain=Axis.WIDE)
    leg = bench_of.part("leg", (-20, -20, -300), (20, 20, 100))
    made = bench_of.machined([floor, leg], [bench_of.joint(floor, leg, "notch", face=Face.TOP, gap=2.0)])
    box = made.by_name["floor"].cuts[0].box
    assert (box.low, box.high) == ((0.0, 0.0, 0.0), (22.0, 22.0, 6.0))  # source: by hand: 20 + 2


def test_sliding_dovetail_adds_and_takes_the_same(bench_of):
    column = bench_of.part("column", (0, 0, 0), (100, 100, 500))
    foot = bench_of.part("foot", (100, 30, 0), (400, 70, 200), grain=Axis.WIDE)
    made = bench_of.machined([column, foot], [bench_of.joint(foot, column, "sliding dovetail", deep=16.0)])
    (tail,), (socket,) = made.by_name["foot"].shaped, made.by_name["column"].shaped
    assert tail.prism == socket.prism
    # source: by hand: neck half of 40, flanks 1 in 8 over 16: 20 to 24
    assert _area(tail.prism.profile) == pytest.approx(16 * (20 + 24) / 2)
