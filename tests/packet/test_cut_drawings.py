"""Cut drawings: nothing written covers anything else, and the grain is always shown."""

import re
from dataclasses import replace

import pytest

from scantling.packet.canvas import Canvas
from scantling.packet.context import context_of
from scantling.packet.cut_labels import Leaf, draw_grain, write_label
from scantling.packet.cut_sheets import cut_sheets
from scantling.packet.places import Patch, Taken
from scantling.packet.scales import rounded_scale, snug_scale


def test_patches_that_share_an_edge_are_clear():
    # source: by hand; two 2 x 2 squares whose middles are 2 apart touch along an edge
    first = Patch((0, 0), (2, 2))
    assert first.clear_of(Patch((2, 0), (2, 2)))
    assert not first.clear_of(Patch((1.9, 1.0), (2, 2)))


def test_a_label_moves_off_a_taken_place():
    # source: by hand; the middle of an 80 x 8 leaf is taken, so the label lies beside it
    taken = Taken([Patch((40, 4), (10, 8))])
    write_label(Canvas(80, 8), taken, Leaf((0, 0), (80, 8)), "7", "16 × 2", halo=False)
    assert len(taken.patches) == 2
    assert taken.patches[1].clear_of(taken.patches[0])


def test_a_label_that_fits_nowhere_is_left_out():
    # source: by hand; no lettering of 2.6 mm fits into a strip of 1 mm
    canvas, taken = Canvas(80, 1), Taken()
    write_label(canvas, taken, Leaf((0, 0), (80, 1)), "7", "16 × 2", halo=False)
    assert "<text" not in canvas.svg("strip")


def test_a_label_stands_upright_on_a_narrow_piece():
    # source: by hand; "8 (1 of 2)" is wider than 8 mm and shorter than 60 mm
    canvas = Canvas(8, 60)
    write_label(canvas, Taken(), Leaf((0, 0), (8, 60)), "8 (1 of 2)", "43 × 6", halo=False)
    assert "rotate(-90" in canvas.svg("narrow")


@pytest.mark.parametrize("high", [6.0, 20.0])
def test_the_grain_arrow_keeps_off_the_label(high):
    # source: by hand; both must stand, apart, inside the leaf
    leaf, taken = Leaf((0, 0), (90, high)), Taken()
    write_label(Canvas(90, high), taken, leaf, "12L", "16 1/2 × 2 3/4", halo=False)
    draw_grain(Canvas(90, high), taken, leaf, turned=False)
    label, arrow = taken.patches
    assert label.clear_of(arrow)
    assert leaf.holds(label)
    assert leaf.holds(arrow)


@pytest.mark.parametrize(("need", "scale"), [(0.4, 1.0), (6.2, 6.5), (10.0, 10.0), (13.1, 14.0)])
def test_rounded_scales(need, scale):
    # source: by hand; halves up to 10, then whole numbers, never enlarged
    assert rounded_scale(need) == scale
    assert snug_scale(need * 100, 1, (100, 100)) == scale


def test_no_badge_covers_a_label(bench_data):
    # source: by hand; a circle's middle must be farther from a label's middle than the circle's radius
    for sheet in bench_data["cutting"]["layouts"]:
        circles = [
            (float(x), float(y)) for x, y in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)"', sheet["svg"])
        ]
        labels = re.findall(r'<text x="([\d.]+)" y="([\d.]+)" font-size="4.4"', sheet["svg"])
        for x, y in labels:
            assert all(abs(float(x) - cx) > 2.2 or abs(float(y) - 1.5 - cy) > 2.2 for cx, cy in circles)


def test_stocks_cut_alike_share_an_entry(bench):
    # source: by hand; the same board three times over is one drawing, said to be for three
    plan = bench.cut_plan
    first = plan.layouts[0]
    more = tuple(replace(first, stock=f"{first.stock}#{count}") for count in (2, 3))
    tripled = replace(bench, cut_plan=replace(plan, layouts=(*plan.layouts, *more)))
    sheets = cut_sheets(context_of(tripled, None))
    assert len(sheets) == len(plan.layouts)
    assert sheets[0]["title"].startswith(f"3 × Board {first.stock}:")
    assert sheets[0]["facts"].endswith(" each")
