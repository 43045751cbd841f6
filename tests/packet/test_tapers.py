"""A tapered part's sheet says and dimensions where the taper starts and what it leaves."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from scantling.geometry import scene_of
from scantling.packet.canvas import Canvas
from scantling.packet.dimensions import Mark, running
from scantling.packet.part_drawing import part_drawing
from scantling.packet.part_views import part_views
from scantling.packet.part_words import shape_notes
from scantling.packet.shown import Sizes
from scantling.packet.tapers import taper_mark
from scantling.piece.model import Face, Shape, Taper
from scantling.quantity import Style
from scantling.quantity.kinds import LengthUnit

INCH = 25.4
SIZES = Sizes(Style(LengthUnit.INCHES))


def written(svg):
    return [re.sub(r"<[^>]+>", "", text) for text in re.findall(r"<text.*?</text>", svg)]


@pytest.fixture
def tapered(bench):
    """A side 17 1/4 high and 11 deep, its front cut back to 6 at one end from 10 in off that end."""

    def side(end, start):
        shape = Shape(taper=Taper(end, 6 * INCH, start * INCH, frozenset({Face.FRONT})))
        parts = tuple(
            replace(m, part=replace(m.part, shape=shape), holes=(), cuts=()) if m.name == "left side" else m
            for m in bench.machined.parts
        )
        piece = replace(bench.piece, parts=tuple(m.part for m in parts))
        machined = replace(bench.machined, piece=piece, parts=parts)
        one = machined.by_name["left side"]
        return one, part_views(scene_of(machined), one)

    return side


@pytest.mark.parametrize(("end", "start", "along"), [(Face.BOTTOM, 10, "10"), (Face.TOP, 7.25, "7 1/4")])
def test_start_and_narrow_end_are_dimensioned(tapered, end, start, along):
    one, views = tapered(end, start)
    svg = part_drawing(views, (), (), SIZES, "t", straight=False, taper=taper_mark(one, views)).svg
    # source: by hand: end 0 is the bottom; 6 is left of 11, and the thickness of 3/4 stays
    assert {along, "6", "11", "17 1/4", "3/4"} <= set(written(svg))


def test_the_note_says_from_where_to_what(tapered):
    one, _ = tapered(Face.BOTTOM, 10)
    (note,) = shape_notes(one.part, SIZES)
    words = "Tapers from 10 in (254 mm) off the bottom to 6 in (152.4 mm) at the bottom, on faces: front."
    assert note == words


def test_a_straight_part_has_no_mark(bench):
    one = bench.machined.by_name["left side"]
    assert taper_mark(one, part_views(bench.scene, one)) is None


def test_close_running_sizes_stand_a_third_of_a_line_apart():
    canvas = Canvas(100, 50)
    running(canvas, 10, [Mark(50, "28 13/32"), Mark(51, "29")], 20, 10)
    places = sorted(float(x) for x in re.findall(r'<text x="([\d.]+)"', canvas.svg("t")))
    # source: by hand: letters 3.8 high, lines 1.35 x 3.8 = 5.13 apart
    assert places[2] - places[1] == pytest.approx(5.13, abs=0.02)
