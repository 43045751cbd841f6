"""Edge work, arches and dishes as cutters. Part's own frame, mm.

A straight edge of a box is cut by a prism along each run; a board with an outline is cut all round.
"""

from __future__ import annotations

from scantling.geometry.cutters import grown
from scantling.geometry.primitives import (
    REACH,
    UNIT,
    Bowl,
    Frame,
    Loop,
    Primitive,
    Prism,
    Rim,
    anticlockwise,
)
from scantling.geometry.shapes import outline_frame, outlined
from scantling.geometry.view import View
from scantling.joinery.edge_runs import EdgeRun, drop_of
from scantling.piece.model import (
    TOUCH,
    ArchWork,
    Axis,
    BandWork,
    Box,
    DishWork,
    EdgeKind,
    EdgeWork,
    Face,
    Shape,
    Work,
)


def work_cutters(work: tuple[Work, ...], box: Box, shape: Shape) -> list[Primitive]:
    """What arches, dishes and the edge work round an outline take away."""
    cutters: list[Primitive] = []
    for item in work:
        match item:
            case EdgeWork():
                cutters += _round_outline(item, box, shape)
            case ArchWork():
                cutters.append(_arch(item, box))
            case DishWork():
                cutters.append(dish(item, box))
            case _:
                pass  # holes, grooves, slots, notches and pin rows come as features from the joinery
    return cutters


def without_bands(box: Box, work: tuple[Work, ...]) -> tuple[Box, list[Box]]:
    """The core of a lipped part, and its lippings, in the order they are glued on."""
    bands = []
    for item in work:
        if isinstance(item, BandWork):
            core = grown(box, item.face, -item.thick)
            at = core.face(item.face)
            sides = sorted((at, box.face(item.face)))
            bands.append(box.with_span(item.face.axis, sides[0], sides[1]))
            box = core
    return box, bands


def _round_outline(work: EdgeWork, box: Box, shape: Shape) -> list[Primitive]:
    """One cutter for each broad face that is worked; straight edges are `run_cutter`'s."""
    if shape.outline is None:
        return []
    seen = shape.outline.seen_from.axis
    broad = {face for edge in work.edges for face in (edge.first, edge.second) if face.axis == seen}
    return [_all_round(work, face, box, shape) for face in sorted(broad, key=lambda f: f.sign)]


def run_cutter(run: EdgeRun, box: Box) -> Prism:
    """The edge's corner is (0, 0); u runs in from the second face, v down from the first."""
    over, beside, along = run.over, run.beside, run.axis
    corner = [0.0, 0.0, 0.0]
    corner[over.axis], corner[beside.axis] = box.face(over), box.face(beside)
    u, v, w = _inward(beside), _inward(over), UNIT[along]
    corners = _profile(run.work)
    if _handed(u, v, w) < 0:
        u, v = v, u
        corners = tuple((b, a, bulge) for a, b, bulge in corners)
    frame = Frame((corner[0], corner[1], corner[2]), u, v, w)
    low = run.low - (REACH if run.low < box.low[along] + TOUCH else 0.0)
    high = run.high + (REACH if run.high > box.high[along] - TOUCH else 0.0)
    return Prism(frame, _turned_in(corners), low, high)


Corners = tuple[tuple[float, float, float], ...]


def _profile(work: EdgeWork) -> Corners:
    """Corners of the cutter in (in from the side, down from the face); the first line is the cut."""
    size, drop = work.size, drop_of(work)
    out = -REACH
    match work.kind:
        case EdgeKind.RABBET:
            return ((size, out, 0.0), (size, drop, 0.0), (out, drop, 0.0), (out, out, 0.0))
        case EdgeKind.ROUND_OVER:
            rise = size * (1 - 2**-0.5)
            return ((size, out, 0), (size, 0, 0), (0, size, rise), (out, size, 0), (out, out, 0))
        case EdgeKind.CHAMFER | EdgeKind.BEVEL:
            return ((size, out, 0), (size, 0, 0), (0, drop, 0), (out, drop, 0), (out, out, 0))


def _turned_in(corners: Corners) -> Loop:
    """The loop anticlockwise; a bulge here always hollows the cutter, toward the edge."""
    loop = anticlockwise(corners)
    return Loop(tuple((u, v, -abs(bulge)) for u, v, bulge in loop.corners))


def _inward(face: Face) -> tuple[float, float, float]:
    x, y, z = face.opposite.normal
    return (x, y, z)


def _handed(u: tuple[float, ...], v: tuple[float, ...], w: tuple[float, ...]) -> float:
    return (
        (u[1] * v[2] - u[2] * v[1]) * w[0]
        + (u[2] * v[0] - u[0] * v[2]) * w[1]
        + (u[0] * v[1] - u[1] * v[0]) * w[2]
    )


def _all_round(work: EdgeWork, face: Face, box: Box, shape: Shape) -> Rim:
    """Round the outline, from its broad face `face`."""
    assert shape.outline is not None
    board = outlined(box, shape.outline)
    front = face == shape.outline.seen_from
    level, side = (board.high, 1) if front else (board.low, -1)
    return Rim(board.frame, board.outer, level, side, _run(work))


def _run(work: EdgeWork) -> tuple[tuple[float, float, bool], ...]:
    """The cut as (inward, down, rounded) corners from the broad face to the edge."""
    size, drop = work.size, drop_of(work)
    match work.kind:
        case EdgeKind.RABBET:
            return ((size, 0.0, False), (size, drop, False))
        case EdgeKind.CHAMFER | EdgeKind.BEVEL:
            return ((size, 0.0, False), (0.0, drop, False))
        case EdgeKind.ROUND_OVER:
            return ((size, 0.0, False), (0.0, size, True))


def _arch(work: ArchWork, box: Box) -> Prism:
    """A circle's segment over the edge, right through the board."""
    through = next(a for a in Axis if a not in (work.face.axis, work.along))
    at, sign = box.face(work.face), work.face.sign
    u, v, w = UNIT[work.along], UNIT[work.face.axis], UNIT[through]
    corners: Corners = (
        (work.start, at + sign * REACH, 0.0),
        (work.start, at, 0.0),
        (work.stop, at, work.rise),
        (work.stop, at + sign * REACH, 0.0),
    )
    if _handed(u, v, w) < 0:
        u, v = v, u
        corners = tuple((b, a, bulge) for a, b, bulge in corners)
    frame = Frame((0.0, 0.0, 0.0), u, v, w)
    return Prism(frame, anticlockwise(corners), box.low[through] - REACH, box.high[through] + REACH)


def dish(work: DishWork, box: Box) -> Bowl:
    """Half an ellipsoid under the face, within its rim."""
    frame, across, up, through = outline_frame(box, work.face)
    view = View.named(work.face.word)
    centre = frame.point(across / 2, up / 2, through)
    radii = (across / 2 - work.rim, up / 2 - work.rim, work.deep)
    return Bowl(Frame(centre, view.right, view.up, view.toward), radii)
