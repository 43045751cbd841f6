# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Joint lines to pairs, methods, settings, and contacts that differ from what is said."""

import pytest

from scantling.errors import ResolveError
from scantling.piece.facts import ShopFacts
from scantling.piece.model import Face, Glue

FRAME = """parts:
  leg: {wide: 2 inward from left, deep: 2 inward from front, high: bottom to top, copies: four corners}
  front rail: {wide: between left front leg and right front leg, deep: thick back from front, high: 4 down from top}
  back rail: {wide: between left back leg and right back leg, deep: thick forward from back, high: 4 down from top}
  end rail: {wide: thick inward from left, deep: between front leg and back leg, high: 4 down from top, grain: deep, copies: left and right}
joints:
"""


def pairs(piece):
    return {(j.first, j.second): j for j in piece.joints}


def test_every_touching_pair(small):
    piece = small(FRAME + "  - {join: every rail, to: leg, with: tenon, deep: 1}\n")
    # source: by hand; four rails with two legs each
    assert len(piece.joints) == 8
    joint = pairs(piece)["front rail", "left front leg"]
    assert (joint.first_face, joint.second_face) == (Face.LEFT, Face.RIGHT)
    assert joint.settings.deep == 25.4
    # source: by hand; the rail's end: flat, 3/4 deep x 4 high
    assert [round(s / 25.4, 6) for s in joint.area.sizes] == [0, 0.75, 4]


def test_a_later_line_wins(small):
    first = FRAME + "  - {join: every rail, to: leg, with: tenon}\n"
    piece = small(first + "  - {join: front rail, to: left front leg, with: dowels}\n")
    methods = [j.method for j in piece.joints]
    assert sorted(methods) == ["dowels"] + ["tenon"] * 7
    assert pairs(piece)["front rail", "left front leg"].line == 2


def test_only_one_side(small):
    piece = small(FRAME + "  - {join: every rail, to: leg, with: tenon, only: left}\n")
    # source: by hand; both ends of the left end rail, and the left end of the two long ones
    assert len(piece.joints) == 4


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("{join: every rail, to: leg, with: tenn}", r'no joint is called "tenn" \(nearest: "tenon"\)'),
        ("{join: every rial, to: leg, with: tenon}", 'no part is called "every rial"'),
        ("{join: front rail, to: leg}", "nothing says how they are joined"),
        ("{join: front rail, to: leg, wants: [strng]}", r'no quality of a joint \(nearest: "strong"\)'),
        ("{join: front rail, to: leg, with: tenon, glue: front}", "how much at the front"),
        ("{join: front rail, to: leg, with: tenon, count: 1 1/2}", "a count is a whole number"),
        ("{join: front rail, to: leg, with: dovetails, tails on: end rail}", "neither of the two"),
    ],
)
def test_wrong_lines(small, line, says):
    with pytest.raises(ResolveError, match=says) as caught:
        small(FRAME + f"  - {line}\n")
    assert caught.value.place.line == 11


def test_settings(small):
    line = "{join: front rail, to: leg, with: screws, size: 8 x 2 1/2, count: 2, every: 3, glue: top 3, gap: 1/16, stand off: 1/8, fixed at: front}"
    settings = pairs(small(FRAME + f"  - {line}\n"))["front rail", "left front leg"].settings
    assert settings.size == (8.0, 63.5)
    assert settings.gauge
    assert settings.count == 2
    assert settings.glue == Glue("part", "top", pytest.approx(76.2))
    assert (settings.gap, settings.stand_off, settings.fixed_at) == (25.4 / 16, 3.175, "front")


def test_a_diameter_is_no_gauge(small):
    line = "{join: front rail, to: leg, with: dowels, size: 3/8 x 2}"
    settings = pairs(small(FRAME + f"  - {line}\n"))["front rail", "left front leg"].settings
    assert settings.size == (9.525, 50.8)
    assert not settings.gauge


def test_what_is_wanted_ranks_the_methods(small):
    line = "{join: front rail, to: leg, wants: [strong, hidden]}"
    text = FRAME + f"  - {line}\n"
    assert small(text).joints[0].method == "tenon"
    facts = ShopFacts(methods=("pocket screws", "dowels", "loose tenon"))
    joint = small(text, facts).joints[0]
    assert joint.method == "dowels"
    assert joint.wants == ("strong", "hidden")


def test_a_line_that_joins_nothing(small):
    text = FRAME.replace("deep: thick back from front", "deep: thick back from front", 1)
    text = text.replace("between left front leg and right front leg", "right of left front leg + 1/8 to 20")
    piece = small(text + "  - {join: front rail, to: leg, with: tenon}\n")
    lost = [n for n in piece.notices if n.code == "lost contact"]
    assert len(lost) == 2
    assert all(n.must for n in lost)
    assert "front rail does not touch leg" in lost[0].message


def test_overlap_wants_a_notch(small):
    parts = """parts:
  floor piece: {wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}
  post: {wide: 1 right from left, deep: 1 back from front, high: bottom to top}
"""
    overlaps = [n for n in small(parts).notices if n.code == "unexplained overlap"]
    # source: by hand; 3/4 into each other
    assert [(n.parts, round(n.number / 25.4, 4), n.must) for n in overlaps] == [
        (("floor piece", "post"), 0.75, True)
    ]
    piece = small(parts + "joints: [{join: floor piece, to: post, with: notch, gap: 1/16}]\n")
    assert piece.notices == ()
    # source: by hand; the common box is 1 x 1 x 3/4
    assert [round(s / 25.4, 4) for s in piece.joints[0].area.sizes] == [1, 1, 0.75]


