"""Can lids, doors, drawers and trays go all the way, and is nothing in anything in any pose?

Sweeps miss no instant (`geometry`). Walls, floor, things held and what must move first are counted in;
the mend is the part of the way that is free, or the order of movements that frees it.
"""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined, corners_of
from scantling.checks.finding import Change, Finding, Mend
from scantling.checks.poses import steps_before
from scantling.checks.rules import rule
from scantling.geometry import Hit, first_hit, pose_placements
from scantling.piece.model import WALL, Box, Face, Movement, Piece, PoseStep, Slide, Swing
from scantling.quantity import format_angle

FAR = 5000.0  # mm: how far walls and floor reach
THICK = 500.0  # mm: how thick they are taken
WALLS = {Face.BACK: "wall behind", Face.LEFT: "wall on the left", Face.RIGHT: "wall on the right"}


def motion(examined: Examined) -> Iterator[Finding]:
    """Findings on every movement by itself, after what must be done first."""
    for movement in examined.piece.movements:
        yield from _way(examined, movement)


def room_boxes(piece: Piece) -> dict[str, Box]:
    """Walls the piece stands against and the floor, as boxes. A hung piece has no floor near."""
    low, high = piece.overall.low, piece.overall.high
    wide = (low[0] - FAR, high[0] + FAR)
    boxes = {}
    if not any(joint.second == WALL for joint in piece.joints):
        boxes["floor"] = Box((wide[0], low[1] - FAR, low[2] - THICK), (wide[1], high[1] + FAR, low[2]))
    for face, name in WALLS.items():
        if face in piece.room.against:
            axis = face.axis
            start = high[axis] if face.sign > 0 else low[axis] - THICK
            reach = Box((wide[0], low[1] - FAR, low[2] - FAR), (wide[1], high[1] + FAR, high[2] + FAR))
            boxes[name] = reach.with_span(axis, start, start + THICK)
    return boxes


def _way(examined: Examined, movement: Movement) -> Iterator[Finding]:
    before = steps_before(examined.piece, movement)
    obstacles = room_boxes(examined.piece) | _still_things(examined, movement, before)
    hit = first_hit(examined.scene, movement, before, obstacles, _riding_things(examined, movement))
    if hit is None or hit.fraction >= 1.0 - 1e-6:
        return
    if hit.at_rest or hit.fraction < 1e-6:
        yield _blocked_at_once(examined, movement, hit)
    elif hit.obstacle in obstacles and hit.obstacle in room_boxes(examined.piece):
        yield _into_the_room(examined, movement, hit)
    else:
        yield _blocked(examined, movement, hit)


def _still_things(examined: Examined, movement: Movement, before: tuple[PoseStep, ...]) -> dict[str, Box]:
    """Things held by parts that neither move now nor have moved before."""
    gone = {step.movement for step in before} | {movement.name}
    moved = {name for m in examined.piece.movements if m.name in gone for name in m.moves}
    return {h.name: h.box for h in examined.piece.holds if not moved & set(h.on)}


def _riding_things(examined: Examined, movement: Movement) -> dict[str, Box]:
    """Things held by the moving parts."""
    return {h.name: h.box for h in examined.piece.holds if movement.moves & set(h.on)}


def _said(examined: Examined, movement: Movement, amount: float) -> str:
    return format_angle(amount) if isinstance(movement.motion, Swing) else examined.length(amount)


def _whole(movement: Movement) -> float:
    motion = movement.motion
    return motion.distance if isinstance(motion, Slide) else abs(motion.angle)


def _blocked_at_once(examined: Examined, movement: Movement, hit: Hit) -> Finding:
    return rule("movement starts blocked").found(
        f"{movement.name} cannot begin: {hit.mover} is stopped by {hit.obstacle}",
        _parts(examined, hit),
        0.0,
        limit=_whole(movement),
        mend=_free_first(examined, movement, hit),
        spot=hit.point,
        place=movement.place,
    )


def _blocked(examined: Examined, movement: Movement, hit: Hit) -> Finding:
    free, whole = _said(examined, movement, hit.at), _said(examined, movement, _whole(movement))
    first = _free_first(examined, movement, hit)
    return rule("movement blocked").found(
        f"{movement.name} stops after {free} of {whole}: {hit.mover} meets {hit.obstacle}",
        _parts(examined, hit),
        hit.at,
        limit=_whole(movement),
        mend=first or Mend(f"let it go {free} and no farther, or clear the way at {hit.obstacle}"),
        spot=hit.point,
        place=movement.place,
    )


def _free_first(examined: Examined, movement: Movement, hit: Hit) -> Mend | None:
    """Another movement that carries the obstacle away first, if that frees the whole way."""
    for other in examined.piece.movements:
        if hit.obstacle in other.moves and other.name not in movement.after:
            before = (*steps_before(examined.piece, other), PoseStep(other.name, 1.0))
            if first_hit(examined.scene, movement, before, room_boxes(examined.piece)) is None:
                return Mend(
                    f"let it wait for {other.name}: write `after: {other.name}`",
                    (Change("after", other.name, movement.place),),
                )
    return None


def _into_the_room(examined: Examined, movement: Movement, hit: Hit) -> Finding:
    free, whole = _said(examined, movement, hit.at), _said(examined, movement, _whole(movement))
    needed = _needed_from_wall(examined, movement, hit.obstacle)
    aside = f", or stand the piece {examined.length(needed)} off" if needed > 0 else ""
    return rule("swings into the room").found(
        f"{movement.name} stops after {free} of {whole}: {hit.mover} meets the {hit.obstacle}",
        (hit.mover,),
        hit.at,
        limit=_whole(movement),
        mend=Mend(f"let it go {free} at most{aside}"),
        spot=hit.point,
        place=movement.place,
    )


def _needed_from_wall(examined: Examined, movement: Movement, obstacle: str) -> float:
    """How far past its wall the moved parts reach at the end of the way. [mm]"""
    face = next((face for face, name in WALLS.items() if name == obstacle), None)
    if face is None:
        return 0.0
    at_end = pose_placements(examined.piece, (PoseStep(movement.name, 1.0),))
    reach = [
        at_end[name].point(corner)[face.axis] * face.sign
        for name in movement.moves
        for corner in corners_of(examined.bounds(name))
    ]
    wall = examined.piece.overall.face(face) * face.sign
    return examined.step_up(max(max(reach) - wall, 0.0))


def _parts(examined: Examined, hit: Hit) -> tuple[str, ...]:
    return tuple(name for name in (hit.mover, hit.obstacle) if name in examined.scene.solids)
