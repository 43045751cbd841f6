"""Least workpieces that can be held safely, where a machine's own limits are not told. All mm.

Sources, unless the shop tells otherwise: a woodworking magazine's safety article (nothing under 12 in on the
fence of a table saw, question any machine under 12 in; nothing wider than long against a fence); owners'
manuals and a reader's question on short stock (planer 12 to 14 in, 3/4 in wide, 6 mm thick); the rest, common
practice, no source. Follow the manual of your machine where it says more.
"""

from __future__ import annotations

from scantling.shop.model import Machine, MachineKind

_K = MachineKind
LENGTH = {_K.TABLE_SAW: 300.0, _K.CIRCULAR_SAW: 300.0, _K.PLANER: 300.0, _K.JOINTER: 300.0}
HELD = 200.0  # on a mitre saw or a table saw's sled, before the far hand comes too near
CLAMPED = 100.0  # the same, clamped down
PLANED_WIDE, PLANED_THICK = 19.0, 6.0
JOINTED_THICK = 12.0


def least_length(machine: Machine) -> float:
    """Shortest workpiece the machine takes along its fence, bed or guide."""
    if machine.least_length is not None:
        return machine.least_length
    return LENGTH.get(machine.kind, 0.0)
