"""One part's solid in its own frame with what is read off it: volume, centre, faces, edges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property, lru_cache

import numpy as np
from manifold3d import Error, Manifold

from scantling.geometry.drilling import bores_in, less_bores
from scantling.geometry.kernel import Array, Whole, crosses_itself, joined, less, solid_of, trimmed
from scantling.geometry.mesh import Mesh, mesh_of
from scantling.geometry.primitives import Plane, Primitive
from scantling.geometry.profile import CHORD, DRAWN, DRILLED, area_of
from scantling.geometry.recipe import CopeCutter, Recipe, is_curved
from scantling.piece.model import Box, Placement, Vec3


class Body:
    """The solid of a recipe, its curves by flats that leave them by no more than `chord` mm.

    Everything is worked out when first asked for, and kept.
    """

    def __init__(self, recipe: Recipe, chord: float) -> None:
        self.recipe, self.chord = recipe, chord

    @cached_property
    def bare(self) -> Manifold:
        """The solid before any hole is drilled; parts that differ only in their holes share it."""
        return _undrilled(replace(self.recipe, bores=(), holes=()), self.chord)

    @cached_property
    def bored(self) -> Manifold:
        """The solid with only its wide holes: for pictures, and much the quicker."""
        return less(self.bare, _solids(self.recipe.bores, self.chord))

    @cached_property
    def solid(self) -> Manifold:
        """The finished solid."""
        return less(self.bored, [solid_of(hole, DRILLED) for hole in self.recipe.holes])

    @cached_property
    def fault(self) -> str:
        """What keeps this from being a solid, in a maker's words; empty when it is one."""
        if crosses_itself(self.recipe.base):
            return "its outline crosses itself"
        if self.bare.status() != Error.NoError or not self._outlasts_holes():
            return "nothing is left of it after all that is cut away"
        return ""

    def _outlasts_holes(self) -> bool:
        """Whether wood is left; the holes are drilled only where there is doubt."""
        holes = (*self.recipe.bores, *self.recipe.holes)
        drilled = sum(area_of(hole.outer) * (hole.high - hole.low) for hole in holes)
        return bool(self.bare.volume() > drilled) or not self.solid.is_empty()

    @cached_property
    def mesh(self) -> Mesh:
        return mesh_of(self.solid) if self.recipe.holes else self.plain_mesh

    @cached_property
    def plain_mesh(self) -> Mesh:
        """The mesh without the holes that pictures leave out."""
        if not self.recipe.bores:
            return self.bare_mesh
        return mesh_of(self.bored)

    @cached_property
    def bare_mesh(self) -> Mesh:
        """The mesh before any hole is drilled."""
        return _mesh_undrilled(replace(self.recipe, bores=(), holes=()), self.chord)

    @property
    def drawn(self) -> Body:
        """The body as pictures show it: large curves by fewer flats."""
        return body_of(self.recipe, DRAWN) if is_curved(self.recipe) else self

    @property
    def volume(self) -> float:
        """Wood left after all machining. [mm³]"""
        return self._wood[0]

    @property
    def centre(self) -> Vec3:
        """Centre of that volume. [mm]"""
        return self._wood[1]

    @cached_property
    def _wood(self) -> tuple[float, Vec3]:
        """Volume and centre; plain holes are counted out, only the others cut."""
        bored, drilled = self.recipe.bores, self.recipe.holes
        bores, odd = bores_in(self.bare_mesh, (*bored, *drilled))
        cutters = [solid_of(hole, self.chord if hole in bored else DRILLED) for hole in odd]
        left = mesh_of(less(self.bare, cutters)) if odd else self.bare_mesh
        return less_bores(left.volume, left.centre, bores)

    def bounds(self, placement: Placement) -> Box:
        """Smallest box round the placed solid, which no hole makes smaller."""
        points = placed(placement, self.bare_mesh.verts)
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
def body_of(recipe: Recipe, chord: float = CHORD) -> Body:
    """The body of a recipe, one for all equal recipes."""
    return Body(recipe, chord)


@lru_cache(maxsize=2048)
def _undrilled(recipe: Recipe, chord: float) -> Manifold:
    base = joined(_solids((recipe.base, *recipe.bands), chord))
    base = trimmed(base, recipe.planes)
    for cutter in recipe.copes:
        base = _coped(base, cutter, chord)
    base = less(base, _solids(recipe.takes, chord))
    if not recipe.adds:
        return base
    adds = less(joined(_solids(recipe.adds, chord)), _solids(recipe.from_adds, chord))
    return base + trimmed(adds, recipe.levels)


@lru_cache(maxsize=2048)
def _mesh_undrilled(recipe: Recipe, chord: float) -> Mesh:
    return mesh_of(_undrilled(recipe, chord))


def _solids(shapes: Sequence[Primitive], chord: float) -> list[Manifold]:
    return [solid_of(shape, chord) for shape in shapes]


def _coped(base: Manifold, cutter: CopeCutter, chord: float) -> Manifold:
    """The end hollowed to the other body; nothing reaches past that body's middle."""
    other = placed_solid(cutter.cope.placement, body_of(cutter.cope.body, chord).bare)
    return trimmed(base - other, (cope_plane(cutter),))


def cope_plane(cutter: CopeCutter) -> Plane:
    """The plane through the middle of the body that an end is fitted to, where the end meets it."""
    face = cutter.cope.face
    other = placed_solid(cutter.cope.placement, body_of(cutter.cope.body).bare)
    spot = (other ^ solid_of(cutter.probe)).bounding_box()
    middle = (spot[face.axis] + spot[face.axis + 3]) / 2
    return Plane((middle, middle, middle), face.normal)


def vec(point: Sequence[float] | Array | Whole) -> Vec3:
    """Three numbers of an array as a plain point."""
    return (float(point[0]), float(point[1]), float(point[2]))
