"""Cast shadows: what of each visible face the light cannot see."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np
from manifold3d import CrossSection

from scantling.geometry.kernel import Array
from scantling.geometry.panes import Panes, panes_of, visible_shapes
from scantling.geometry.scene import Scene
from scantling.geometry.staging import staged
from scantling.geometry.view import View
from scantling.piece.model import PartName, Placement, Vec3


def lit_shapes(
    scene: Scene,
    view: View,
    sun: Vec3,
    parts: Collection[PartName] | None,
    placements: Mapping[PartName, Placement] | None,
    holes: bool,
) -> dict[tuple[int, int], CrossSection]:
    """For each face that the light reaches, by part's number and facet: its lit shape on the paper.

    `sun`: toward the light, in the view's own directions (across, up, toward the eye).
    """
    light = _light_view(view, sun)
    panes = panes_of(staged(scene, light, parts, placements, holes))
    turn = np.array([light.right, light.up, light.toward]) @ np.array([view.right, view.up, view.toward]).T
    shapes = visible_shapes(panes)
    return {
        (int(panes.owner[i]), int(panes.facet[i])): shape.transform(_onto_paper(panes, i, turn))
        for i, shape in enumerate(shapes)
    }


def _light_view(view: View, sun: Vec3) -> View:
    """Looking along the light."""
    to = sun[0] * np.array(view.right) + sun[1] * np.array(view.up) + sun[2] * np.array(view.toward)
    to /= np.linalg.norm(to)
    right = np.cross(view.up, to)
    right /= np.linalg.norm(right)
    up = np.cross(to, right)
    rows = [(float(v[0]), float(v[1]), float(v[2])) for v in (right, up, to)]
    return View("light", rows[0], rows[1], rows[2])


def _onto_paper(panes: Panes, i: int, turn: Array) -> Array:
    """The flat map from the light's paper to the eye's, for points in the plane of face i. (2, 3)

    A point (s, t) there lies at depth p0 + p1·s + p2·t toward the light; `turn` brings the light's
    directions (rows) to the eye's (columns).
    """
    p0, p1, p2 = panes.plane[i]
    along_s = turn[0, :2] + p1 * turn[2, :2]
    along_t = turn[1, :2] + p2 * turn[2, :2]
    return np.column_stack([along_s, along_t, p0 * turn[2, :2]])
