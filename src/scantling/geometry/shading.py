"""Shaded pictures as vector polygons: for each face the part of it that nothing stands before."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np
from manifold3d import CrossSection, OpType

from scantling.geometry.drawing import Colour, Region, ShadedPicture
from scantling.geometry.kernel import Array, Whole
from scantling.geometry.lines import drawing_of
from scantling.geometry.scene import Scene
from scantling.geometry.staging import FACING, Staged, corners, staged
from scantling.geometry.tones import shaded, tone_named, wood_tone
from scantling.geometry.view import View
from scantling.piece.model import TOUCH, PartName, Placement

LIGHT_STEPS = 32  # shades of one tone; faces of like shade share a path
SUN = (-0.35, 0.75, 0.55)  # to the light, from across, up, toward the eye: over the left shoulder
HANDFUL = 8  # faces taken away at a time
SLIVER = 0.05  # mm²: regions smaller than this on the paper are rounding


@dataclass(frozen=True, eq=False)
class Panes:
    """Flat faces that look toward the eye. `plane` (n, 3): depth = p0 + p1·across + p2·up."""

    owner: Whole
    normal: Array
    plane: Array
    low: Array
    high: Array
    points: tuple[Array, ...]
    shapes: tuple[CrossSection, ...]


def shaded_picture(
    scene: Scene,
    view: View,
    tones: Mapping[PartName, Colour | str] | None = None,
    parts: Collection[PartName] | None = None,
    placements: Mapping[PartName, Placement] | None = None,
    holes: bool = False,
    lines: bool = True,
) -> ShadedPicture:
    """Visible regions of faces, toned and lit from over the viewer's left shoulder, and their edges.

    `tones`: a colour or its word for some parts; others have the colour of their wood. The regions
    do not overlap and together fill the silhouette.
    """
    stage = staged(scene, view, parts, placements, holes)
    panes = panes_of(stage)
    shapes: dict[tuple[int, float], list[CrossSection]] = {}
    for i, shape in enumerate(visible_shapes(panes)):
        if shape.area() > SLIVER:
            shapes.setdefault((int(panes.owner[i]), _light(panes.normal[i])), []).append(shape)
    colours = [_tone(scene, subject.part, tones) for subject in stage]
    regions = [
        Region(stage[owner].part, shaded(colours[owner], light), _loops(group))
        for (owner, light), group in shapes.items()
    ]
    seen = {owner for owner, _ in shapes}  # nothing of the others can show, nor hide what shows
    front = [subject for order, subject in enumerate(stage) if order in seen]
    drawing = drawing_of(front, view, hidden=False) if lines else None
    return ShadedPicture(view, tuple(regions), drawing, *corners(stage))


def _tone(scene: Scene, part: PartName, tones: Mapping[PartName, Colour | str] | None) -> Colour:
    if tones and part in tones:
        return tone_named(tones[part])
    return wood_tone(scene.piece.part(part))


def _light(normal: Array) -> float:
    sun = np.array(SUN) / np.linalg.norm(SUN)
    bright = 0.62 + 0.45 * max(0.0, float(normal @ sun))
    return round(bright * LIGHT_STEPS) / LIGHT_STEPS


def panes_of(stage: list[Staged]) -> Panes:
    """All faces that look toward the eye, as shapes on the paper."""
    owner, normals, planes, points, shapes = [], [], [], [], []
    for order, subject in enumerate(stage):
        facets = subject.mesh.facets
        normal = facets.normal @ subject.turn.T
        for i in np.flatnonzero((normal[:, 2] > FACING) & (facets.area > SLIVER)).tolist():
            loops = [subject.points[loop] for loop in facets.loops(i)]
            every = np.vstack(loops)
            n = normal[i]
            owner.append(order)
            normals.append(n)
            planes.append((float(n @ every[0]) / n[2], -n[0] / n[2], -n[1] / n[2]))
            points.append(every)
            shapes.append(CrossSection([loop[:, :2] for loop in loops]))
    low = np.array([p[:, :2].min(0) for p in points]).reshape(-1, 2)
    high = np.array([p[:, :2].max(0) for p in points]).reshape(-1, 2)
    whole = np.array(owner, dtype=np.int64)
    return Panes(whole, np.array(normals), np.array(planes), low, high, tuple(points), tuple(shapes))


def visible_shapes(panes: Panes) -> list[CrossSection]:
    """Of each face the shape on the paper that no nearer face covers."""
    nearest = np.array([points[:, 2].max() for points in panes.points])
    sizes = np.prod(panes.high - panes.low, axis=1)
    return [_uncovered(panes, i, nearest, sizes) for i in range(len(panes.shapes))]


def _uncovered(panes: Panes, i: int, nearest: Array, sizes: Array) -> CrossSection:
    """What the nearer faces leave of face i; large ones first, for most often they leave nothing."""
    low, high, points = panes.low, panes.high, panes.points[i]
    near = np.asarray((low < high[i] - 1e-6).all(1) & (high > low[i] + 1e-6).all(1))
    near &= nearest > points[:, 2].min() + TOUCH
    near[i] = False
    others = np.flatnonzero(near)
    rise = panes.plane[others] - panes.plane[i]
    over = rise[:, :1] + rise[:, 1:] @ points[:, :2].T
    kept = over.max(1) > TOUCH
    others, whole = others[kept], over[kept].min(1) >= -TOUCH
    order = np.argsort(-sizes[others], kind="stable")
    shape = panes.shapes[i]
    for few in np.array_split(order, max(1, -(-len(order) // HANDFUL))):
        pairs = zip(others[few].tolist(), whole[few].tolist(), strict=True)
        covers = [c for j, all_over in pairs if (c := _cover(panes, i, j, all_over)) is not None]
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
    slope = rise[1:]
    long = float(np.hypot(*slope))
    out = slope / long
    middle = (low + high) / 2
    far = float(np.hypot(*(high - low)))
    start = middle - out * (float(rise[0] + middle @ slope) / long)
    along = np.array([-out[1], out[0]])
    quad = [start - along * 2 * far, start - along * 2 * far + out * 4 * far]
    quad += [start + along * 2 * far + out * 4 * far, start + along * 2 * far]
    return CrossSection([np.array(quad)[::-1] if _clockwise(quad) else np.array(quad)])


def _clockwise(points: list[Array]) -> bool:
    a, b, c = points[:3]
    return bool((b - a)[0] * (c - b)[1] - (b - a)[1] * (c - b)[0] < 0)


def _loops(shapes: list[CrossSection]) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Faces of one part in one shade, as one shape."""
    shape = shapes[0] if len(shapes) == 1 else CrossSection.batch_boolean(shapes, OpType.Add)
    loops = [loop for loop in shape.to_polygons() if _extent(loop) > SLIVER]
    return tuple(tuple((float(u), float(v)) for u, v in loop) for loop in loops)


def _extent(loop: Array) -> float:
    """Area of a loop, whichever way it goes; holes left by rounding between faces have next to none."""
    u, v = loop[:, 0], loop[:, 1]
    return abs(float((u * np.roll(v, -1) - np.roll(u, -1) * v).sum())) / 2
