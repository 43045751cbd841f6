"""`work` entries that are cuts and holes; bands; features that break out."""

from __future__ import annotations

import pytest

from scantling.piece.model import (
    Axis,
    BandWork,
    Box,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    GrooveWork,
    HoleWork,
    NotchWork,
    PinRowsWork,
    SlotWork,
)


def _made(bench_of, *work):
    part = bench_of.part("part", (0, 0, 0), (400, 300, 20), grain=Axis.WIDE, work=work)
    return bench_of.machined([part]).by_name["part"]


def test_an_edge_rabbet_is_a_cut_along_each_edge(bench_of):
    edges = (Edge(Face.BOTTOM, Face.FRONT), Edge(Face.LEFT, Face.BOTTOM))
    made = _made(bench_of, EdgeWork(EdgeKind.RABBET, Face.BOTTOM, edges, 6.0, 4.0))
    front, left = (cut.box for cut in made.cuts)
    # source: by hand: 6 in over the bottom, 4 up
    assert (front.low, front.high) == ((0.0, 0.0, 0.0), (400.0, 6.0, 4.0))
    assert (left.low, left.high) == ((0.0, 0.0, 0.0), (6.0, 300.0, 4.0))


def test_profiles_are_left_to_the_geometry(bench_of):
    made = _made(bench_of, EdgeWork(EdgeKind.CHAMFER, Face.TOP, (Edge(Face.TOP, Face.FRONT),), 3.0, 3.0))
    assert not made.cuts


def test_groove_hole_slot_notch_and_pins(bench_of):
    made = _made(
        bench_of,
        GrooveWork(Face.TOP, Axis.WIDE, 100.0, 106.0, 5.0, stop=350.0),
        HoleWork(Face.TOP, (50.0, 50.0, 20.0), 30.0),
        SlotWork(Face.TOP, (200.0, 200.0, 20.0), Axis.DEEP, 40.0, 8.0),
        NotchWork(Box((390.0, 0.0, 0.0), (400.0, 30.0, 20.0))),
        PinRowsWork(Face.TOP, Axis.DEEP, (37.0, 263.0), Axis.WIDE, (100.0, 132.0), 5.0, 10.0),
    )
    groove, slot, notch = made.cuts
    assert (groove.box.low, groove.box.high) == ((0.0, 100.0, 15.0), (350.0, 106.0, 20.0))
    assert slot.box.sizes == (8.0, 40.0, 20.0)
    assert slot.round_ends
    assert notch.face is Face.RIGHT
    hole, *pins = made.holes
    assert hole.through
    assert hole.deep == 20.0
    assert len(pins) == 4
    assert {p.at[2] for p in pins} == {20.0}


def test_a_band_makes_the_core_smaller_and_nothing_else(bench_of):
    made = _made(bench_of, BandWork(Face.FRONT, 1.0, "birch strip"))
    assert made.core_box is not None
    assert made.core_box.sizes == (400.0, 299.0, 20.0)
    assert made.core_box.low[1] == 1.0
    assert made.cut_box == made.part.box


def test_a_core_keeps_what_joints_add(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 280, 700), material=bench_of.ply)
    band = BandWork(Face.FRONT, 1.0, "birch strip")
    shelf = bench_of.part(
        "shelf", (18, 0, 300), (618, 280, 318), material=bench_of.ply, grain=Axis.WIDE, work=(band,)
    )
    made = bench_of.machined([side, shelf], [bench_of.joint(shelf, side, "dado")]).by_name["shelf"]
    assert made.core_box is not None
    assert made.core_box.sizes == pytest.approx((606.0, 279.0, 18.0))  # source: by hand: 600 + 6, 280 - 1


def test_a_hole_that_comes_out_of_a_face_is_reported(bench_of):
    part = bench_of.part(
        "part",
        (0, 0, 0),
        (400, 300, 20),
        grain=Axis.WIDE,
        work=(HoleWork(Face.FRONT, (100.0, 0.0, 4.0), 10.0, 30.0),),
    )
    (notice,) = bench_of.machined([part]).notices
    assert notice.code == "hole breaks out"
    assert notice.number == pytest.approx(1.0)  # source: by hand: 5 - 4


def test_a_hole_the_maker_asks_for_in_a_dowels_way_is_told(bench_of):
    work = (HoleWork(Face.FRONT, (20.0, 0.0, 645.0), 12.0),)
    leg = bench_of.part("leg", (0, 0, 0), (45, 45, 700), work=work)
    rail = bench_of.part("rail", (45, 10, 600), (445, 30, 690))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "dowels")])
    (notice,) = [n for n in made.notices if n.code == "joints clash"]
    assert notice.must
    assert "of the dowels of rail" in notice.message
