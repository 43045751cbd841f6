"""What stands, what tips, and by how much."""

import pytest

from scantling.checks import Severity
from scantling.checks.standing import GroundEdge, Push, Weight, balance, convex_hull, ground_edges
from scantling.checks.tipping import tipping
from scantling.piece.model import Axis, Face, Hardware, Load, Movement, Pose, PoseStep, Slide


def _cabinet(make, deep=300, high=900, loads=(), **more):
    """A block of cherry 600 wide standing on its whole bottom."""
    block = make.part("case", (0, 0, 0), (600, deep, high), grain=Axis.HIGH)
    return make.piece(block, loads=loads, **more)


def test_hull_of_a_square_with_a_point_inside():
    # source: exact
    assert convex_hull([(0, 0), (2, 0), (2, 2), (0, 2), (1, 1), (1, 0)]) == [(0, 0), (2, 0), (2, 2), (0, 2)]


def test_edges_face_outward(make):
    edges = ground_edges(make.examined(_cabinet(make)))
    assert sorted(edge.word for edge in edges) == ["back", "front", "left", "right"]
    assert all(edge.beyond((300, 150)) < 0 for edge in edges)


def test_balance_by_hand():
    # source: by hand; 10 kg 100 mm inside against 5 kg 50 mm outside: 9.81 x 1000 / (9.81 x 250) = 4
    edge = GroundEdge((0, 0), (0, -1))
    found = balance(edge, [Weight(10, (0, 100, 500)), Weight(5, (0, -50, 0))], [], 0.0)
    assert found.ratio == pytest.approx(4.0)


def test_a_push_tips_by_its_height():
    # source: by hand; 100 N at 800 mm against 40 kg at 200 mm: 40 x 9.81 x 200 / 80000 = 0.981
    edge = GroundEdge((0, 0), (0, -1))
    push = Push(100.0, (0, 300, 800), (0, -1, 0))
    assert balance(edge, [Weight(40, (0, 200, 400))], [push], 0.0).ratio == pytest.approx(0.981)


def test_moving_the_feet_outward_gives_just_the_margin():
    # source: exact; the mend put back into the balance
    edge = GroundEdge((0, 0), (0, -1))
    weights, push = [Weight(40, (0, 200, 400))], Push(100.0, (0, 300, 800), (0, -1, 0))
    found = balance(edge, weights, [push], 0.0)
    farther = GroundEdge((0, -found.feet_outward(1.5)), (0, -1))
    assert balance(farther, weights, [push], 0.0).ratio == pytest.approx(1.5)


def _push(make, newtons, toward=Face.FRONT):
    return (Load("push", ("case",), make.place, amount=newtons, toward=toward),)


def test_a_push_on_a_cabinet(make):
    # source: by hand; 600 x 300 x 900 mm cherry, 560 kg/m³, 90.7 kg: 890 N x 150 / (F x 900)
    steady = make.ask(tipping, _cabinet(make, loads=_push(make, 98.0)))
    assert steady == ()
    scant = make.ask(tipping, _cabinet(make, loads=_push(make, 110.0)))
    assert [f.code for f in scant] == ["tips easily"]
    assert scant[0].number == pytest.approx(90.72 * 9.81 * 150 / (110 * 900), rel=0.001)
    over = make.ask(tipping, _cabinet(make, loads=_push(make, 150.0)))
    assert [f.code for f in over] == ["tips over"]
    assert over[0].must_fix


def test_a_strap_carries_it(make):
    strap = Hardware("strap", "wall strap", 1, make.place, joins=("case", "wall"))
    found = make.ask(tipping, _cabinet(make, loads=_push(make, 150.0), hardware=(strap,)))
    assert [f.code for f in found] == ["anchor carries the tipping"]
    assert found[0].severity is Severity.KNOW
    # source: by hand; (1.5 x 150 x 900 - 890 x 150) / 450 = 153 N
    assert found[0].number == pytest.approx(153.4, abs=0.5)


@pytest.mark.parametrize(
    ("deep", "expected"), [(400, []), (280, ["tall for its depth"]), (200, ["must never stand free"])]
)
def test_height_over_depth(make, deep, expected):
    found = make.ask(tipping, _cabinet(make, deep=deep, high=1300))
    assert [f.code for f in found] == expected


def test_a_heavy_drawer_pulled_out(make):
    """At rest it stands; out it tips: only the pose shows it."""
    case = make.part("case", (0, 0, 0), (600, 300, 500), "pine", grain=Axis.HIGH)
    drawer = make.part("drawer", (50, 0, 500), (550, 280, 800), "white oak", grain=Axis.DEEP)
    out = Movement("drawer", frozenset({"drawer"}), Slide((0.0, -1.0, 0.0), 280.0), make.place)
    pose = Pose("open", (PoseStep("drawer", 1.0),))
    piece = make.piece(case, drawer, movements=(out,), poses=(Pose("at rest", ()), pose))
    found = make.ask(tipping, piece)
    assert {f.pose for f in found if f.code.startswith("tips")} == {"open"}


