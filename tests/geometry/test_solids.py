"""Volumes and centres of single parts against their formulas."""

from __future__ import annotations

from math import cos, pi, radians, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import ResolveError
from scantling.geometry import scene_of
from scantling.joinery.features import Addition, Cope, Cut, Hole, Prism, Shaped, Trim
from scantling.piece.model import (
    ArchWork,
    Axis,
    BandWork,
    Box,
    DishWork,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    Joint,
    JointSettings,
    Lean,
    Outline,
    OutlineKind,
    PathPoint,
    Section,
    Shape,
    Taper,
)


def test_plain_box(by_hand, solid_of_part):
    """100 x 40 x 20: 80,000 mm³ about its middle."""
    # source: by hand
    solid = solid_of_part(by_hand.part("a", (0, 0, 0), (100, 40, 20)))
    assert solid.volume == pytest.approx(80_000, rel=1e-12)
    assert solid.centre == pytest.approx((50, 20, 10))


def test_groove_and_blind_hole(by_hand, solid_of_part):
    """A groove 6 x 5 along the top, a hole 8 wide and 10 deep beside it."""
    # source: by hand; 80,000 - 100·6·5 - π·16·10
    part = by_hand.part(
        "a",
        (0, 0, 0),
        (100, 40, 20),
        features={
            "cuts": (Cut(Box((0, 20, 15), (100, 26, 20)), Face.TOP, "groove", "j"),),
            "holes": (Hole((50, 10, 20), (0, 0, -1), 8, 10, "dowel", "j"),),
        },
    )
    assert solid_of_part(part).volume == pytest.approx(77_000 - 160 * pi, rel=1e-12)
    assert by_hand.analytic_volume(part) == pytest.approx(77_000 - 160 * pi)


def test_hole_keeps_its_area_and_centre(by_hand, solid_of_part):
    """The polygon of a hole has the circle's area: volume and centre are the circle's own."""
    # source: exact; (V·c - v·h)/(V - v) for a hole of volume v at h
    part = by_hand.part(
        "a",
        (0, 0, 0),
        (30, 20, 50),
        features={"holes": (Hole((12, 20, 10), (0, -1, 0), 9.5, 12, "dowel", "j"),)},
    )
    whole, hole = 30_000.0, pi * 9.5**2 / 4 * 12
    solid = solid_of_part(part)
    assert solid.volume == pytest.approx(whole - hole, rel=1e-12)
    assert solid.centre[0] == pytest.approx((whole * 15 - hole * 12) / (whole - hole), abs=1e-8)
    assert solid.centre[1] == pytest.approx((whole * 10 - hole * 14) / (whole - hole), abs=1e-8)


def test_slanting_through_hole(by_hand, solid_of_part):
    """Through a board 20 thick at 30 degrees off square: the cylinder is 20/cos 30 long."""
    # source: exact; an oblique cylinder between parallel planes
    direction = (0.5, 0.0, -cos(radians(30)))
    part = by_hand.part(
        "a",
        (0, 0, 0),
        (100, 40, 20),
        features={"holes": (Hole((40, 20, 20), direction, 8, 25, "pocket", "j", True),)},
    )
    assert solid_of_part(part).volume == pytest.approx(80_000 - pi * 16 * 20 / cos(radians(30)), rel=1e-9)


def test_mortise_with_round_ends(by_hand, solid_of_part):
    """8 wide, 40 long over all, 20 deep: a rectangle 32 long and a circle of 8."""
    # source: by hand
    part = by_hand.part(
        "leg",
        (0, 0, 0),
        (40, 40, 300),
        features={
            "cuts": (Cut(Box((16, 0, 100), (24, 20, 140)), Face.FRONT, "mortise", "j", round_ends=True),)
        },
    )
    assert solid_of_part(part).volume == pytest.approx(480_000 - (32 * 8 + pi * 16) * 20, rel=1e-9)


