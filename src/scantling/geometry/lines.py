"""Line drawings: which stretches of which edges are seen, worked out in object space."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np

from scantling.geometry.drawing import LineDrawing
from scantling.geometry.kernel import Array, Whole
from scantling.geometry.scene import Scene
from scantling.geometry.spans import Span, by_part, joined_spans, uncovered
from scantling.geometry.staging import Staged, corners, staged
from scantling.geometry.view import View
from scantling.piece.model import TOUCH, PartName, Placement

GROWN = 0.001  # mm: what stands before an edge is taken this much larger, so that seams don't leak
POINT = 0.002  # mm: an edge shorter than this on the paper is a point
STUB = 4 * TOUCH  # mm: shorter bits of an edge come of the depth tolerance near its ends
BATCH = 400_000  # pairs of edge and triangle looked at together


def line_drawing(
    scene: Scene,
    view: View,
    parts: Collection[PartName] | None = None,
    placements: Mapping[PartName, Placement] | None = None,
    holes: bool = False,
    hidden: bool = True,
) -> LineDrawing:
    """The edges of `parts` (all) as seen, and with `hidden` also those that something stands before.

    `placements` move parts from where they stand at rest (poses, exploded views). `holes`: small
    drilled holes are drawn as well, which costs much more. Spans on one line are joined; what is seen is
    never drawn again as hidden.
    """
    stage = staged(scene, view, parts, placements, holes)
    return drawing_of(stage, view, hidden)


def drawing_of(stage: list[Staged], view: View, hidden: bool) -> LineDrawing:
    """The line drawing of what is staged."""
    seen: list[Span] = []
    unseen: list[Span] = []
    for order, subject in enumerate(stage):
        edges = _edges(subject, hidden)
        spans = _hidden_spans(edges, stage)
        for found, intervals in ((seen, _gaps(spans, len(edges))), (unseen, spans if hidden else None)):
            if intervals is not None:
                found.extend(_cut(edges, intervals, order))
    seen = joined_spans(seen)
    names = [subject.part for subject in stage]
    behind = joined_spans(uncovered(unseen, seen))
    return LineDrawing(view, by_part(seen, names), by_part(behind, names), *corners(stage))


def _edges(subject: Staged, hidden: bool) -> Array:
    """Edges worth drawing: (n, 2, 3) in the paper's frame."""
    edges = subject.mesh.edges
    first, second = subject.facing[edges.sides[:, 0]], subject.facing[edges.sides[:, 1]]
    drawn = (edges.sharp & (hidden | first | second)) | (first != second)
    ends = subject.points[edges.ends[drawn]]
    long = np.abs(ends[:, 0, :2] - ends[:, 1, :2]).max(1)
    return np.asarray(ends[long > POINT])


Spans = tuple[Whole, Array]  # edge (n,), and from where to where along it (n, 2), sorted, apart


def _hidden_spans(edges: Array, stage: list[Staged]) -> Spans:
    found: list[tuple[Whole, Array]] = []
    if len(edges):
        low, high = edges.min(1), edges.max(1)
        screens = [screen.faces for screen in stage if _before(screen, low.min(0), high.max(0))]
        if screens:
            found = _behind(edges, low, high, np.concatenate(screens))
    if not found:
        return np.zeros(0, np.int64), np.zeros((0, 2))
    return _merged(np.concatenate([e for e, _ in found]), np.vstack([t for _, t in found]))


def _before(screen: Staged, low: Array, high: Array) -> bool:
    """Whether any of `screen` may stand before what lies between `low` and `high`."""
    apart = (screen.low[:2] > high[:2]).any() or (screen.high[:2] < low[:2]).any()
    return not apart and bool(screen.high[2] > low[2] + TOUCH)


