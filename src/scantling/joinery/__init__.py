"""Joinery: what joints, fittings and `work` put on parts, by the trade's rules.

Knows layouts, cut lengths and clashes; knows nothing of solids, boards or strength.
Gives `machine_piece` and the features a machined part carries.
"""

from scantling.joinery.features import (
    Addition,
    Cope,
    Cut,
    Feature,
    HardwareUse,
    Hole,
    JointLayout,
    MachinedPart,
    MachinedPiece,
    Prism,
    Shaped,
    Trim,
)
from scantling.joinery.machine import machine_piece
from scantling.joinery.methods import methods_with_rules

__all__ = [
    "Addition",
    "Cope",
    "Cut",
    "Feature",
    "HardwareUse",
    "Hole",
    "JointLayout",
    "MachinedPart",
    "MachinedPiece",
    "Prism",
    "Shaped",
    "Trim",
    "machine_piece",
    "methods_with_rules",
]
