"""The handbook: woods and panels, moisture, movement, strength, fasteners. Pure functions of numbers.

Knows nothing of parts or pieces. mm, N, MPa, kg, °C; every formula and table names its source.
"""

from scantling.wood.moisture import INDOORS, equilibrium_moisture_content, humidity_of_moisture
from scantling.wood.movement import change_across, change_coefficient
from scantling.wood.names import UnknownSpecies
from scantling.wood.panels import (
    Panel,
    all_panels,
    bending_moduli,
    is_panel_name,
    layup_shares,
    panel_named,
)
from scantling.wood.shrinkage import (
    coefficient_at_ring_angle,
    coefficient_from_shrinkage,
    seasonal_change,
    seasonal_change_wide,
    shrinkage_from_green,
)
from scantling.wood.species import Species, all_species, is_species_name, species_named

__all__ = [
    "INDOORS",
    "Panel",
    "Species",
    "UnknownSpecies",
    "all_panels",
    "all_species",
    "bending_moduli",
    "change_across",
    "change_coefficient",
    "coefficient_at_ring_angle",
    "coefficient_from_shrinkage",
    "equilibrium_moisture_content",
    "humidity_of_moisture",
    "is_panel_name",
    "is_species_name",
    "layup_shares",
    "panel_named",
    "seasonal_change",
    "seasonal_change_wide",
    "shrinkage_from_green",
    "species_named",
]
