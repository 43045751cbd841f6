"""Wood Handbook chapters 4 and 13: how wood shrinks and swells across the grain.

Lengths in mm, moisture content in percent of the oven-dry mass, shrinkage in percent of the green
size, coefficients per 1 % moisture. Along the grain wood is taken not to move.
"""

from __future__ import annotations

from math import cos, radians, sin

from scantling.wood.ranges import check_range

FIBRE_SATURATION = 30.0
COEFFICIENT_RANGE = (6.0, 14.0)


def shrinkage_from_green(total_shrinkage: float, moisture: float, saturation: float = 30.0) -> float:
    """Shrinkage from green size at `moisture`, percent; Wood Handbook Eq. 4-9.

    S_x = S_0 (1 - x / FSP), for 0 <= x <= FSP. Nothing moves above fibre saturation.

    >>> round(shrinkage_from_green(9.9, 8.0), 2)
    7.26
    """
    check_range("moisture content", moisture, 0.0, None, "%", "Wood Handbook Eq. 4-9")
    return total_shrinkage * max(0.0, 1.0 - moisture / saturation)


def coefficient_from_shrinkage(total_shrinkage: float, saturation: float = FIBRE_SATURATION) -> float:
    """Dimensional change coefficient at 10 % moisture, for woods Table 13-5 does not list.

    C = 1 / (100 FSP / S_0 - FSP + 10); derived from Eq. 13-2, agrees with the printed table.

    >>> round(coefficient_from_shrinkage(7.1), 5)
    0.00248
    """
    return 1.0 / (100.0 * saturation / total_shrinkage - saturation + 10.0)


def seasonal_change(width: float, coefficient: float, moisture_from: float, moisture_to: float) -> float:
    """Change in width of solid wood between two moistures in use; swelling is positive. [mm]

    dD = D_I C (M_F - M_I), Wood Handbook ch. 13 with Table 13-5, for 6 to 14 % moisture;
    raises `OutOfRange` outside: use `seasonal_change_wide`.

    >>> round(seasonal_change(232, 0.00245, 8, 11), 1)
    1.7
    """
    source = "Wood Handbook ch. 13, Table 13-5"
    check_range("first moisture content", moisture_from, *COEFFICIENT_RANGE, "%", source)
    check_range("last moisture content", moisture_to, *COEFFICIENT_RANGE, "%", source)
    return width * coefficient * (moisture_to - moisture_from)


def seasonal_change_wide(
    width: float, total_shrinkage: float, moisture_from: float, moisture_to: float
) -> float:
    """Change in width where the coefficients do not hold; swelling is positive. [mm]

    dD = D_I (M_F - M_I) / (3000 / S_0 - 30 + M_I), Wood Handbook Eq. 13-2, for 0 to 30 %.
    """
    for name, moisture in (("first", moisture_from), ("last", moisture_to)):
        check_range(f"{name} moisture content", moisture, 0.0, FIBRE_SATURATION, "%", "Eq. 13-2")
    return (
        width * (moisture_to - moisture_from) / (3000.0 / total_shrinkage - FIBRE_SATURATION + moisture_from)
    )


def coefficient_at_ring_angle(radial: float, tangential: float, angle: float) -> float:
    """Coefficient along a face whose rings stand at `angle`: 0 flat-sawn, 90 quartersawn. [deg]

    C = C_T cos² + C_R sin²: rotation of the strain tensor (derived).
    """
    check_range("ring angle", angle, 0.0, 90.0, "deg", "derived")
    return tangential * cos(radians(angle)) ** 2 + radial * sin(radians(angle)) ** 2
