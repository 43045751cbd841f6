"""Force to hold a board or panel flat, and cup from the rings. N, mm, MPa; derived mechanics."""

from __future__ import annotations

from scantling.wood.ranges import check_range


def corner_force_to_flatten(wind: float, length: float, width: float, thickness: float, g: float) -> float:
    """Force at each of four corners that takes `wind` out of a panel: P = G h³ d / (3 a b). [N]

    Wind: height of one corner over the plane of the other three. Thin plate theory; g is G_LT of a
    flat-sawn, G_LR of a quartersawn panel. For wind below about the thickness.
    """
    check_range("wind", wind, 0.0, thickness, "mm", "plate twist, derived")
    return g * thickness**3 * wind / (3.0 * length * width)


def stress_to_flatten_cup(cup: float, width: float, thickness: float, modulus_across: float) -> float:
    """Bending stress across the grain when a cup of that depth is pressed flat: 4 E h c / b². [MPa]"""
    return 4.0 * modulus_across * thickness * cup / width**2


def force_to_straighten_bow(bow: float, length: float, modulus: float, second_moment: float) -> float:
    """Force at the middle that takes a bow out: F = 48 E I d / L³. [N]"""
    return 48.0 * modulus * second_moment * bow / length**3


def cup_from_rings(
    radial: float, tangential: float, moisture_change: float, width: float, ring_radius: float
) -> float:
    """Cup of a flat-sawn board whose moisture changes: (C_T - C_R) dM b² / (8 r). [mm] Derived.

    Drying cups it hollow on the bark side.
    """
    return (tangential - radial) * moisture_change * width**2 / (8.0 * ring_radius)
