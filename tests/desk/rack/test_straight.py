"""Straightening against points worked by hand, and against itself."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from scantling.desk.rack.straight import Crossed, carried, check_round, plane_between

SQUARE = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]


def test_moved_and_stretched_only():
    plane = plane_between(SQUARE, [(10, 20), (30, 20), (30, 25), (10, 25)])
    # source: by hand; x: 10 + 20 x, y: 20 + 5 y
    assert carried(plane, (0.5, 0.4)) == pytest.approx((20, 22))


def test_a_board_seen_from_one_end():
    """Near edge 4 wide, far edge 2 wide, 3 deep: the middle of the board lies nearer to the far edge.

    source: by hand. Straight lines stay straight, so the middle of the square, where its diagonals cross,
    goes to where those of the trapezium (0,0) (4,0) (3,3) (1,3) cross: x = 2 and y = 3 * 4 / (4 + 2) = 2.
    """
    plane = plane_between(SQUARE, [(0, 0), (4, 0), (3, 3), (1, 3)])
    assert carried(plane, (0.5, 0.5)) == pytest.approx((2, 2))
    for start, end in zip(SQUARE, [(0, 0), (4, 0), (3, 3), (1, 3)], strict=True):
        assert carried(plane, start) == pytest.approx(end)


def test_a_knot_lands_where_it_is_on_the_wood():
    """A board of 1000 x 200 mm, photographed as that trapezium; a knot on the crossing of its diagonals."""
    board = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 200.0), (0.0, 200.0)]
    plane = plane_between([(0, 0), (4, 0), (3, 3), (1, 3)], board)
    assert carried(plane, (2, 2)) == pytest.approx((500, 100))


_part = st.floats(0.05, 0.45)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.lists(_part, min_size=8, max_size=8), st.floats(0, 1), st.floats(0, 1))
def test_there_and_back(parts, x, y):
    a, b, c, d, e, f, g, h = parts
    corners = [(a, b), (1 - c, d), (1 - e, 1 - f), (g, 1 - h)]
    try:
        check_round(corners)
    except Crossed:
        assume(False)
    there, back = plane_between(SQUARE, corners), plane_between(corners, SQUARE)
    assert carried(back, carried(there, (x, y))) == pytest.approx((x, y), abs=1e-6)


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (1, 1), (1, 0), (0, 1)],  # crossed
        [(0, 1), (1, 1), (1, 0), (0, 0)],  # the wrong way round
        [(0, 0), (1, 0), (0.2, 0.2), (0, 1)],  # with a dent
        [(0, 0), (0.5, 0), (1, 0), (0, 1)],  # three on a line
    ],
)
def test_corners_that_do_not_go_round_are_refused(corners):
    with pytest.raises(Crossed):
        check_round(corners)


def test_three_on_a_line_cannot_be_solved():
    with pytest.raises(Crossed):
        plane_between([(0, 0), (0, 0), (1, 1), (0, 1)], SQUARE)
