"""Dimension drawing: numbers never touch, and everything said is on the paper."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.packet.canvas import Canvas, Pen, text_width, with_fractions
from scantling.packet.dimensions import Mark, across, running, spread
from scantling.packet.folding import Fold, folded, unfolded
from scantling.packet.hatching import hatch
from scantling.packet.scales import fitting_scale, scale_words
from scantling.quantity.kinds import LengthUnit


def test_spread_leaves_places_that_stand_apart():
    # source: by hand; 0, 10 and 20 stand 10 apart, more than the 4 wanted
    assert spread([0, 10, 20], 4) == [0, 10, 20]


def test_spread_pushes_neighbours_apart_evenly():
    # source: by hand; 10 and 11 share their middle 10.5, two either side of it
    assert spread([10, 11], 4) == [8.5, 12.5]


@given(st.lists(st.floats(0, 200), min_size=1, max_size=15).map(sorted), st.floats(0.5, 8))
def test_spread_places_never_touch_and_keep_their_order(places, least):
    # source: exact; the property itself
    moved = spread(places, least)
    assert len(moved) == len(places)
    assert all(b - a >= least - 1e-6 for a, b in pairwise(moved))


@given(st.lists(st.floats(0, 100), min_size=2, max_size=12).map(sorted))
def test_spread_keeps_the_mean(places):
    # source: exact; pools are centred on the mean of their wishes
    moved = spread(places, 5)
    assert sum(moved) / len(moved) == pytest.approx(sum(places) / len(places), abs=1e-6)


def test_running_sizes_write_zero_and_every_mark():
    canvas = Canvas(100, 50)
    running(canvas, 10, [Mark(30, "2 1/2"), Mark(31, "2 5/8")], 40, 30)
    svg = canvas.svg("t")
    written = [re.sub("<[^>]+>", "", text) for text in re.findall(r"<text.*?</text>", svg)]
    assert written == ["0", "2 1/2", "2 5/8"]  # source: by hand; datum first


def test_a_narrow_dimension_puts_its_number_outside():
    canvas = Canvas(100, 50)
    across(canvas, 10, 14, 40, 30, "1 1/16")
    assert 'x="16.5"' in canvas.svg("t")  # source: by hand; 2.5 mm past the right mark at 14


def test_whole_number_stays_full_size_before_a_fraction():
    # source: desk-and-packet.md 2.2 pitfall 1: 52 must not become part of the numerator
    assert with_fractions("52 1/4", 10).startswith("52 <tspan")


def test_hostile_words_are_escaped_in_drawings():
    canvas = Canvas(10, 10)
    canvas.text((1, 1), "</svg><script>&")
    assert "<script" not in canvas.svg("x")
    assert "&lt;/svg&gt;&lt;script&gt;&amp;" in canvas.svg("x")


def test_lines_of_one_pen_share_a_path():
    canvas = Canvas(10, 10)
    canvas.line(Pen.THIN, (0, 0), (1, 1))
    canvas.line(Pen.THIN, (2, 2), (3, 3))
    assert canvas.svg("x").count("<path") == 1


@pytest.mark.parametrize(("size", "lines"), [((10.0, 5.0), 3), ((5.0, 5.0), 2)])
def test_hatching_covers_the_rectangle(size, lines):
    # source: by hand; diagonals at 5, 10, ... up to width + height
    canvas = Canvas(20, 20)
    hatch(canvas, (0, 0), size, 5.0)
    assert canvas.svg("x").count("M") == lines


def test_scale_is_the_largest_that_fits():
    # source: by hand; 914 mm into 120 mm needs 7.6: 1:8 in both systems
    assert fitting_scale(914, 300, (120, 120), LengthUnit.INCHES) == 8
    assert fitting_scale(914, 300, (120, 120), LengthUnit.MM) == 8
    assert fitting_scale(100, 50, (120, 120), LengthUnit.MM) == 1
    assert scale_words(1) == "Full size"


def test_an_unfolded_length_is_plain_division():
    assert unfolded(1000, 10).at(250) == 25  # source: by hand; 250 / 10


def test_a_fold_keeps_the_neighbourhood_of_what_is_worth_seeing():
    # source: by hand; 11 paper mm at 1:2 keep 22 mm at both ends; break of 5 between
    fold = folded(1000, [], 2.0)
    assert fold.kept == ((0.0, 22.0), (978.0, 1000.0))
    assert fold.paper == pytest.approx(11 + 5 + 11)
    assert fold.at(1000) == pytest.approx(27)
    assert fold.at(978) == pytest.approx(16)


@given(st.lists(st.floats(0, 2000), max_size=8), st.floats(1, 10))
def test_a_fold_never_turns_back(places, scale):
    # source: exact; a drawing runs one way
    fold = folded(2000, places, scale)
    steps = [fold.at(p) for p in range(0, 2001, 50)]
    assert all(b >= a - 1e-9 for a, b in pairwise(steps))
    assert fold.at(2000) == pytest.approx(fold.paper)


def test_a_segment_across_a_break_is_drawn_in_two():
    fold = Fold(((0.0, 50.0), (450.0, 500.0)), 2.0)
    assert fold.shown(10, 480) == [(10, 50.0), (450.0, 480)]  # source: by hand


def test_text_width_counts_fractions_narrow():
    assert text_width("37 1/2", 4) < text_width("37 112", 4)
