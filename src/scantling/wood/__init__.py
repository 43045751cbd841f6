"""The handbook: woods and panels, moisture, movement, strength, fasteners. Pure functions of numbers.

Knows nothing of parts or pieces. mm, N, MPa, kg, °C; every formula and table names its source.
"""

from scantling.wood.beams import (
    CANTILEVER_POINT,
    CANTILEVER_UNIFORM,
    POINT_SIMPLE,
    UNIFORM_SIMPLE,
    Beam,
    BeamCase,
    bending_stress,
    deflection,
    planning_stress,
    uniform_load_deflection,
    wooden_beam,
)
from scantling.wood.creep import creep_factor
from scantling.wood.density import density_at, property_at_moisture, specific_gravity_at
from scantling.wood.dressed import dressed_section, dressed_widths
from scantling.wood.elastic import SHEAR_FREE, modulus_across, shear_modulus_in
from scantling.wood.fasteners import (
    END_GRAIN_SHARE,
    WORKING_SHARE,
    gauge_diameter,
    lag_screw_withdrawal,
    screw_lateral,
    screw_withdrawal,
)
from scantling.wood.flatness import corner_force_to_flatten, cup_from_rings, stress_to_flatten_cup
from scantling.wood.glue import dowel_withdrawal, dowel_withdrawal_by_area, tenon_moment
from scantling.wood.moisture import (
    COLDEST,
    DAMPEST,
    INDOORS,
    WARMEST,
    equilibrium_moisture_content,
    humidity_of_moisture,
)
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
    "CANTILEVER_POINT",
    "CANTILEVER_UNIFORM",
    "COLDEST",
    "DAMPEST",
    "END_GRAIN_SHARE",
    "INDOORS",
    "POINT_SIMPLE",
    "SHEAR_FREE",
    "UNIFORM_SIMPLE",
    "WARMEST",
    "WORKING_SHARE",
    "Beam",
    "BeamCase",
    "Panel",
    "Species",
    "UnknownSpecies",
    "all_panels",
    "all_species",
    "bending_moduli",
    "bending_stress",
    "change_across",
    "change_coefficient",
    "coefficient_at_ring_angle",
    "coefficient_from_shrinkage",
    "corner_force_to_flatten",
    "creep_factor",
    "cup_from_rings",
    "deflection",
    "density_at",
    "dowel_withdrawal",
    "dowel_withdrawal_by_area",
    "dressed_section",
    "dressed_widths",
    "equilibrium_moisture_content",
    "gauge_diameter",
    "humidity_of_moisture",
    "is_panel_name",
    "is_species_name",
    "lag_screw_withdrawal",
    "layup_shares",
    "modulus_across",
    "panel_named",
    "planning_stress",
    "property_at_moisture",
    "screw_lateral",
    "screw_withdrawal",
    "seasonal_change",
    "seasonal_change_wide",
    "shear_modulus_in",
    "shrinkage_from_green",
    "species_named",
    "specific_gravity_at",
    "stress_to_flatten_cup",
    "tenon_moment",
    "uniform_load_deflection",
    "wooden_beam",
]
