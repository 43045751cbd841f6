"""Wood Handbook chapter 9: how far beams bend, stress in them, and sideways buckling.

Forces N, lengths mm, moduli MPa. `load` is the total load on the beam.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from scantling.wood.elastic import SHEAR_FREE, shear_modulus_in
from scantling.wood.species import Species


@dataclass(frozen=True, slots=True)
class BeamCase:
    """One row of Table 9-1: bending and shear constants."""

    words: str
    bending: float
    shear: float


UNIFORM_SIMPLE = BeamCase("even load, ends free to turn", 5 / 384, 1 / 8)
UNIFORM_CLAMPED = BeamCase("even load, ends clamped", 1 / 384, 1 / 8)
POINT_SIMPLE = BeamCase("load at the middle, ends free to turn", 1 / 48, 1 / 4)
POINT_CLAMPED = BeamCase("load at the middle, ends clamped", 1 / 192, 1 / 4)
QUARTER_POINTS = BeamCase("two loads at the outer quarter points, at the middle", 11 / 768, 1 / 8)
CANTILEVER_UNIFORM = BeamCase("even load, one end clamped", 1 / 8, 1 / 2)
CANTILEVER_POINT = BeamCase("load at the free end", 1 / 3, 1.0)


@dataclass(frozen=True, slots=True)
class Beam:
    """A rectangular beam: `breadth` across, `depth` in the direction of the load. True moduli."""

    breadth: float
    depth: float
    modulus: float
    shear_modulus: float

    @property
    def second_moment(self) -> float:
        """I = b h³ / 12. [mm⁴]"""
        return self.breadth * self.depth**3 / 12.0

    @property
    def shear_area(self) -> float:
        """A' = 5 b h / 6. [mm²] Wood Handbook Eq. 9-2."""
        return 5.0 * self.breadth * self.depth / 6.0


def wooden_beam(species: Species, breadth: float, depth: float) -> Beam:
    """A beam of flat-sawn clear wood along the grain; E_L = 1.10 MOE (ch. 5).

    On edge its upright faces are flat-grained (G_LT); laid flat they are edge-grained (G_LR).
    """
    modulus = SHEAR_FREE * species.modulus_of_elasticity
    return Beam(breadth, depth, modulus, shear_modulus_in(species, depth > breadth))


def deflection(case: BeamCase, beam: Beam, load: float, span: float) -> float:
    """Elastic deflection with shear: k_b W L³/(E I) + k_s W L/(G A'), Wood Handbook Eq. 9-2. [mm]

    >>> shelf = Beam(285, 19, 13750, 1114)
    >>> round(deflection(UNIFORM_SIMPLE, shelf, 30 * 9.81, 900), 2)
    1.25
    """
    bending = case.bending * load * span**3 / (beam.modulus * beam.second_moment)
    return bending + case.shear * load * span / (beam.shear_modulus * beam.shear_area)


def uniform_load_deflection(
    load: float, span: float, *, breadth: float, depth: float, modulus: float, shear_modulus: float
) -> float:
    """Middle of a beam on two supports under an even total `load`: first row of Table 9-1. [mm]"""
    return deflection(UNIFORM_SIMPLE, Beam(breadth, depth, modulus, shear_modulus), load, span)


def bending_stress(moment: float, breadth: float, depth: float) -> float:
    """f_b = M / S. [MPa] Wood Handbook Eq. 9-12."""
    return 6.0 * moment / (breadth * depth**2)


def shear_stress(shear: float, breadth: float, depth: float) -> float:
    """f_v = 1.5 V / A. [MPa] Wood Handbook Eq. 9-13."""
    return 1.5 * shear / (breadth * depth)


def planning_stress(modulus_of_rupture: float, lasting: bool = True) -> float:
    """Bending stress to plan clear straight-grained furniture parts with: MOR / 5, or / 3 for a while.

    0.6 for ten years' load (ch. 5), left out for a short one, x 16 % scatter (Table 5-6) x grain and
    size; derived.
    """
    return modulus_of_rupture / (5.0 if lasting else 3.0)


def buckling_stress_centre_load(breadth: float, depth: float, span: float, modulus: float, g: float) -> float:
    """Bending stress at which a thin deep beam with a load at its middle buckles sideways. [MPa]

    f = pi² E_L / alpha², alpha = sqrt(2 pi) (E I_y / G K)^¼ sqrt(L_e h) / b, L_e = 0.742 L / (1 - 2 h / L);
    Wood Handbook Eq. 9-33, 9-34, Table 9-2. `g`: torsional shear modulus.
    """
    effective = 0.742 * span / (1.0 - 2.0 * depth / span)
    sideways = modulus * depth * breadth**3 / 12.0
    twisting = g * torsion_constant(depth, breadth)
    alpha: float = sqrt(2.0 * pi) * (sideways / twisting) ** 0.25 * sqrt(effective * depth) / breadth
    return float(pi**2 * modulus / alpha**2)


def torsion_constant(broad: float, thin: float) -> float:
    """K of a rectangle: b h³ [1/3 - 0.21 (h/b)(1 - h⁴ / 12 b⁴)], within 0.5 % of Fig. 9-3. [mm⁴]"""
    ratio = thin / broad
    return broad * thin**3 * (1.0 / 3.0 - 0.21 * ratio * (1.0 - ratio**4 / 12.0))
