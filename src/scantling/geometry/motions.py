"""Rigid motions put together: turns about lines, moves, one after another."""

from __future__ import annotations

from math import cos, radians, sin

from scantling.piece.model import Matrix3, Motion, Placement, Slide, Vec3


def motion_placement(motion: Motion, fraction: float = 1.0) -> Placement:
    """Where `fraction` of a motion takes whatever moves with it, from rest, piece's frame."""
    if isinstance(motion, Slide):
        x, y, z = (d * motion.distance * fraction for d in motion.direction)
        return Placement(shift=(x, y, z))
    return turn_about(motion.about, motion.axis, radians(motion.angle * fraction))


def turn_about(about: Vec3, axis: Vec3, angle: float) -> Placement:
    """A right-handed turn by `angle` [rad] about the line through `about` along unit `axis`."""
    c, s = cos(angle), sin(angle)
    x, y, z = axis
    k = 1 - c
    turn: Matrix3 = (
        (c + x * x * k, x * y * k - z * s, x * z * k + y * s),
        (y * x * k + z * s, c + y * y * k, y * z * k - x * s),
        (z * x * k - y * s, z * y * k + x * s, c + z * z * k),
    )
    moved = Placement(turn).direction(about)
    return Placement(turn, (about[0] - moved[0], about[1] - moved[1], about[2] - moved[2]))


def after(second: Placement, first: Placement) -> Placement:
    """`first`, then `second`, as one placement."""
    if first.is_identity:
        return second
    if second.is_identity:
        return first
    columns = [second.direction((row[0], row[1], row[2])) for row in zip(*first.turn, strict=True)]
    rows = [(columns[0][i], columns[1][i], columns[2][i]) for i in range(3)]
    return Placement((rows[0], rows[1], rows[2]), second.point(first.shift))


def inverse(placement: Placement) -> Placement:
    """The placement that undoes another."""
    if placement.is_identity:
        return placement
    rows = [(column[0], column[1], column[2]) for column in zip(*placement.turn, strict=True)]
    back = Placement((rows[0], rows[1], rows[2]))
    x, y, z = back.direction(placement.shift)
    return Placement(back.turn, (-x, -y, -z))


def seen_in(frame: Placement, other: Placement) -> Placement:
    """Where something placed by `other` stands in the frame that `frame` places."""
    return after(inverse(frame), other)


def rounded(placement: Placement) -> Placement:
    """The placement without the last digits, so that equal ones are equal however they came about."""
    a, b, c = ((round(x, 12) + 0.0, round(y, 12) + 0.0, round(z, 12) + 0.0) for x, y, z in placement.turn)
    x, y, z = placement.shift
    return Placement((a, b, c), (round(x, 7) + 0.0, round(y, 7) + 0.0, round(z, 7) + 0.0))
