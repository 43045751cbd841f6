"""Gaps beside moving fronts and doors in which a finger can be caught.

What moves shall leave less than 8 mm or more than 25 mm beside it (EN 14749 and its like).
"""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.moving import is_door, slide_axis
from scantling.checks.rules import rule
from scantling.piece.model import TOUCH, Axis, Box, Face, Movement, PartName, Slide

NARROW = 8.0  # mm: below, no finger goes in
LONG = 50.0  # mm: shorter edges trap nothing


def finger_gaps(examined: Examined) -> Iterator[Finding]:
    """The widest trap beside each movement's foremost part."""
    for movement in examined.piece.movements:
        front = _front(examined, movement)
        traps = [] if front is None else list(_traps(examined, front))
        if front is not None and traps:
            gap, other = max(traps)
            wide = rule("finger gap").allowed
            yield rule("finger gap").found(
                f"{front}: {examined.length(gap)} beside {other}; a finger that goes in is caught: "
                f"gaps of {examined.length(NARROW)} to {examined.length(wide)} are avoided",
                (front, other),
                gap,
                mend=Mend("cover the gap with a wider front or a strip, or make it smaller"),
                place=movement.place,
            )


def _front(examined: Examined, movement: Movement) -> PartName | None:
    """The part that shows: of what slides the foremost, of a door the broadest."""
    if isinstance(movement.motion, Slide):
        axis, way = slide_axis(movement.motion), movement.motion.direction
        if axis == Axis.HIGH:
            return None
        return min(sorted(movement.moves), key=lambda n: _behind(examined.bounds(n), axis, way[axis]))
    if is_door(movement):
        return max(sorted(movement.moves), key=lambda n: examined.bounds(n).volume)
    return None


def _behind(box: Box, axis: Axis, way: float) -> float:
    return round(box.low[axis] if way < 0 else -box.high[axis], 1)


def _traps(examined: Examined, front: PartName) -> Iterator[tuple[float, PartName]]:
    """On each side of it the nearest part that stays, where the gap is of the trapping width."""
    own, wide = examined.bounds(front), rule("finger gap").allowed
    thin = Axis.DEEP if own.size(Axis.DEEP) < own.size(Axis.WIDE) else Axis.WIDE
    stays = [part.name for part in examined.piece.parts if part.name not in examined.movement_of]
    for face in (face for face in Face if face.axis != thin):
        beside = [n for n in stays if _beside(own, examined.bounds(n), face.axis, thin)]
        gaps = [(face.sign * (examined.bounds(n).face(face.opposite) - own.face(face)), n) for n in beside]
        nearest = min((each for each in gaps if each[0] > -TOUCH), default=(0.0, ""))
        if NARROW < nearest[0] < wide:
            yield nearest


def _beside(own: Box, other: Box, axis: Axis, thin: Axis) -> bool:
    along = next(a for a in Axis if a not in (axis, thin))
    shared = min(own.high[along], other.high[along]) - max(own.low[along], other.low[along])
    level = min(own.high[thin], other.high[thin]) - max(own.low[thin], other.low[thin])
    return shared >= LONG and level > 0.5 * min(own.size(thin), other.size(thin), 10.0)
