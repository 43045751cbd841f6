"""Edge work stops where a joint face begins: runs, and volumes by hand."""

from __future__ import annotations

from math import pi

import pytest

from scantling.geometry import View, line_drawing, scene_of
from scantling.joinery.edge_runs import edge_runs
from scantling.joinery.features import Cut
from scantling.piece.model import (
    FLOOR,
    Axis,
    BandWork,
    Box,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    Joint,
    JointSettings,
    Placement,
)

BOARD = ((0, 0, 0), (100, 60, 20))
WHOLE = 100 * 60 * 20


@pytest.fixture
def joint(by_hand):
    """A joint of the board (or of another part) over a box, given by its corners."""

    def made(low, high, method="dowels", second="board"):
        area = Box(tuple(map(float, low)), tuple(map(float, high)))
        return Joint(
            "j", "other", second, method, Face.TOP, Face.BOTTOM, area, JointSettings(), 1, by_hand.place
        )

    return made


@pytest.fixture
def worked(by_hand):
    """The volume of the board with its work, and with joints."""

    def made(work, *joints, **part):
        board = by_hand.part("board", *BOARD, grain=Axis.WIDE, work=work, **part)
        return scene_of(by_hand.piece(board, joints=joints)).solids["board"].volume

    return made


def along_face(kind, face, size, drop=None, sides=(Face.FRONT, Face.RIGHT, Face.BACK, Face.LEFT)):
    return EdgeWork(kind, face, tuple(Edge(face, side) for side in sides), size, drop or size)


FRONT_CHAMFER = along_face(EdgeKind.CHAMFER, Face.TOP, 4, sides=(Face.FRONT,))


def test_shadow_line_stops_at_a_lip(worked, joint):
    """A lip 18 thick under the whole front: none there, and from the lip to the back at the sides."""
    # source: by hand; 6 x 6: back 100 long, sides 60 - 18 - 6 (the corner is the back's) each
    shadow = along_face(EdgeKind.RABBET, Face.BOTTOM, 6)
    taken = WHOLE - worked((shadow,), joint((0, 0, 0), (100, 18, 0)))
    assert taken == pytest.approx((100 + 2 * 36) * 36)


def test_features_of_the_rabbet_are_made_once(by_hand, joint):
    """The whole length that the joinery may name as cuts is not taken where the run stops."""
    # source: by hand; as above, one edge: 6 x 6 x (100 - 40)
    shadow = along_face(EdgeKind.RABBET, Face.BOTTOM, 6, sides=(Face.FRONT,))
    cut = Cut(Box((0.0, 0.0, 0.0), (100.0, 6.0, 6.0)), Face.BOTTOM, "rabbet", "work")
    board = by_hand.part("board", *BOARD, grain=Axis.WIDE, work=(shadow,), features={"cuts": (cut,)})
    scene = scene_of(by_hand.piece(board, joints=(joint((30, 0, 0), (70, 18, 0)),)))
    assert WHOLE - scene.solids["board"].volume == pytest.approx(36 * 60)


@pytest.mark.parametrize(
    ("low", "high", "worked_length"),
    [
        ((30, 0, 20), (50, 10, 20), 80),  # on the top, to the front edge
        ((30, 0, 5), (50, 0, 20), 80),  # on the front, to the top edge
        ((30, 3, 20), (50, 10, 20), 80),  # begins within the strip
        ((30, 4, 20), (50, 10, 20), 100),  # begins where the strip ends
        ((30, 0, 5), (50, 0, 16), 100),  # on the front, below the strip
        ((0, 0, 0), (0, 60, 20), 100),  # on an end: the run goes out to it
        ((30, 0, 0), (50, 60, 10), 100),  # a lap from below
        ((30, 0, 10), (50, 60, 20), 80),  # a lap from above
        ((0, 0, 20), (100, 18, 20), 0),  # all of it
        ((0, 0, 20), (60, 10, 20), 40),  # from one end
        ((30, 0, 0), (50, 10, 0), 100),  # on the bottom
    ],
)
def test_chamfer_stops_where_an_area_takes_its_strip(worked, joint, low, high, worked_length):
    """4 across and down along the top front edge: 8 mm² by the length that is left, stopped square."""
    # source: by hand
    assert WHOLE - worked((FRONT_CHAMFER,), joint(low, high)) == pytest.approx(8 * worked_length, abs=1e-6)


