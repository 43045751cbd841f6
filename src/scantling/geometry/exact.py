"""Recipes as exact solids with true cylinders, cones and arcs, by the same steps as the meshes (OCP).

Imported only in the child process of `step` and in tests: OCP is large and optional.
"""

from __future__ import annotations

from functools import lru_cache

from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.gp import gp_Trsf
from OCP.TopoDS import TopoDS_Shape

from scantling.geometry.body import cope_plane
from scantling.geometry.cutters import frame_into
from scantling.geometry.exact_rims import rim
from scantling.geometry.exact_shapes import bowl, joined, less, loft, prism, stick
from scantling.geometry.primitives import Bowl, Loft, Plane, Primitive, Prism, Rim, Stick, rectangle
from scantling.geometry.recipe import CopeCutter, Recipe
from scantling.piece.model import Placement

FAR = 1e5  # mm: further than any piece reaches


@lru_cache(maxsize=1024)
def exact_solid(recipe: Recipe) -> TopoDS_Shape:
    """The solid of a recipe in the part's own frame, by the same steps as the mesh."""
    shape = joined([_primitive(recipe.base), *map(_primitive, recipe.bands)])
    shape = less(shape, [_beyond(plane) for plane in recipe.planes])
    for cutter in recipe.copes:
        shape = less(shape, [_other(cutter), _beyond(cope_plane(cutter))])
    holes = (*recipe.bores, *recipe.holes)
    if not recipe.adds:
        return less(shape, map(_primitive, (*recipe.takes, *holes)))
    shape = less(shape, map(_primitive, recipe.takes))
    off = [*map(_primitive, recipe.from_adds), *map(_beyond, recipe.levels)]
    adds = less(joined([_primitive(add) for add in recipe.adds]), off)
    return less(joined([shape, adds]), map(_primitive, holes))


def exact_placed(shape: TopoDS_Shape, placement: Placement) -> TopoDS_Shape:
    """A solid where it stands."""
    if placement.is_identity:
        return shape
    motion = gp_Trsf()
    rows = [
        value for row, shift in zip(placement.turn, placement.shift, strict=True) for value in (*row, shift)
    ]
    motion.SetValues(*rows)
    return BRepBuilderAPI_Transform(shape, motion, True).Shape()


def _beyond(plane: Plane) -> TopoDS_Shape:
    frame = frame_into(plane.point, plane.normal)
    return _primitive(Prism(frame, rectangle(-FAR, -FAR, FAR, FAR), 0.0, FAR))


def _other(cutter: CopeCutter) -> TopoDS_Shape:
    return exact_placed(exact_solid(cutter.cope.body), cutter.cope.placement)


def _primitive(shape: Primitive) -> TopoDS_Shape:
    match shape:
        case Prism():
            return prism(shape)
        case Loft():
            return loft(shape)
        case Stick():
            return stick(shape)
        case Bowl():
            return bowl(shape)
        case Rim():
            return rim(shape)
