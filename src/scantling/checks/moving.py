"""What each movement carries, and on what it runs."""

from __future__ import annotations

from scantling.checks.examined import Examined
from scantling.checks.loads import bearings
from scantling.piece.model import Axis, Box, Hardware, Movement, Slide, Swing


def carried_mass(examined: Examined, movement: Movement) -> float:
    """Everything that moves: parts, what they hold, what they are filled with. [kg]"""
    parts = sum(examined.mass.by_part[name] for name in movement.moves)
    holds = sum(h.mass for h in examined.piece.holds if any(name in movement.moves for name in h.on))
    filled = sum(
        b.mass
        for b in bearings(examined)
        if b.part in movement.moves and b.load is not None and b.load.kind in ("fill", "rest")
    )
    return parts + holds + filled


def own_mass(examined: Examined, movement: Movement) -> float:
    """The moving parts alone. [kg]"""
    return sum(examined.mass.by_part[name] for name in movement.moves)


def fittings_of(examined: Examined, movement: Movement, word: str) -> list[Hardware]:
    """Hardware with `word` in its kind that joins a moving part to one that stays."""
    found = []
    for hardware in examined.piece.hardware:
        if word in hardware.kind and hardware.joins is not None:
            moved = [name in movement.moves for name in hardware.joins]
            if any(moved) and not all(moved):
                found.append(hardware)
    return found


def moved_box(examined: Examined, movement: Movement) -> Box:
    """Smallest box round everything that moves, at rest."""
    boxes = [examined.bounds(name) for name in sorted(movement.moves)]
    lows = [min(box.low[a] for box in boxes) for a in Axis]
    highs = [max(box.high[a] for box in boxes) for a in Axis]
    return Box((lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2]))


def is_lid(movement: Movement) -> bool:
    """It swings about a level line."""
    return isinstance(movement.motion, Swing) and abs(movement.motion.axis[Axis.HIGH]) < 0.5


def is_door(movement: Movement) -> bool:
    """It swings about an upright line."""
    return isinstance(movement.motion, Swing) and not is_lid(movement)


def slide_axis(motion: Slide) -> Axis:
    """The axis it slides along (nearest)."""
    return max(Axis, key=lambda a: (abs(motion.direction[a]), -a))
