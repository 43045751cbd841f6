"""Moving points, directions and boxes between the frames of two parts. mm."""

from __future__ import annotations

from itertools import product

from scantling.piece.model import Axis, Box, Face, Placement, face_of

_SQUARE = 1e-6


def inverse(placement: Placement) -> Placement:
    """The motion that undoes `placement`."""
    if placement.is_identity:
        return placement
    rows = placement.turn
    turn = (
        (rows[0][0], rows[1][0], rows[2][0]),
        (rows[0][1], rows[1][1], rows[2][1]),
        (rows[0][2], rows[1][2], rows[2][2]),
    )
    back = Placement(turn).direction(placement.shift)
    return Placement(turn, (-back[0], -back[1], -back[2]))


def then(first: Placement, second: Placement) -> Placement:
    """`first`, and `second` after it, as one motion."""
    if first.is_identity:
        return second
    if second.is_identity:
        return first
    columns = [second.direction((row[0], row[1], row[2])) for row in zip(*first.turn, strict=True)]
    turn = tuple((columns[0][i], columns[1][i], columns[2][i]) for i in range(3))
    return Placement((turn[0], turn[1], turn[2]), second.point(first.shift))


def between(first: Placement, second: Placement) -> Placement:
    """From the frame of a part placed by `first` to the frame of one placed by `second`."""
    if first == second:
        return Placement()
    return then(first, inverse(second))


def is_square(placement: Placement) -> bool:
    """Whether every axis goes onto an axis: boxes stay boxes."""
    return all(min(abs(x), abs(abs(x) - 1.0)) < _SQUARE for row in placement.turn for x in row)


def box_through(box: Box, motion: Placement) -> Box:
    """The smallest upright box round the moved `box` (the same box when the motion is square)."""
    if motion.is_identity:
        return box
    corners = [motion.point((p[0], p[1], p[2])) for p in product(*zip(box.low, box.high, strict=True))]
    low = tuple(min(c[i] for c in corners) for i in range(3))
    high = tuple(max(c[i] for c in corners) for i in range(3))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def face_through(face: Face, motion: Placement) -> Face:
    """The face that looks most nearly the way the moved `face` looks."""
    if motion.is_identity:
        return face
    looks = motion.direction(face.normal)
    axis = max(Axis, key=lambda a: (round(abs(looks[a]), 6), -a))
    return face_of(axis, 1 if looks[axis] > 0 else -1)


def turn_axis(motion: Placement) -> Axis | None:
    """The axis about which the motion turns, if it keeps one."""
    return next((a for a in Axis if abs(motion.turn[a][a] - 1.0) < _SQUARE), None)
