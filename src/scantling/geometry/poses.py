"""Where every part stands in a pose: movements done in their order, each carried by what it rides on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scantling.geometry.motions import after, inverse, motion_placement
from scantling.piece.model import Movement, PartName, Piece, Placement, PoseStep

AT_REST = "at rest"


def pose_placements(piece: Piece, pose: str | Sequence[PoseStep]) -> Mapping[PartName, Placement]:
    """How each part has moved from where it stands at rest: one placement for every part.

    `pose`: the name of one of the piece's poses, `at rest`, or steps. A movement's line is where
    the piece at rest has it, carried along by what it rides on.
    """
    steps = ordered_steps(piece, pose_steps(piece, pose) if isinstance(pose, str) else pose)
    where = {part.name: Placement() for part in piece.parts}
    for movement, fraction in steps:
        moved = motion_placement(movement.motion, fraction)
        frame = carrier_placement(piece, movement, steps)
        in_room = after(frame, after(moved, inverse(frame)))
        for name in sorted(carried_by(piece, movement)):
            where[name] = after(in_room, where[name])
    return where


def pose_steps(piece: Piece, name: str) -> tuple[PoseStep, ...]:
    """The steps of a pose by its name; raises ValueError for a name that no pose has."""
    if name == AT_REST:
        return ()
    found = next((pose for pose in piece.poses if pose.name == name), None)
    if found is None:
        known = ", ".join([AT_REST, *(pose.name for pose in piece.poses)])
        raise ValueError(f"there is no pose called {name!r}; there are {known}")
    return found.steps


def movement_named(piece: Piece, name: str) -> Movement:
    """A movement by its name; raises ValueError for one that is not there."""
    found = next((movement for movement in piece.movements if movement.name == name), None)
    if found is None:
        known = ", ".join(movement.name for movement in piece.movements)
        raise ValueError(f"there is no movement called {name!r}; there are {known}")
    return found


Steps = list[tuple[Movement, float]]


def ordered_steps(piece: Piece, steps: Sequence[PoseStep]) -> Steps:
    """The steps in the order they are done: carriers first, `after` next, then as written."""
    waiting = [(movement_named(piece, step.movement), step.fraction) for step in steps]
    done: Steps = []
    while waiting:
        names = {movement.name for movement, _ in waiting}
        ready = next((s for s in waiting if not names & _needs(s[0])), waiting[0])
        waiting.remove(ready)
        done.append(ready)
    return done


def _needs(movement: Movement) -> set[str]:
    return {*movement.after, *([movement.rides_on] if movement.rides_on else [])} - {movement.name}


def carrier_placement(piece: Piece, movement: Movement, steps: Steps) -> Placement:
    """Where what a movement rides on has gone after `steps`, and with it the movement's line."""
    gone = {done.name: (done, fraction) for done, fraction in steps}
    where = Placement()
    seen = {movement.name}
    name = movement.rides_on
    while name is not None and name not in seen:
        seen.add(name)
        carrier, fraction = gone.get(name, (movement_named(piece, name), 0.0))
        where = after(motion_placement(carrier.motion, fraction), where)
        name = carrier.rides_on
    return where


def carried_by(piece: Piece, movement: Movement) -> frozenset[PartName]:
    """All parts a movement takes along: its own, and those of movements that ride on it."""
    riding = [m for m in piece.movements if m.rides_on == movement.name and m.name != movement.name]
    return movement.moves.union(*(carried_by(piece, rider) for rider in riding))
