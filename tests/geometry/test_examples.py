"""The ten example pieces as solids: whole, apart, free to move, and agreed on by a second kernel."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from scantling.geometry import first_hit, glb, mass_of, overlaps, scene_of
from scantling.joinery import machine_piece
from scantling.piece import read_piece, resolve
from scantling.shop import default_shop, facts_of

EXAMPLES = Path(__file__).parents[2] / "src" / "scantling" / "examples"
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


def scene_named(name):
    shop = default_shop()
    return scene_of(machine_piece(resolve(read_piece(EXAMPLES / f"{name}.yaml"), facts_of(shop)), shop))


@pytest.mark.parametrize("name", PIECES)
def test_every_part_is_one_solid_and_none_are_in_each_other(name):
    """What joints take from one part and give to the other agrees; each part is a single block of wood."""
    # source: exact; joints fit
    scene = scene_named(name)
    assert {part for part, solid in scene.solids.items() if len(solid.body.solid.decompose()) != 1} == set()
    assert overlaps(scene) == ()
    assert 0.5 < mass_of(scene).total < 120
    assert len(glb(scene)) > 1000


@pytest.mark.parametrize("name", [name for name in PIECES if name not in ("bookcase", "round-table")])
def test_movements_are_free_from_rest(name):
    """Lids, doors, trays and drawers reach their ends with nothing of the piece in the way."""
    # source: exact; as designed
    scene = scene_named(name)
    assert {m.name: first_hit(scene, m) for m in scene.piece.movements} == {
        m.name: None for m in scene.piece.movements
    }


@pytest.mark.skipif(importlib.util.find_spec("OCP") is None, reason="the extra `step` is not installed")
@pytest.mark.parametrize("name", ["sliding-lid-box", "wall-cabinet", "hall-bench"])
def test_volumes_agree_with_ocp(name):
    # source: independent; OCP 8 mass properties of the same recipes with true arcs; slanting pocket holes,
    # whose mouths are open at one side, differ most
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    from scantling.geometry.exact import exact_solid

    for part, solid in scene_named(name).solids.items():
        found = GProp_GProps()
        BRepGProp.VolumeProperties_s(exact_solid(solid.body.recipe), found)
        assert solid.volume == pytest.approx(found.Mass(), rel=3e-6), part
