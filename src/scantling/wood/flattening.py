"""What flattening takes off a blank of a board told at stations. mm, rad; derived, checked by an exact LP.

A station is a place along the middle of a board where its shape was read. The surface is taken as
z = gap(x) + twist(x) y + cup(x) (2 y / W)², each read straight from one station to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

# Shares of the second difference to add for the shape between two stations: what an even bend rises there,
# and what a kink half way can. The first is planned with: at stations 300 mm apart it is never 0.5 mm short
# but for kinks (5 % short by 0.3 mm, 1.4 mm at worst); the second never is, but takes 0.3 to 2.2 mm more of
# every blank (median, by shape). Measured by benchmarks/cutting/flatness.py, 3 x 300 blanks a shape.
EXPECTED, SAFE = 1 / 8, 1 / 2


class Station(NamedTuple):
    """Shape of a board at one place: `at` along it, `gap` of its middle, `cup` over its width, `twist`.

    mm; the gap is signed, from any one straight line; the twist is an angle, signed, from any one station.
    """

    at: float
    gap: float
    cup: float = 0.0
    twist: float = 0.0


Point = tuple[float, float]


def loss_at(
    stations: Sequence[Station],
    start: float,
    length: float,
    width: float,
    board_width: float,
    between: float = EXPECTED,
) -> float:
    """Thickness lost in flattening the blank start..start+length x width, wherever it lies across. [mm]

    R + c (w/W)² + w (τ_most - τ_least) / 2 + `between` D: R the least range of the profile over all tilts,
    c the greatest cup, τ the twist, D the second difference near the blank. Off the middle an uneven twist
    or cup bends the profile; the worst place across counts. Never below the least range over all planes of
    the surface, and never less for a longer or wider blank over the same place. Stations run in order and
    reach both ends of the blank.
    """
    inside = _inside(stations, start, start + length)
    off = max(board_width - width, 0.0) / 2
    bend = max(
        _range_off(inside, side, share) for side in (-off, off) for share in (0.0, _square(off, board_width))
    )
    twist = width / 2 * max(_twist_off(inside, side, board_width) for side in (-off, off))
    cups = [0.0, *(s.cup for s in inside)]
    cup = (max(cups) - min(cups)) * _square(width / 2, board_width)
    return bend + cup + twist + between * second_difference(stations, start, length)


def _square(y: float, board_width: float) -> float:
    """Share of the cup at `y` from the middle."""
    return (2 * y / board_width) ** 2


def _range_off(inside: Sequence[Station], y: float, share: float) -> float:
    return least_range([(s.at, s.gap + s.twist * y + s.cup * share) for s in inside])


def _twist_off(inside: Sequence[Station], y: float, board_width: float) -> float:
    turns = [s.twist + 8 * s.cup * y / board_width**2 for s in inside]
    return max(turns) - min(turns)


def least_range(points: Sequence[Point]) -> float:
    """Least range of heights over all tilts: the vertical width of the hull. Points in order of x. [mm]

    >>> least_range([(0, 0), (1, 3), (2, 6)]), least_range([(0, 0), (1, 3), (2, 0)])
    (0.0, 3.0)
    """
    over, under = _hull(points, 1.0), _hull(points, -1.0)
    return max(height_at(over, x) - height_at(under, x) for x, _ in points)


def second_difference(stations: Sequence[Station], start: float, length: float) -> float:
    """Greatest bend near a blank over one step between stations, or over the blank where it is shorter. [mm]

    Near: at the stations under the blank and at those just before and after it. Uneven steps by the
    divided difference; an even bend over a part of a step is its share squared.
    """
    near = [i for i in range(1, len(stations) - 1) if _near(stations, i, start, start + length)]
    return max((_bend(stations[i - 1 : i + 2], length) for i in near), default=0.0)


def between_stations(stations: Sequence[Station], at: float) -> Station:
    """The board at any place from its first station to its last, read straight between two."""
    after = next(i for i in range(1, len(stations)) if at <= stations[i].at or i == len(stations) - 1)
    one, two = stations[after - 1], stations[after]
    share = (at - one.at) / (two.at - one.at)
    gap, cup, twist = (a + share * (b - a) for a, b in zip(one[1:], two[1:], strict=True))
    return Station(at, gap, cup, twist)


def height_at(line: Sequence[Point], x: float) -> float:
    """Height of a line through points in order of x."""
    for (x0, z0), (x1, z1) in pairwise(line):
        if x <= x1:
            return z0 + (z1 - z0) * (x - x0) / (x1 - x0)
    return line[-1][1]


def _inside(stations: Sequence[Station], start: float, end: float) -> list[Station]:
    under = [s for s in stations if start < s.at < end]
    return [between_stations(stations, start), *under, between_stations(stations, end)]


def _near(stations: Sequence[Station], index: int, start: float, end: float) -> bool:
    return stations[index - 1].at < end and stations[index + 1].at > start


def _bend(three: Sequence[Station], length: float) -> float:
    a, b, c = three
    slopes = (b.gap - a.gap) / (b.at - a.at), (c.gap - b.gap) / (c.at - b.at)
    curve = 2 * abs(slopes[1] - slopes[0]) / (c.at - a.at)
    return curve * min(max(b.at - a.at, c.at - b.at), length) ** 2


def _hull(points: Sequence[Point], side: float) -> list[Point]:
    """The points a string pulled tight over (side 1) or under (side -1) all of them touches."""
    hull: list[Point] = []
    for point in points:
        while len(hull) > 1 and side * _turn(hull[-2], hull[-1], point) >= 0:
            hull.pop()
        hull.append(point)
    return hull


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
