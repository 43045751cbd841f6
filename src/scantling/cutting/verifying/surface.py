"""The face of a board as its stations tell it, read apart from the planner: heights, and the exact flat."""

from __future__ import annotations

from bisect import bisect_right

from scantling.cutting.verifying.planes import range_over_planes
from scantling.cutting.verifying.replay import Area
from scantling.shop.model import Board, Station

_NEAR = 1.0  # mm from an end that is the end
_ACROSS = 12  # strips of a blank between which the face is looked at


class Face:
    """Heights of a board told at stations: straight between stations along, round across. [mm]"""

    def __init__(self, board: Board) -> None:
        self.board = board
        told = board.stations
        before = [] if told[0].at < _NEAR else [Station(0.0, 0.0)]
        after = [] if told[-1].at > board.length - _NEAR else [Station(board.length, 0.0)]
        all_told = [*before, *told, *after]
        self._gaps = [(s.at, s.gap) for s in all_told]
        self._cups = [(s.at, s.cup) for s in all_told if s.cup is not None] or [(0.0, board.warp.cup)]
        winds = [(s.at, s.twist) for s in all_told if s.twist is not None] or [
            (board.length, board.warp.twist)
        ]
        self._winds = winds if all_told[0].twist is not None else [(0.0, 0.0), *winds]

    def height(self, x: float, y: float) -> float:
        """At x along and y across, from the edges."""
        aside = y / self.board.width - 0.5
        cup, wind = _read(self._cups, x), _read(self._winds, x)
        return _read(self._gaps, x) + wind * aside + cup * 4 * aside * aside

    def least_range(self, area: Area) -> float:
        """Least range of heights of a blank over all planes."""
        inside = [x for x, _ in self._gaps if area.x0 < x < area.x1]
        wide = area.y1 - area.y0
        return range_over_planes(
            [
                (x, y, self.height(x, y))
                for x in (area.x0, *inside, area.x1)
                for y in (area.y0 + wide * n / _ACROSS for n in range(_ACROSS + 1))
            ]
        )

    def stations_in(self, area: Area) -> tuple[Station, ...]:
        """The same face told along the middle of a piece of it."""
        inside = [x for x, _ in self._gaps if area.x0 < x < area.x1]
        return tuple(self._station(x, area) for x in (area.x0, *inside, area.x1))

    def _station(self, x: float, area: Area) -> Station:
        middle = self.height(x, (area.y0 + area.y1) / 2)
        near, far = self.height(x, area.y0), self.height(x, area.y1)
        return Station(x - area.x0, middle, (near + far) / 2 - middle, far - near)


def _read(told: list[tuple[float, float]], x: float) -> float:
    """Straight between the places told, as at the nearest beyond them."""
    after = bisect_right(told, x, key=lambda place: place[0])
    if after == 0 or after == len(told):
        return told[0 if after == 0 else -1][1]
    (x0, z0), (x1, z1) = told[after - 1 : after + 1]
    return z0 + (z1 - z0) * (x - x0) / (x1 - x0)
