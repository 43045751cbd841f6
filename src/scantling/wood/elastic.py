"""Wood Handbook chapter 5, Tables 5-1 and 5-2: elastic constants across and in shear, over E_L."""

from __future__ import annotations

from functools import lru_cache

from scantling.wood.names import plain
from scantling.wood.species import Species
from scantling.wood.tables import Row, number, table

SHEAR_FREE = 1.10  # E_L over the printed MOE: centre-loaded tests at span/depth 14 hold about 10 % shear
_ROUGHLY = 1.0 / 16.0  # G over E_L where the tables have no row (Wood Handbook ch. 9)
_ACROSS = 0.06  # E_T over E_L where the tables have no row: middle of Table 5-1's hardwoods, derived


def shear_modulus_in(species: Species, flat_grained_face: bool) -> float:
    """G_LT where the beam's upright faces are flat-grained, G_LR otherwise; E_L / 16 without data. [MPa]"""
    row = _row_of(species)
    ratio = number(row, "GLT_over_EL" if flat_grained_face else "GLR_over_EL") if row else None
    return SHEAR_FREE * species.modulus_of_elasticity * (ratio or _ROUGHLY)


def modulus_across(species: Species) -> float:
    """E_T, the modulus across the grain of a flat-sawn board. [MPa] Table 5-1."""
    row = _row_of(species)
    ratio = number(row, "ET_over_EL") if row else None
    return SHEAR_FREE * species.modulus_of_elasticity * (ratio or _ACROSS)


def _row_of(species: Species) -> Row | None:
    """The table's row for that wood; its groups ("oak, red") serve the woods in them."""
    names = [plain(species.name), plain(species.name.split("(")[0])]
    kind, _, which = species.name.partition(", ")
    names.append(plain(f"{kind}, {which.split()[-1]}") if which else plain(kind))
    return next((_rows()[name] for name in names if name in _rows()), None)


@lru_cache(maxsize=1)
def _rows() -> dict[str, Row]:
    return {plain(row["species"]): row for row in table("elastic_ratios")}
