"""Swings and slides: meetings worked out by hand, and random boxes against dense sampling."""

from __future__ import annotations

from math import acos, atan, cos, degrees, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.geometry import first_hit, hits_of, motion_placement, pose_placements, scene_of
from scantling.geometry.convex import convex_box, pieces_of
from scantling.geometry.parting import Sliding, Turning, gap_between, time_apart
from scantling.joinery.features import Cut, Hole
from scantling.piece.model import (
    Axis,
    Box,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    Movement,
    Pose,
    PoseStep,
    Slide,
    Swing,
)


def swing(by_hand, name, moves, about, angle=180.0, **more):
    """Front toward top about a line from left to right."""
    return Movement(name, frozenset(moves), Swing(about, (-1.0, 0.0, 0.0), angle), by_hand.place, **more)


def slide(by_hand, name, moves, distance, direction=(0.0, 1.0, 0.0), **more):
    return Movement(name, frozenset(moves), Slide(direction, distance), by_hand.place, **more)


def test_lid_meets_a_beam(by_hand):
    """The lid's upper face turns about its back edge until it meets a corner 100 behind, 300 above."""
    # source: by hand; -cos a/sin a = 100/300, a = 180 - atan 3 = 108.43495°
    lid = by_hand.part("lid", (0, -400, -20), (600, 0, 0))
    beam = by_hand.part("beam", (0, 100, 200), (600, 200, 300))
    scene = scene_of(by_hand.piece(lid, beam, movements=(swing(by_hand, "lid", ["lid"], (0, 0, 0), 120),)))
    hit = first_hit(scene, "lid")
    assert (hit.mover, hit.obstacle, hit.at_rest) == ("lid", "beam", False)
    assert hit.at == pytest.approx(180 - degrees(atan(3)), abs=1e-6)
    assert hit.fraction == pytest.approx(hit.at / 120)
    assert hit.point[1] == pytest.approx(100, abs=3)


def test_lid_meets_the_wall(by_hand):
    """Its front edge, 400 out, reaches a wall 50 behind the hinge."""
    # source: by hand; 400·cos(180 - a) = 50
    lid = by_hand.part("lid", (0, -400, -20), (600, 0, 0))
    scene = scene_of(by_hand.piece(lid, movements=(swing(by_hand, "lid", ["lid"], (0, 0, 0)),)))
    wall = Box((-1000, 50, -1000), (1000, 60, 3000))
    hit = first_hit(scene, "lid", obstacles={"wall": wall})
    assert hit.obstacle == "wall"
    assert hit.at == pytest.approx(180 - degrees(acos(50 / 400)), abs=1e-6)
    assert first_hit(scene, "lid", obstacles={"wall": Box((-1000, 401, -1000), (1000, 410, 3000))}) is None


def test_tray_slides_between_its_sides_until_the_stop(by_hand):
    """It touches both sides and the floor all the way and meets only the stop, 88 mm on."""
    # source: by hand
    parts = [
        by_hand.part("tray", (0, 0, 0), (300, 100, 20)),
        by_hand.part("floor", (-20, 0, -10), (320, 600, 0)),
        by_hand.part("left", (-20, 0, 0), (0, 600, 60)),
        by_hand.part("right", (300, 0, 0), (320, 600, 60)),
        by_hand.part("stop", (100, 188, 10), (120, 300, 50)),
    ]
    scene = scene_of(by_hand.piece(*parts, movements=(slide(by_hand, "tray", ["tray"], 400),)))
    (hit,) = hits_of(scene, "tray")
    assert (hit.obstacle, hit.fraction) == ("stop", pytest.approx(0.22, abs=1e-7))
    assert hit.at == pytest.approx(88.0, abs=1e-5)


def test_a_slide_said_backwards_and_one_of_nothing(by_hand):
    """-100 along y is 100 the other way; a movement that goes nowhere meets nothing."""
    # source: by hand; 60 of room
    tray, stop = (
        by_hand.part("tray", (0, 0, 0), (300, 100, 20)),
        by_hand.part("stop", (0, -80, 0), (300, -60, 20)),
    )
    back, none = slide(by_hand, "back", ["tray"], -100), slide(by_hand, "none", ["tray"], 0)
    scene = scene_of(by_hand.piece(tray, stop, movements=(back, none)))
    assert first_hit(scene, "back").at == pytest.approx(60, abs=1e-5)
    assert first_hit(scene, "none") is None


