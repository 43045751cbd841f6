"""What flattening takes, against the exact answer: a linear program over the surface the stations tell."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting.verifying.planes import range_over_planes
from scantling.wood.flattening import (
    SAFE,
    Station,
    between_stations,
    least_range,
    loss_at,
    second_difference,
)

_WIDE = 200.0


def _surface(
    stations: list[Station], x0: float, x1: float, y0: float, y1: float
) -> list[tuple[float, float, float]]:
    """Heights on a fine grid that holds every station under the blank; y from the middle of the board."""
    along = sorted({x0, x1, *(s.at for s in stations if x0 < s.at < x1)})
    found = []
    for x in along:
        here = between_stations(stations, x)
        for n in range(9):
            y = y0 + (y1 - y0) * n / 8
            found.append((x, y, here.gap + here.twist * y + here.cup * (2 * y / _WIDE) ** 2))
    return found


def _smooth(x: float, curve: float) -> float:
    return curve * x * (2400 - x) / 1200**2


gaps = st.floats(-8, 8)
boards = st.lists(
    st.tuples(st.floats(150, 450), gaps, st.floats(-3, 3), st.floats(-0.03, 0.03)), min_size=3, max_size=9
)


def _board(steps: list[tuple[float, float, float, float]]) -> list[Station]:
    at, found = 0.0, []
    for step, gap, cup, twist in steps:
        found.append(Station(at, gap, cup, twist))
        at += step
    return found


@given(boards, st.floats(0, 1), st.floats(0.02, 1), st.floats(0.1, 1), st.floats(-1, 1))
@settings(max_examples=60, deadline=None)
def test_never_below_the_exact_answer_of_the_surface_told(steps, start, long, wide, side) -> None:
    # source: the least range over all planes, a linear program
    stations = _board(steps)
    whole = stations[-1].at
    length = long * whole
    x0 = start * (whole - length)
    width = wide * _WIDE
    middle = side * (_WIDE - width) / 2
    exact = range_over_planes(_surface(stations, x0, x0 + length, middle - width / 2, middle + width / 2))
    assert loss_at(stations, x0, length, width, _WIDE, between=0.0) >= exact - 1e-5


@given(boards, st.floats(0, 1), st.floats(0.1, 1), st.floats(0.05, 1), st.floats(0.1, 1))
@settings(max_examples=100, deadline=None)
def test_never_less_for_a_blank_that_holds_another(steps, start, long, inner, wide) -> None:
    stations = _board(steps)
    whole = stations[-1].at
    length = long * whole
    x0 = start * (whole - length)
    within = inner * length
    x1 = x0 + (length - within) * start
    outer = loss_at(stations, x0, length, wide * _WIDE, _WIDE)
    assert loss_at(stations, x1, within, wide * _WIDE * 0.9, _WIDE) <= outer + 1e-7


def test_a_straight_slope_is_flat() -> None:
    slope = [Station(300.0 * n, 0.01 * 300 * n) for n in range(9)]
    assert loss_at(slope, 100, 1500, 100, _WIDE) == pytest.approx(0.0, abs=1e-9)


def test_an_even_bow_is_what_it_is_said_to_be() -> None:
    # source: worked by hand; a bow of 6 over 2400 loses 6 (1200/2400)² = 1.5 over half its length
    bow = [Station(300.0 * n, _smooth(300.0 * n, 6.0)) for n in range(9)]
    assert second_difference(bow, 600, 1200) == pytest.approx(2 * 6 * 300**2 / 1200**2)
    assert loss_at(bow, 600, 1200, 100, _WIDE, between=0.0) == pytest.approx(1.5)
    assert loss_at(bow, 0, 2400, 100, _WIDE, between=0.0) == pytest.approx(6.0)
    assert loss_at(bow, 750, 1200, 100, _WIDE) == pytest.approx(
        1.5, abs=0.1
    )  # between stations: D/8 makes up


def test_a_kink_costs_where_it_is_and_nowhere_else() -> None:
    kink = [Station(300.0 * n, min(n, 8 - n) * 2.0) for n in range(9)]
    assert loss_at(kink, 0, 900, 100, _WIDE) == pytest.approx(0.0)
    assert loss_at(kink, 750, 900, 100, _WIDE, between=0.0) == pytest.approx(
        3.0
    )  # by hand: 450 at 4 in 300, halved
    assert loss_at(kink, 750, 900, 100, _WIDE, SAFE) == pytest.approx(3.0 + 4.0 / 2)


def test_twist_in_one_region() -> None:
    # source: worked by hand; 200 wide, 0.02 rad more over the last half: 100 wide loses 100 x 0.02 / 2
    twisted = [Station(300.0 * n, 0.0, 0.0, 0.02 * max(n - 4, 0) / 4) for n in range(9)]
    assert loss_at(twisted, 0, 1200, 100, _WIDE) == pytest.approx(0.0)
    assert loss_at(twisted, 1200, 1200, 100, _WIDE) == pytest.approx(1.0)


def test_least_range_of_a_wave_needs_the_best_tilt() -> None:
    # source: by hand; of 0, 2, -2, 0 at equal steps the level is not the best tilt
    points = [(0.0, 0.0), (1.0, 2.0), (2.0, -2.0), (3.0, 0.0)]
    exact = range_over_planes([(x, y, z) for x, z in points for y in (0.0, 1.0)])
    assert least_range(points) == pytest.approx(exact)
