"""A board seen facing one of its sides: which ways run across and up, and points of its outline."""

from __future__ import annotations

import math

from scantling.piece.model import Axis, Face, PathPoint

_PIECES = 16  # straight pieces that stand for one arc where a face is read


def across_and_up(seen_from: Face) -> tuple[Axis, Axis]:
    """The axes that run across and up for one who looks at that face."""
    if seen_from.axis is Axis.HIGH:
        return Axis.WIDE, Axis.DEEP
    return (Axis.DEEP if seen_from.axis is Axis.WIDE else Axis.WIDE), Axis.HIGH


def runs_left(seen_from: Face) -> bool:
    """Whether across runs against its axis: seen from the back or from the left."""
    return seen_from in (Face.BACK, Face.LEFT)


def runs_down(seen_from: Face) -> bool:
    """Whether up runs against its axis: seen from below, with the front of the piece at the top."""
    return seen_from is Face.BOTTOM


def area(points: list[tuple[float, float]]) -> float:
    """Twice the area inside, above zero where the points run anticlockwise."""
    return sum(a * d - c * b for (a, b), (c, d) in zip(points, points[1:] + points[:1], strict=True))


def drawn(path: tuple[PathPoint, ...]) -> list[tuple[float, float]]:
    """The outline as a polygon, its arcs in short straight pieces."""
    corners = [(p.across, p.up) for p in path]
    turn = 1.0 if area(corners) > 0 else -1.0
    points: list[tuple[float, float]] = []
    for start, stop, point in zip(corners[-1:] + corners[:-1], corners, path, strict=True):
        if point.bulge:
            points.extend(_arc(start, stop, turn * point.bulge))
        points.append(stop)
    return points


def _arc(start: tuple[float, float], stop: tuple[float, float], rise: float) -> list[tuple[float, float]]:
    """Points between the ends of an arc that rises to the right of its chord.

    Circle through both ends: half its angle is 2·atan(2·rise / chord).
    """
    chord = math.dist(start, stop)
    half = 2 * math.atan(2 * rise / chord)
    radius = chord / 2 / math.sin(half)
    along = ((stop[0] - start[0]) / chord, (stop[1] - start[1]) / chord)
    middle = ((start[0] + stop[0]) / 2, (start[1] + stop[1]) / 2)
    points = []
    for k in range(1, _PIECES):
        angle = half * (2 * k / _PIECES - 1)
        run, up = radius * math.sin(angle), radius * (math.cos(angle) - math.cos(half))
        points.append(
            (middle[0] + along[0] * run + along[1] * up, middle[1] + along[1] * run - along[0] * up)
        )
    return points


def crossing(points: list[tuple[float, float]], at: float, upright: bool) -> tuple[float, float] | None:
    """From where to where a line through the polygon lies inside it; None where it misses.

    `upright`: the line runs up at that distance across; else across at that height.
    """
    found: list[float] = []
    for a, b in zip(points, points[1:] + points[:1], strict=True):
        (p, q), (r, s) = (a, b) if upright else (a[::-1], b[::-1])
        if min(p, r) <= at <= max(p, r):
            found.extend([q, s] if p == r else [q + (s - q) * (at - p) / (r - p)])
    return (min(found), max(found)) if found else None