def test_lid_slides_in_its_groove(by_hand):
    """A lid in grooves of two sides leaves freely; the same lid without the grooves is in the wood."""
    # source: by hand
    lid = by_hand.part("lid", (-5, 0, 40), (205, 300, 46))
    grooves = {
        side: {"cuts": (Cut(Box((low, 0, 40), (low + 5, 300, 46)), face, "groove", "j"),)}
        for side, low, face in (("left", -5, Face.RIGHT), ("right", 200, Face.LEFT))
    }
    for features, free in ((grooves, True), ({}, False)):
        left = by_hand.part("left", (-15, 0, 0), (0, 300, 60), features=features.get("left"))
        right = by_hand.part("right", (200, 0, 0), (215, 300, 60), features=features.get("right"))
        scene = scene_of(by_hand.piece(lid, left, right, movements=(slide(by_hand, "lid", ["lid"], 200),)))
        hit = first_hit(scene, "lid")
        assert (hit is None) == free
        assert free or hit.at_rest


def test_ring_of_walls_is_not_filled(by_hand):
    """A block in a notch leaves upward but not sideways: a grooved part is not its hull."""
    # source: by hand; 3 mm of room before the cheek
    block = by_hand.part("block", (45, 0, 15), (55, 40, 25), grain=Axis.DEEP)
    base = by_hand.part(
        "base",
        (0, 0, 0),
        (100, 40, 30),
        features={"cuts": (Cut(Box((40, 0, 15), (58, 40, 30)), Face.TOP, "notch", "j"),)},
    )
    up = slide(by_hand, "up", ["block"], 100, (0.0, 0.0, 1.0))
    aside = slide(by_hand, "aside", ["block"], 100, (1.0, 0.0, 0.0))
    scene = scene_of(by_hand.piece(block, base, movements=(up, aside)))
    assert first_hit(scene, "up") is None
    assert first_hit(scene, "aside").at == pytest.approx(3.0, abs=1e-5)


def test_peg_in_a_hole_is_looked_at_step_by_step(by_hand):
    """Holes count as filled in the pieces, so a peg that stands in one is followed by its solid."""
    # source: by hand
    peg = by_hand.part("peg", (46, 16, 10), (54, 24, 60))
    board = by_hand.part(
        "board",
        (0, 0, 0),
        (100, 40, 20),
        features={"holes": (Hole((50, 20, 20), (0, 0, -1), 14, 15, "x", "j"),)},
    )
    up, aside = (
        slide(by_hand, "up", ["peg"], 80, (0, 0, 1.0)),
        slide(by_hand, "aside", ["peg"], 80, (1.0, 0, 0)),
    )
    scene = scene_of(by_hand.piece(peg, board, movements=(up, aside)))
    assert first_hit(scene, "up") is None
    assert first_hit(scene, "aside").at == pytest.approx(sqrt(49 - 16) - 4, abs=2.0)


def test_rounded_edge_lets_a_lid_swing(by_hand):
    """A flap that drops, hinged near its back, 1 mm to spare: square it binds, rounded by 19 it turns."""
    # source: by hand; corner 27.6 from the hinge against 20.5 of room; rounded it is 19.7
    work = (EdgeWork(EdgeKind.ROUND_OVER, Face.BOTTOM, (Edge(Face.BOTTOM, Face.BACK),), 19.0, 19.0),)
    strip = by_hand.part("strip", (0, 6, -20), (600, 60, 0))
    for edge, free in ((), False), (work, True):
        lid = by_hand.part("lid", (0, -300, -20), (600, 5, 0), work=edge)
        turn = Movement("lid", frozenset({"lid"}), Swing((0, -14.5, -0.5), (1.0, 0, 0), 80), by_hand.place)
        scene = scene_of(by_hand.piece(lid, strip, movements=(turn,)))
        assert (first_hit(scene, "lid") is None) == free


def test_riders_and_what_is_carried(by_hand):
    """A thing that stands on a tray meets the bridge that the tray passes under."""
    # source: by hand; 200 - 60
    tray = by_hand.part("tray", (0, 0, 0), (300, 100, 20))
    bridge = by_hand.part("bridge", (0, 200, 60), (300, 240, 80))
    scene = scene_of(by_hand.piece(tray, bridge, movements=(slide(by_hand, "tray", ["tray"], 400),)))
    assert first_hit(scene, "tray") is None
    hit = first_hit(scene, "tray", riders={"machine": Box((50, 10, 20), (250, 60, 300))})
    assert (hit.mover, hit.obstacle) == ("machine", "bridge")
    assert hit.at == pytest.approx(140, abs=1e-5)


