"""Which saw makes which cut, and how wide it cuts.

A table saw wants a straight edge against its fence and a flat face on its table, so a rough or twisted
board is broken down with other saws first (source: magazine article on milling rough lumber; common
practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from scantling.cutting import allowances as allow
from scantling.shop.model import MachineKind, Shop

_K = MachineKind


class Task(Enum):
    """What is being cut, and how true it is by then. The value is the order in which saws are liked."""

    ROUGH_CROSSCUT = (_K.CIRCULAR_SAW, _K.HAND_SAW, _K.JIGSAW, _K.MITRE_SAW, _K.TABLE_SAW, _K.BAND_SAW)
    ROUGH_RIP = (_K.BAND_SAW, _K.CIRCULAR_SAW, _K.JIGSAW, _K.HAND_SAW, _K.TABLE_SAW)
    CROSSCUT = (_K.MITRE_SAW, _K.TABLE_SAW, _K.CIRCULAR_SAW, _K.HAND_SAW, _K.JIGSAW, _K.BAND_SAW)
    RIP = (_K.TABLE_SAW, _K.CIRCULAR_SAW, _K.BAND_SAW, _K.HAND_SAW, _K.JIGSAW)
    SHEET = (_K.CIRCULAR_SAW, _K.TABLE_SAW, _K.HAND_SAW, _K.JIGSAW, _K.BAND_SAW)


@dataclass(frozen=True, slots=True)
class Saw:
    """`name` as the shop calls it, "" where the shop has none that will do; `kerf` in mm."""

    name: str
    kerf: float
    note: str = ""


def saw_for(task: Task, shop: Shop) -> Saw:
    """The best liked saw for a task that stands in the shop."""
    for kind in task.value:
        machine = shop.machine(kind)
        if machine is not None:
            kerf = machine.kerf if machine.kerf is not None else allow.KERF_UNKNOWN
            return Saw(machine.name, kerf, _note(task, kind))
    return Saw(
        "", allow.KERF_UNKNOWN, f"no saw in the shop for this; planned with {allow.KERF_UNKNOWN:g} mm a cut"
    )


def _note(task: Task, kind: MachineKind) -> str:
    if kind is _K.TABLE_SAW and task in (Task.ROUGH_CROSSCUT, Task.ROUGH_RIP):
        return "it needs a flat face and a straight edge first: a carrier with hold-downs, or a hand plane"
    if kind is _K.CIRCULAR_SAW and task in (Task.ROUGH_RIP, Task.SHEET):
        return "along a clamped straight guide"
    return ""
