# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Conditions, and the rarer settings of parts and movements."""

import pytest

from scantling.errors import ResolveError
from scantling.piece.model import Axis, BuildKind, Face, Rings

HEAD = "piece: p\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nchoices: {hand: left or right}\nsizes: {reach: 5, splay: 9 deg}\n"
BOARD = "wide: left to right, deep: front to back, high: thick up from bottom, grain: wide"


@pytest.mark.parametrize(
    ("condition", "stands"),
    [
        # source: by hand, in a piece 24 wide, 12 deep, with reach 5
        ("width > 20", True),
        ("width < 20", False),
        ("reach >= 5", True),
        ("reach <= 4 7/8", False),
        ("width > depth and reach > 4", True),
        ("width > depth and reach > 5", False),
        ("width < depth or reach > 4", True),
        ("not width > depth", False),
        ("hand is left", True),
        ("hand is not left", False),
        ("wood is solid", True),
        ("ply is sheet", True),
        ("ply is solid", False),
        ("splay > 8 deg", True),
        ("top - bottom > 29", True),
    ],
)
def test_a_part_stands_when_its_condition_holds(small, condition, stands):
    piece = small(
        f"parts:\n  a: {{{BOARD}, when: {condition}}}\n  b: {{{BOARD.replace('bottom', 'top - 1')}}}\n",
        head=HEAD,
    )
    assert len(piece.parts) == 1 + stands


@pytest.mark.parametrize(
    ("condition", "says"),
    [
        ("hand is middle hand", 'has no choice "middle hand"'),
        ("wood is thick wood", "a material is `solid` or `sheet`"),
        ("colour is red", 'no choice or material is called "colour"'),
        ("width > 8 deg", "cannot be compared"),
        ("left > reach", "cannot be compared"),
    ],
)
def test_conditions_that_mean_nothing(small, condition, says):
    with pytest.raises(ResolveError, match=says):
        small(f"parts: {{a: {{{BOARD}, when: {condition}}}}}\n", head=HEAD)


def test_limits_of_two_places(small):
    text = "parts: {a: {wide: left + 2 at least 3 to right - 2 at most 20, deep: front to back, high: thick up from bottom, grain: wide}}\n"
    box = small(text, head=HEAD).part("a").box
    # source: by hand; 2 or 3, whichever is more; 22 or 20, whichever is less
    assert (round(box.low[0] / 25.4, 4), round(box.high[0] / 25.4, 4)) == (3, 20)


def test_rarer_settings_of_a_part(small):
    part = small(
        f"parts: {{a: {{{BOARD}, rings: quarter, show: [top, front], built: one piece, note: best board}}}}\n",
        head=HEAD,
    ).part("a")
    assert part.rings is Rings.QUARTER
    assert part.show == {Face.TOP, Face.FRONT}
    assert part.built.kind is BuildKind.ONE_PIECE
    assert part.note == "best board"


def test_show_goes_by_the_side(small):
    text = "parts: {a: {wide: thick inward from left, deep: front to back, high: bottom to top, grain: high, copies: left and right, show: outside}}\n"
    piece = small(text, head=HEAD)
    assert piece.part("left a").show == {Face.LEFT}
    assert piece.part("right a").show == {Face.RIGHT}


def test_built_of_two_ways(small):
    with pytest.raises(ResolveError, match="built of layers or of staves, not both"):
        small(f"parts: {{a: {{{BOARD}, built: {{layers: 2, staves: 3}}}}}}\n", head=HEAD)


def test_turns_and_lifts(small):
    text = f"parts: {{seat: {{{BOARD}}}}}\nmovements:\n  seat: {{moves: seat, turns: 90 deg}}\n  up: {{moves: seat, lifts: 3 up, after: seat}}\nposes: {{turned: {{seat: 50 %, up: 1}}}}\n"
    piece = small(text, head=HEAD)
    turn, lift = piece.movements
    assert turn.motion.axis == (0.0, 0.0, 1.0)
    # source: by hand; the middle of 24 x 12
    assert [round(x / 25.4, 4) for x in turn.motion.about] == [12, 6, 0]
    assert lift.motion.direction == (0.0, 0.0, 1.0)
    # source: by hand; half of 90 deg; 1 of 3
    assert [round(step.fraction, 6) for step in piece.poses[1].steps] == [0.5, 0.333333]


def test_lengths_and_thicknesses_of_things(small):
    text = """parts:
  rail: {wide: left to right, deep: thick back from front, high: 4 up from bottom}
  a: {wide: length of rail / 4 right from left, deep: thickness of rail back from front + 2, high: 9 to 20}
"""
    sizes = small(text, head=HEAD).part("a").box.sizes
    assert [round(s / 25.4, 4) for s in sizes] == [6, 0.75, 11]


def test_a_frame_of_spaces(small):
    text = """spaces:
  bay: {wide: left to right, deep: front to back, high: bottom to top, split: {right: [rest, rest]}}
  cell: {in: bay, split: {up: [10, rest]}}
parts: {board: {in: cell, high: thick up from bottom, grain: wide}}
"""
    piece = small(text, head=HEAD)
    assert [p.name for p in piece.parts] == [
        "bay 1 board 1",
        "bay 1 board 2",
        "bay 2 board 1",
        "bay 2 board 2",
    ]
    # source: by hand; the second bay begins at 12, the upper cell at 10
    assert [round(x / 25.4, 4) for x in piece.part("bay 2 board 2").box.low] == [12, 0, 10]
    assert piece.part("bay 2 board 2").box.size(Axis.WIDE) == pytest.approx(12 * 25.4)


@pytest.mark.parametrize(
    ("part", "says"),
    [
        ("copies: two", "no way of copying"),
        ("copies: {count: 2}", "says no way of copying"),
        ("copies: {row: up, count: 2}", "a row wants `count` and `every`"),
        ("copies: {mirror: up and down}", "no way of copying"),
        ("copies: {mirror: four corners, about: 3}", "no one line to be mirrored about"),
        ("copies: {row: up, spread: bottom to top, gap: 1}", "is a size alone"),
        ("copies: {ring: 2 1/2}", "whole number"),
        ("in: shelf", 'no space is called "shelf"'),
        ("in: b", '"b" is not a space'),
        ("outline: {seen from: front}", "this outline says no form"),
        ("outline: {path: [[0, 0], [1, 1]]}", "three points or more"),
        ("foot: {left: 80 deg}", "more than a stick can stand"),
        ("foot: {left: 1}, head: {left: 1}", "not by both"),
        ("work: [{detail: shadow}]", "no detail is called"),
        ("work: [{size: 3}]", "one kind of machining"),
        ("work: [{chamfer: top}]", "this wants `size`"),
        ("work: [{groove: top, along: high, wide: 1, deep: 1/4}]", "not into it"),
        ("work: [{shelf pins: front, every: 1}]", "rows of pins want `rows`"),
        ("work: [{chamfer: top bottom, size: 1/8}]", "do not meet in an edge"),
        ("work: [{hole: 1, only: left}]", "has no such copy"),
        ("tilt: top toward back 15 deg", "about which edge"),
        ("show: inside", "is not one of a pair"),
    ],
)
def test_wrong_settings_of_a_part(small, part, says):
    with pytest.raises(ResolveError, match=says) as caught:
        small(f"parts:\n  b: {{{BOARD.replace('bottom', 'top - 1')}}}\n  a: {{{BOARD}, {part}}}\n", head=HEAD)
    assert caught.value.place.line == 9
