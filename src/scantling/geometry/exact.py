"""Recipes as exact solids with true cylinders and arcs (OCP), and their STEP file.

Imported only in the child process of `step` and in tests: OCP is large and optional. Tapered and
leaning round sticks and edge work round free outlines keep the flat facets of the meshes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import hypot, pi

from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_GTransform,
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Transform,
)
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol, BRepPrimAPI_MakeSphere
from OCP.collections import List_TopoDS_Shape
from OCP.GC import GC_MakeArcOfCircle
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Elips, gp_GTrsf, gp_Pnt, gp_Trsf, gp_Vec
from OCP.TopoDS import TopoDS_Shape, TopoDS_Wire

from scantling.geometry.body import cope_plane
from scantling.geometry.cutters import frame_into
from scantling.geometry.kernel import rim_rings
from scantling.geometry.primitives import (
    REACH,
    Bowl,
    Frame,
    Loft,
    Loop,
    Outer,
    Plane,
    Primitive,
    Prism,
    Rim,
    Round,
    rectangle,
)
from scantling.geometry.recipe import CopeCutter, Recipe
from scantling.piece.model import Placement, Vec3

FAR = 1e5  # mm: further than any piece reaches


def exact_solid(recipe: Recipe) -> TopoDS_Shape:
    """The solid of a recipe in the part's own frame, by the same steps as the mesh."""
    shape = _joined([_primitive(recipe.base), *map(_primitive, recipe.bands)])
    shape = _less(shape, [_beyond(plane) for plane in recipe.planes])
    for cutter in recipe.copes:
        shape = _less(shape, [_other(cutter), _beyond(cope_plane(cutter))])
    shape = _less(shape, map(_primitive, recipe.takes))
    if recipe.adds:
        adds = _less(_joined([_primitive(add) for add in recipe.adds]), map(_primitive, recipe.from_adds))
        shape = _joined([shape, adds])
    return _less(shape, map(_primitive, (*recipe.bores, *recipe.holes)))


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


def _less(shape: TopoDS_Shape, cutters: Iterable[TopoDS_Shape]) -> TopoDS_Shape:
    return _boolean(BRepAlgoAPI_Cut(), shape, list(cutters))


def _joined(shapes: Sequence[TopoDS_Shape]) -> TopoDS_Shape:
    return _boolean(BRepAlgoAPI_Fuse(), shapes[0], list(shapes[1:]))


def _boolean(
    operation: BRepAlgoAPI_Cut | BRepAlgoAPI_Fuse, shape: TopoDS_Shape, tools: list[TopoDS_Shape]
) -> TopoDS_Shape:
    if not tools:
        return shape
    arguments, others = List_TopoDS_Shape(), List_TopoDS_Shape()
    arguments.Append(shape)
    for tool in tools:
        others.Append(tool)
    operation.SetArguments(arguments)
    operation.SetTools(others)
    operation.Build()
    return operation.Shape()


def _beyond(plane: Plane) -> TopoDS_Shape:
    frame = frame_into(plane.point, plane.normal)
    return _primitive(Prism(frame, rectangle(-FAR, -FAR, FAR, FAR), 0.0, FAR))


def _other(cutter: CopeCutter) -> TopoDS_Shape:
    return exact_placed(exact_solid(cutter.cope.body), cutter.cope.placement)


def _primitive(shape: Primitive) -> TopoDS_Shape:
    match shape:
        case Prism():
            return _prism(shape)
        case Loft():
            return _loft(shape.rings)
        case Bowl():
            return _bowl(shape)
        case Rim():
            return _rim(shape)


def _prism(shape: Prism) -> TopoDS_Shape:
    if shape.hole is not None:
        inner = replace(shape, outer=shape.hole, hole=None)
        return _less(_prism(replace(shape, hole=None)), [_prism(inner)])
    face = BRepBuilderAPI_MakeFace(_wire(shape.outer, shape.frame, shape.low), True).Face()
    return BRepPrimAPI_MakePrism(face, _vec(shape.frame.w, shape.high - shape.low)).Shape()


