"""Dowels, tenons, panels held flat, plywood lay-ups."""

import pytest

from scantling.errors import OutOfRange
from scantling.wood import (
    bending_moduli,
    corner_force_to_flatten,
    cup_from_rings,
    dowel_withdrawal,
    dowel_withdrawal_by_area,
    layup_shares,
    modulus_across,
    panel_named,
    species_named,
    stress_to_flatten_cup,
    tenon_moment,
)


def test_dowel_in_maple():
    # source: by hand, Eckelman's form from memory: 3/8 x 1 in, 2,330 psi both: 1,421 lb = 6.3 kN
    strength = 2330 * 0.00689476
    assert dowel_withdrawal(9.525, 25.4, strength, strength) == pytest.approx(6320, rel=0.01)


def test_dowel_by_area():
    # source: by hand; pi x 10 x 25 x 3.0 = 2,356 N
    assert dowel_withdrawal_by_area(10, 25) == pytest.approx(2356, abs=1)


def test_thick_dowel_is_outside_the_formula():
    with pytest.raises(OutOfRange, match="dowel diameter"):
        dowel_withdrawal(20, 25, 10, 10)


def test_tenon_moment():
    # source: by hand; 40 x 40 mm tenon, 6 MPa: 181 N m
    assert tenon_moment(40, 40, 6) == pytest.approx(181e3, rel=0.005)


def test_panel_held_flat():
    # source: by hand; maple 600 x 400 x 20, 6 mm wind, G 873 MPa: 58 N a corner
    assert corner_force_to_flatten(6, 600, 400, 20, 873) == pytest.approx(58.2, abs=0.1)


def test_cup_pulled_flat():
    # source: by hand; maple 200 x 20, cup 2 mm, E_T = 0.065 x 13.86 GPa: 3.6 MPa
    maple = species_named("sugar maple")
    assert stress_to_flatten_cup(2, 200, 20, modulus_across(maple)) == pytest.approx(3.6, abs=0.05)


def test_cup_from_ring_curvature():
    # source: by hand; red oak 200 mm, r 150 mm, 4 %: 0.28 mm
    oak = species_named("red oak")
    assert cup_from_rings(oak.radial_coefficient, oak.tangential_coefficient, 4, 200, 150) == pytest.approx(
        0.28, abs=0.005
    )


@pytest.mark.parametrize(
    ("plies", "share"), [(3, 0.963), (5, 0.792), (7, 0.711), (9, 0.665), (11, 0.636), (13, 0.615)]
)
def test_layup_shares(plies, share):
    # source: independent; laminate theory worked out by hand for 3 plies: 26/27
    along, across = layup_shares(plies)
    assert round(along, 3) == share
    assert along + across == pytest.approx(1.0)


def test_birch_plywood_by_thickness():
    # source: industry handbook row, from memory: 6.5 mm 12.737 / 4.763 GPa
    birch = panel_named("birch plywood")
    assert bending_moduli(birch, 6.35) == (12737.0, 4763.0)
    assert bending_moduli(birch, 17.6) == (10048.0, 7452.0)
    assert bending_moduli(panel_named("mdf"), 18) == (3590.0, 3590.0)