@pytest.mark.parametrize("face", list(Face))
@pytest.mark.parametrize("turned", [False, True])
def test_slots_in_every_face(by_hand, solid_of_part, face, turned):
    """12 by 30 with round ends, 5 deep into a cube of 60, either way along each face."""
    # source: by hand; 18·12 + π·36
    across = [a for a in Axis if a != face.axis]
    box = (
        Box((0.0, 0.0, 0.0), (60.0, 60.0, 60.0))
        .with_span(across[turned], 15, 45)
        .with_span(across[not turned], 20, 32)
    )
    at = box.face(face)
    box = box.with_span(face.axis, *sorted((at, at - 5 * face.sign)))
    cut = Cut(box, face, "slot", "j", round_ends=True)
    part = by_hand.part("a", (0, 0, 0), (60, 60, 60), grain=Axis.WIDE, features={"cuts": (cut,)})
    assert 60**3 - solid_of_part(part).volume == pytest.approx((18 * 12 + pi * 36) * 5, rel=1e-9)


def test_slot_as_long_as_wide_is_a_hole(by_hand, solid_of_part):
    # source: by hand; π·6²·5
    cut = Cut(Box((10, 10, 15), (22, 22, 20)), Face.TOP, "slot", "j", round_ends=True)
    part = by_hand.part("a", (0, 0, 0), (100, 40, 20), features={"cuts": (cut,)})
    assert 80_000 - solid_of_part(part).volume == pytest.approx(pi * 180, rel=1e-9)


def test_tenon_is_not_nicked_by_a_groove_that_runs_out(by_hand, solid_of_part):
    """A groove to the end of a rail stops at the shoulder; the tenon beyond keeps all its wood."""
    # source: by hand; 200·60·20 + 25·40·8 - 200·6·8
    part = by_hand.part(
        "rail",
        (0, 0, 0),
        (200, 20, 60),
        features={
            "cuts": (Cut(Box((0, 7, 52), (200, 13, 60)), Face.TOP, "groove", "a"),),
            "additions": (Addition(Box((200, 6, 20), (225, 14, 60)), Face.RIGHT, "tenon", "b"),),
        },
    )
    assert solid_of_part(part).volume == pytest.approx(240_000 + 25 * 8 * 40 - 200 * 6 * 8, rel=1e-12)


def test_round_tenon(by_hand, solid_of_part):
    # source: by hand; 300·25² + π·8²·20
    part = by_hand.part(
        "stick",
        (0, 0, 0),
        (25, 25, 300),
        features={
            "additions": (Addition(Box((4.5, 4.5, 300), (20.5, 20.5, 320)), Face.TOP, "tenon", "j", 16),)
        },
    )
    solid = solid_of_part(part)
    assert solid.volume == pytest.approx(300 * 625 + pi * 64 * 20, rel=1e-12)
    assert len(solid.body.solid.decompose()) == 1


def test_mitred_end(by_hand, solid_of_part):
    """A prism takes half of a square block added at the end: the long point stays."""
    # source: by hand; 200·50·15 + 15·50·15/2
    part = by_hand.part(
        "side",
        (0, 0, 0),
        (200, 15, 50),
        features={
            "additions": (Addition(Box((200, 0, 0), (215, 15, 50)), Face.RIGHT, "mitre", "j"),),
            "shaped": (
                Shaped(
                    Prism(2, -1, 51, ((200, 15), (216, -1), (216, 16), (200, 16))), Face.RIGHT, "mitre", "j"
                ),
            ),
        },
    )
    assert solid_of_part(part).volume == pytest.approx(200 * 750 + 15 * 15 / 2 * 50, rel=1e-9)


@pytest.mark.parametrize("along", [0, 1, 2])
def test_prism_across_each_axis(by_hand, solid_of_part, along):
    """A 3-4-5 triangle through a cube takes 6 mm² of each section, whichever way it runs."""
    # source: by hand; 20³ - 6·20
    prism = Prism(along, -1, 21, ((5, 5), (9, 5), (5, 8)))
    part = by_hand.part(
        "cube",
        (0, 0, 0),
        (20, 20, 20),
        grain=Axis.WIDE,
        features={"shaped": (Shaped(prism, Face.TOP, "x", "j"),)},
    )
    assert solid_of_part(part).volume == pytest.approx(8000 - 120, rel=1e-12)
    u, v = [a for a in range(3) if a != along]
    centre = solid_of_part(part).centre
    assert centre[u] == pytest.approx((8000 * 10 - 120 * (5 + 4 / 3)) / 7880)
    assert centre[v] == pytest.approx((8000 * 10 - 120 * 6) / 7880)


