"""Wood Handbook chapter 8: what nails, screws and lag screws hold. N and mm; ultimate values.

`gravity` is oven-dry mass over volume at 12 % moisture (Table 5-3). Plan with a fifth of these.
Screws in end grain hold about 75 % and not reliably (from memory).
"""

from __future__ import annotations

from math import sqrt

from scantling.wood.ranges import check_range

WORKING_SHARE = 0.2  # ultimate to working load, the handbook's old practice (1/5 to 1/6)
END_GRAIN_SHARE = 0.75  # from memory of ch. 8: erratic
_GAUGES = {4: 2.84, 5: 3.18, 6: 3.51, 7: 3.84, 8: 4.17, 9: 4.50, 10: 4.83, 12: 5.49, 14: 6.15}  # Table 8-9
_SCREW_LATERAL = {
    "hardwood": ((0.33, 23.17), (0.48, 31.99), (0.57, 44.13)),
    "softwood": ((0.29, 23.17), (0.43, 29.79), (0.48, 36.40)),
}


def gauge_diameter(gauge: int) -> float:
    """Shank diameter of a wood screw. [mm] Wood Handbook Table 8-9."""
    check_range("screw gauge", gauge, 4, 14, "", "Wood Handbook Table 8-9")
    if gauge in _GAUGES:
        return _GAUGES[gauge]
    return (_GAUGES[gauge - 1] + _GAUGES[gauge + 1]) / 2.0


def screw_withdrawal(gravity: float, diameter: float, thread: float) -> float:
    """P = 108.25 G² D L, wood screw from side grain. [N] Eq. 8-10.

    >>> round(screw_withdrawal(0.63, 4.17, 19.0))
    3404
    """
    return 108.25 * gravity**2 * diameter * thread


def nail_withdrawal(gravity: float, diameter: float, depth: float) -> float:
    """P = 54.12 G^2.5 D L, smooth nail from side grain of seasoned wood. [N] Eq. 8-1."""
    return float(54.12 * gravity**2.5 * diameter * depth)


def ringed_nail_withdrawal(gravity: float, diameter: float, depth: float) -> float:
    """P = 77.57 G² D L, annularly threaded nail. [N] Eq. 8-2a."""
    return 77.57 * gravity**2 * diameter * depth


def lag_screw_withdrawal(gravity: float, diameter: float, thread: float) -> float:
    """P = 125.4 G^1.5 D^0.75 L. [N] Eq. 8-14."""
    return float(125.4 * gravity**1.5 * diameter**0.75 * thread)


def particleboard_screw_withdrawal(gravity: float, diameter: float, depth: float, *, edge: bool) -> float:
    """P = 41.1 (face) or 31.8 (edge) D^½ (L - D/3)^1.25 G². [N] Ch. 8, from memory."""
    constant = 31.8 if edge else 41.1
    return float(constant * sqrt(diameter) * (depth - diameter / 3.0) ** 1.25 * gravity**2)


def screw_lateral(kind: str, gravity: float, diameter: float) -> float:
    """P = K D² at the proportional limit, thread at least 7 D in the main part. [N] ch. 8, old form.

    `kind` is "hardwood" or "softwood"; K by specific gravity group.
    """
    groups = _SCREW_LATERAL[kind]
    check_range("specific gravity", gravity, groups[0][0], 0.74, "", "Wood Handbook ch. 8")
    constant = [k for least, k in groups if gravity >= least][-1]
    return constant * diameter**2


def dowel_bearing_strength(gravity: float) -> float:
    """F_e = 114.5 G^1.84 under small fasteners. [MPa] Wood Handbook Table 8-5."""
    return float(114.5 * gravity**1.84)
