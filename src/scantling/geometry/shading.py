"""Shaded pictures as vector polygons: for each face the part of it that nothing stands before."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np
from manifold3d import CrossSection, OpType

from scantling.geometry.drawing import Colour, Region, ShadedPicture
from scantling.geometry.kernel import Array
from scantling.geometry.lines import drawing_of
from scantling.geometry.panes import SLIVER, Panes, panes_of, visible_shapes
from scantling.geometry.scene import Scene
from scantling.geometry.shadows import lit_shapes
from scantling.geometry.staging import corners, staged
from scantling.geometry.tones import shaded, tone_named, wood_tone
from scantling.geometry.view import View
from scantling.piece.model import PartName, Placement

THIN = 0.1  # mm: thinner pieces and gaps are rounding
DIM = 0.6  # brightness of what no light falls on
LIGHT_STEPS = 32  # shades of one tone; faces of like shade share a path
SKY = (0.5, 0.6, 0.6)  # to the weaker light, from over the right shoulder
SUN = (-0.35, 0.75, 0.55)  # to the light, from across, up, toward the eye: over the left shoulder


def shaded_picture(
    scene: Scene,
    view: View,
    tones: Mapping[PartName, Colour | str] | None = None,
    parts: Collection[PartName] | None = None,
    placements: Mapping[PartName, Placement] | None = None,
    holes: bool = False,
    lines: bool = True,
    shadows: bool = False,
) -> ShadedPicture:
    """Visible regions of faces, toned and lit from over the viewer's left shoulder, and their edges.

    `tones`: a colour or its word for some parts; others have the colour of their wood. The regions
    do not overlap and together fill the silhouette. `shadows`: parts cast them on each other, at
    about twice the cost.
    """
    stage = staged(scene, view, parts, placements, holes)
    panes = panes_of(stage)
    lit = lit_shapes(scene, view, SUN, parts, placements, holes) if shadows else None
    shapes = _by_shade(panes, lit)
    colours = [_tone(scene, subject.part, tones) for subject in stage]
    regions = [
        Region(stage[owner].part, shaded(colours[owner], light), _loops(group), in_light)
        for (owner, light, in_light), group in shapes.items()
    ]
    seen = {owner for owner, _, _ in shapes}  # nothing of the others can show, nor hide what shows
    front = [subject for order, subject in enumerate(stage) if order in seen]
    drawing = drawing_of(front, view, hidden=False) if lines else None
    return ShadedPicture(view, tuple(regions), drawing, *corners(stage))


Shades = dict[tuple[int, float, bool], list[CrossSection]]


def _by_shade(panes: Panes, lit: Mapping[tuple[int, int], CrossSection] | None) -> Shades:
    """Visible shapes by part, brightness, and whether the light reaches them."""
    shapes: Shades = {}
    for i, shape in enumerate(visible_shapes(panes)):
        owner, light = int(panes.owner[i]), _light(panes.normal[i])
        faces_sun = float(panes.normal[i] @ np.array(SUN)) > 0
        pieces = [(shape, light, True)]
        if lit is not None and faces_sun and not shape.is_empty():
            reached = lit.get((owner, int(panes.facet[i])), CrossSection())
            pieces = [
                (shape ^ reached, light, True),
                (shape - reached, _light(panes.normal[i], False), False),
            ]
        for piece, bright, in_light in pieces:
            if piece.area() > SLIVER:
                shapes.setdefault((owner, bright, in_light), []).append(piece)
    return shapes


def _tone(scene: Scene, part: PartName, tones: Mapping[PartName, Colour | str] | None) -> Colour:
    if tones and part in tones:
        return tone_named(tones[part])
    return wood_tone(scene.piece.part(part))


def _light(normal: Array, in_sun: bool = True) -> float:
    """Brightness of a face, in steps: some from the sky, most from the sun."""
    sun = np.array(SUN) / np.linalg.norm(SUN)
    sky = np.array(SKY) / np.linalg.norm(SKY)
    bright = DIM + 0.07 * max(0.0, float(normal @ sky))
    bright += 0.42 * max(0.0, float(normal @ sun)) if in_sun else 0.0
    return round(bright * LIGHT_STEPS) / LIGHT_STEPS


def _loops(shapes: list[CrossSection]) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Faces of one part in one shade, as one shape."""
    shape = shapes[0] if len(shapes) == 1 else CrossSection.batch_boolean(shapes, OpType.Add)
    loops = [loop for loop in shape.to_polygons() if _thickness(loop) > THIN]
    return tuple(tuple((float(u), float(v)) for u, v in loop) for loop in loops)


def _thickness(loop: Array) -> float:
    """Twice the area over the way round: next to nothing for what rounding leaves between faces."""
    u, v = loop[:, 0], loop[:, 1]
    then_u, then_v = np.roll(u, -1), np.roll(v, -1)
    return abs(float((u * then_v - then_u * v).sum())) / max(
        float(np.hypot(then_u - u, then_v - v).sum()), 1e-9
    )