def test_lid_on_a_tray_swings_where_the_tray_has_gone(by_hand):
    """The hinge rides on the tray: after 100 forward it is 100 nearer the beam's corner."""
    # source: by hand; atan(3) as before once the tray is out
    lid = by_hand.part("lid", (0, -400, -20), (600, 0, 0))
    tray = by_hand.part("tray", (0, -400, -40), (600, 0, -20))
    beam = by_hand.part("beam", (0, 200, 200), (600, 300, 300))
    out = slide(by_hand, "tray", ["tray"], 100)
    up = swing(by_hand, "lid", ["lid"], (0, 0, 0), 120, rides_on="tray")
    scene = scene_of(by_hand.piece(lid, tray, beam, movements=(up, out)))
    assert first_hit(scene, "lid", before=(PoseStep("tray", 1.0),)).at == pytest.approx(108.4349488, abs=1e-6)
    assert first_hit(scene, "tray") is None


def test_poses(by_hand):
    """Tray 100 back, the lid on it upright: its front edge stands over where the hinge has gone."""
    # source: by hand; (0, -400, 0) turns to (0, 0, 400), then 100 back
    lid, tray = (
        by_hand.part("lid", (0, -400, -20), (600, 0, 0)),
        by_hand.part("tray", (0, -400, -40), (600, 0, -20)),
    )
    up = swing(by_hand, "lid", ["lid"], (0, 0, 0), 90, rides_on="tray")
    out = slide(by_hand, "tray", ["tray"], 200)
    pose = Pose("open", (PoseStep("lid", 1.0), PoseStep("tray", 0.5)))
    piece = by_hand.piece(lid, tray, movements=(up, out), poses=(pose,)).piece
    where = pose_placements(piece, "open")
    assert where["lid"].point((0, -400, 0)) == pytest.approx((0, 100, 400))
    assert where["tray"].point((0, -400, -40)) == pytest.approx((0, -300, -40))
    assert all(placement.is_identity for placement in pose_placements(piece, "at rest").values())
    with pytest.raises(ValueError, match="at rest, open"):
        pose_placements(piece, "shut")


def test_half_of_a_swing(by_hand):
    # source: by hand; 45 of 90 degrees
    placed = motion_placement(Swing((0, 0, 10), (1.0, 0, 0), 90), 0.5)
    assert placed.point((5, 10, 10)) == pytest.approx((5, 10 * cos(radians(45)), 10 + 10 * sin(radians(45))))


boxes = st.tuples(*[st.floats(-100, 100)] * 3, *[st.floats(5, 80)] * 3, st.integers(0, 2**31))


def turned_box(numbers):
    """A box of those sizes turned any way about its place."""
    x, y, z, a, b, c, seed = numbers
    piece = convex_box(Box((-a / 2, -b / 2, -c / 2), (a / 2, b / 2, c / 2)))
    q, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))
    return piece.moved(q * np.sign(np.linalg.det(q)), np.array([x, y, z]))


def dense(mover, still, moving, count=600):
    """The first sample at which the two are more than 1e-3 in each other, and the one before."""
    places = np.linspace(0, moving.whole, count)
    return next((at for at in places if gap_between(moving.placed(mover, at), still) < -1e-3), None)


@settings(max_examples=70, deadline=None)
@given(boxes, boxes, st.booleans(), st.integers(0, 2**31))
def test_no_meeting_is_missed_and_none_invented(first, second, turns, seed):
    """Any two boxes turned any way: the formula's moment against 600 samples of the motion."""
    # source: independent; separating axes at each sample
    mover, still = turned_box(first), turned_box(second)
    direction = np.random.default_rng(seed).normal(size=3)
    moving = Turning(2.5) if turns else Sliding(direction / np.linalg.norm(direction), 250.0)
    if gap_between(mover, still) < 0.01:
        return
    sampled = dense(mover, still, moving)
    found = time_apart(mover, still, moving)
    if sampled is not None:
        assert found is not None
        assert found <= sampled + 1e-9
    if found is not None:
        assert gap_between(moving.placed(mover, found), still) < 0.002
        before = found - 0.01
        assert before < 0 or gap_between(moving.placed(mover, before), still) > -1e-6


def test_pieces_hold_all_of_the_part(by_hand, solid_of_part):
    """The pieces of a grooved and notched part are convex, and their volumes add up to its own."""
    # source: by hand; 100·40·20 - 100·6·5 - 20·15·20
    part = by_hand.part(
        "a",
        (0, 0, 0),
        (100, 40, 20),
        features={
            "cuts": (
                Cut(Box((0, 20, 15), (100, 26, 20)), Face.TOP, "groove", "j"),
                Cut(Box((40, 0, 0), (60, 15, 20)), Face.FRONT, "notch", "j"),
            )
        },
    )
    from manifold3d import Manifold

    pieces = pieces_of(solid_of_part(part).body)
    total = sum(Manifold.hull_points(piece.verts).volume() for piece in pieces)
    assert total == pytest.approx(80_000 - 3000 - 6000)
    assert len(pieces) <= 8


