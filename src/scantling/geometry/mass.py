"""Mass and centre of gravity from the solids and the handbook's densities."""

from __future__ import annotations

from scantling.geometry.scene import Mass, Scene
from scantling.piece.model import Material, MaterialKind, PartName
from scantling.wood import panel_named, species_named

MM3_PER_M3 = 1e9


def mass_of(scene: Scene) -> Mass:
    """Mass of the wood, hardware left out; all solids count as they are machined. [kg, mm]"""
    by_part = {name: mass_of_part(scene, name) for name in scene.solids}
    total = sum(by_part.values())
    at = [0.0, 0.0, 0.0]
    for name, solid in scene.solids.items():
        for axis in range(3):
            at[axis] += by_part[name] * solid.centre[axis] / total
    return Mass(total, (at[0], at[1], at[2]), by_part)


def mass_of_part(scene: Scene, name: PartName) -> float:
    """Mass of one part. [kg]"""
    return scene.solids[name].volume * density_of(scene.piece.part(name).material) / MM3_PER_M3


def density_of(material: Material) -> float:
    """Density of what a part is made of. [kg/m³]"""
    if material.kind == MaterialKind.SHEET:
        return panel_named(material.species).density
    return species_named(material.species).density
