"""How sag grows under a load that stays: total over the first day's.

Wood Handbook ch. 5: after several years creep may about equal the first deflection. Eurocode 5
k_def, heated rooms (service class 1), from memory: solid timber 0.60, plywood 0.80, OSB 1.50,
particleboard and MDF 2.25.
"""

from __future__ import annotations

from scantling.wood.panels import Panel

SOLID_TIMBER = 0.60


def creep_factor(panel: Panel | None = None) -> float:
    """Sag after years over the first day's, indoors: 1 + k_def; solid timber where no panel is given.

    >>> creep_factor()
    1.6
    """
    return 1.0 + (panel.creep if panel else SOLID_TIMBER)