def test_areas_beside_and_over_each_other(worked, joint):
    # source: by hand; 10 to 30 and 20 to 55 leave 10 and 45; 55.5 to 60 begins less than 1 mm on
    joints = [joint((a, 0, 20), (b, 10, 20)) for a, b in ((20, 55), (10, 30), (55.5, 60))]
    assert WHOLE - worked((FRONT_CHAMFER,), *joints) == pytest.approx(8 * (10 + 40))


def test_what_rests_or_stands_on_the_floor_stops_nothing(by_hand, joint):
    # source: by hand; piece language 2.7
    board = by_hand.part("board", *BOARD, grain=Axis.WIDE, work=(FRONT_CHAMFER,)).part
    over_all = ((0, 0, 20), (100, 18, 20))
    rests, other = joint(*over_all, method="rests"), joint(*over_all, second="shelf")
    floor = by_hand.replace(joint(*over_all, second=FLOOR), first="board")
    assert [(r.low, r.high) for r in edge_runs(board, [rests, other, floor])] == [(0, 100)]
    assert edge_runs(board, [rests, joint(*over_all)]) == ()


def test_round_over_and_bevel_stop_too(worked, joint):
    # source: by hand; (1 - π/4)·r² and size·drop/2 by 100 - 40
    area = joint((0, 0, 20), (40, 10, 20))
    for work, section in (
        (along_face(EdgeKind.ROUND_OVER, Face.TOP, 5, sides=(Face.FRONT,)), (1 - pi / 4) * 25),
        (along_face(EdgeKind.BEVEL, Face.TOP, 3, 8, sides=(Face.FRONT,)), 12),
    ):
        assert WHOLE - worked((work,), area) == pytest.approx(section * 60, rel=1e-6)


def test_a_lipped_edge_is_worked_over_its_lipping(worked, joint):
    """The lipping is wood of the part: edge work goes over it, and stops at what is joined to it."""
    # source: by hand; 8 mm² by 100 - 20
    band = BandWork(Face.FRONT, 3, "cherry")
    assert WHOLE - worked((band, FRONT_CHAMFER), joint((30, 0, 5), (50, 0, 20))) == pytest.approx(8 * 80)


def test_a_turned_part_knows_its_joints(by_hand, joint):
    """Stood a quarter turned, the board's front edge lies along `deep` of the piece."""
    # source: by hand; (x, y) -> (-y, x) + (60, 0): the area at 30 to 50 along the front edge
    turned = Placement(((0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)), (60.0, 0.0, 0.0))
    board = by_hand.part("board", *BOARD, grain=Axis.WIDE, work=(FRONT_CHAMFER,), placement=turned)
    scene = scene_of(by_hand.piece(board, joints=(joint((50, 30, 20), (60, 50, 20)),)))
    assert WHOLE - scene.solids["board"].volume == pytest.approx(8 * 80)


def test_a_stop_shows_in_the_picture(by_hand, joint):
    """Seen from the front: the line of a rabbet along the bottom, and the two ends of its stop."""
    # source: by hand; around 2·(100 + 20); the rabbet's line 30 + 50; ends of the stop 2·6
    shadow = along_face(EdgeKind.RABBET, Face.BOTTOM, 6, sides=(Face.FRONT,))
    board = by_hand.part("board", *BOARD, grain=Axis.WIDE, work=(shadow,))
    scene = scene_of(by_hand.piece(board, joints=(joint((30, 0, 0), (50, 18, 0)),)))
    drawing = line_drawing(scene, View.named("front"), hidden=False)
    long = sum(abs(u2 - u1) + abs(v2 - v1) for u1, v1, u2, v2 in drawing.visible["board"])
    assert long == pytest.approx(2 * 120 + 80 + 12)
