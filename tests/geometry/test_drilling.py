"""Wood taken by drilled holes: the formula against the solid with the holes cut."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.geometry.body import Body
from scantling.geometry.cutters import cut_cutter, hole_cutter
from scantling.geometry.drilling import bores_in
from scantling.geometry.primitives import Prism, block
from scantling.geometry.recipe import Recipe
from scantling.joinery.features import Cut, Hole
from scantling.piece.model import Box, Face, Vec3

BOARD = Box((0.0, 0.0, 0.0), (100.0, 60.0, 20.0))
GROOVE = Cut(Box((0.0, 40.0, 12.0), (100.0, 50.0, 20.0)), Face.TOP, "groove", "")
UP, DOWN, IN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)


def hole(at: Vec3, direction: Vec3, diameter: float, deep: float, through: bool = False) -> Hole:
    return Hole(at, direction, diameter, deep, "", "", through)


def drilled(*holes: Hole) -> Body:
    takes = (cut_cutter(GROOVE, BOARD),)
    cutters = tuple(hole_cutter(each) for each in holes)
    return Body(Recipe(block(BOARD), (), (), takes, (), (), (), cutters), 0.05)


def odd(*holes: Hole) -> tuple[Prism, ...]:
    body = drilled(*holes)
    return bores_in(body.bare_mesh, body.recipe.holes)[1]


def test_a_blind_hole_takes_its_cylinder() -> None:
    # source: by hand; 10 mm across and 12 deep takes 25 pi times 12
    bare = drilled().volume
    assert bare - drilled(hole((20.0, 20.0, 20.0), DOWN, 10.0, 12.0)).volume == pytest.approx(300 * math.pi)


def test_a_counterbore_over_its_shank_counts_once() -> None:
    # source: by hand; 12 mm across for 5, then 5 mm across for the other 15 of a 20 mm board
    both = drilled(
        hole((20.0, 20.0, 20.0), DOWN, 5.0, 20.0, through=True), hole((20.0, 20.0, 20.0), DOWN, 12.0, 5.0)
    )
    assert drilled().volume - both.volume == pytest.approx(math.pi * (36 * 5 + 2.5**2 * 15))


def test_a_hole_in_the_floor_of_a_groove_takes_no_air() -> None:
    # source: by hand; 15 deep from the face, of which the groove has taken 8
    into_groove = hole((20.0, 45.0, 20.0), DOWN, 6.0, 15.0)
    assert not odd(into_groove)
    assert drilled().volume - drilled(into_groove).volume == pytest.approx(63 * math.pi)


@pytest.mark.parametrize(
    "holes",
    [
        (hole((20.0, 2.0, 20.0), DOWN, 6.0, 10.0),),  # over the board's edge
        (
            hole((20.0, 20.0, 20.0), DOWN, 6.0, 12.0),
            hole((0.0, 20.0, 12.0), IN, 6.0, 30.0),
        ),  # into each other
        (hole((50.0, 20.0, 20.0), (0.6, 0.0, -0.8), 6.0, 12.0),),  # aslant
    ],
)
def test_what_is_not_plain_is_cut(holes: tuple[Hole, ...]) -> None:
    assert odd(*holes)
    assert drilled(*holes).volume == pytest.approx(drilled(*holes).mesh.volume, rel=1e-10)


places = st.builds(
    hole,
    st.tuples(st.floats(1.0, 99.0), st.floats(1.0, 59.0), st.sampled_from([20.0, 12.0, 19.0])),
    st.sampled_from([DOWN, DOWN, DOWN, UP, IN]),
    st.sampled_from([3.0, 5.0, 8.0, 12.0]),
    st.sampled_from([4.0, 8.0, 12.0, 20.0]),
    st.booleans(),
)


@given(st.lists(places, max_size=5))
def test_formula_and_solid_agree(holes: list[Hole]) -> None:
    body = drilled(*holes)
    assert body.volume == pytest.approx(body.mesh.volume, rel=1e-9)
    assert body.centre == pytest.approx(body.mesh.centre, abs=1e-6)
