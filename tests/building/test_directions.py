"""Which way each joint closes, from the shape of what goes in; then whole cases in that order."""

from __future__ import annotations

import pytest

from scantling.building import Stage, build_plan
from scantling.building.assembly import assemblies
from scantling.building.closing import closings, pinched
from scantling.building.directions import ANY_WAY, side_entered, ways_in
from scantling.cutting.cut_plan import Areas, CutPlan
from scantling.piece.model import Axis, Face
from scantling.shop import default_shop

NO_CUTS = CutPlan((), (), (), (), Areas(0, 0, 0, 0, 0), 0, 0, 0)
WIDE, DEEP, HIGH = Axis.WIDE, Axis.DEEP, Axis.HIGH


@pytest.fixture(scope="module")
def corner(make_part, make_joint, make_piece):
    """A front 400 x 20 x 200 butting against the inside of a left side 20 x 300 x 200, joined as asked."""

    def made(method, **settings):
        front = make_part("front", (20, 0, 0), (420, 20, 200))
        side = make_part("side", (0, 0, 0), (20, 300, 200))
        joint = make_joint("front", "side", method, Face.LEFT, **settings)
        return joint, make_piece([front, side], [joint])

    return made


# source: geometry. The faces meet across wide; the front is 20 thick along deep, 200 broad along high.
@pytest.mark.parametrize(
    ("method", "settings", "ways"),
    [
        ("dovetails", {}, (DEEP,)),  # tails in the plane wide x high, one section all along deep
        ("dovetails", {"tails_on": "side"}, (WIDE,)),  # the side's tails: one section all along its 20, wide
        ("half-blind dovetails", {}, (DEEP,)),
        ("finger joint", {}, (WIDE, DEEP)),  # fingers are boxes: they lock neither way
        ("splined mitre", {}, (WIDE, DEEP)),
        ("rabbet", {}, (WIDE, DEEP)),
        ("sliding dovetail", {}, (HIGH,)),  # a tail all along the front's edge, 200 long
        ("dado", {}, (WIDE,)),
        ("tenon", {}, (WIDE,)),
        ("dowels", {}, (WIDE,)),
    ],
)
def test_a_corner_closes(corner, method, settings, ways):
    assert ways_in(*corner(method, **settings)) == ways


def test_a_tail_board_comes_from_outside(corner):
    # source: by hand: the front's middle is at 10 of 300 deep, so it goes back onto the side's end; along
    # wide its left face leads, so it goes left
    assert side_entered(*corner("dovetails"), DEEP) == 1
    assert side_entered(*corner("finger joint"), WIDE) == -1
    assert side_entered(*corner("sliding dovetail"), HIGH) == 0


def test_a_lap_closes_the_way_its_halves_were_cut(make_part, make_joint, make_piece):
    long, cross = (
        make_part("long", (0, 90, 0), (200, 110, 20)),
        make_part("cross", (90, 0, 0), (110, 200, 20)),
    )
    joint = make_joint("long", "cross", "cross lap", None)
    piece = make_piece([long, cross], [joint])
    assert ways_in(joint, piece) == (ANY_WAY,)  # nothing in common is said


def test_a_chest_closes_from_front_and_back(make_part, make_joint, make_piece, ply):
    parts = [
        make_part("left side", (0, 0, 0), (20, 500, 400), definition="side", grain=DEEP),
        make_part("right side", (980, 0, 0), (1000, 500, 400), definition="side", grain=DEEP),
        make_part("front", (20, 0, 0), (980, 20, 400)),
        make_part("back", (20, 480, 0), (980, 500, 400)),
        make_part("floor", (20, 20, 50), (980, 480, 62), material=ply),
    ]
    joints = [
        make_joint(board, side, "dovetails", face)
        for board in ("front", "back")
        for side, face in (("left side", Face.LEFT), ("right side", Face.RIGHT))
    ]
    joints += [
        make_joint("floor", part, "groove", face)
        for part, face in (
            ("left side", Face.LEFT),
            ("right side", Face.RIGHT),
            ("front", Face.FRONT),
            ("back", Face.BACK),
        )
    ]
    piece = make_piece(parts, joints)
    # source: by hand: the tails on front and back lock along wide; the floor goes in as they close
    (one,) = assemblies(piece)
    assert (one.axis, len(one.joints)) == (DEEP, 8)


def _case(make_part, make_joint, make_piece, **settings):
    parts = [
        make_part("left side", (0, 0, 0), (20, 200, 600), definition="side"),
        make_part("right side", (380, 0, 0), (400, 200, 600), definition="side"),
        make_part("top", (20, 0, 580), (380, 200, 600)),
        make_part("bottom", (20, 0, 0), (380, 200, 20)),
        make_part("shelf", (20, 0, 300), (380, 200, 320)),
    ]
    joints = [
        make_joint(
            board, side, method, face, **({"tails_on": side} if method == "dovetails" and settings else {})
        )
        for board, method in (("top", "dovetails"), ("bottom", "dovetails"), ("shelf", "dado"))
        for side, face in (("left side", Face.LEFT), ("right side", Face.RIGHT))
    ]
    piece = make_piece(parts, joints)
    singles = tuple(frozenset({part.name}) for part in piece.parts)
    return closings(singles, joints, piece)


def test_a_case_with_tails_on_its_sides_closes_in_one(make_part, make_joint, make_piece):
    # source: by hand: the sides' tails close along wide, as the shelf's dadoes do
    (one,) = _case(make_part, make_joint, make_piece, tails_on="side")
    assert (one.axis, len(one.joints)) == (WIDE, 6)


def test_a_case_with_tails_on_top_takes_its_shelf_first(make_part, make_joint, make_piece):
    # source: by hand: the shelf goes between the sides, then top and bottom close onto their ends
    shelf, rest = _case(make_part, make_joint, make_piece)
    assert (shelf.axis, sorted(shelf.after)) == (WIDE, ["left side", "right side", "shelf"])
    assert (rest.axis, len(rest.joints)) == (HIGH, 4)


def test_a_shelf_cannot_enter_a_whole_case(make_part, make_joint, make_piece):
    parts = [
        make_part("case", (0, 0, 0), (400, 200, 600)),
        make_part("shelf", (20, 0, 300), (380, 200, 320)),
    ]
    joints = [make_joint("shelf", "case", "dowels", face) for face in (Face.LEFT, Face.RIGHT)]
    piece = make_piece(parts, joints)
    clusters = tuple(frozenset({part.name}) for part in piece.parts)
    # source: by hand: it would have to move left and right at once
    assert pinched(clusters, joints, WIDE, piece) == (tuple(joints),)


def test_a_drawer_says_what_comes_first(drawer, machined):
    plan = build_plan(machined(drawer), NO_CUTS, default_shop())
    glued = next(s for s in plan.steps if s.stage is Stage.ASSEMBLE and "half-blind" in str(s.settings))
    assert "close them from left and right" in glued.text
    assert "Start with bottom in the groove of front." in glued.text
    # source: by hand: 2 half-blind, 2 dadoes and 3 grooves of a plywood bottom are glued
    assert "7 glued joints" in glued.text
