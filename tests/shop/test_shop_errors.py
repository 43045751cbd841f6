"""What a maker is told, and at which character."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.errors import ReadError
from scantling.shop import read_shop, read_shop_text

BOARD = "boards:\n  walnut:\n    W1: {line}\n"


@pytest.mark.parametrize(
    ("line", "character", "says", "remedy"),
    [
        ("96 x 7 x 1, bov 1/4", 21, 'no "bov"', 'did you mean "bow"?'),
        ("96 x 7 q x 1", 16, '"q"', "such as"),
        ("96 x 7", 9, "3 sizes", "such as"),
        ("96 x 7 x 1, bow 1/4, bow 1/8", 34, "twice", "once"),
        ("96 x 7 x 1,, bow 1/4", 20, "nothing between two commas", "comma"),
        ("8 x 96 x 1", 9, "wider than it is long", "length x width x thickness"),
        ("96 x 1 x 7", 9, "thicker than it is wide", "length x width x thickness"),
        ("96 x 7 x 0", 18, "more than zero", "such as"),
        ("96 x 7 x 1, knot 3 to 2 x 0 to 1", 21, "smaller to the larger", "knot"),
        ("96 x 7 x 1, knot 90 to 97 x 0 to 1", 32, "beyond the board", "end"),
        ("96 x 7 x 1, knot 3", 21, "cannot be read", "knot 30 to 32"),
        ("bow 1/4", 5, 'needs "size"', "write W1"),
        ("96 x 7 x 1, rings square", 27, "square", "such as"),
        ("96 x 7 x 1, price twelve", 27, "twelve", "such as"),
        ("96 x 7 x 1, moisture 120 %", 30, "100 %", "such as"),
    ],
)
def test_a_board_line_is_refused_at_the_character(refusal, line, character, says, remedy):
    error = refusal(BOARD.format(line=line))
    assert error.place is not None
    assert (error.place.file, error.place.line, error.place.character) == ("shop.yaml", 5, character)
    assert says in error.message
    assert remedy in error.remedy


@pytest.mark.parametrize(
    ("lines", "line", "says", "remedy"),
    [
        ("bords:\n  walnut:\n    W: 9 x 9 x 1\n", 3, 'no "bords"', 'did you mean "boards"?'),
        ("boards:\n  walnutt:\n    W: 9 x 9 x 1\n", 4, "walnutt", "nearest: walnut"),
        ("sheets:\n  burch plywood 1/4: 9 x 9\n", 4, "burch plywood", "birch plywood"),
        ("sheets:\n  birch plywood: 9 x 9\n", 4, "thickness", "birch plywood 1/4"),
        ("lumber:\n  pine: 96\n", 4, "nominal size", "pine 2x4"),
        ("lumber:\n  pine 2x7: 96\n", 4, "2x7", "as measured"),
        ("for sale:\n  walnut 7/4 rough: 96 x 7, price 9\n", 4, "7/4", "thickness"),
        ("machines:\n  plane: yes\n", 4, "no kind of machine", "planer"),
        ("machines:\n  saw: is a tablesaw\n", 4, "tablesaw", "such as"),
        ("clamps:\n  bar clamp: six, opens 9\n", 4, "six", "known are"),
        ("hardware:\n  dowel:\n    3/8 x 2: price 5 for none\n", 5, "whole number", "such as"),
        ("hardware:\n  wood screw:\n    99 x 2: price 5\n", 5, "gauges 4 to 14", "such as"),
        ("supplies:\n  glue: 20\n", 4, "for what", "such as"),
        ("air: {dry: 60, damp: 40}\n", 3, "damper", "dry: 38 %"),
        ("likes: [dowel]\n", 3, "no way to join", 'did you mean "dowels"?'),
        ("fraction: 1/7\n", 3, "1/7", "1/32"),
        ("boards: 5\n", 3, "name: ...", ""),
    ],
)
def test_other_entries_are_refused_at_their_line(refusal, lines, line, says, remedy):
    error = refusal(lines)
    assert error.place is not None
    assert error.place.line == line
    assert says in error.message
    assert remedy in error.remedy


def test_a_name_used_twice_names_the_other_line(refusal):
    error = refusal("boards:\n  oak:\n    A: 9 x 9 x 1\n  cherry:\n    A: 9 x 9 x 1\n")
    assert "used twice; the other stands in line 5" in error.message
    assert error.place is not None
    assert error.place.line == 7


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("shop: x\n", "does not say its units"),
        ("units: mm\n", 'needs "shop"'),
        ("", "empty"),
        ("- a\n", "key"),
    ],
)
def test_a_file_without_its_head(text, says):
    with pytest.raises(ReadError, match=says):
        read_shop_text(text, "shop.yaml")


def test_a_file_that_is_not_there(tmp_path: Path):
    with pytest.raises(ReadError, match="cannot be read"):
        read_shop(tmp_path / "none.yaml")


def test_a_sheet_far_off_its_label_is_asked_about():
    """`96 x 48 x 7.1` for 3/4 in plywood: 7.1 in, or 7.1 mm, was taken without a word."""
    text = "shop: S\nunits: inches\nsheets:\n  birch plywood 3/4:\n    P1: 96 x 48 x {thick}\n"
    with pytest.raises(ReadError, match=r"180\.3 mm") as error:
        read_shop_text(text.format(thick="7.1"), "shop.yaml")
    assert (error.value.place.line, error.value.place.character) == (5, 9)
    sheet = read_shop_text(text.format(thick="0.71"), "shop.yaml").sheets[0]
    assert sheet.thickness == pytest.approx(0.71 * 25.4)
