"""Beams against the Wood Handbook's Table 9-1, the shelf tables of the trade, and statics."""

import pytest

from scantling.wood import (
    CANTILEVER_POINT,
    POINT_SIMPLE,
    UNIFORM_SIMPLE,
    Beam,
    bending_stress,
    creep_factor,
    deflection,
    panel_named,
    planning_stress,
    species_named,
    uniform_load_deflection,
    wooden_beam,
)
from scantling.wood.beams import QUARTER_POINTS, buckling_stress_centre_load, torsion_constant

PSI = 0.00689476
FOOT = 304.8


def test_red_oak_shelf_by_hand():
    # source: by hand; 900 x 285 x 19 mm, 30 kg spread, E_L 13.75 GPa: 1.247 + 0.007 mm
    beam = Beam(285, 19, 13750, 0.081 * 13750)
    assert deflection(UNIFORM_SIMPLE, beam, 30 * 9.81, 900) == pytest.approx(1.254, abs=0.002)


def test_deep_rail_is_a_third_shear():
    # source: by hand; 600 x 22 x 100 mm rail, 1,000 N at the middle: 0.179 bending + 0.073 shear
    beam = wooden_beam(species_named("red oak"), 22, 100)
    assert deflection(POINT_SIMPLE, beam, 1000, 600) == pytest.approx(0.252, abs=0.001)


def test_printed_modulus_holds_shear_at_span_to_depth_14():
    # source: published; Wood Handbook ch. 5: printed MOE = E_L / 1.10 from centre-loaded span/depth 14 tests
    oak = species_named("red oak")
    beam = Beam(50, 50, 1.1 * oak.modulus_of_elasticity, 1.1 * oak.modulus_of_elasticity / 16)
    printed = 1000 * 700**3 / (48 * oak.modulus_of_elasticity * beam.second_moment)
    assert deflection(POINT_SIMPLE, beam, 1000, 700) == pytest.approx(printed, rel=0.005)


@pytest.mark.parametrize(
    ("modulus_psi", "thick_in", "load", "printed_in"),
    [
        (1.82e6, 0.75, 40, 49),
        (1.82e6, 0.75, 50, 46),
        (1.82e6, 1.0, 40, 66),
        (1.82e6, 1.0, 50, 61),
        (0.95e6, 0.75, 40, 40),
        (0.95e6, 0.75, 50, 37),
    ],
)
def test_casework_shelf_spans(modulus_psi, thick_in, load, printed_in):
    # source: published; Architectural Woodwork Standards 2009 shelf spans at L/144 (bending only, 12 in deep)
    thick, wide = thick_in * 25.4, 12 * 25.4
    for span_in, holds in ((printed_in, True), (printed_in + 1, False)):
        span = span_in * 25.4
        newtons = load * 4.44822 * (wide / FOOT) * (span / FOOT)
        sag = uniform_load_deflection(
            newtons, span, breadth=wide, depth=thick, modulus=modulus_psi * PSI, shear_modulus=1e9
        )
        assert (sag <= span / 144) is holds


def test_twice_the_thickness_is_an_eighth_of_the_sag():
    # source: exact; I goes with h³, shear left out
    thin, thick = Beam(200, 20, 10000, 1e12), Beam(200, 40, 10000, 1e12)
    assert deflection(UNIFORM_SIMPLE, thin, 100, 800) == pytest.approx(
        8 * deflection(UNIFORM_SIMPLE, thick, 100, 800)
    )


def test_quarter_points_lie_between_middle_and_even():
    beam = Beam(200, 20, 10000, 1e12)
    even, quarter, middle = (
        deflection(case, beam, 100, 800) for case in (UNIFORM_SIMPLE, QUARTER_POINTS, POINT_SIMPLE)
    )
    assert even < quarter < middle


def test_cantilever_is_sixteen_times_a_simple_beam():
    # source: exact; (1/3) / (1/48)
    beam = Beam(50, 20, 10000, 1e12)
    assert deflection(CANTILEVER_POINT, beam, 10, 500) == pytest.approx(
        16 * deflection(POINT_SIMPLE, beam, 10, 500)
    )


def test_tall_thin_beam_buckles():
    # source: by hand; 19 x 140 x 1500 mm red oak, load at the middle: 19.5 MPa
    modulus = 13750.0
    assert buckling_stress_centre_load(19, 140, 1500, modulus, modulus / 16) == pytest.approx(19.5, abs=0.6)


def test_torsion_constant_of_a_square():
    # source: published; Wood Handbook Fig. 9-3: phi 7.1 for a square
    assert torsion_constant(20, 20) == pytest.approx(20**4 / 7.1, rel=0.005)


def test_stress_and_planning_stress():
    # source: exact; M/S of 10 x 20 is 6 M / 4000
    assert bending_stress(4000, 10, 20) == pytest.approx(6.0)
    assert planning_stress(100) == 20
    assert planning_stress(90, lasting=False) == 30


def test_creep():
    # source: Eurocode 5 k_def, service class 1, from memory
    assert creep_factor() == pytest.approx(1.6)
    assert creep_factor(panel_named("mdf")) == pytest.approx(3.25)
    assert creep_factor(panel_named("birch plywood")) == pytest.approx(1.8)


def test_wooden_beam_takes_the_table_shear_modulus():
    # source: published; Table 5-1: walnut G_LR 0.085 E_L (edge-grained upright face), G_LT 0.062
    walnut = species_named("walnut")
    shelf = wooden_beam(walnut, 300, 19)
    assert shelf.modulus == pytest.approx(1.1 * walnut.modulus_of_elasticity)
    assert shelf.shear_modulus == pytest.approx(0.085 * shelf.modulus)
    assert wooden_beam(walnut, 19, 100).shear_modulus == pytest.approx(0.062 * shelf.modulus)
