"""The states in which a piece is looked at: rest, every named pose, every movement all the way."""

from __future__ import annotations

from scantling.checks.examined import Examined
from scantling.piece.model import Movement, Piece, Pose, PoseStep

REST = "at rest"


def poses_to_try(examined: Examined) -> tuple[Pose, ...]:
    """The piece's own poses, `at rest` first."""
    poses = {pose.name: pose for pose in examined.piece.poses}
    rest = poses.pop(REST, Pose(REST, ()))
    return (rest, *poses.values())


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
