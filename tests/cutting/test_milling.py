"""What flat blank a warped board gives."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from scantling.cutting.milling import (
    Timber,
    clean_up,
    flat_thickness,
    means_of,
    thickness_lost,
    timber_of,
    why_not,
    widest_flat,
)
from scantling.cutting.verifying.wood import exact_range
from scantling.shop.model import Surface, Warp

INCH = 25.4
BOARD = Timber(96 * INCH, 8 * INCH, INCH, Surface.ROUGH, Warp(0.75 * INCH, 0.0, 0.125 * INCH, 0.375 * INCH))


@pytest.mark.parametrize(
    ("length", "width", "flat"),
    [(48, 8, 0.594), (32, 8, 0.729), (24, 8, 0.781), (32, 4, 0.854), (24, 4, 0.898)],
)
def test_worked_example_of_a_warped_board(length: float, width: float, flat: float) -> None:
    """96 x 8 in board, bow 3/4, cup 1/8, twist 3/8: flat before clean-up."""
    # source: by hand; bow (l/L)^2 + cup (w/W)^2 + twist l w / (2 L W), worked for five blanks
    lost = thickness_lost(BOARD, length * INCH, width * INCH) / INCH
    assert 1.0 - lost == pytest.approx(flat, abs=0.001)


def test_whole_warped_board_gives_nothing(make) -> None:
    # source: by hand; 0.75 + 0.125 + 0.1875 in is more than the inch there is
    assert flat_thickness(BOARD, 96 * INCH, 8 * INCH, means_of(make.machines())) == 0.0


def _least_range_by_grid(bow: float, cup: float, twist: float) -> float:
    """Least range over all planes by a linear program on a grid of the surface."""
    u, v = np.meshgrid(np.linspace(-1, 1, 25), np.linspace(-1, 1, 25))
    z = bow * u**2 + cup * v**2 + twist / 4 * u * v
    rows = np.column_stack([u.ravel(), v.ravel(), np.ones(u.size)])
    below = np.column_stack([rows, np.zeros(u.size)])
    above = np.column_stack([-rows, -np.ones(u.size)])
    flat = z.ravel()
    # plane below every point, plane + h above every point, h least
    answer = linprog(
        [0, 0, 0, 1],
        A_ub=np.vstack([below, above]),
        b_ub=np.concatenate([flat, -flat]),
        bounds=[(None, None)] * 3 + [(0, None)],
    )
    return float(answer.fun)


@settings(max_examples=15, deadline=None)
@given(st.floats(0, 20), st.floats(0, 5), st.floats(0, 20))
def test_closed_form_is_the_least_range_over_all_planes(bow: float, cup: float, twist: float) -> None:
    # source: independent; linear program over a grid of the surface, worse of dish and saddle
    by_grid = max(_least_range_by_grid(bow, cup, twist), _least_range_by_grid(bow, -cup, twist))
    assert exact_range(bow, cup, twist) == pytest.approx(by_grid, abs=0.02 + 0.01 * max(bow, twist))


@given(st.floats(0, 20), st.floats(0, 5), st.floats(0, 20), st.floats(0.05, 1), st.floats(0.05, 1))
def test_rule_never_promises_more_than_there_is(
    bow: float, cup: float, twist: float, along: float, across: float
) -> None:
    # source: exact; the range of a sum is at most the sum of the ranges
    timber = Timber(1000.0, 100.0, 25.0, Surface.ROUGH, Warp(bow, 0.0, cup, twist))
    lost = thickness_lost(timber, 1000 * along, 100 * across)
    exact = exact_range(bow * along**2, cup * across**2, twist * along * across)
    assert lost >= exact - 1e-9


def test_surfaces_and_clean_up() -> None:
    # source: trade allowances, 0.8 mm a rough face, a light pass of 0.3 mm on a surfaced one
    assert clean_up(Surface.ROUGH) == pytest.approx(1.6)
    assert clean_up(Surface.ONE_FACE) == pytest.approx(1.1)
    assert clean_up(Surface.TWO_FACES) == pytest.approx(0.6)


def test_flat_surfaced_board_is_used_as_it_is(make) -> None:
    # source: by hand; no warp, so 20.6 mm stays 20.6 mm
    flat = Timber(2000.0, 150.0, 20.6, Surface.TWO_FACES, Warp())
    assert flat_thickness(flat, 1000.0, 100.0, means_of(make.machines())) == 20.6


def test_nothing_to_plane_with_gives_nothing_and_says_why(make) -> None:
    shop = make.shop(machines=())
    assert flat_thickness(BOARD, 600.0, 100.0, means_of(())) == 0.0
    assert "planer" in why_not(BOARD, 600.0, 100.0, shop)


def test_planer_without_sled_cannot_flatten_a_bent_board(make) -> None:
    bare = tuple(replace(m, sled=False) for m in make.machines())
    assert flat_thickness(BOARD, 800.0, 150.0, means_of(bare)) == 0.0
    assert "sled" in why_not(BOARD, 800.0, 150.0, make.shop(machines=bare))


def test_planer_limits_width_and_length(make) -> None:
    wide = Timber(2000.0, 400.0, 25.4, Surface.ROUGH, Warp())
    means = means_of(make.machines())
    assert flat_thickness(wide, 1000.0, 317.0, means) > 0
    assert flat_thickness(wide, 1000.0, 318.0, means) == 0
    assert flat_thickness(wide, 299.0, 100.0, means) == 0


def test_widest_flat_stops_where_thickness_runs_out(make) -> None:
    means = means_of(make.machines())
    width = widest_flat(BOARD, 600.0, 20.0, means, 200.0)
    assert flat_thickness(BOARD, 600.0, width, means) >= 20.0 - 1e-6
    assert flat_thickness(BOARD, 600.0, width + 0.5, means) < 20.0


def test_board_not_yet_chosen_is_warped_as_boards_are(make) -> None:
    # source: by hand; usual warp is stated on 2440 x 200 mm
    sold = make.sold()
    warp = timber_of(sold).warp
    assert warp.bow == pytest.approx(4.5 * (2438.4 / 2440) ** 2)
    assert warp.twist == pytest.approx(3.0 * (2438.4 / 2440) * (177.8 / 200))
