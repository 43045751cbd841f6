"""Manufactured panels by the names makers use: density, stiffness along and across, creep.

Sources stand in `data/panel_kinds.csv`; birch plywood by thickness in `data/panels.csv`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from scantling.wood.names import UnknownSpecies, nearest_names, plain
from scantling.wood.species import is_species_name
from scantling.wood.tables import Row, required, table

_GPA = 1000.0
_CORES = {"plywood": "hardwood plywood", "ply": "hardwood plywood", "mdf": "mdf"}
_CORES |= {"veneered mdf": "mdf", "veneered particleboard": "particleboard"}


@dataclass(frozen=True, slots=True)
class Panel:
    """A kind of sheet. Density kg/m³, moduli MPa; `expansion` a fraction per 1 % moisture in its plane.

    `creep`: k_def, so that the sag after years is (1 + creep) times the first day's.
    `layered`: stiffer along the face grain than across it.
    """

    name: str
    density: float
    modulus_along: float
    modulus_across: float
    shear_modulus: float
    expansion: float
    creep: float
    layered: bool
    source: str
    provenance: str


def panel_named(words: str) -> Panel:
    """The panel a maker means ("birch plywood", "walnut plywood", "mdf"); faces do not change the core.

    Raises `UnknownSpecies` with the nearest names.
    """
    key = _panel_key(plain(words))
    if key is None:
        raise UnknownSpecies(words, nearest_names(words, _by_words()), "panel")
    return _by_words()[key]


def is_panel_name(words: str) -> bool:
    """Whether `words` name a manufactured panel."""
    return _panel_key(plain(words)) is not None


@lru_cache(maxsize=1)
def all_panels() -> tuple[Panel, ...]:
    """Every kind of panel of the table, in its order."""
    return tuple(_panel(row) for row in table("panel_kinds"))


def bending_moduli(panel: Panel, thickness: float) -> tuple[float, float]:
    """Modulus of elasticity in bending along and across the face grain at `thickness` mm. [MPa]

    Birch plywood by the row of its thickness (ply count rules), others by the table's one row.
    """
    if panel.name != "birch plywood":
        return panel.modulus_along, panel.modulus_across
    _, along, across = min(_birch_rows(), key=lambda row: (abs(row[0] - thickness), row[0]))
    return along, across


def layup_shares(plies: int) -> tuple[float, float]:
    """Bending modulus along and across an all-veneer panel of equal alternating plies, over E_L.

    Along = sum of I of the plies that run along / I of the whole; laminate bending theory, with the
    cross plies taken as giving nothing.

    >>> round(layup_shares(5)[0], 3)
    0.792
    """
    along = sum(
        ((plies - 2 * i) ** 3 - (plies - 2 * i - 2) ** 3) * (i % 2 == 0) for i in range(plies // 2)
    ) + (plies // 2 % 2 == 0)
    share = along / plies**3
    return share, 1.0 - share


def _panel_key(words: str) -> str | None:
    if words in _by_words():
        return words
    for core, name in _CORES.items():
        face = words.removesuffix(f" {core}")
        if face != words and is_species_name(face):
            return plain(name)
    return None


@lru_cache(maxsize=1)
def _by_words() -> dict[str, Panel]:
    known: dict[str, Panel] = {}
    for row, panel in zip(table("panel_kinds"), all_panels(), strict=True):
        for words in (panel.name, *row["words"].split(";")):
            known.setdefault(plain(words), panel)
    return known


@lru_cache(maxsize=1)
def _birch_rows() -> tuple[tuple[float, float, float], ...]:
    rows = (row for row in table("panels") if row["panel"].startswith("Birch plywood"))
    return tuple(
        (float(r["thickness_mm"]), float(r["moe_along_GPa"]) * _GPA, float(r["moe_across_GPa"]) * _GPA)
        for r in rows
    )


def _panel(row: Row) -> Panel:
    name = row["name"]
    return Panel(
        name=name,
        density=required(row, "density", name),
        modulus_along=required(row, "modulus_along", name),
        modulus_across=required(row, "modulus_across", name),
        shear_modulus=required(row, "shear_modulus", name),
        expansion=required(row, "expansion", name),
        creep=required(row, "creep", name),
        layered=row["layered"] == "yes",
        source=row["source"],
        provenance=row["provenance"],
    )
