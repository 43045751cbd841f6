"""Which coefficient a dimension of a board takes: by its rings and by which way it is measured."""

from __future__ import annotations

from scantling.wood.shrinkage import (
    COEFFICIENT_RANGE,
    coefficient_at_ring_angle,
    seasonal_change,
    seasonal_change_wide,
)
from scantling.wood.species import Species

_RING_ANGLE = {"flat": 0.0, "rift": 45.0, "quarter": 90.0}


def change_coefficient(species: Species, rings: str = "flat", *, thickness: bool = False) -> float:
    """Coefficient per 1 % moisture for the width of a board, or for its `thickness`.

    `rings` is "flat", "quarter" or "rift" (taken as 45 degrees). Wood Handbook ch. 13.
    """
    angle = _RING_ANGLE[rings]
    return coefficient_at_ring_angle(
        species.radial_coefficient, species.tangential_coefficient, 90.0 - angle if thickness else angle
    )


def change_across(
    species: Species,
    size: float,
    moisture_from: float,
    moisture_to: float,
    rings: str = "flat",
    *,
    thickness: bool = False,
) -> float:
    """Change of a size across the grain by whichever formula holds; swelling is positive. [mm]

    Table 13-5 coefficients for 6 to 14 % moisture, Eq. 13-2 outside.
    """
    low, high = COEFFICIENT_RANGE
    if low <= moisture_from <= high and low <= moisture_to <= high:
        coefficient = change_coefficient(species, rings, thickness=thickness)
        return seasonal_change(size, coefficient, moisture_from, moisture_to)
    angle = _RING_ANGLE[rings]
    shrinkage = coefficient_at_ring_angle(
        species.radial_shrinkage, species.tangential_shrinkage, 90.0 - angle if thickness else angle
    )
    return seasonal_change_wide(size, shrinkage, moisture_from, moisture_to)
