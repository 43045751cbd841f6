"""What joints take and add, checked against solids: no two parts of an example run into each other."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scantling.geometry import overlaps, scene_of
from scantling.joinery import machine_piece
from scantling.piece import read_piece, resolve
from scantling.shop import facts_of, read_shop

FOLDER = Path(__file__).parents[2] / "examples"
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
