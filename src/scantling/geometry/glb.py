"""The scene as binary glTF 2.0 (Khronos): one named node a part, in millimetres under one root.

The root node turns the piece's frame (high = z, mm) into glTF's (up = y, metres).
"""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from scantling.geometry.body import placed
from scantling.geometry.drawing import Colour
from scantling.geometry.kernel import Array
from scantling.geometry.mesh import Mesh
from scantling.geometry.poses import carried_by
from scantling.geometry.scene import Scene
from scantling.geometry.tones import tone_named, wood_tone
from scantling.piece.model import Movement, PartName, Swing

FLOAT, WHOLE = 5126, 5125  # glTF component types
VERTICES, INDICES = 34962, 34963  # glTF buffer view targets
UPRIGHT = [-(2**-0.5), 0.0, 0.0, 2**-0.5]  # a quarter turn that brings z up to y
METRE = 0.001


def glb(
    scene: Scene,
    names: Mapping[PartName, str] | None = None,
    colours: Mapping[PartName, Colour | str] | None = None,
    movements: Sequence[Movement] | None = None,
    holes: bool = False,
) -> bytes:
    """A GLB file. `names` shown for parts (their own if not given), `colours` instead of their wood's.

    `movements` are described in the root's `extras`, in mm and degrees of the piece's frame, with
    the node names of all they take along, for a viewer to play: what rides on another movement is
    moved by its own first, then by its carrier's.
    """
    writer = _Writer()
    for part, solid in scene.solids.items():
        mesh = solid.body.mesh if holes else solid.body.plain_mesh
        given = colours.get(part) if colours else None
        colour = wood_tone(scene.piece.part(part)) if given is None else tone_named(given)
        verts, turn = placed(solid.placement, mesh.verts), np.array(solid.placement.turn)
        writer.add(names.get(part, part) if names else part, part, mesh, verts, turn, colour)
    return writer.finished(scene.piece.name, [_described(scene, m, names or {}) for m in movements or ()])


class _Writer:
    """Gathers nodes, accessors and their bytes."""

    def __init__(self) -> None:
        self.blob = bytearray()
        self.views: list[dict[str, Any]] = []
        self.accessors: list[dict[str, Any]] = []
        self.nodes: list[dict[str, Any]] = []
        self.meshes: list[dict[str, Any]] = []
        self.materials: dict[Colour, int] = {}

    def add(self, shown: str, part: PartName, mesh: Mesh, verts: Array, turn: Array, colour: Colour) -> None:
        """One part as a node with its own mesh; corners are flat, so each face has its own vertices."""
        points, normals, tris = _flat_corners(mesh, verts, turn)
        material = self.materials.setdefault(colour, len(self.materials))
        primitive = {
            "attributes": {
                "POSITION": self._accessor(points, "VEC3", bounds=True),
                "NORMAL": self._accessor(normals, "VEC3"),
            },
            "indices": self._accessor(tris, "SCALAR"),
            "material": material,
        }
        self.nodes.append({"name": shown, "mesh": len(self.meshes), "extras": {"part": part}})
        self.meshes.append({"name": shown, "primitives": [primitive]})

    def _accessor(self, values: np.ndarray[Any, Any], kind: str, bounds: bool = False) -> int:
        whole = values.dtype == np.uint32
        data = values.tobytes()
        target = INDICES if whole else VERTICES
        view = {"buffer": 0, "byteOffset": len(self.blob), "byteLength": len(data), "target": target}
        accessor: dict[str, Any] = {
            "bufferView": len(self.views),
            "componentType": WHOLE if whole else FLOAT,
            "count": len(values),
            "type": kind,
        }
        if bounds:
            accessor |= {"min": values.min(0).tolist(), "max": values.max(0).tolist()}
        self.blob += data
        self.views.append(view)
        self.accessors.append(accessor)
        return len(self.accessors) - 1

    def finished(self, name: str, movements: list[dict[str, Any]]) -> bytes:
        """The whole file: header, JSON chunk, binary chunk, each padded to four bytes."""
        root: dict[str, Any] = {
            "name": name,
            "children": list(range(1, len(self.nodes) + 1)),
            "rotation": UPRIGHT,
            "scale": [METRE, METRE, METRE],
        }
        if movements:
            root["extras"] = {"movements": movements}
        document = {
            "asset": {"version": "2.0", "generator": "scantling"},
            "scene": 0,
            "scenes": [{"nodes": [0]}],
            "nodes": [root, *self.nodes],
            "meshes": self.meshes,
            "materials": [_material(colour) for colour in self.materials],
            "buffers": [{"byteLength": len(self.blob)}],
            "bufferViews": self.views,
            "accessors": self.accessors,
        }
        text = json.dumps(document, separators=(",", ":")).encode()
        text += b" " * (-len(text) % 4)
        blob = bytes(self.blob) + b"\0" * (-len(self.blob) % 4)
        chunks = struct.pack("<II", len(text), 0x4E4F534A) + text
        chunks += struct.pack("<II", len(blob), 0x004E4942) + blob
        return struct.pack("<III", 0x46546C67, 2, 12 + len(chunks)) + chunks


def _flat_corners(mesh: Mesh, verts: Array, turn: Array) -> tuple[Any, Any, Any]:
    """Points and normals once for each (corner, flat face), and the triangles over them."""
    _, face = np.unique(mesh.facet, return_inverse=True)
    keys = mesh.tris.ravel() * (int(face.max()) + 1) + np.repeat(face, 3)
    _, first, index = np.unique(keys, return_index=True, return_inverse=True)
    points = verts[mesh.tris.ravel()[first]].astype(np.float32)
    flat = mesh.facets.normal[face[first // 3]] @ turn.T
    normals = (flat / np.linalg.norm(flat, axis=1)[:, None]).astype(np.float32)
    return points, normals, index.astype(np.uint32)


def _material(colour: Colour) -> dict[str, Any]:
    """A dull wood in that colour; glTF wants it linear, not as screens show it (IEC 61966-2-1)."""
    linear = [round(_linear(c / 255), 5) for c in colour]
    return {
        "pbrMetallicRoughness": {
            "baseColorFactor": [*linear, 1.0],
            "metallicFactor": 0.0,
            "roughnessFactor": 0.75,
        }
    }


def _linear(c: float) -> float:
    return c / 12.92 if c <= 0.04045 else float(((c + 0.055) / 1.055) ** 2.4)


def _described(scene: Scene, movement: Movement, names: Mapping[PartName, str]) -> dict[str, Any]:
    motion = movement.motion
    about: dict[str, Any]
    if isinstance(motion, Swing):
        about = {"kind": "swing", "about": motion.about, "axis": motion.axis, "angle": motion.angle}
    else:
        about = {"kind": "slide", "direction": motion.direction, "distance": motion.distance}
    return {
        "name": movement.name,
        **about,
        "moves": [names.get(part, part) for part in sorted(carried_by(scene.piece, movement))],
        "after": list(movement.after),
        "ridesOn": movement.rides_on,
    }
