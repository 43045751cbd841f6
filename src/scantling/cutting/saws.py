"""Which saw makes which cut, and how wide it cuts.

A table saw wants a straight edge against its fence and a flat face on its table, so a rough or twisted
board is broken down with other saws first (source: magazine article on milling rough lumber; common
practice).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Piece2D, SawCut
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


def handling(cuts: Sequence[SawCut], pieces: Sequence[Piece2D], shop: Shop) -> list[str]:
    """Cuts that ask a saw for more than it can hold or reach, with what to do instead."""
    sizes = {piece.id: piece for piece in pieces}
    notes = []
    for saw in (m for m in shop.machines if any(cut.machine == m.name for cut in cuts)):
        mine = [cut for cut in cuts if cut.machine == saw.name]
        short = [
            cut.number
            for cut in mine
            if max(sizes[cut.of].length, sizes[cut.of].width) < (saw.least_length or 0)
        ]
        if short:
            notes.append(
                f"{_numbered(short)}: the piece is shorter than the {saw.name} holds safely; clamp it down, "
                "or saw by hand"
            )
        wide = [cut.number for cut in mine if not cut.across and cut.setting > (saw.most_width or math.inf)]
        if wide:
            notes.append(
                f"{_numbered(wide)}: wider than the fence of the {saw.name} goes; use a clamped guide"
            )
    return notes


def _numbered(cuts: list[int]) -> str:
    return f"cut{'s' if len(cuts) > 1 else ''} {', '.join(map(str, cuts))}"
