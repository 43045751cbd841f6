"""Wood Handbook chapters 4 and 5: specific gravity, density, properties at other moistures.

Moisture in percent of the oven-dry mass; specific gravity is oven-dry mass over volume.
"""

from __future__ import annotations

from functools import lru_cache

from scantling.wood.names import plain
from scantling.wood.ranges import check_range
from scantling.wood.tables import table

FIBRE_SATURATION = 30.0
_SOLID_WOOD = 1.54  # specific gravity of the wood substance itself


def specific_gravity_at(basic: float, moisture: float) -> float:
    """Specific gravity on the volume at `moisture`, from the basic (green volume) one.

    G_x = G_b / [1 - 0.265 G_b (1 - x / 30)], Wood Handbook Eq. 4-13.

    >>> round(specific_gravity_at(0.55, 12.0), 3)
    0.603
    """
    check_range("moisture content", moisture, 0.0, None, "%", "Wood Handbook Eq. 4-13")
    return basic / (1.0 - 0.265 * basic * max(0.0, 1.0 - moisture / FIBRE_SATURATION))


def density_at(specific_gravity: float, moisture: float) -> float:
    """Mass with its water over volume, both at `moisture`. [kg/m³] Wood Handbook Eq. 4-14.

    >>> round(density_at(0.60, 12.0))
    672
    """
    return 1000.0 * specific_gravity * (1.0 + moisture / 100.0)


def greatest_moisture(basic: float) -> float:
    """Moisture content when every hollow is full of water. [%] Wood Handbook ch. 4.

    >>> round(greatest_moisture(0.30))
    268
    """
    return 100.0 * (_SOLID_WOOD - basic) / (_SOLID_WOOD * basic)


def property_at_moisture(at_12: float, green: float, moisture: float, species: str = "") -> float:
    """A strength or modulus at another moisture than 12 %: Wood Handbook Eq. 5-3.

    P = P12 (P12 / Pg)^[(12 - M) / (Mp - 12)], Mp by species (Table 5-13), 25 where it lists none.
    Not for impact, work to maximum load or tension across the grain; 6 % to Mp.

    >>> round(property_at_moisture(103.0, 66.0, 8.0, "ash, white"), 1)
    119.5
    """
    meeting = _meeting_points().get(plain(species), 25.0)
    check_range("moisture content", moisture, 6.0, meeting, "%", "Wood Handbook Eq. 5-3")
    return float(at_12 * (at_12 / green) ** ((12.0 - moisture) / (meeting - 12.0)))


@lru_cache(maxsize=1)
def _meeting_points() -> dict[str, float]:
    return {plain(row["species"]): float(row["moisture"]) for row in table("property_meeting_points")}
