"""How far each part is moved for the exploded view: away from the middle, and along what it moves on."""

from __future__ import annotations

from scantling.piece.model import Axis, PartName, Piece, Placement, Slide, Vec3

SPREAD = (0.45, 0.75, 0.5)  # wide, deep, high: share of the distance from the middle
LIFT = 0.45  # moving assemblies, as a share of the overall size


def exploded_placements(piece: Piece) -> dict[PartName, Placement]:
    """A move from rest for every part. Assemblies that move come out along their movement first."""
    middle = piece.overall.centre
    out = _movement_shifts(piece)
    placements = {}
    for part in piece.parts:
        centre = part.placement.point(part.box.centre)
        apart = [SPREAD[axis] * (centre[axis] - middle[axis]) for axis in range(3)]
        more = out.get(part.name, (0.0, 0.0, 0.0))
        shift = [apart[axis] + more[axis] for axis in range(3)]
        placements[part.name] = Placement(shift=(shift[0], shift[1], shift[2]))
    return placements


def _movement_shifts(piece: Piece) -> dict[PartName, Vec3]:
    shifts: dict[PartName, Vec3] = {}
    for movement in piece.movements:
        motion = movement.motion
        direction = motion.direction if isinstance(motion, Slide) else (0.0, 0.0, 1.0)
        reach = LIFT * max(piece.overall.size(axis) for axis in Axis)
        for name in sorted(movement.moves):
            old = shifts.get(name, (0.0, 0.0, 0.0))
            new = [old[axis] + direction[axis] * reach for axis in range(3)]
            shifts[name] = (new[0], new[1], new[2])
    return shifts