def test_slanting_end_is_whole(by_hand, solid_of_part):
    """Cut at 10 degrees through the middle of the end face: what one edge loses the other gains."""
    # source: exact; a plane through the centre of a face leaves the volume as it was
    normal = (cos(radians(10)), 0.0, -tan(radians(10)) * cos(radians(10)))
    part = by_hand.part(
        "rail", (0, 0, 0), (200, 20, 60), features={"trims": (Trim((200, 10, 30), normal, Face.RIGHT, "j"),)}
    )
    solid = solid_of_part(part)
    assert solid.volume == pytest.approx(240_000, rel=1e-9)
    assert solid.bounds.high[0] == pytest.approx(200 + 30 * tan(radians(10)))


def test_end_coped_to_a_round_leg(by_hand):
    """A rail 20 x 20 up to a round leg of radius 20: horns reach round it, and nothing overlaps."""
    # source: exact; end at x(y) = 60 - sqrt(20² - y²), from the leg's middle at 60
    leg = by_hand.part("leg", (40, -20, 0), (80, 20, 300), shape=Shape(section=Section.ROUND))
    rail = by_hand.part(
        "rail", (-100, -10, 100), (40, 10, 120), features={"copes": (Cope(Face.RIGHT, "leg", "j"),)}
    )
    solid = scene_of(by_hand.piece(leg, rail)).solids["rail"]
    from math import asin

    under_arc = 2 * (10 * sqrt(300) / 2 + 200 * asin(0.5))
    assert solid.volume == pytest.approx(20 * (160 * 20 - under_arc), rel=2e-4)
    assert solid.bounds.high[0] == pytest.approx(60 - sqrt(300), abs=0.06)


SQUARE_AT_10_DEG = 20 * 20 * 300 / cos(radians(10))


@pytest.mark.parametrize(
    ("shape", "volume"),
    [
        (Shape(section=Section.ROUND), pi * 100 * 300),
        (Shape(section=Section.OVAL), pi * 100 * 300),
        (Shape(section=Section.OCTAGON), 800 * (sqrt(2) - 1) * 300),
        (
            Shape(taper=Taper(Face.BOTTOM, 10, 200, frozenset({Face.LEFT, Face.FRONT}))),
            40_000 + 200 / 3 * 700,
        ),
        (Shape(taper=Taper(Face.TOP, 10, 0, frozenset({Face.LEFT}))), 300 * 20 * 15),
        (
            Shape(taper=Taper(Face.BOTTOM, 10, 300, frozenset()), section=Section.ROUND),
            pi * 100 * (100 + 25 + 50),
        ),
        (Shape(lean=Lean(Face.BOTTOM, (-300 * tan(radians(10)), 0))), SQUARE_AT_10_DEG),
        (Shape(lean=Lean(Face.TOP, (30, 40)), section=Section.LEVEL), 400 * 300),
        (Shape(lean=Lean(Face.TOP, (30, 40)), section=Section.ROUND), pi * 100 * sqrt(300**2 + 50**2)),
    ],
)
def test_shapes_of_a_stick(by_hand, solid_of_part, shape, volume):
    """Prisms, frustums (h/3·(A + B + √AB)), and leaning prisms: section times true length."""
    # source: exact; the prismoid and frustum formulas
    assert solid_of_part(
        by_hand.part("stick", (0, 0, 0), (20, 20, 300), shape=shape)
    ).volume == pytest.approx(volume, rel=1e-9)


def test_leaning_foot_goes_where_it_is_sent(by_hand, solid_of_part):
    """Foot 30 left, 40 forward: half way up, the section stands half that far out."""
    # source: by hand
    shape = Shape(lean=Lean(Face.BOTTOM, (-30, -40)))
    solid = solid_of_part(by_hand.part("leg", (0, 0, 0), (20, 20, 300), shape=shape))
    assert solid.centre == pytest.approx((10 - 15, 10 - 20, 150), abs=1e-9)
    assert (solid.bounds.low[2], solid.bounds.high[2]) == pytest.approx((0, 300))


