"""Edge work round an outline as exact solids: fillets, bevels and offsets of the board (OCP)."""

from __future__ import annotations

from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.BRepFilletAPI import BRepFilletAPI_MakeChamfer, BRepFilletAPI_MakeFillet
from OCP.BRepOffsetAPI import BRepOffsetAPI_MakeOffset
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
from OCP.GeomAbs import GeomAbs_JoinType
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Face, TopoDS_Shape, TopoDS_Wire

from scantling.geometry.exact_shapes import less, loft, prism, vector, wire
from scantling.geometry.kernel import Array, rim_rings
from scantling.geometry.primitives import REACH, Loft, Loop, Outer, Prism, Rim, Ring3, rectangle
from scantling.geometry.profile import flattened


def rim(shape: Rim) -> TopoDS_Shape:
    """A slab at the edge's height less the worked board that stays.

    Where the outline is too sharp for a fillet or a bevel to run round, the flat facets of the mesh.
    """
    deepest = max(down for _, down, _ in shape.profile)
    low, high = sorted((shape.level + shape.side * REACH, shape.level - shape.side * deepest))
    core = _core(shape, deepest)
    if core is None:
        slab, faceted = (Loft(tuple(map(_ring, rings))) for rings in rim_rings(shape))
        return less(loft(slab), [loft(faceted)])
    return less(prism(Prism(shape.frame, _round_all(shape.outer), low, high)), [core])


def _ring(points: Array) -> Ring3:
    return tuple((float(x), float(y), float(z)) for x, y, z in points)


def _round_all(outer: Outer) -> Loop:
    """A rectangle that reaches past the outline on every side."""
    (u1, u2), (v1, v2) = ((min(places), max(places)) for places in zip(*flattened(outer)[0], strict=True))
    return rectangle(u1 - REACH, v1 - REACH, u2 + REACH, v2 + REACH)


def _core(shape: Rim, deepest: float) -> TopoDS_Shape | None:
    """What stays within the profile, its broad face at the rim's level; None where it cannot be made."""
    low, high = sorted((shape.level - shape.side * (2 * deepest + REACH), shape.level))
    across, (inward, down, rounded) = shape.profile[0][0], shape.profile[-1]
    outline = wire(shape.outer, shape.frame, low)
    if inward > 0:
        return _standing(_drawn_in(outline, inward), shape, high - low).Shape()
    board = _standing(outline, shape, high - low)
    broad = TopoDS.Face(board.FirstShape() if shape.side < 0 else board.LastShape())
    worked = BRepFilletAPI_MakeFillet(board.Shape()) if rounded else BRepFilletAPI_MakeChamfer(board.Shape())
    for edge in _edges(broad):
        if isinstance(worked, BRepFilletAPI_MakeFillet):
            worked.Add(across, edge)
        else:
            worked.Add(across, down, edge, broad)
    worked.Build()
    return worked.Shape() if worked.IsDone() else None


def _standing(outline: TopoDS_Wire, shape: Rim, high: float) -> BRepPrimAPI_MakePrism:
    face = BRepBuilderAPI_MakeFace(outline, True).Face()
    return BRepPrimAPI_MakePrism(face, vector(shape.frame.w, high))


def _drawn_in(outline: TopoDS_Wire, by: float) -> TopoDS_Wire:
    offset = BRepOffsetAPI_MakeOffset(outline, GeomAbs_JoinType.GeomAbs_Intersection)
    offset.Perform(-by)
    return TopoDS.Wire(offset.Shape())


def _edges(face: TopoDS_Face) -> list[TopoDS_Edge]:
    found = []
    explorer = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
    while explorer.More():
        found.append(TopoDS.Edge(explorer.Current()))
        explorer.Next()
    return found
