"""Straightening a photo: from four corners in the picture to the rectangle the board is."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.errors import ScantlingError

Point = tuple[float, float]
Plane = tuple[float, float, float, float, float, float, float, float]


class Crossed(ScantlingError):
    """The corners do not go round the board."""


def plane_between(start: Sequence[Point], end: Sequence[Point]) -> Plane:
    """The eight numbers that carry four points to four others, straight lines staying straight.

    (x, y) goes to ((a x + b y + c) / (g x + h y + 1), (d x + e y + f) / (g x + h y + 1)).
    Raises Crossed if three of the points lie on one line.
    """
    rows: list[list[float]] = []
    for (x, y), (u, v) in zip(start, end, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y, u])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y, v])
    a, b, c, d, e, f, g, h = _solved(rows)
    return a, b, c, d, e, f, g, h


def carried(plane: Plane, point: Point) -> Point:
    """Where a point goes."""
    a, b, c, d, e, f, g, h = plane
    x, y = point
    under = g * x + h * y + 1
    return (a * x + b * y + c) / under, (d * x + e * y + f) / under


def check_round(corners: Sequence[Point]) -> None:
    """Raises Crossed unless the corners go once round, clockwise as seen, with no dent."""
    turns = [_turn(corners[i - 2], corners[i - 1], corners[i]) for i in range(len(corners))]
    if not all(turn > 1e-4 for turn in turns):
        raise Crossed("the four corners must go round the board: 1 and 2 along one edge, 3 and 4 back")


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _solved(rows: list[list[float]]) -> list[float]:
    """The unknowns of as many equations, the right side last in each row; the largest pivot goes first."""
    count = len(rows)
    for i in range(count):
        best = max(range(i, count), key=lambda r: abs(rows[r][i]))
        if abs(rows[best][i]) < 1e-12:
            raise Crossed("three of the corners lie on one line")
        rows[i], rows[best] = rows[best], rows[i]
        pivot = rows[i]
        for r in range(count):
            if r != i and rows[r][i]:
                share = rows[r][i] / pivot[i]
                rows[r] = [x - share * p for x, p in zip(rows[r], pivot, strict=True)]
    return [rows[i][count] / rows[i][i] for i in range(count)]
