"""Meshes of the parts as they stand before the eye: projected points, which faces look this way."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from scantling.geometry.body import placed
from scantling.geometry.kernel import Array
from scantling.geometry.mesh import Mesh
from scantling.geometry.motions import after
from scantling.geometry.scene import Scene
from scantling.geometry.view import View
from scantling.piece.model import PartName, Placement

Flags = np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
FACING = 1e-6  # cosine below which a face counts as seen edge on


@dataclass(frozen=True, eq=False)
class Staged:
    """One part before the eye. `points` (v, 3): across, up, toward the eye [mm]."""

    part: PartName
    mesh: Mesh
    points: Array
    turn: Array  # rows across, up, toward in the part's own frame (3, 3)

    @cached_property
    def facing(self) -> Flags:
        """Which triangles look toward the eye. (t,)"""
        return np.asarray(self.mesh.normals @ self.turn[2] > FACING)

    @cached_property
    def faces(self) -> Array:
        """The triangles that look toward the eye. (n, 3, 3)"""
        return np.asarray(self.points[self.mesh.tris[self.facing]])

    @cached_property
    def low(self) -> Array:
        return np.asarray(self.points.min(0))

    @cached_property
    def high(self) -> Array:
        return np.asarray(self.points.max(0))


def staged(
    scene: Scene,
    view: View,
    parts: Collection[PartName] | None = None,
    placements: Mapping[PartName, Placement] | None = None,
    holes: bool = False,
) -> list[Staged]:
    """The wanted parts in the piece's order. `placements`: moves from where they stand at rest."""
    eye = np.array([view.right, view.up, view.toward])
    wanted = [name for name in scene.solids if parts is None or name in parts]
    out = []
    for name in wanted:
        solid = scene.solids[name]
        where = after(placements.get(name, Placement()), solid.placement) if placements else solid.placement
        body = solid.body.drawn
        mesh = body.mesh if holes else body.plain_mesh
        points = placed(where, mesh.verts) @ eye.T
        out.append(Staged(name, mesh, points, eye @ np.array(where.turn)))
    return out


def corners(stage: list[Staged]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Lower left and upper right of everything on the paper."""
    if not stage:
        return (0.0, 0.0), (0.0, 0.0)
    low = np.min([s.low for s in stage], axis=0)
    high = np.max([s.high for s in stage], axis=0)
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))