@pytest.mark.parametrize("seen_from", [Face.TOP, Face.BOTTOM])
@pytest.mark.parametrize(
    ("outline", "area"),
    [
        (OutlineKind.ROUND, pi * 200 * 100),
        (OutlineKind.CORNERS, 400 * 200 - (4 - pi) * 50**2),
        (OutlineKind.RING, pi * (200 * 100 - 150 * 50)),
    ],
)
def test_outlines_fill_their_box(by_hand, solid_of_part, seen_from, outline, area):
    # source: exact; areas of ellipse, rounded rectangle, elliptic ring
    shape = Shape(outline=Outline(outline, seen_from, 50))
    solid = solid_of_part(by_hand.part("top", (0, 0, 0), (400, 200, 20), grain=Axis.WIDE, shape=shape))
    assert solid.volume == pytest.approx(area * 20, rel=1e-9)
    assert solid.centre == pytest.approx((200, 100, 10), abs=1e-6)


def test_path_seen_from_the_right(by_hand, solid_of_part):
    """A right triangle, corner low at the front: across is depth when seen from the right."""
    # source: by hand; ½·100·80·20, centre a third of the way from the right angle
    path = (PathPoint(0, 0), PathPoint(100, 0), PathPoint(0, 80))
    shape = Shape(outline=Outline(OutlineKind.PATH, Face.RIGHT, path=path))
    solid = solid_of_part(by_hand.part("foot", (10, 0, 0), (30, 100, 80), grain=Axis.DEEP, shape=shape))
    assert solid.volume == pytest.approx(80_000)
    assert solid.centre == pytest.approx((20, 100 / 3, 80 / 3))


@pytest.mark.parametrize("turned", [False, True])
def test_path_with_a_half_round_bump(by_hand, solid_of_part, turned):
    """A square of 100 with a half circle of 50 on its right, written either way round."""
    # source: exact; 100² + π·50²/2
    path = (PathPoint(0, 0), PathPoint(100, 0), PathPoint(100, 100, 50), PathPoint(0, 100))
    if turned:
        path = (PathPoint(0, 0), PathPoint(0, 100), PathPoint(100, 100), PathPoint(100, 0, 50))
    shape = Shape(outline=Outline(OutlineKind.PATH, Face.FRONT, path=path))
    solid = solid_of_part(by_hand.part("back", (0, 0, 0), (150, 10, 100), shape=shape))
    assert solid.volume == pytest.approx((100**2 + pi * 50**2 / 2) * 10, rel=1e-9)


@pytest.mark.parametrize(
    ("kind", "section"),
    [
        (EdgeKind.CHAMFER, 8.0),
        (EdgeKind.BEVEL, 8.0),
        (EdgeKind.RABBET, 16.0),
        (EdgeKind.ROUND_OVER, 16 - 4 * pi),
    ],
)
def test_edge_work_along_one_edge(by_hand, solid_of_part, kind, section):
    """4 x 4 off an edge 400 long: half a square, a square, a square less a quarter circle."""
    # source: by hand
    work = (EdgeWork(kind, Face.TOP, (Edge(Face.TOP, Face.FRONT),), 4, 4),)
    part = by_hand.part("top", (0, 0, 0), (400, 100, 20), work=work)
    assert 800_000 - solid_of_part(part).volume == pytest.approx(section * 400, rel=1e-6)


@pytest.mark.parametrize("kind", list(EdgeKind))
def test_edge_work_round_a_disc(by_hand, solid_of_part, kind):
    """Pappus: section times the way of its own centre."""
    # source: exact; Pappus' second theorem, centres of triangle, square, and square less quarter disc
    r = 4.0
    triangle, square, round_over = (8.0, 4 / 3), (16.0, 2.0), (16 - 4 * pi, r * (10 - 3 * pi) / (12 - 3 * pi))
    area, inward = {
        EdgeKind.CHAMFER: triangle,
        EdgeKind.BEVEL: triangle,
        EdgeKind.RABBET: square,
        EdgeKind.ROUND_OVER: round_over,
    }[kind]
    work = (EdgeWork(kind, Face.TOP, (Edge(Face.TOP, Face.FRONT),), r, r),)
    shape = Shape(outline=Outline(OutlineKind.ROUND, Face.TOP))
    part = by_hand.part("top", (0, 0, 0), (400, 400, 20), grain=Axis.WIDE, shape=shape, work=work)
    lost = pi * 200**2 * 20 - solid_of_part(part).volume
    assert lost == pytest.approx(area * 2 * pi * (200 - inward), rel=2e-3)


