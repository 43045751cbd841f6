"""The piece as solids standing where they belong, and the answers geometry gives about them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from scantling.errors import ResolveError
from scantling.geometry.body import Body, body_of
from scantling.geometry.levelling import levels_of
from scantling.geometry.motions import rounded, seen_in
from scantling.geometry.outlay import corner_placement, outlay_of, plain_outlay
from scantling.geometry.recipe import Coped, recipe_of
from scantling.joinery.features import Cope, MachinedPart, MachinedPiece
from scantling.piece.model import Box, Joint, PartName, Piece, Placement, Vec3


@dataclass(frozen=True, eq=False)
class Solid:
    """One part's finished solid.

    `body` counts from the low corner of the part's box and is shared by equal parts; `placement`
    brings it to where the part stands in the piece.
    """

    name: PartName
    body: Body
    placement: Placement

    @property
    def volume(self) -> float:
        """Wood left after all machining. [mm³]"""
        return self.body.volume

    @property
    def centre(self) -> Vec3:
        """Centre of volume, piece's frame. [mm]"""
        return self.placement.point(self.body.centre)

    @cached_property
    def bounds(self) -> Box:
        """Smallest box round the solid, piece's frame. [mm]"""
        return self.body.bounds(self.placement)


@dataclass(frozen=True, eq=False)
class Scene:
    """Every part of a machined piece as a solid, in the order of the piece's parts."""

    machined: MachinedPiece
    solids: Mapping[PartName, Solid]

    @property
    def piece(self) -> Piece:
        return self.machined.piece


@dataclass(frozen=True, slots=True)
class Mass:
    """`total` and `by_part` in kg; `centre` of gravity in the piece's frame [mm]."""

    total: float
    centre: Vec3
    by_part: Mapping[PartName, float]


@dataclass(frozen=True, slots=True)
class FoundContact:
    """Flat faces of two parts that meet within the tolerance.

    One for each plane in which the pair meets; `area` [mm²]; `normal` points out of `first` into
    `second`; `centre` is the middle of the common area. Piece's frame.
    """

    first: PartName
    second: PartName
    area: float
    normal: Vec3
    centre: Vec3


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two parts in the same place at rest: `volume` [mm³], `depth` = 2·volume/area [mm]."""

    first: PartName
    second: PartName
    volume: float
    depth: float
    centre: Vec3


@dataclass(frozen=True, slots=True)
class Hit:
    """Where a movement stops: `mover` meets `obstacle` after `at` (degrees or mm).

    `fraction` of the whole movement; `at_rest`: they are in each other before it begins;
    `point`: about where they meet, piece's frame. `obstacle` may be the name of an extra box.
    """

    mover: PartName
    obstacle: str
    at: float
    fraction: float
    point: Vec3
    at_rest: bool = False


def scene_of(machined: MachinedPiece) -> Scene:
    """The piece's parts as solids. Only parts whose content changed since last time cost anything.

    Raises ResolveError for a part that cannot be made: an outline that crosses itself, or no wood left.
    """
    joints: dict[str, list[Joint]] = {}
    for joint in machined.piece.joints:
        for name in dict.fromkeys((joint.first, joint.second)):
            joints.setdefault(name, []).append(joint)
    solids = {part.name: _solid(part, machined, joints.get(part.name, [])) for part in machined.parts}
    return Scene(machined, solids)


def _solid(part: MachinedPart, machined: MachinedPiece, joints: Sequence[Joint]) -> Solid:
    """The solid of a part; `joints`: those it is in, and no others."""
    copes = tuple(_coped(cope, part, machined) for cope in part.copes)
    outlay = outlay_of(part, joints)
    body = body_of(recipe_of(outlay, copes, levels_of(part, machined, joints)))
    if body.fault:
        remedy = "look at its outline, and at the sizes of its joints and work"
        raise ResolveError(body.fault, part.part.place, remedy, (part.name,))
    return Solid(part.name, body, corner_placement(part.part))


def _coped(cope: Cope, part: MachinedPart, machined: MachinedPiece) -> Coped:
    """The shaped stick an end is fitted to, without the other's own machining."""
    other = machined.by_name[cope.other].part
    where = seen_in(corner_placement(part.part), corner_placement(other))
    return Coped(cope.face, recipe_of(plain_outlay(other)), rounded(where))