def _behind(edges: Array, low: Array, high: Array, tris: Array) -> list[tuple[Whole, Array]]:
    """Spans of edges behind triangles (t, 3, 3)."""
    tris_low, tris_high = tris.min(1) - POINT, tris.max(1) + POINT
    near = (tris_low[:, :2] <= high[:, :2].max(0)).all(1) & (tris_high[:, :2] >= low[:, :2].min(0)).all(1)
    near &= tris_high[:, 2] > low[:, 2].min() + TOUCH
    tris, tris_low, tris_high = tris[near], tris_low[near], tris_high[near]
    step = max(1, BATCH // max(1, len(tris)))
    found = []
    for start in range(0, len(edges), step):
        some = np.arange(start, min(start + step, len(edges)))
        meet = (low[some, None, 0] <= tris_high[None, :, 0]) & (high[some, None, 0] >= tris_low[None, :, 0])
        meet &= (low[some, None, 1] <= tris_high[None, :, 1]) & (high[some, None, 1] >= tris_low[None, :, 1])
        meet &= low[some, None, 2] + TOUCH < tris_high[None, :, 2]
        rows, columns = np.nonzero(meet)
        if len(rows):
            which_behind, spans = _clipped(some[rows], edges[some[rows]], tris[columns])
            if len(which_behind):
                found.append((which_behind, spans))
    return found


def _clipped(which: Whole, edges: Array, tris: Array) -> tuple[Whole, Array]:
    """For each pair the stretch of the edge that lies inside the triangle and behind it."""
    ends = [edges[:, 0], edges[:, 1]]
    values = np.stack([_inside(end, tris) for end in ends])  # (2, 4, n): at both ends
    start, stop = np.zeros(len(which)), np.ones(len(which))
    first, last = values
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = first / (first - last)
    start = np.maximum(start, np.where(first < 0, np.where(last > 0, crossing, 2.0), 0.0).max(0))
    stop = np.minimum(stop, np.where(last < 0, np.where(first > 0, crossing, -1.0), 1.0).min(0))
    kept = stop > start
    return which[kept], np.stack([start, stop], 1)[kept]


def _inside(points: Array, tris: Array) -> Array:
    """Four numbers, all positive where a point lies inside a triangle and behind it. (4, n)"""
    out = []
    for i in range(3):
        a, b = tris[:, i], tris[:, (i + 1) % 3]
        side = b[:, :2] - a[:, :2]
        to = points[:, :2] - a[:, :2]
        long = np.hypot(side[:, 0], side[:, 1])
        out.append(side[:, 0] * to[:, 1] - side[:, 1] * to[:, 0] + GROWN * long)
    u, v, to = tris[:, 1] - tris[:, 0], tris[:, 2] - tris[:, 0], points - tris[:, 0]
    depth = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    across = u[:, 1] * v[:, 2] - u[:, 2] * v[:, 1]
    up = u[:, 2] * v[:, 0] - u[:, 0] * v[:, 2]
    # (across, up, depth) is the normal: how far the plane stands before the point along the sight line.
    behind = -(to[:, 0] * across + to[:, 1] * up) / np.maximum(depth, 1e-12) - to[:, 2]
    out.append(behind - TOUCH)
    return np.stack(out)


def _merged(edge: Whole, spans: Array) -> Spans:
    """Overlapping spans of the same edge made one."""
    order = np.lexsort((spans[:, 0], edge))
    edge, spans = edge[order], spans[order]
    reach = spans[:, 1] + 2.0 * edge  # edges lie two apart on one line, so that one sweep does for all
    reach = np.maximum.accumulate(reach)
    fresh = np.ones(len(edge), bool)
    fresh[1:] = (spans[1:, 0] + 2.0 * edge[1:] > reach[:-1] + 1e-9) | (edge[1:] != edge[:-1])
    starts = np.flatnonzero(fresh)
    last = np.append(starts[1:], len(edge)) - 1
    ends = reach[last] - 2.0 * edge[starts]
    return edge[starts], np.stack([spans[starts, 0], ends], 1)


def _gaps(spans: Spans, count: int) -> Spans:
    """What the spans leave of edges 0 to `count` - 1."""
    edge, stretch = spans
    every = np.arange(count)
    edges = np.concatenate([every, edge])
    starts = np.concatenate([np.zeros(count), stretch[:, 1]])
    order = np.lexsort((starts, edges))
    edges, starts = edges[order], starts[order]
    stops = np.concatenate([stretch[:, 0], np.ones(count)])
    stop_edges = np.concatenate([edge, every])
    stops = stops[np.lexsort((stops, stop_edges))]
    kept = stops - starts > 1e-9
    return edges[kept], np.stack([starts, stops], 1)[kept]


def _cut(edges: Array, spans: Spans, order: int) -> list[Span]:
    """The spans as segments on the paper, without specks."""
    which, stretch = spans
    first, last = edges[which, 0, :2], edges[which, 1, :2]
    a = first + (last - first) * stretch[:, :1]
    b = first + (last - first) * stretch[:, 1:]
    whole = stretch[:, 1] - stretch[:, 0] > 1 - 1e-9
    kept = np.abs(a - b).max(1) > np.where(whole, POINT, STUB)
    rows = np.hstack([a, b])[kept].tolist()
    return [(order, (row[0], row[1], row[2], row[3])) for row in rows]
