# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Measured parts: what is pinned, what follows, and the mends of a gap."""

import pytest

from scantling.errors import ResolveError
from scantling.piece import read_record_text
from scantling.piece.model import Axis

FRAME = """parts:
  leg: {wide: 2 inward from left, deep: 2 inward from front, high: bottom to top, copies: four corners}
  front rail: {wide: between left front leg and right front leg, deep: thick back from front, high: 4 down from top}
  back rail: {wide: between left back leg and right back leg, deep: thick forward from back, high: 4 down from top}
  end rail: {wide: thick inward from outside of leg, deep: between front leg and back leg, high: 4 down from top, grain: deep, copies: left and right}
joints: [{join: every rail, to: leg, with: tenon}]
"""


def record(lines):
    return read_record_text(f"build: the first one\n{lines}\n", "first.build.yaml")


def changed(before, after):
    return {b.name for a, b in zip(before.parts, after.parts, strict=True) if a.box != b.box}


def test_one_thin_leg_lengthens_one_rail(small, inches):
    # source: by hand; the left front leg 1/16 thin lengthens the front rail by 1/16 and nothing else
    before = small(FRAME)
    after = small(FRAME, record=record("left front leg: {wide: 1 15/16, cut: done}"))
    assert changed(before, after) == {"left front leg", "front rail"}
    assert inches(after.part("front rail").length) == (20.0625,)
    assert after.part("left front leg").fixed
    assert not after.part("front rail").fixed
    assert [n.code for n in after.notices] == ["as built"]


def test_the_other_hand_follows_its_own_neighbours(small, inches):
    # source: by hand; the right front leg 1/8 thin in depth keeps its front face: only the right end rail grows
    after = small(FRAME, record=record("right front leg: {deep: 1 7/8}"))
    assert changed(small(FRAME), after) == {"right front leg", "right end rail"}
    assert inches(after.part("right end rail").length) == (8.125,)


def test_a_leg_keeps_the_face_its_phrase_names_first(small, inches):
    after = small(FRAME, record=record("right back leg: {wide: 1 3/4}"))
    # source: by hand; measured inward from the right, so its right face stays at 24
    assert inches(after.part("right back leg").box.high[0]) == (24.0,)
    assert inches(after.part("back rail").length) == (20.25,)


def test_a_short_rail_leaves_a_gap_with_three_mends(small):
    piece = small(FRAME, record=record("front rail: {wide: 19 7/8, cut: done}"))
    gap = next(n for n in piece.notices if n.code == "gap left by a fixed part")
    assert gap.parts == ("front rail", "right front leg")
    assert round(gap.number / 25.4, 4) == 0.125
    assert gap.must
    # its joint stands, so that its tenon is not forgotten
    assert len(piece.joints) == 8
    assert not [n for n in piece.notices if n.code == "lost contact"]
    # source: by hand; 24 - 1/8
    assert gap.remedy == "recut it, pad its right by 1/8 in (3.2 mm), or make overall wide 23 7/8"


def test_the_mend_closes_the_gap(small):
    text = record("front rail: {wide: 19 7/8, cut: done}")
    codes = [n.code for n in small(FRAME, record=text, overall_wide="23 7/8").notices]
    assert codes == []


SHELF = """parts:
  side: {wide: thick inward from left, deep: front to back, high: bottom to top, copies: left and right}
  bottom: {wide: between left side and right side, deep: front to back, high: thick up from 3}
joints: [{join: bottom, to: side, with: dado}]
"""


@pytest.mark.parametrize(
    ("bottom", "mend"),
    [
        # source: by hand; 11/16 side + 22 3/16 bottom + 3/4 side = 23 5/8
        ("22 3/16", "23 5/8"),
        # source: by hand; 17.4625 + 565 + 19.05 mm = 601.5125 mm, no fraction of an inch
        ("565 mm", "601.51 mm"),
    ],
)
def test_the_mend_reckons_with_every_measured_part(small, bottom, mend):
    text = record(f"left side: {{wide: 11/16, cut: done}}\nbottom: {{wide: {bottom}, cut: done}}")
    gap = next(n for n in small(SHELF, record=text).notices if n.must)
    assert gap.parts == ("bottom", "right side")
    assert gap.remedy.endswith(f", or make overall wide {mend}")
    # a thin side and a short bottom, and yet nothing is open any more
    assert [n.code for n in small(SHELF, record=text, overall_wide=mend).notices if n.must] == []


def test_a_long_rail_runs_into_its_leg(small):
    piece = small(FRAME, record=record("front rail: {wide: 20 1/8, cut: done}"))
    gap = next(n for n in piece.notices if n.code == "gap left by a fixed part")
    assert round(gap.number / 25.4, 4) == -0.125
    assert "take 1/8 in (3.2 mm) off it" in gap.remedy


def test_what_stands_in_the_middle_stays_there(small, inches):
    text = "parts: {a: {wide: 4 centred on middle, deep: front to back, high: bottom to top}}\n"
    part = small(text, record=record("a: {wide: 3}")).part("a")
    assert inches(part.box.low[Axis.WIDE], part.box.high[Axis.WIDE]) == (10.5, 13.5)


def test_the_bed_of_the_examples(example):
    from pathlib import Path

    from scantling.piece import read_record

    folder = Path(__file__).parents[3] / "src" / "scantling" / "examples"
    piece = example("bed-with-slats", record=read_record(folder / "bed-first-one.build.yaml"))
    gap = next(n for n in piece.notices if n.code == "gap left by a fixed part")
    # source: by hand; side rails 86 - 2 x 2 3/4 = 80 1/2, cut 80 3/8: the whole must be 85 7/8 deep
    assert gap.parts == ("left side rail", "left head post")
    assert gap.remedy.endswith("or make overall deep 85 7/8")


def test_a_record_of_another_piece(small):
    with pytest.raises(ResolveError, match='no part is called "lid"'):
        small(FRAME, record=record("lid: {wide: 3}"))
    with pytest.raises(ResolveError, match=r'which "leg"\? there are 4'):
        small(FRAME, record=record("leg: {wide: 3}"))


MM_SHELF = (
    "piece: small\nunits: mm\noverall: {wide: 600, deep: 300, high: 760}\nmaterials: {wood: cherry 19}\n"
)


@pytest.mark.parametrize(
    ("line", "size"),
    [
        # source: by hand; bare numbers in the piece's unit, others in their own
        ("bottom: {wide: 560}", 560),
        ("bottom: {wide: 22 in}", 558.8),
        ("units: inches\nbottom: {wide: 22}", 558.8),
    ],
)
def test_a_record_without_units_is_in_those_of_its_piece(small, line, size):
    piece = small(SHELF.replace("up from 3", "up from 80"), record=record(line), head=MM_SHELF)
    assert piece.part("bottom").box.size(Axis.WIDE) == pytest.approx(size)


def test_a_size_far_from_the_plan_is_a_slip(small):
    # source: by hand; planned 600 - 2 x 19 = 562
    text = SHELF.replace("up from 3", "up from 80")
    with pytest.raises(ResolveError) as caught:
        small(text, record=record("bottom: {wide: 560 in}"), head=MM_SHELF)
    assert str(caught.value) == (
        "first.build.yaml:2:1: bottom is 14224 mm (560 in) wide here, but 562 mm (22 1/8 in) in the plan "
        "(say the unit, as in `29 mm`, or look for a slip)"
    )