def test_arch_dish_and_band(by_hand, solid_of_part):
    """A circle's segment through the board; half an ellipsoid; a lipping leaves the size as it is."""
    # source: exact; r = (c²/4 + h²)/2h, segment r²(a - sin a)/2; ⅔πabc
    from math import atan, sin

    def lost(work):
        return (
            400 * 100 * 80 - solid_of_part(by_hand.part("w", (0, 0, 0), (400, 100, 80), work=(work,))).volume
        )

    radius, angle = (150**2 + 30**2) / 60, 4 * atan(30 / 150)
    segment = radius**2 * (angle - sin(angle)) / 2
    assert lost(ArchWork(Face.BOTTOM, Axis.WIDE, 50, 350, 30)) == pytest.approx(segment * 100, rel=1e-9)
    assert lost(DishWork(Face.TOP, 5, 20)) == pytest.approx(2 / 3 * pi * 180 * 30 * 5, rel=1e-6)
    assert lost(BandWork(Face.FRONT, 3, "strip")) == pytest.approx(0, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 18), st.floats(4, 12), st.floats(3, 18), st.booleans()),
        max_size=8,
        unique_by=lambda h: h[0],
    ),
    st.floats(3, 30),
)
def test_any_set_of_apart_features_agrees_with_the_formula(by_hand, solid_of_part, holes, tenon):
    """Holes 20 apart from either side, a tenon, a groove between: the volume is the sum."""
    # source: independent; conftest's sum of feature volumes
    drilled = tuple(
        Hole(
            (20.0 * i, 60.0 if far else 0.0, 12.0),
            (0, -1, 0) if far else (0, 1, 0),
            diameter,
            deep,
            "dowel",
            "j",
        )
        for i, diameter, deep, far in holes
    )
    part = by_hand.part(
        "rail",
        (0, 0, 0),
        (400, 60, 40),
        features={
            "holes": drilled,
            "cuts": (Cut(Box((0, 20, 30), (400, 26, 40)), Face.TOP, "groove", "g"),),
            "additions": (Addition(Box((400, 10, 8), (400 + tenon, 50, 24)), Face.RIGHT, "tenon", "t"),),
        },
    )
    assert solid_of_part(part).volume == pytest.approx(by_hand.analytic_volume(part), rel=1e-9)


def test_equal_parts_share_one_body(by_hand):
    """Names do not make a solid: an equal part costs nothing again, a changed one is made anew."""
    # source: by hand
    a = by_hand.part("a", (0, 0, 0), (100, 40, 20))
    b = by_hand.part("b", (0, 0, 0), (100, 40, 20))
    c = by_hand.part("c", (0, 0, 0), (100, 40, 21))
    solids = scene_of(by_hand.piece(a, b, c)).solids
    assert solids["a"].body is solids["b"].body
    assert solids["a"].body is not solids["c"].body


def test_parts_that_cannot_be_made(by_hand, solid_of_part):
    """A bow tie is no outline; a cut larger than the part leaves nothing. Both name the part."""
    # source: by hand
    path = (PathPoint(0, 0), PathPoint(100, 80), PathPoint(100, 0), PathPoint(0, 80))
    bow = by_hand.part(
        "bow", (0, 0, 0), (100, 20, 80), shape=Shape(outline=Outline(OutlineKind.PATH, Face.FRONT, path=path))
    )
    with pytest.raises(ResolveError, match="bow: its outline crosses itself"):
        solid_of_part(bow)
    cut = Cut(Box((-1, -1, -1), (101, 41, 21)), Face.TOP, "notch", "j")
    with pytest.raises(ResolveError, match="gone: nothing is left"):
        solid_of_part(by_hand.part("gone", (0, 0, 0), (100, 40, 20), features={"cuts": (cut,)}))


