"""How far edge work runs: the whole edge, less where a joint face begins (piece language 2.7)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import radians, tan

from scantling.joinery.frames import box_through, inverse, is_square
from scantling.piece.model import (
    FLOOR,
    TOUCH,
    WALL,
    Axis,
    Box,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    Joint,
    Part,
)

LEAST_RUN = 1.0  # mm: shorter rests between two joints are not worked; common practice, no source


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One stretch of an edge that is worked, from `low` to `high` along it; both ends are cut square.

    Part's own frame, mm.
    """

    work: EdgeWork
    edge: Edge
    low: float
    high: float

    @property
    def axis(self) -> Axis:
        """The axis the edge runs along."""
        return axis_of(self.edge)

    @property
    def over(self) -> Face:
        """The face that the profile goes `size` across."""
        return over(self.work, self.edge)

    @property
    def beside(self) -> Face:
        """The face that it goes down."""
        return beside(self.work, self.edge)


def edge_runs(part: Part, joints: Iterable[Joint]) -> tuple[EdgeRun, ...]:
    """Every run of the edge work of a part, in the order of its work and edges.

    A run stops where a joint of the part (of `joints`, which may be those of the whole piece) lies on
    the strip that the profile would take. What only rests there, a wall and the floor stop nothing, nor
    do meetings of leaning or curved faces, which have no area.
    """
    works = [work for work in part.work if isinstance(work, EdgeWork)]
    areas = joint_areas(part, joints) if works else ()
    return tuple(
        EdgeRun(work, edge, low, high)
        for work in works
        for edge in work.edges
        for low, high in _free(part.box, edge, _strip(part.box, work, edge), areas)
    )


def joint_areas(part: Part, joints: Iterable[Joint]) -> tuple[Box, ...]:
    """Where joints meet the part, in its own frame; only boxes that stay boxes there."""
    if not is_square(part.placement):
        return ()
    back = inverse(part.placement)
    return tuple(
        box_through(joint.area, back)
        for joint in joints
        if joint.area is not None
        and part.name in (joint.first, joint.second)
        and joint.method != "rests"
        and joint.second not in (WALL, FLOOR)
    )


def axis_of(edge: Edge) -> Axis:
    """The axis an edge runs along."""
    return next(axis for axis in Axis if axis not in (edge.first.axis, edge.second.axis))


def over(work: EdgeWork, edge: Edge) -> Face:
    """The face of the edge that the profile goes `size` across."""
    return edge.second if work.face is edge.second else edge.first


def beside(work: EdgeWork, edge: Edge) -> Face:
    """The face of the edge that the profile goes down."""
    return edge.first if work.face is edge.second else edge.second


def drop_of(work: EdgeWork) -> float:
    """How far a profile goes down the neighbouring face; a bevel may say its angle instead. [mm]"""
    if work.kind is EdgeKind.BEVEL and work.drop <= 0:
        return work.size * tan(radians(work.angle))
    return work.drop or work.size


def _strip(box: Box, work: EdgeWork, edge: Edge) -> Box:
    """The block along the whole edge that the profile lies in."""
    return slice_of(slice_of(box, beside(work, edge), work.size), over(work, edge), drop_of(work))


def slice_of(box: Box, face: Face, deep: float) -> Box:
    """The slice of a box within `deep` of one of its faces."""
    ends = sorted((box.face(face), box.face(face) - face.sign * deep))
    return box.with_span(face.axis, ends[0], ends[1])


def _free(box: Box, edge: Edge, strip: Box, areas: tuple[Box, ...]) -> list[tuple[float, float]]:
    """The stretches of the edge that no area takes."""
    axis = axis_of(edge)
    taken = sorted((area.low[axis], area.high[axis]) for area in areas if _takes(area, strip, edge))
    at, end, free = box.low[axis], box.high[axis], []
    for low, high in taken:
        free.append((at, min(low, end)))
        at = max(at, high)
    free.append((at, end))
    return [(low, high) for low, high in free if high - low > LEAST_RUN]


def _takes(area: Box, strip: Box, edge: Edge) -> bool:
    """Whether an area lies on (or in) a strip, by more than a touch along it and across it."""
    common = area.intersection(strip)
    if common is None or common.size(axis_of(edge)) <= TOUCH:
        return False
    return all(
        common.size(face.axis) > TOUCH or _lies_on(area, strip, face) for face in (edge.first, edge.second)
    )


def _lies_on(area: Box, strip: Box, face: Face) -> bool:
    """Whether an area is flat and lies on that outer face of a strip."""
    flat = area.size(face.axis) <= TOUCH
    return flat and abs(area.face(face) - strip.face(face)) <= TOUCH
