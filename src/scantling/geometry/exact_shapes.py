"""Primitives as exact solids, and cuts and unions of such (OCP)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from math import hypot, pi
from typing import TypeGuard

from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_GTransform,
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeWire,
)
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol, BRepPrimAPI_MakeSphere
from OCP.collections import List_TopoDS_Shape
from OCP.GC import GC_MakeArcOfCircle
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Elips, gp_GTrsf, gp_Pnt, gp_Vec
from OCP.TopoDS import TopoDS_Shape, TopoDS_Wire

from scantling.geometry.primitives import Bowl, Frame, Loft, Loop, Outer, Prism, Round, Stick
from scantling.piece.model import Vec3

SAME = 1e-9  # mm


def less(shape: TopoDS_Shape, cutters: Iterable[TopoDS_Shape]) -> TopoDS_Shape:
    """A solid without what any of the cutters holds."""
    return _boolean(BRepAlgoAPI_Cut(), shape, list(cutters))


def joined(shapes: Sequence[TopoDS_Shape]) -> TopoDS_Shape:
    """All of them as one."""
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


def prism(shape: Prism) -> TopoDS_Shape:
    """Its profile carried along w, less its hole."""
    if shape.hole is not None:
        inner = replace(shape, outer=shape.hole, hole=None)
        return less(prism(replace(shape, hole=None)), [prism(inner)])
    face = BRepBuilderAPI_MakeFace(wire(shape.outer, shape.frame, shape.low), True).Face()
    return BRepPrimAPI_MakePrism(face, vector(shape.frame.w, shape.high - shape.low)).Shape()


def wire(outer: Outer, frame: Frame, level: float) -> TopoDS_Wire:
    """An outline of true lines and arcs in the plane w = `level`."""
    if isinstance(outer, Round):
        return BRepBuilderAPI_MakeWire(_ellipse(outer, frame, level).Edge()).Wire()
    made = BRepBuilderAPI_MakeWire()
    corners = outer.corners
    for here, then in zip(corners, corners[1:] + corners[:1], strict=True):
        a, b = (_pnt(frame.point(c[0], c[1], level)) for c in (here, then))
        if then[2]:
            arc = GC_MakeArcOfCircle(a, _pnt(frame.point(*_crown(here, then), level)), b)
            made.Add(BRepBuilderAPI_MakeEdge(arc.Value()).Edge())
        elif hypot(then[0] - here[0], then[1] - here[1]) > 0:
            made.Add(BRepBuilderAPI_MakeEdge(a, b).Edge())
    return made.Wire()


def _crown(here: tuple[float, float, float], then: tuple[float, float, float]) -> tuple[float, float]:
    """The middle of the arc between two corners."""
    along = (then[0] - here[0], then[1] - here[1])
    rise = then[2] / hypot(*along)
    return (here[0] + then[0]) / 2 + along[1] * rise, (here[1] + then[1]) / 2 - along[0] * rise


def _ellipse(outer: Round, frame: Frame, level: float) -> BRepBuilderAPI_MakeEdge:
    centre = _pnt(frame.point(outer.u, outer.v, level))
    if is_circle(outer):
        circle = gp_Circ(gp_Ax2(centre, gp_Dir(*frame.w), gp_Dir(*frame.u)), outer.radius_u)
        return BRepBuilderAPI_MakeEdge(circle)
    longer = frame.u if outer.radius_u > outer.radius_v else frame.v
    radii = sorted((outer.radius_u, outer.radius_v), reverse=True)
    return BRepBuilderAPI_MakeEdge(gp_Elips(gp_Ax2(centre, gp_Dir(*frame.w), gp_Dir(*longer)), *radii))


def loft(shape: Loft) -> TopoDS_Shape:
    """Ruled faces from ring to ring."""
    return _through(_polygon(ring) for ring in shape.rings)


def _polygon(ring: Iterable[Vec3]) -> TopoDS_Wire:
    polygon = BRepBuilderAPI_MakePolygon()
    for point in ring:
        polygon.Add(_pnt(point))
    polygon.Close()
    return polygon.Wire()


def _through(wires: Iterable[TopoDS_Wire]) -> TopoDS_Shape:
    """A solid of ruled faces from each wire to the next."""
    through = BRepOffsetAPI_ThruSections(True, True)
    for one in wires:
        through.AddWire(one)
    through.Build()
    return through.Shape()


def stick(shape: Stick) -> TopoDS_Shape:
    """Turned where every section is a circle about one line; else ruled from oval to oval."""
    middle = shape.stations[0][1]
    turned = all(
        is_circle(section) and hypot(section.u - middle.u, section.v - middle.v) < SAME
        for _, section in shape.stations
    )
    if not turned:
        return _through(wire(section, shape.frame, at) for at, section in shape.stations)
    (first, _), (last, _) = shape.stations[0], shape.stations[-1]
    points = [(0.0, first), *((section.radius_u, at) for at, section in shape.stations), (0.0, last)]
    return _revolved(Loop(tuple((r, at, 0.0) for r, at in points)), shape.frame, middle.u, middle.v)


def is_circle(outer: Outer) -> TypeGuard[Round]:
    """Whether an outline is round all the same way."""
    return isinstance(outer, Round) and abs(outer.radius_u - outer.radius_v) < SAME


def _revolved(profile: Outer, frame: Frame, u: float, v: float) -> TopoDS_Shape:
    """A profile of (out, along w) turned about the line at (u, v) of `frame`."""
    half = Frame(frame.point(u, v, 0.0), frame.u, frame.w, _opposite(frame.v))
    return _spun(wire(profile, half, 0.0), half.origin, frame.w)


def _spun(flat: TopoDS_Wire, origin: Vec3, direction: Vec3) -> TopoDS_Shape:
    """The flat face within a wire turned right round a line."""
    face = BRepBuilderAPI_MakeFace(flat, True).Face()
    return BRepPrimAPI_MakeRevol(face, gp_Ax1(_pnt(origin), gp_Dir(*direction)), 2 * pi).Shape()


def bowl(shape: Bowl) -> TopoDS_Shape:
    """Turned where it is round seen from above, else a stretched ball and a drum."""
    if abs(shape.radii[0] - shape.radii[1]) < SAME and shape.radii[2] < shape.radii[0]:
        return _turned_bowl(shape)
    stretch = gp_GTrsf()
    for column, (axis, radius) in enumerate(
        zip((shape.frame.u, shape.frame.v, shape.frame.w), shape.radii, strict=True)
    ):
        for row in range(3):
            stretch.SetValue(row + 1, column + 1, axis[row] * radius)
    for row in range(3):
        stretch.SetValue(row + 1, 4, shape.frame.origin[row])
    ball = BRepBuilderAPI_GTransform(BRepPrimAPI_MakeSphere(1.0).Shape(), stretch, True).Shape()
    rim = Round(0.0, 0.0, shape.radii[0], shape.radii[1])
    return joined([ball, prism(Prism(shape.frame, rim, 0.0, shape.radii[2]))])


def _turned_bowl(shape: Bowl) -> TopoDS_Shape:
    """A quarter of an ellipse, from the lowest point out to the rim, then up, turned about the middle."""
    frame, (across, _, deep) = shape.frame, shape.radii
    axes = gp_Ax2(_pnt(frame.origin), gp_Dir(*_opposite(frame.v)), gp_Dir(*frame.u))
    line = gp_Elips(axes, across, deep)
    half = BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(line, -pi / 2, 0.0).Edge())
    corners = ((across, 0.0), (across, deep), (0.0, deep), (0.0, -deep))
    points = [_pnt(frame.point(u, 0.0, w)) for u, w in corners]
    for here, then in pairwise(points):
        half.Add(BRepBuilderAPI_MakeEdge(here, then).Edge())
    return _spun(half.Wire(), frame.origin, frame.w)


def _opposite(v: Vec3) -> Vec3:
    return (-v[0], -v[1], -v[2])


def _pnt(point: Vec3) -> gp_Pnt:
    return gp_Pnt(*point)


def vector(direction: Vec3, long: float) -> gp_Vec:
    """A direction of that length. [mm]"""
    return gp_Vec(direction[0] * long, direction[1] * long, direction[2] * long)
