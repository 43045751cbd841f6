"""The states in which a piece is looked at: rest, every named pose, every movement all the way."""

from __future__ import annotations

from scantling.checks.examined import Examined
from scantling.piece.model import Movement, Piece, Pose, PoseStep

REST = "at rest"


def poses_to_try(examined: Examined) -> tuple[Pose, ...]:
    """`at rest`, the piece's own poses, then each movement all the way by itself where none has it so."""
    poses = {pose.name: pose for pose in examined.piece.poses}
    rest = poses.pop(REST, Pose(REST, ()))
    named = {
        frozenset(step.movement for step in pose.steps if step.fraction >= 1.0) for pose in poses.values()
    }
    alone = [
        Pose(f"{movement.name} open", (*steps_before(examined.piece, movement), PoseStep(movement.name, 1.0)))
        for movement in examined.piece.movements
    ]
    fresh = [pose for pose in alone if frozenset(step.movement for step in pose.steps) not in named]
    return (rest, *poses.values(), *fresh)


def own_name(examined: Examined, pose: str) -> str | None:
    """The name of one of the piece's own poses; None at rest and for those made up here."""
    return pose if pose != REST and any(own.name == pose for own in examined.piece.poses) else None


def steps_before(piece: Piece, movement: Movement) -> tuple[PoseStep, ...]:
    """What must have been done before a movement can begin, first things first."""
    by_name = {each.name: each for each in piece.movements}
    done: dict[str, PoseStep] = {}

    def add(name: str) -> None:
        if name in by_name and name not in done:
            for earlier in by_name[name].after:
                add(earlier)
            done[name] = PoseStep(name, 1.0)

    for earlier in movement.after:
        add(earlier)
    return tuple(done.values())
