"""Glued joints: what the wood beside the glue line carries. N, mm, MPa; ultimate values."""

from __future__ import annotations

from math import pi, sqrt

from scantling.wood.ranges import check_range

DOWEL_BOND = 3.0  # MPa, low end of measured withdrawal: Podlena et al. 2018, BioResources 13(3) 5179
DOWEL_WORKING_SHARE = 1.0 / 3.0  # trade practice, derived


def dowel_withdrawal(diameter: float, depth: float, member_shear: float, dowel_shear: float) -> float:
    """F = 1.190 D L^0.89 (0.95 S1 + S2): a snug, well glued plain dowel in side grain. [N]

    Eckelman, furniture design texts, constants from memory; plan with half. D 6 to 13 mm, L 12 to 38 mm.
    """
    check_range("dowel diameter", diameter, 6.0, 13.0, "mm", "Eckelman, from memory")
    check_range("dowel depth", depth, 12.0, 38.5, "mm", "Eckelman, from memory")
    return float(1.190 * diameter * depth**0.89 * (0.95 * member_shear + dowel_shear))


def dowel_withdrawal_by_area(diameter: float, depth: float, bond: float = DOWEL_BOND) -> float:
    """Ultimate pull on one glued dowel by its glued area, at the low end of what was measured. [N]

    >>> round(dowel_withdrawal_by_area(10, 25))
    2356
    """
    return pi * diameter * depth * bond


def tenon_moment(width: float, length: float, strength: float) -> float:
    """Moment that two glued cheeks of a tenon carry, worst fibre at `strength`. [N mm]

    M = 2 tau (w l³ + l w³) / 12 / r, r = half the diagonal; elastic, derived, unchecked against tests.
    Use strength a third to a half of the wood's shear strength.
    """
    polar = (width * length**3 + length * width**3) / 12.0
    return 2.0 * strength * polar / (sqrt(width**2 + length**2) / 2.0)
