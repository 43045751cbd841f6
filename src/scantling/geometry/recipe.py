"""How one part's solid is made, step by step, from primitives; equal recipes give equal solids.

Stages (piece language 2.7): box; outline, lean, taper; what joints add; what joints and hardware
take; edge work. Wood that one joint adds is never nicked by a cutter that only opens a face.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from scantling.geometry.cutters import (
    addition_block,
    cut_cutter,
    grown,
    hole_cutter,
    reach_of_trim,
    shaped_block,
    trim_plane,
)
from scantling.geometry.edge_work import run_cutter, without_bands, work_cutters
from scantling.geometry.levelling import Level
from scantling.geometry.outlay import Outlay
from scantling.geometry.primitives import (
    Bowl,
    Plane,
    Primitive,
    Prism,
    Rim,
    Round,
    Stick,
    block,
)
from scantling.geometry.shapes import base_of
from scantling.piece.model import Axis, Box, Face, Placement, Vec3

BORE = 15.0  # mm across: holes at least so wide are drawn in every picture


@dataclass(frozen=True, slots=True)
class Coped:
    """A body that an end is fitted to: its recipe, and where it stands in this part's frame."""

    face: Face
    body: Recipe
    placement: Placement


@dataclass(frozen=True, slots=True)
class CopeCutter:
    """What a cope takes: the other body within `probe`, and all past that body's middle."""

    cope: Coped
    probe: Prism


@dataclass(frozen=True, slots=True)
class Recipe:
    """`base` cut by `planes`, less `takes`; plus `adds` (less `from_adds`, cut to `levels`); less all holes.

    `bands` are lippings glued on the base before anything is taken. `bores` are holes wide enough to
    be seen across a room (a cord hole); `holes` the others, which pictures of the piece leave out.
    """

    base: Primitive
    bands: tuple[Prism, ...]
    planes: tuple[Plane, ...]
    takes: tuple[Primitive, ...]
    adds: tuple[Primitive, ...]
    from_adds: tuple[Primitive, ...]
    bores: tuple[Prism, ...]
    holes: tuple[Prism, ...]
    copes: tuple[CopeCutter, ...] = ()
    levels: tuple[Plane, ...] = ()


def is_curved(recipe: Recipe) -> bool:
    """Whether fewer flats draw it as well: a round stick or board, a dish, edges worked all round."""
    base = recipe.base
    is_round = isinstance(base, Stick) or (isinstance(base, Prism) and isinstance(base.outer, Round))
    return is_round or bool(recipe.copes) or any(isinstance(take, Bowl | Rim) for take in recipe.takes)


@lru_cache(maxsize=4096)
def recipe_of(outlay: Outlay, copes: tuple[Coped, ...] = (), levels: tuple[Level, ...] = ()) -> Recipe:
    """The steps that make the part."""
    box, planes = _lengthened(outlay)
    box = _reaching(box, copes)
    core, bands = without_bands(box, outlay.work) if outlay.shape.is_box else (box, [])
    base, level = base_of(core, outlay.shape, outlay.grain)
    takes = [cut_cutter(cut, box) for cut in outlay.cuts]
    takes += [shaped_block(s) for s in outlay.shaped if not s.adds]
    work: list[Primitive] = [run_cutter(run, outlay.box) for run in outlay.runs]
    work += work_cutters(outlay.work, outlay.box, outlay.shape)
    return Recipe(
        base=base,
        bands=tuple(block(band) for band in bands),
        planes=(*level, *planes),
        takes=(*takes, *work),
        adds=_additions(outlay, copes, {level.addition for level in levels}),
        from_adds=(*_taken_from_additions(outlay), *(dish for level in levels for dish in level.dishes)),
        bores=tuple(hole_cutter(hole) for hole in outlay.holes if hole.diameter >= BORE),
        holes=tuple(hole_cutter(hole) for hole in outlay.holes if hole.diameter < BORE),
        copes=tuple(CopeCutter(c, block(grown(outlay.box, c.face, max(outlay.box.sizes)))) for c in copes),
        levels=tuple(level.plane for level in levels),
    )


def _lengthened(outlay: Outlay) -> tuple[Box, tuple[Plane, ...]]:
    """The box carried on at slanting ends, far enough for the plane to cut the whole end."""
    box = outlay.box
    if outlay.shape.outline is None:
        for trim in outlay.trims:
            box = grown(box, trim.face, reach_of_trim(trim, outlay.box))
    return box, tuple(trim_plane(trim) for trim in outlay.trims)


def _reaching(box: Box, copes: tuple[Coped, ...]) -> Box:
    """A coped end reaches on to half its own width, to have wood round the curve."""
    for cope in copes:
        across = max(box.size(axis) for axis in Axis if axis != cope.face.axis)
        box = grown(box, cope.face, across / 2)
    return box


def _additions(outlay: Outlay, copes: tuple[Coped, ...], levelled: set[int]) -> tuple[Primitive, ...]:
    """Blocks beyond the box; where an end slants, curves or tapers they begin well inside it.

    Those numbered in `levelled` are left long, to be cut.
    """
    uneven = {trim.face for trim in outlay.trims} | {cope.face for cope in copes}
    blocks: list[Primitive] = []
    for number, addition in enumerate(outlay.additions):
        face = addition.face
        inward = _receding(outlay, face) if face in uneven else 0.0
        blocks.append(addition_block(addition, inward, number in levelled))
    return (*blocks, *(shaped_block(s) for s in outlay.shaped if s.adds))


def _receding(outlay: Outlay, face: Face) -> float:
    """How far inside the box a slanting or hollowed end may lie. [mm]"""
    trims = [t for t in outlay.trims if t.face == face]
    slants = [reach_of_trim(replace(t, normal=_mirrored(t.normal, face)), outlay.box) for t in trims]
    return max([min(outlay.box.size(axis) for axis in Axis) / 4, *slants])


def _mirrored(normal: Vec3, face: Face) -> Vec3:
    """The normal of the same plane leaning the other way."""
    x, y, z = (n if axis == face.axis else -n for axis, n in enumerate(normal))
    return (x, y, z)


def _taken_from_additions(outlay: Outlay) -> list[Primitive]:
    """Cutters for added wood: as drawn, opening only what lies beyond all of the part."""
    if not outlay.additions and not any(s.adds for s in outlay.shaped):
        return []
    whole = _round_all(outlay)
    takes: list[Primitive] = [cut_cutter(cut, whole) for cut in outlay.cuts if _beyond(cut.box, outlay.box)]
    takes += [shaped_block(s) for s in outlay.shaped if not s.adds]
    return takes


def _round_all(outlay: Outlay) -> Box:
    boxes = [outlay.box, *(addition.box for addition in outlay.additions)]
    low = tuple(min(box.low[a] for box in boxes) for a in range(3))
    high = tuple(max(box.high[a] for box in boxes) for a in range(3))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _beyond(box: Box, part: Box) -> bool:
    """Whether a cut reaches out of the visible box, into added wood."""
    return any(box.low[a] < part.low[a] - 1e-6 or box.high[a] > part.high[a] + 1e-6 for a in range(3))