def _wire(outer: Outer, frame: Frame, level: float) -> TopoDS_Wire:
    if isinstance(outer, Round):
        wire = BRepBuilderAPI_MakeWire(_ellipse(outer, frame, level).Edge())
        return wire.Wire()
    wire = BRepBuilderAPI_MakeWire()
    corners = outer.corners
    for here, then in zip(corners, corners[1:] + corners[:1], strict=True):
        a, b = (_pnt(frame.point(c[0], c[1], level)) for c in (here, then))
        if then[2]:
            arc = GC_MakeArcOfCircle(a, _pnt(frame.point(*_crown(here, then), level)), b)
            wire.Add(BRepBuilderAPI_MakeEdge(arc.Value()).Edge())
        elif hypot(then[0] - here[0], then[1] - here[1]) > 0:
            wire.Add(BRepBuilderAPI_MakeEdge(a, b).Edge())
    return wire.Wire()


def _crown(here: tuple[float, float, float], then: tuple[float, float, float]) -> tuple[float, float]:
    """The middle of the arc between two corners."""
    along = (then[0] - here[0], then[1] - here[1])
    rise = then[2] / hypot(*along)
    return (here[0] + then[0]) / 2 + along[1] * rise, (here[1] + then[1]) / 2 - along[0] * rise


def _ellipse(outer: Round, frame: Frame, level: float) -> BRepBuilderAPI_MakeEdge:
    centre = _pnt(frame.point(outer.u, outer.v, level))
    if abs(outer.radius_u - outer.radius_v) < 1e-9:
        circle = gp_Circ(gp_Ax2(centre, gp_Dir(*frame.w), gp_Dir(*frame.u)), outer.radius_u)
        return BRepBuilderAPI_MakeEdge(circle)
    longer = frame.u if outer.radius_u > outer.radius_v else frame.v
    radii = sorted((outer.radius_u, outer.radius_v), reverse=True)
    return BRepBuilderAPI_MakeEdge(gp_Elips(gp_Ax2(centre, gp_Dir(*frame.w), gp_Dir(*longer)), *radii))


def _loft(rings: Iterable[Iterable[Vec3]]) -> TopoDS_Shape:
    through = BRepOffsetAPI_ThruSections(True, True)
    for ring in rings:
        polygon = BRepBuilderAPI_MakePolygon()
        for point in ring:
            polygon.Add(_pnt(point))
        polygon.Close()
        through.AddWire(polygon.Wire())
    through.Build()
    return through.Shape()


def _bowl(shape: Bowl) -> TopoDS_Shape:
    stretch = gp_GTrsf()
    for column, (axis, radius) in enumerate(
        zip((shape.frame.u, shape.frame.v, shape.frame.w), shape.radii, strict=True)
    ):
        for row in range(3):
            stretch.SetValue(row + 1, column + 1, axis[row] * radius)
    for row in range(3):
        stretch.SetValue(row + 1, 4, shape.frame.origin[row])
    return BRepBuilderAPI_GTransform(BRepPrimAPI_MakeSphere(1.0).Shape(), stretch, True).Shape()


def _rim(shape: Rim) -> TopoDS_Shape:
    """Turned for a circle; for other outlines the same faceted ring as the mesh."""
    outer = shape.outer
    if isinstance(outer, Round) and abs(outer.radius_u - outer.radius_v) < 1e-9:
        return _turned(shape, outer)
    slab, core = ([ring.tolist() for ring in rings] for rings in rim_rings(shape))
    return _less(_loft(slab), [_loft(core)])


def _turned(shape: Rim, outer: Round) -> TopoDS_Shape:
    frame = Frame(shape.frame.origin, shape.frame.u, shape.frame.w, _opposite(shape.frame.v))
    edge = outer.u + outer.radius_u
    points = [(edge - inward, shape.level - shape.side * down) for inward, down in shape.profile]
    over = [(edge + REACH, points[-1][1]), (edge + REACH, shape.level + shape.side * REACH)]
    points += [*over, (points[0][0], shape.level + shape.side * REACH)]
    wire = _wire(Loop(tuple((u, w, 0.0) for u, w in points)), frame, -outer.v)
    axis = gp_Ax1(_pnt(shape.frame.point(outer.u, outer.v, 0.0)), gp_Dir(*shape.frame.w))
    return BRepPrimAPI_MakeRevol(BRepBuilderAPI_MakeFace(wire, True).Face(), axis, 2 * pi).Shape()


def _opposite(v: Vec3) -> Vec3:
    return (-v[0], -v[1], -v[2])


def _pnt(point: Vec3) -> gp_Pnt:
    return gp_Pnt(*point)


def _vec(direction: Vec3, long: float) -> gp_Vec:
    return gp_Vec(direction[0] * long, direction[1] * long, direction[2] * long)
