"""What joints take and add, checked against solids: no two parts of an example run into each other."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import sqrt
from pathlib import Path

import pytest

from scantling.geometry import overlaps, scene_of
from scantling.joinery import machine_piece
from scantling.piece import read_piece, resolve
from scantling.piece.model import Face, Lean, Placement, Section, Shape, Taper
from scantling.shop import facts_of, read_shop

FOLDER = Path(__file__).parents[2] / "src" / "scantling" / "examples"
PIECES = [
    "bed-with-slats",
    "bookcase",
    "chest-of-drawers",
    "four-legged-stool",
    "hall-bench",
    "round-table",
    "sewing-desk",
    "sliding-lid-box",
    "wall-cabinet",
    "wall-shelf",
]


@cache
def shop():
    return read_shop(FOLDER / "shops" / "sewing-desk.yaml")


@pytest.mark.parametrize("name", PIECES)
def test_parts_of_an_example_do_not_overlap(name):
    piece = resolve(read_piece(FOLDER / f"{name}.yaml"), facts_of(shop()))
    scene = scene_of(machine_piece(piece, shop()))
    found = overlaps(scene)
    # source: independent: solids of the geometry folder, built from these features
    assert [(o.first, o.second, round(o.volume)) for o in found] == []
    for part in (p for p in piece.parts if p.shape.outline is None):
        left = scene.solids[part.name].volume / part.box.volume
        assert left > 0.4, part.name  # a sanity bound: no cut eats a part


METHODS = {
    "dovetails": {},
    "dovetails with the tails on the second": {"tails_on": "front"},
    "half-blind dovetails": {},
    "finger joint": {},
    "mitre": {},
    "splined mitre": {},
    "rabbet": {},
    "dowels": {},
}


@pytest.mark.parametrize("name", METHODS)
def test_a_corner_of_two_boards_fills_without_overlap(bench_of, name):
    front = bench_of.part("front", (0, 0, 0), (400, 20, 100))
    side = bench_of.part("side", (0, 20, 0), (20, 300, 100), grain=1)
    method = name.split(" with ")[0]
    scene = scene_of(bench_of.machined([front, side], [bench_of.joint(side, front, method, **METHODS[name])]))
    assert overlaps(scene) == ()
    whole = sum(solid.volume for solid in scene.solids.values())
    boxes = (400 * 20 + 280 * 20) * 100
    # source: exact: what one part loses to the other it gains; bored dowel holes and the slot are lost
    if method in ("dowels", "splined mitre"):
        assert whole < boxes
    else:
        assert whole == pytest.approx(boxes, rel=2e-3)


def _tapered(bench_of):
    taper = Taper(Face.BOTTOM, 30.0, 600.0, frozenset({Face.RIGHT}))
    leg = bench_of.part("leg", (0, 0, 0), (60, 60, 700), shape=Shape(taper=taper))
    return leg, bench_of.part("rail", (45, 20, 270), (445, 40, 330))


def _leaning(bench_of):
    """One way by atan(1/7); the right face at 350 high is 40 - 50 from the top's, on the slope."""
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700), shape=Shape(lean=Lean(Face.BOTTOM, (-100.0, 0.0))))
    face = 20 - 50 + 20 * sqrt(1 + 1 / 49)
    return leg, bench_of.part("rail", (face, 10, 330), (face + 400, 30, 370))


def _round(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700), shape=Shape(section=Section.ROUND))
    return leg, bench_of.part("rail", (40, 10, 300), (400, 30, 340))


def _turned(bench_of):
    half = sqrt(0.5)
    turn = ((half, -half, 0.0), (half, half, 0.0), (0.0, 0.0, 1.0))
    column = bench_of.part("leg", (-50, -50, 0), (50, 50, 500))
    return column, bench_of.part("rail", (71, -20, 50), (350, 20, 170), grain=0, placement=Placement(turn))


@pytest.mark.parametrize("method", ["tenon", "dowels", "dado"])
@pytest.mark.parametrize("build", [_tapered, _leaning, _round, _turned])
def test_ends_on_shaped_parts_fit(bench_of, build, method):
    leg, rail = build(bench_of)
    joint = replace(bench_of.joint(rail, leg, method, face=Face.LEFT), area=None)
    if build is _turned:
        joint = replace(joint, second_face=None)
    scene = scene_of(bench_of.machined([leg, rail], [joint]))
    # source: independent: solids built from trims, copes, tenons and mortises; 2 mm³ of facets is nothing
    assert [o for o in overlaps(scene) if o.volume > 2.0] == []
    assert scene.solids["rail"].volume > 0.9 * rail.box.volume
