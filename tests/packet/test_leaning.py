"""A leg that leans 3 in 4: its own sizes, in its own frame, by the 3-4-5 triangle."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest

from scantling.joinery.features import Addition, Cut, Hole, MachinedPart
from scantling.packet.frames import frame_of
from scantling.packet.marks import cut_marks, hole_groups
from scantling.packet.part_sheets import slant_notes
from scantling.packet.part_words import length_words
from scantling.piece.model import Axis, Box, Face, Lean, Shape

# 40 x 40 and 400 high, its foot 300 to the left: the axis is (0.6, 0, 0.8), 500 long
FOOT = (-180.0, 20.0, 0.0)
MORTISE = Cut(Box((-35.0, 20.0, 170.0), (-25.0, 40.0, 230.0)), Face.BACK, "mortise", "rail to leg")
TENON = Addition(
    Box((110.0, 10.0, 400.0), (130.0, 30.0, 432.0)),
    Face.TOP,
    "round tenon",
    "leg to seat",
    20.0,
    (0.6, 0.0, 0.8),
)


@pytest.fixture
def leg(kit):
    box = Box((100.0, 0.0, 0.0), (140.0, 40.0, 400.0))
    shape = Shape(lean=Lean(Face.BOTTOM, (-300.0, 0.0)))
    part = replace(kit.LEFT, box=box, shape=shape, grain=Axis.HIGH, work=())
    return MachinedPart(part, box.with_span(Axis.HIGH, 0, 432), cuts=(MORTISE,), additions=(TENON,))


def marked(leg, kind):
    frame = frame_of(leg)
    return frame, next(mark for mark in cut_marks(leg, frame) if mark.kind == kind)


def test_a_mortise_keeps_its_sizes(leg):
    frame, mortise = marked(leg, "mortise")
    # source: by hand: 60 high, 10 wide, 20 deep, as the upright rail's tenon is
    sizes = sorted(mortise.size(axis) for axis in range(3))
    assert sizes == pytest.approx([10, 20, 60])
    assert mortise.size(0) == pytest.approx(60)
    # source: by hand: half way up, so half of 500 along the leg; in its face's middle line, and half its
    # depth below that face, 20 - 10 from the leg's middle
    along, *beside = (m - f for m, f in zip(mortise.middle, frame.place(FOOT), strict=True))
    assert along == pytest.approx(250)
    assert sorted(abs(v) for v in beside) == pytest.approx([0, 10])


def test_an_upright_mortise_stands_askew_in_it(leg):
    _, mortise = marked(leg, "mortise")
    # source: by hand: atan(3/4) = 36.87 degrees in the face; the leg does not lean along the depth
    assert (mortise.turned, mortise.slant) == pytest.approx((36.87, 0), abs=0.01)
    (note,) = slant_notes([mortise])
    assert "36.9°" in note


def test_a_round_tenon_follows_the_leg(leg):
    frame, tenon = marked(leg, "round tenon")
    # source: by hand: 32 upright is 40 along; it begins at 500 and stays 20 across
    assert [tenon.size(axis) for axis in range(3)] == pytest.approx([40, 20, 20])
    assert tenon.low[0] - frame.place(FOOT)[0] == pytest.approx(500)
    assert (tenon.turned, tenon.slant) == pytest.approx((0, 0), abs=1e-6)
    assert not slant_notes([tenon])


def test_a_leaning_leg_says_its_overall_length(leg):
    # source: by hand: 400 and 432 upright, each 5/4 of that along the leg
    assert length_words(leg, lambda mm: f"{mm:g}") == "500 true, 540 overall, 400 upright"


def test_an_upright_post_is_not_askew(leg):
    post = replace(leg, part=replace(leg.part, shape=Shape()))
    _, mortise = marked(post, "mortise")
    assert (mortise.turned, mortise.slant) == pytest.approx((0, 0))
    assert mortise.size(0) == pytest.approx(60)


def test_a_pocket_is_placed_on_the_face_its_mouth_is_in(leg):
    # source: by hand: the mouth lies in the back face (y = 40), 35 below the top, and goes up at 15 degrees
    up, in_ = cos(radians(15)), -sin(radians(15))
    pocket = Hole((120.0, 40.0, 365.0), (0.0, in_, up), 9.5, 40.0, "pocket", "rail to top")
    post = replace(leg, part=replace(leg.part, shape=Shape()), holes=(pocket,), cuts=())
    frame = frame_of(post)
    (group,) = hole_groups(post, frame)
    assert group.face is Face.BACK
    assert group.slant == pytest.approx(75)
    assert group.places[0][0] == pytest.approx(365)