def test_leaning_on_a_wide_overhang(make):
    column = make.part("column", (400, 400, 0), (600, 600, 700), "pine", grain=Axis.HIGH)
    top = make.part("top", (0, 0, 700), (1000, 1000, 720), "pine", Axis.WIDE)
    piece = make.piece(column, top, joints=(make.joint(top, column, "glue"),))
    assert "tips when leaned on" in [f.code for f in make.ask(tipping, piece)]


def test_a_hung_piece_does_not_stand(make):
    shelf = make.part("shelf", (0, 0, 300), (600, 200, 320), grain=Axis.WIDE)
    piece = make.piece(shelf)
    floor = make.renamed(piece, overall=make.part("o", (0, 0, 0), (600, 200, 320)).box)
    assert make.ask(tipping, floor) == ()


def test_whoever_sits_steadies_what_is_pushed(make):
    """A light stool tips when pushed empty; it is tried with its sitter."""
    push = _push(make, 267.0, Face.LEFT)
    sit = Load("sit", ("case",), make.place, amount=136.0)
    light = make.part("case", (0, 0, 0), (430, 430, 600), "pine", grain=Axis.HIGH)
    hollow = make.renamed(make.piece(light), loads=push)
    alone = make.ask(tipping, hollow)
    assert [f.code for f in alone] == ["tips over"]
    assert make.ask(tipping, make.renamed(hollow, loads=(*push, sit))) == ()


def test_each_movement_is_tried_open_even_without_a_pose(make):
    case = make.part("case", (0, 0, 0), (600, 300, 500), "pine", grain=Axis.HIGH)
    drawer = make.part("drawer", (50, 0, 500), (550, 280, 800), "white oak", grain=Axis.DEEP)
    out = Movement("drawer", frozenset({"drawer"}), Slide((0.0, -1.0, 0.0), 280.0), make.place)
    found = make.ask(tipping, make.piece(case, drawer, movements=(out,)))
    assert any(f.code.startswith("tips") and "drawer open" in f.message and f.pose is None for f in found)


def test_what_rests_on_it_does_not_hold_it_down(make):
    # source: by hand; with 40 kg on top (890 + 392) x 150 / (150 x 900) = 1.42, without it 0.99 (EN 1990
    # leaves favourable variable actions out, from memory)
    rest = Load("rest", ("case",), make.place, amount=40.0)
    found = make.ask(tipping, _cabinet(make, loads=(*_push(make, 150.0), rest)))
    assert [f.code for f in found] == ["tips over"]
    assert found[0].number == pytest.approx(90.72 * 9.81 * 150 / (150 * 900), rel=0.001)
    assert "with nothing on it" in found[0].message


def test_what_rests_beyond_the_feet_still_counts(make):
    foot = make.part("foot", (0, 600, 0), (600, 900, 700), grain=Axis.HIGH)
    slab = make.part("slab", (0, 0, 700), (600, 900, 720), grain=Axis.WIDE)
    rest = Load("rest", ("slab",), make.place, amount=60.0)
    piece = make.piece(foot, slab, joints=(make.joint(slab, foot, "glue"),), loads=(rest,))
    found = [f for f in make.ask(tipping, piece) if f.code == "tips easily"]
    # source: by hand; foot 70.56 kg x 150 against (6.05 + 60) kg x 150: 1.068
    assert [f.number for f in found] == [pytest.approx(70.56 * 150 / ((6.048 + 60) * 150), rel=0.001)]


def _on_floor(make, piece, method):
    joint = make.joint(piece.parts[0], "floor", method)
    return make.renamed(piece, joints=(joint,))


def test_what_is_screwed_to_the_floor_is_told_its_moment(make):
    found = make.ask(tipping, _on_floor(make, _cabinet(make, loads=_push(make, 150.0)), "brackets"))
    assert [f.code for f in found] == ["floor fixing carries the tipping"]
    # source: by hand; 1.5 x 150 N x 0.9 m - 90.72 x 9.81 N x 0.15 m = 202.5 - 133.5 = 69.0 N m; over 300 mm
    # of depth 230 N
    assert found[0].number == pytest.approx(69.0, abs=0.1)
    assert "230 N" in found[0].message
    assert found[0].severity is Severity.KNOW


def test_what_only_rests_on_the_floor_still_tips(make):
    found = make.ask(tipping, _on_floor(make, _cabinet(make, loads=_push(make, 150.0)), "rests"))
    assert [f.code for f in found] == ["tips over"]


def test_what_is_slender_and_fixed_to_the_floor_needs_no_strap(make):
    found = make.ask(tipping, _on_floor(make, _cabinet(make, deep=200, high=1300), "screws"))
    assert [f.code for f in found] == ["stands only with its strap"]
    assert "fixing to the floor" in found[0].message
