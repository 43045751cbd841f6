"""Flat faces as shapes on the paper, and what of each no nearer face covers."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

import numpy as np
from manifold3d import CrossSection, OpType

from scantling.geometry.kernel import Array, Whole
from scantling.geometry.staging import FACING, Staged
from scantling.piece.model import TOUCH

ROWS = 512  # faces compared with all others at once
HANDFUL = 8  # faces taken away at a time
SLIVER = 0.05  # mm²: smaller regions and holes are rounding


@dataclass(frozen=True, eq=False)
class Panes:
    """Flat faces that look toward the eye: facet `facet` of part number `owner`. (n,) each

    `plane` (n, 3): depth toward the eye = p0 + p1·across + p2·up.
    """

    owner: Whole
    facet: Whole
    normal: Array
    plane: Array
    low: Array
    high: Array
    points: tuple[Array, ...]
    shapes: tuple[CrossSection, ...]


def panes_of(stage: list[Staged]) -> Panes:
    """All faces that look toward the eye, as shapes on the paper."""
    names: list[tuple[int, int]] = []
    normals, planes, points, shapes = [], [], [], []
    for order, subject in enumerate(stage):
        facets = subject.mesh.facets
        normal = facets.normal @ subject.turn.T
        for i in np.flatnonzero((normal[:, 2] > FACING) & (facets.area > SLIVER)).tolist():
            loops = [subject.points[loop] for loop in facets.loops(i)]
            every = np.vstack(loops)
            n = normal[i]
            names.append((order, i))
            normals.append(n)
            planes.append((float(n @ every[0]) / n[2], -n[0] / n[2], -n[1] / n[2]))
            points.append(every)
            shapes.append(CrossSection([loop[:, :2] for loop in loops]))
    low = np.array([p[:, :2].min(0) for p in points]).reshape(-1, 2)
    high = np.array([p[:, :2].max(0) for p in points]).reshape(-1, 2)
    owner, facet = np.array(names, dtype=np.int64).reshape(-1, 2).T
    flat = (np.array(normals).reshape(-1, 3), np.array(planes).reshape(-1, 3))
    return Panes(owner, facet, *flat, low, high, tuple(points), tuple(shapes))


def visible_shapes(panes: Panes) -> list[CrossSection]:
    """Of each face the shape on the paper that no nearer face covers."""
    nearest = np.array([points[:, 2].max() for points in panes.points])
    sizes = np.prod(panes.high - panes.low, axis=1)
    farthest = np.array([points[:, 2].min() for points in panes.points])
    out = []
    for start in range(0, len(panes.shapes), ROWS):
        rows = slice(start, start + ROWS)
        near = nearest > farthest[rows, None] - TOUCH
        for axis in range(2):
            near &= panes.low[:, axis] < panes.high[rows, None, axis] - 1e-6
            near &= panes.high[:, axis] > panes.low[rows, None, axis] + 1e-6
        rows_near, columns = np.nonzero(near)
        faces, others = _in_question(panes, rows_near + start, columns)
        ends = np.searchsorted(faces, np.arange(len(near) + 1) + start)
        out += [_uncovered(panes, start + i, others[ends[i] : ends[i + 1]], sizes) for i in range(len(near))]
    return out


def _in_question(panes: Panes, faces: Whole, others: Whole) -> tuple[Whole, Whole]:
    """Pairs without those where the other is nowhere the nearer in the rectangle both lie in."""
    rise = panes.plane[others] - panes.plane[faces]
    low = np.maximum(panes.low[faces], panes.low[others])
    high = np.minimum(panes.high[faces], panes.high[others])
    ends = np.sort(np.stack([low, high]) * rise[:, 1:], axis=0)
    least, most = rise[:, 0] + ends[0].sum(1), rise[:, 0] + ends[1].sum(1)
    kept = (most > TOUCH) | ((least >= -TOUCH) & (others < faces))
    kept &= others != faces
    return faces[kept], others[kept]


def _uncovered(panes: Panes, i: int, others: Whole, sizes: Array) -> CrossSection:
    """What the nearer faces leave of face i; large ones first, for most often they leave nothing."""
    points = panes.points[i]
    if not len(others):
        return panes.shapes[i]
    rise = panes.plane[others] - panes.plane[i]
    over = rise[:, :1] + rise[:, 1:] @ points[:, :2].T
    kept = over.max(1) > TOUCH
    kept |= (over.min(1) >= -TOUCH) & (others < i)  # of two in one plane the first is seen
    others, whole = others[kept], over[kept].min(1) >= -TOUCH
    order = np.argsort(-sizes[others], kind="stable")
    nearer = list(zip(others[order].tolist(), whole[order].tolist(), strict=True))
    shape = panes.shapes[i]
    for start in range(0, len(nearer), HANDFUL):
        few = nearer[start : start + HANDFUL]
        covers = [c for j, all_over in few if (c := _cover(panes, i, j, all_over)) is not None]
        if covers:
            shape = CrossSection.batch_boolean([shape, *covers], OpType.Subtract)
        if shape.is_empty():
            break
    return shape


def _cover(panes: Panes, i: int, j: int, all_over: bool) -> CrossSection | None:
    """What face j hides of face i: j itself where its plane is the nearer one."""
    if all_over:
        return panes.shapes[j]
    rise = panes.plane[j] - panes.plane[i]
    over = rise[0] + panes.points[j][:, :2] @ rise[1:]
    if over.max() <= TOUCH:
        return None
    if over.min() >= -TOUCH:
        return panes.shapes[j]
    return panes.shapes[j] ^ _half_plane(rise, panes.low[j] - 1.0, panes.high[j] + 1.0)


def _half_plane(rise: Array, low: Array, high: Array) -> CrossSection:
    """Where rise0 + rise1·u + rise2·v is positive, as far as the box from `low` to `high`."""
    (at, x, y), (u1, v1), (u2, v2) = rise.tolist(), low.tolist(), high.tolist()
    long = hypot(x, y)
    out, along = (x / long, y / long), (-y / long, x / long)
    u, v, far = (u1 + u2) / 2, (v1 + v2) / 2, 2 * hypot(u2 - u1, v2 - v1)
    off = (at + u * x + v * y) / long
    u, v = u - out[0] * off, v - out[1] * off
    quad = [
        (u + along[0] * a * far + out[0] * b * far, v + along[1] * a * far + out[1] * b * far)
        for a, b in ((-1, 0), (1, 0), (1, 2), (-1, 2))
    ]
    return CrossSection([np.array(quad[::-1])])  # out is to the right of along: turned anticlockwise
