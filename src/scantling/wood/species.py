"""Solid woods by the names makers use, with the properties printed for them.

Source: `data/species.csv`, transcribed from the Wood Handbook (FPL-GTR-190 and -282), Tables 5-3a,
5-5a, 4-3, 4-4 and 13-5; each row says which of its cells were seen in print and which are from memory.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from scantling.wood.names import UnknownSpecies, nearest_names, plain
from scantling.wood.shrinkage import coefficient_from_shrinkage
from scantling.wood.tables import Row, number, required, table

_LOW_SATURATION = {"cedar, western redcedar", "cedar, northern white", "redwood, old-growth"}
_GPA = 1000.0


@dataclass(frozen=True, slots=True)
class Species:
    """One wood at 12 % moisture: means of small clear specimens, not design values.

    `specific_gravity` is oven-dry mass over volume at 12 %. Moduli and strengths in MPa, shrinkage in
    percent from green to oven-dry, coefficients per 1 % moisture, density in kg/m³, hardness in N.
    """

    name: str
    latin: str
    kind: str  # "hardwood" | "softwood"
    specific_gravity: float
    modulus_of_elasticity: float
    modulus_of_rupture: float
    radial_shrinkage: float
    tangential_shrinkage: float
    radial_coefficient: float
    tangential_coefficient: float
    coefficients_printed: bool
    compression_perpendicular: float | None
    shear_parallel: float | None
    side_hardness: float | None
    source: str
    provenance: str
    confidence: str
    notes: str = ""

    @property
    def density(self) -> float:
        """Mass with its water at 12 % moisture. [kg/m³] Wood Handbook Eq. 4-14."""
        return 1000.0 * self.specific_gravity * 1.12

    @property
    def spoken(self) -> str:
        """The name as makers say it: `eastern white pine`, `black walnut`, `yellow-poplar`."""
        first, comma, rest = _unbracketed(self.name).partition(", ")
        return first if not comma else rest if first in rest else f"{rest} {first}"

    @property
    def is_softwood(self) -> bool:
        return self.kind == "softwood"


def species_named(words: str) -> Species:
    """The wood a maker means by `words` ("walnut", "white oak", "oak, white", "yellow-poplar").

    Raises `UnknownSpecies` with the nearest names.
    """
    found = _by_name().get(plain(words))
    if found is None:
        raise UnknownSpecies(words, nearest_names(words, _by_name()))
    return found


def is_species_name(words: str) -> bool:
    """Whether `words` name a solid wood."""
    return plain(words) in _by_name()


@lru_cache(maxsize=1)
def all_species() -> tuple[Species, ...]:
    """Every wood of the table, in its order."""
    return tuple(_species(row) for row in table("species"))


@lru_cache(maxsize=1)
def _by_name() -> dict[str, Species]:
    names: dict[str, Species] = {}
    for species in all_species():
        for name in _printed_names(species.name):
            names.setdefault(name, species)
    for row in table("aliases"):
        names.setdefault(plain(row["alias"]), names[plain(row["species"])])
    return names


def _printed_names(name: str) -> tuple[str, ...]:
    """`maple, sugar (hard)` is also found as `sugar maple` and `maple sugar`."""
    short = _unbracketed(name)
    first, _, rest = short.partition(",")
    whole = (plain(rest),) if first in rest else ()  # "cedar, western redcedar" is "western redcedar"
    return (plain(name), plain(short), plain(f"{rest} {first}"), *whole)


def _unbracketed(name: str) -> str:
    return re.sub(r"\s*\(.*\)", "", name)


def _species(row: Row) -> Species:
    name = row["common_name"].lower()
    radial = required(row, "shrink_radial_pct", name)
    tangential = required(row, "shrink_tangential_pct", name)
    printed = number(row, "coeff_radial_CR"), number(row, "coeff_tangential_CT")
    saturation = 22.0 if name in _LOW_SATURATION else 30.0
    return Species(
        name=name,
        latin=row["latin_name"],
        kind=row["kind"],
        specific_gravity=required(row, "sg_12", name),
        modulus_of_elasticity=required(row, "moe_12_GPa", name) * _GPA,
        modulus_of_rupture=required(row, "mor_12_MPa", name),
        radial_shrinkage=radial,
        tangential_shrinkage=tangential,
        radial_coefficient=printed[0] or coefficient_from_shrinkage(radial, saturation),
        tangential_coefficient=printed[1] or coefficient_from_shrinkage(tangential, saturation),
        coefficients_printed=printed[0] is not None,
        compression_perpendicular=number(row, "compression_perp_MPa"),
        shear_parallel=number(row, "shear_parallel_MPa"),
        side_hardness=number(row, "side_hardness_N"),
        source=row["source"],
        provenance=row["provenance"],
        confidence=row["confidence"],
        notes=row["notes"],
    )
