"""Through tenons levelled where they come out: leaning ones, and those in a dished seat.

A maker leaves such a tenon long, and saws and pares it level with the face once the glue is dry;
common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from scantling.geometry.cutters import STRAIGHT
from scantling.geometry.edge_work import dish
from scantling.geometry.motions import inverse, rounded, seen_in
from scantling.geometry.outlay import corner_placement, plain_outlay
from scantling.geometry.primitives import Bowl, Frame, Plane
from scantling.joinery.features import Addition, MachinedPart, MachinedPiece
from scantling.piece.model import Axis, DishWork, Face, Joint, Part, Placement, face_of


@dataclass(frozen=True, slots=True)
class Level:
    """Addition number `addition` is cut to a plane, and hollowed with the dishes in it. Corner's frame."""

    addition: int
    plane: Plane
    dishes: tuple[Bowl, ...]


def levels_of(machined: MachinedPart, piece: MachinedPiece, joints: Iterable[Joint]) -> tuple[Level, ...]:
    """For each through tenon of the part, among its `joints`, that a square end would not leave flush."""
    found: list[Level] = []
    for joint in joints:
        if joint.first == machined.name and _is_through(joint) and joint.second in piece.by_name:
            found += _levels(machined, joint, piece.by_name[joint.second].part)
    return tuple(found)


def _is_through(joint: Joint) -> bool:
    return joint.method == "through tenon" or joint.settings.through


def _levels(machined: MachinedPart, joint: Joint, other: Part) -> Iterator[Level]:
    where = rounded(seen_in(corner_placement(machined.part), corner_placement(other)))
    for number, addition in enumerate(machined.additions):
        if addition.owner == joint.id:
            face, steep = _way_out(addition, where)
            dishes = tuple(
                _placed_bowl(dish(work, plain_outlay(other).box), where)
                for work in other.work
                if isinstance(work, DishWork) and work.face is face
            )
            if dishes or steep < STRAIGHT:
                yield Level(number, _plane(face, other, where), dishes)


def _way_out(addition: Addition, where: Placement) -> tuple[Face, float]:
    """The face of the other part that the tenon comes out of, and the cosine of its lean there."""
    direction = inverse(where).direction(addition.direction or addition.face.normal)
    axis = max(Axis, key=lambda a: abs(direction[a]))
    return face_of(axis, 1 if direction[axis] > 0 else -1), abs(direction[axis])


def _plane(face: Face, other: Part, where: Placement) -> Plane:
    at = [0.0, 0.0, 0.0]
    at[face.axis] = plain_outlay(other).box.face(face)
    return Plane(where.point((at[0], at[1], at[2])), where.direction(face.normal))


def _placed_bowl(bowl: Bowl, where: Placement) -> Bowl:
    f = bowl.frame
    frame = Frame(where.point(f.origin), where.direction(f.u), where.direction(f.v), where.direction(f.w))
    return replace(bowl, frame=frame)