def comb(by_hand, slots):
    """A bar 20 by 20 with slots 2 wide, one every 5 mm, each 0.01 mm deeper than the one before."""
    boxes = [Box((5 * i, 0, 12 - 0.01 * i), (5 * i + 2, 20, 20)) for i in range(1, slots + 1)]
    cuts = tuple(Cut(box, Face.TOP, "notch", "j") for box in boxes)
    return by_hand.part("comb", (0, 0, 0), (5 * slots + 7, 20, 20), features={"cuts": cuts})


@pytest.mark.parametrize("slots", [20, 600])
def test_a_part_with_many_cuts_is_parted_in_bounded_time(by_hand, solid_of_part, slots):
    """What is left when the count of pieces is used up is taken as its hull: never less than the part."""
    # source: by hand; (5n + 7)·20·20 less n slots of 2·20·8 and 2·20·0.01·(1 + 2 + ... + n)
    from time import process_time

    from manifold3d import Manifold

    body = solid_of_part(comb(by_hand, slots)).body
    start = process_time()
    pieces = pieces_of(body)
    assert process_time() - start < 2
    total = sum(Manifold.hull_points(piece.verts).volume() for piece in pieces)
    own = (5 * slots + 7) * 400 - slots * 320 - 0.4 * slots * (slots + 1) / 2
    assert total == pytest.approx(own) if slots == 20 else total > own
    assert max(piece.high[0] for piece in pieces) == pytest.approx(5 * slots + 7)


def test_a_plane_that_parts_nothing_ends_in_the_hull(by_hand, solid_of_part, monkeypatch):
    """A plane that shaves off no more than a speck once left the piece as it was, to be parted for ever."""
    from manifold3d import Manifold

    from scantling.geometry import convex

    body = solid_of_part(comb(by_hand, 3)).body
    monkeypatch.setattr(convex, "_inward_planes", lambda mesh: [(np.array([0.0, 0.0, 1.0]), 20.0)])
    pieces = convex.pieces_of.__wrapped__(body)
    # source: by hand; 22·20·20
    assert [Manifold.hull_points(piece.verts).volume() for piece in pieces] == [pytest.approx(22 * 400)]


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.booleans())
def test_grooved_parts_against_their_solids(by_hand, seed, turns):
    """A notched bar moved past a grooved post: first overlap of the true solids, in 300 samples."""
    # source: independent; mesh booleans at each sample
    from scantling.geometry.body import placed_solid

    rng = np.random.default_rng(seed)
    x, z = rng.uniform(-30, 60), rng.uniform(-40, 60)
    bar = by_hand.part(
        "bar",
        (0, 0, 0),
        (120, 30, 40),
        features={"cuts": (Cut(Box((30, 0, 20), (rng.uniform(40, 100), 30, 40)), Face.TOP, "notch", "j"),)},
    )
    post = by_hand.part(
        "post",
        (x, 80, z),
        (x + 60, 110, z + 50),
        grain=Axis.WIDE,
        features={"cuts": (Cut(Box((x, 80, z + 15), (x + 60, 95, z + 35)), Face.FRONT, "groove", "j"),)},
    )
    motion = Swing((0, 60, -20), (-1.0, 0, 0), 170) if turns else Slide((0, 1.0, 0), 200)
    movement = Movement("bar", frozenset({"bar"}), motion, by_hand.place)
    scene = scene_of(by_hand.piece(bar, post, movements=(movement,)))
    hit = first_hit(scene, "bar")
    still = placed_solid(scene.solids["post"].placement, scene.solids["post"].body.solid)
    own = placed_solid(scene.solids["bar"].placement, scene.solids["bar"].body.solid)
    fractions = np.linspace(0, 1, 300)
    met = [f for f in fractions if (placed_solid(motion_placement(motion, f), own) ^ still).volume() > 0.5]
    if met:
        assert hit is not None
        assert hit.fraction <= met[0] + 1e-9
        assert hit.fraction >= met[0] - 0.02
    elif hit is not None:
        pressed = placed_solid(motion_placement(motion, min(1.0, hit.fraction + 0.004)), own) ^ still
        assert pressed.volume() > 0 or hit.fraction > 0.995
