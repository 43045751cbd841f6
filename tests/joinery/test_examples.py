"""The ten example pieces: every pair is made, lengths as the language page says, copies mirror."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scantling.joinery import machine_piece
from scantling.piece import read_piece, resolve
from scantling.piece.model import Axis
from scantling.quantity import MM_PER_INCH
from scantling.shop import facts_of, read_shop

FOLDER = Path(__file__).parents[2] / "src" / "scantling" / "examples"
PIECES = sorted(
    path.stem
    for path in FOLDER.glob("*.yaml")
    if path.read_text(encoding="utf-8").lstrip().startswith("piece:")
)
CUT_NOTHING = {"rests", "glue", "glue blocks", "brackets"}


@cache
def machined(name, **choices):
    shop = read_shop(FOLDER / "shops" / "sewing-desk.yaml")
    settings = {words.replace("_", " "): taken for words, taken in choices.items()}
    piece = resolve(read_piece(FOLDER / f"{name}.yaml"), facts_of(shop), settings=settings)
    return machine_piece(piece, shop)


def test_all_ten_are_here():
    assert len(PIECES) >= 10


@pytest.mark.parametrize("name", PIECES)
def test_every_pair_gets_features_or_says_why_not(name):
    made = machined(name)
    bear = {n.parts for n in made.notices if n.code == "bears only"}
    owners = {f.owner for p in made.parts for f in (*p.holes, *p.cuts, *p.additions, *p.shaped)}
    layouts = {layout.joint for layout in made.layouts}
    assert all(layout.text and layout.source for layout in made.layouts)
    for joint in made.piece.joints:
        assert joint.id in layouts
        honest = joint.method in CUT_NOTHING or (joint.first, joint.second) in bear
        assert joint.id in owners or honest, joint.id


@pytest.mark.parametrize("name", PIECES)
def test_nothing_that_stops_a_build(name):
    assert [n.message for n in machined(name).notices if n.must] == []


@pytest.mark.parametrize("name", PIECES)
def test_cut_boxes_hold_the_visible_ones_and_stay_plausible(name):
    for part in machined(name).parts:
        for axis in Axis:
            assert part.cut_box.low[axis] <= part.part.box.low[axis]
            assert part.cut_box.high[axis] >= part.part.box.high[axis]
        taken = sum(cut.box.volume for cut in part.cuts) + sum(
            3.1416 / 4 * hole.diameter**2 * hole.deep for hole in part.holes
        )
        # source: common sense bound: joints take less than half of any part here
        assert taken < 0.5 * part.part.box.volume, part.name


def inches(made, name):
    part = made.by_name[name]
    return part.part.length / MM_PER_INCH, part.overall_length / MM_PER_INCH


def test_hall_bench_rail_is_as_the_language_page_says():
    # source: piece-language 2.7: "37 1/2 between shoulders, 39 1/2 overall"
    assert inches(machined("hall-bench"), "front rail") == pytest.approx((37.5, 39.5))


def _changed(one, other):
    """How many visible sizes and how many cut lengths differ."""
    visible = sum(a.part.box != b.part.box for a, b in zip(one.parts, other.parts, strict=True))
    lengths = [abs(a.overall_length - b.overall_length) for a, b in zip(one.parts, other.parts, strict=True)]
    return visible, sum(length > 1e-6 for length in lengths)


def test_another_corner_moves_no_visible_size():
    mitred, rabbeted = machined("sliding-lid-box"), machined("sliding-lid-box", corners="rabbet")
    # source: piece-language 2.7: "mitre to rabbet changed no visible size and two cut lengths"
    assert _changed(mitred, rabbeted) == (0, 2)
    dovetailed, plain = machined("chest-of-drawers"), machined("chest-of-drawers", drawer_corners="rabbet")
    # source: piece-language 2.7: "dovetails to rabbets in a chest, twelve cut lengths"
    assert _changed(dovetailed, plain) == (0, 12)


def test_a_framed_panel_is_cut_5_16_larger_a_side():
    panel = machined("wall-cabinet").by_name["door panel"]
    # source: piece-language hard case 23: deep 3/8, gap 1/16 -> cut + 5/16 a side
    assert panel.cut_box.size(Axis.WIDE) - panel.part.size(Axis.WIDE) == pytest.approx(0.625 * MM_PER_INCH)
    assert panel.cut_box.size(Axis.HIGH) - panel.part.size(Axis.HIGH) == pytest.approx(0.625 * MM_PER_INCH)


def test_bookcase_shelf_grows_by_its_dados():
    shelf = machined("bookcase").by_name["middle shelf"]
    assert shelf.overall_length - shelf.part.length == pytest.approx(12.0)  # source: by hand: 6 a side


def test_the_lid_groove_of_the_box_runs_out_at_the_open_end():
    side = machined("sliding-lid-box").by_name["front side"]
    lid = next(c for c in side.cuts if c.owner.startswith("lid "))
    assert lid.box.high[Axis.WIDE] == pytest.approx(
        side.part.box.high[Axis.WIDE]
    )  # source: language page (j)


def test_the_box_ends_are_lengthened_to_the_outer_corner():
    # source: by hand: 7 between the sides and 1/2 at each end
    assert inches(machined("sliding-lid-box"), "closed end") == pytest.approx((7.0, 8.0))


def _worked(made, name, about=None):
    """Joint-owned holes and cuts of a part; with `about`, mirrored about that place across the width."""

    def tenths(x):
        return round(x + 0.0123, 1)  # off the round numbers, so that no tie falls either way

    def wide(x):
        return x if about is None else 2 * about - x

    sign = 1 if about is None else -1
    part, joints = made.by_name[name], {joint.id for joint in made.piece.joints}
    found = set()
    for hole in (h for h in part.holes if h.owner in joints):
        at = (wide(hole.at[0]), *hole.at[1:])
        direction = (sign * hole.direction[0], *hole.direction[1:])
        found.add((hole.purpose, *(tenths(x) for x in (*at, *direction, hole.deep, hole.diameter))))
    for cut in (c for c in part.cuts if c.owner in joints):
        ends = sorted((wide(cut.box.low[0]), wide(cut.box.high[0])))
        found.add((cut.kind, *(tenths(x) for x in (*ends, *cut.box.low[1:], *cut.box.high[1:]))))
    return found


@pytest.mark.parametrize("name", PIECES)
def test_left_and_right_copies_are_mirror_images(name):
    made = machined(name)
    for part in made.parts:
        other = part.name.replace("left", "right")
        if "left" not in part.part.copy_words or other not in made.by_name:
            continue
        middle = (part.part.box.low[0] + made.by_name[other].part.box.high[0]) / 2
        assert _worked(made, part.name, middle) == _worked(made, other), part.name