def test_of_overlaps_that_are_alike_the_first_two_dozen_are_told(small):
    """Thirty bars through a board; one through it with its own name beside."""
    text = """parts:
  board: {wide: left to right, deep: thick back from front, high: bottom to top, grain: high}
  bar: {wide: 1/4 right from left, deep: front to back, high: 1/2 up from bottom, copies: {row: right, count: 30, every: 3/4}}
  other: {wide: 1/4 right from left, deep: front to back, high: 1/2 up from bottom + 4}
"""
    told = [n.parts for n in small(text).notices if n.code == "unexplained overlap"]
    # source: by hand; the first 24 bars, and the other
    assert told == [*(("board", f"bar {n}") for n in range(1, 25)), ("board", "other")]


def test_touch_without_joint_once_for_copies_of_a_pair(small):
    text = FRAME + "  - {join: every rail, to: leg, with: tenon}\n"
    assert small(text).notices == ()
    loose = small(FRAME.replace("joints:\n", "")).notices
    # source: by hand; four legs against three kinds of rail, whichever copies they are
    assert [n.code for n in loose] == ["touch without joint"] * 3
    assert loose[0].remedy == "add `{join: front rail, to: leg, with: ...}`, or `with: rests`"


def test_wall_and_floor(small):
    text = """parts:
  cleat: {wide: left to right, deep: thick forward from back, high: 3 down from top}
  post: {wide: 1 right from left, deep: 1 back from front, high: bottom to 9}
joints:
  - {join: cleat, to: wall, with: screws}
  - {join: post, to: floor, with: screws}
"""
    found = pairs(small(text))
    assert found["cleat", "wall"].first_face is Face.BACK
    assert found["post", "floor"].first_face is Face.BOTTOM


def test_a_using_file_overrules_a_kit(small):
    text = """spaces: {place: {wide: left to right, deep: front to back, high: 8 up from bottom}}
parts: {drawer: {kit: drawer, in: place, box: wood, front: wood}}
joints: [{join: drawer side, to: drawer front, with: finger joint}]
"""
    found = pairs(small(text))
    assert found["drawer left side", "drawer front"].method == "finger joint"
    assert found["drawer bottom", "drawer front"].method == "groove"
    assert found["drawer bottom", "drawer front"].settings.deep == 6.35


def test_method_by_choice(small):
    text = (
        "choices: {rail joint: tenon or dowels}\n"
        + FRAME
        + "  - {join: every rail, to: leg, with: rail joint}\n"
    )
    assert {j.method for j in small(text).joints} == {"tenon"}
    assert {j.method for j in small(text, rail_joint="dowels").joints} == {"dowels"}


def test_solid_or_sheet_steers_the_joints(small):
    head = "piece: p\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: walnut plywood 3/4 or walnut 3/4}\n"
    text = (
        FRAME
        + "  - {join: every rail, to: leg, with: dowels, when: wood is sheet}\n  - {join: every rail, to: leg, with: tenon, when: wood is solid}\n"
    )
    piece = small(text, head=head)
    assert {j.method for j in piece.joints} == {"dowels"}
    assert piece.materials[0].alternatives == ("walnut plywood 3/4", "walnut 3/4")
    assert {j.method for j in small(text, head=head, wood="walnut 3/4").joints} == {"tenon"}


def test_mm_screws_are_by_diameter(small):
    head = "piece: p\nunits: mm\noverall: {wide: 600, deep: 300, high: 700}\nmaterials: {wood: cherry 19}\n"
    text = "parts:\n  a: {wide: left to right, deep: thick back from front, high: 90 down from top}\n  b: {wide: 40 right from left, deep: back of a to back, high: 90 down from top}\njoints: [{join: a, to: b, with: screws, size: 4 x 40}]\n"
    settings = small(text, head=head).joints[0].settings
    assert settings.size == (4.0, 40.0)
    assert not settings.gauge


def test_a_wall_of_many_is_no_wall_of_the_room(small):
    text = """parts:
  wall: {wide: thick right from left + 4, deep: front to back, high: bottom to top, grain: high, copies: {row: right, count: 2, every: 8}}
  shelf: {wide: between wall 1 and wall 2, deep: front to back, high: thick up from 9, grain: deep}
joints: [{join: shelf, to: wall, with: dado}]
"""
    assert [j.second for j in small(text).joints] == ["wall 1", "wall 2"]
    one = text.replace(", copies: {row: right, count: 2, every: 8}", "").replace(
        "between wall 1 and wall 2", "right of wall to right"
    )
    with pytest.raises(ResolveError, match="cannot be called"):
        small(one)


def test_a_notch_wants_an_overlap(small):
    piece = small(FRAME + "  - {join: front rail, to: leg, with: notch}\n")
    lost = [n for n in piece.notices if n.code == "lost contact"]
    assert "front rail does not run into leg" in lost[0].message
    assert "drawn as an overlap" in lost[0].remedy
