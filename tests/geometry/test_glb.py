"""GLB files, read by another library and by the letter of the format."""

from __future__ import annotations

import io
import json
import struct

import numpy as np
import pytest
import trimesh

from scantling.geometry import glb, scene_of
from scantling.joinery.features import Hole
from scantling.piece.model import Movement, Placement, Swing


def document(data):
    magic, version, size = struct.unpack("<III", data[:12])
    long, kind = struct.unpack("<II", data[12:20])
    assert (magic, version, size, kind) == (0x46546C67, 2, len(data), 0x4E4F534A)
    return json.loads(data[20 : 20 + long])


def test_every_part_is_a_named_node(desk):
    """Nine nodes under one root, in metres with up as y, volumes as they were."""
    # source: independent; trimesh's reader
    scene = scene_of(desk)
    loaded = trimesh.load(io.BytesIO(glb(scene)), file_type="glb")
    assert set(loaded.graph.nodes_geometry) == set(scene.solids)
    assert loaded.bounds == pytest.approx(np.array([[-0.02, 0, -0.46], [1.02, 0.74, 0.02]]), abs=1e-6)
    for name, solid in scene.solids.items():
        mesh = loaded.geometry[loaded.graph[name][1]].copy()
        mesh.merge_vertices(merge_norm=True)
        assert mesh.is_watertight
        assert mesh.volume == pytest.approx(solid.volume, rel=1e-5)


def test_names_colours_and_movements(desk, by_hand):
    """Shown names on the nodes, part names in extras; a swing with its line in the piece's frame."""
    # source: by hand; sRGB 255, 0, 0 is linear 1, 0, 0
    lid = Movement("lid", frozenset({"top"}), Swing((0, 460, 740), (-1.0, 0, 0), 95), by_hand.place)
    data = glb(scene_of(desk), names={"top": "Lid"}, colours={"top": (255, 0, 0)}, movements=[lid])
    found = document(data)
    node = next(n for n in found["nodes"] if n["name"] == "Lid")
    assert node["extras"] == {"part": "top"}
    material = found["meshes"][node["mesh"]]["primitives"][0]["material"]
    assert found["materials"][material]["pbrMetallicRoughness"]["baseColorFactor"] == [1, 0, 0, 1]
    (movement,) = found["nodes"][0]["extras"]["movements"]
    assert (movement["kind"], movement["angle"], movement["moves"]) == ("swing", 95, ["Lid"])


def test_turned_part_and_holes(by_hand):
    """A part stands turned; its holes are left out until asked for; normals are units."""
    # source: by hand; (x, y) -> (-y, x)
    quarter = Placement(((0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
    part = by_hand.part(
        "a",
        (0, 0, 0),
        (100, 40, 20),
        placement=quarter,
        features={"holes": (Hole((50, 20, 20), (0, 0, -1), 10, 5, "cup", "j"),)},
    )
    scene = scene_of(by_hand.piece(part))
    loaded = trimesh.load(io.BytesIO(glb(scene)), file_type="glb")
    assert loaded.bounds == pytest.approx(np.array([[-0.04, 0, -0.1], [0, 0.02, 0]]), abs=1e-7)
    assert len(glb(scene, holes=True)) > len(glb(scene))
    assert glb(scene) == glb(scene)
    normals = next(iter(loaded.geometry.values())).vertex_normals
    assert np.linalg.norm(normals, axis=1) == pytest.approx(1)
