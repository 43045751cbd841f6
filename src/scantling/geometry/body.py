"""One part's solid in its own frame with what is read off it: volume, centre, faces, edges."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache

import numpy as np
from manifold3d import Error, Manifold

from scantling.geometry.kernel import Array, Whole, crosses_itself, joined, less, solid_of, trimmed
from scantling.geometry.mesh import Mesh, mesh_of
from scantling.geometry.primitives import Plane
from scantling.geometry.recipe import CopeCutter, Recipe
from scantling.piece.model import Box, Placement, Vec3


class Body:
    """The solid of a recipe. Everything is worked out when first asked for, and kept."""

    def __init__(self, recipe: Recipe) -> None:
        self.recipe = recipe

    @cached_property
    def bare(self) -> Manifold:
        """The solid before any hole is drilled."""
        recipe = self.recipe
        base = joined([solid_of(recipe.base), *(solid_of(band) for band in recipe.bands)])
        base = trimmed(base, recipe.planes)
        for cutter in recipe.copes:
            base = _coped(base, cutter)
        base = less(base, [solid_of(take) for take in recipe.takes])
        if not recipe.adds:
            return base
        adds = less(joined([solid_of(add) for add in recipe.adds]), [solid_of(t) for t in recipe.from_adds])
        return base + adds

    @cached_property
    def bored(self) -> Manifold:
        """The solid with only its wide holes: for pictures, and much the quicker."""
        return less(self.bare, [solid_of(bore) for bore in self.recipe.bores])

    @cached_property
    def solid(self) -> Manifold:
        """The finished solid."""
        return less(self.bored, [solid_of(hole) for hole in self.recipe.holes])

    @cached_property
    def fault(self) -> str:
        """What keeps this from being a solid, in a maker's words; empty when it is one."""
        if crosses_itself(self.recipe.base):
            return "its outline crosses itself"
        if self.solid.status() != Error.NoError or self.solid.is_empty():
            return "nothing is left of it after all that is cut away"
        return ""

    @cached_property
    def mesh(self) -> Mesh:
        return mesh_of(self.solid)

    @cached_property
    def plain_mesh(self) -> Mesh:
        """The mesh without the holes that pictures leave out."""
        return mesh_of(self.bored) if self.recipe.holes else self.mesh

    @property
    def volume(self) -> float:
        return self.mesh.volume

    @property
    def centre(self) -> Vec3:
        return self.mesh.centre

    def bounds(self, placement: Placement) -> Box:
        """Smallest box round the placed solid."""
        points = placed(placement, self.mesh.verts)
        low, high = points.min(0), points.max(0)
        return Box(vec(low), vec(high))


def placed(placement: Placement, points: Array) -> Array:
    """Points (n, 3) of a part's frame in the piece's."""
    if placement.is_identity:
        return points
    return np.asarray(points @ np.array(placement.turn).T + np.array(placement.shift))


def placed_solid(placement: Placement, solid: Manifold) -> Manifold:
    """The mesh solid where it stands."""
    if placement.is_identity:
        return solid
    return solid.transform(np.column_stack([np.array(placement.turn), np.array(placement.shift)]))


@lru_cache(maxsize=2048)
def body_of(recipe: Recipe) -> Body:
    """The body of a recipe, one for all equal recipes."""
    return Body(recipe)


def _coped(base: Manifold, cutter: CopeCutter) -> Manifold:
    """The end hollowed to the other body; nothing reaches past that body's middle."""
    return trimmed(base - _other(cutter), (cope_plane(cutter),))


def cope_plane(cutter: CopeCutter) -> Plane:
    """The plane through the middle of the body that an end is fitted to, where the end meets it."""
    face = cutter.cope.face
    spot = (_other(cutter) ^ solid_of(cutter.probe)).bounding_box()
    middle = (spot[face.axis] + spot[face.axis + 3]) / 2
    return Plane((middle, middle, middle), face.normal)


def _other(cutter: CopeCutter) -> Manifold:
    return placed_solid(cutter.cope.placement, body_of(cutter.cope.body).bare)


def vec(point: Sequence[float] | Array | Whole) -> Vec3:
    """Three numbers of an array as a plain point."""
    return (float(point[0]), float(point[1]), float(point[2]))