def test_slanting_shoulder_keeps_its_tenon_whole(by_hand, solid_of_part):
    """A shoulder at 10 degrees: the body is trimmed, the tenon stands out of it all the same."""
    # source: by hand; trimmed through the middle the body keeps its volume, the tenon adds 30·10·20 past
    # the plane, half of the slant's wedge over the tenon's section being in and half out of the body
    normal = (cos(radians(10)), 0.0, -tan(radians(10)) * cos(radians(10)))
    part = by_hand.part(
        "rail",
        (0, 0, 0),
        (200, 20, 60),
        features={
            "trims": (Trim((200, 10, 30), normal, Face.RIGHT, "j"),),
            "additions": (Addition(Box((200, 5, 20), (230, 15, 40)), Face.RIGHT, "tenon", "j"),),
        },
    )
    solid = solid_of_part(part)
    assert len(solid.body.solid.decompose()) == 1
    assert solid.volume == pytest.approx(240_000 + 30 * 10 * 20, rel=1e-9)


def test_leaning_round_tenon(by_hand, solid_of_part):
    """A tenon along a stick that leans by 3 in 4: as deep in height as its box, longer by 5/4."""
    # source: exact; a slanting cylinder from a plane through its root's middle to its square end
    part = by_hand.part(
        "leg",
        (0, 0, 0),
        (40, 40, 300),
        features={
            "additions": (
                Addition(Box((12, 12, 300), (28, 28, 320)), Face.TOP, "tenon", "j", 16, (0.6, 0.0, 0.8)),
            )
        },
    )
    solid = solid_of_part(part)
    assert solid.volume - 480_000 == pytest.approx(pi * 64 * 25, rel=1e-9)
    assert len(solid.body.solid.decompose()) == 1


@pytest.fixture
def stool_leg(by_hand):
    """A round leg leaning 0.2 sideways in a seat 40 thick, tenon 20; the leg's solid and its seat's work."""

    def made(*work):
        slant = (0.2 / sqrt(1.04), 0.0, 1 / sqrt(1.04))
        tenon = Addition(Box((90, 90, 400), (110, 110, 440)), Face.TOP, "tenon", "j", 20.0, slant)
        leg = by_hand.part(
            "leg",
            (85, 85, 0),
            (115, 115, 400),
            shape=Shape(Lean(Face.BOTTOM, (-80, 0)), section=Section.ROUND),
            features={"additions": (tenon,)},
        )
        seat = by_hand.part("seat", (0, 0, 400), (200, 200, 440), grain=Axis.WIDE, work=work)
        joint = Joint(
            "j",
            "leg",
            "seat",
            "through tenon",
            Face.TOP,
            Face.BOTTOM,
            None,
            JointSettings(),
            1,
            by_hand.place,
        )
        return scene_of(by_hand.piece(leg, seat, joints=(joint,))).solids["leg"]

    return made


def test_leaning_through_tenon_is_levelled(stool_leg):
    """A slanting cylinder between two level planes, however its end leaned before."""
    # source: by hand; level sections are π·r²/cos: the leg's 400 high, the tenon's 40
    across = pi * sqrt(1.04)
    solid = stool_leg()
    assert solid.volume == pytest.approx(across * (225 * 400 + 100 * 40), rel=1e-6)
    assert solid.bounds.high[2] == pytest.approx(440)


def test_through_tenon_in_a_dish_follows_it(stool_leg):
    """Nothing stands proud of the hollow where the tenon comes out."""
    # source: by hand; at (108, 100) the dish of radii 80, 80, 12 is 12·sqrt(1 - 0.1²) deep, nearly level
    dished = stool_leg(DishWork(Face.TOP, 12, 20))
    assert stool_leg().volume - dished.volume == pytest.approx(pi * 100 * 11.9 * sqrt(1.04), rel=0.01)
    assert dished.bounds.high[2] == pytest.approx(440 - 12 * sqrt(1 - (18 / 80) ** 2), abs=0.2)
