"""Which machine takes a workpiece, and how it is held there: the first way that is safe, hands last."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from scantling.cutting.sequence.limits import (
    CLAMPED,
    HELD,
    JOINTED_THICK,
    PLANED_THICK,
    PLANED_WIDE,
    least_length,
)
from scantling.cutting.sequence.operations import Hold, Work
from scantling.shop.model import Machine, MachineKind, Shop

_K = MachineKind
_LINE = frozenset({_K.BAND_SAW, _K.JIGSAW, _K.HAND_SAW})


class Way(NamedTuple):
    """A machine ("" for hand tools not listed), how the piece is held, and a word of caution."""

    machine: str
    hold: Hold
    caution: str = ""


def crosscut_way(saw: Machine | None, work: Work, rough: bool) -> Way:
    """A crosscut on the saw the plan names."""
    if saw is None:
        return Way("", Hold.CLAMPED, "no saw is listed for this cut")
    if saw.kind not in (_K.MITRE_SAW, _K.TABLE_SAW):
        short = work.length < least_length(saw)
        return Way(saw.name, Hold.CLAMPED if short or saw.kind is _K.CIRCULAR_SAW else Hold.MARK)
    if work.length < CLAMPED:
        return Way("", Hold.BENCH, f"too short for the {saw.name}, clamped or not: saw it by hand in a vice")
    if not work.flat or not work.straight:
        return Way(saw.name, Hold.CLAMPED, "shim it so that it cannot rock; it has no flat face yet")
    if work.length < max(HELD, saw.least_length or 0.0):
        return Way(saw.name, Hold.CLAMPED, "too short to hold by hand near the blade")
    return Way(saw.name, Hold.MARK if rough else Hold.STOP)


def rip_way(saw: Machine | None, work: Work, setting: float, shop: Shop) -> Way:
    """A rip on the saw the plan names, or on what takes the piece where that saw does not."""
    if saw is not None and saw.kind is _K.TABLE_SAW:
        if _runs_on_fence(saw, work, setting):
            return Way(saw.name, Hold.FENCE)
        if work.length >= least_length(saw):
            return Way(saw.name, Hold.CARRIER)
    if saw is not None and saw.kind is _K.CIRCULAR_SAW and work.length >= least_length(saw):
        return Way(saw.name, Hold.GUIDE)
    if saw is not None and saw.kind in _LINE:
        return Way(saw.name, Hold.LINE)
    other = next((m for m in shop.machines if m.kind in _LINE), None)
    if other is not None:
        return Way(other.name, Hold.LINE, "too short for the fence or the guide")
    return Way("", Hold.BENCH, "too small for the machines here: saw it by hand in a vice")


def _runs_on_fence(saw: Machine, work: Work, setting: float) -> bool:
    long_enough = work.length >= least_length(saw) and work.length >= work.width
    return work.flat > 0 and work.straight and long_enough and setting <= (saw.most_width or math.inf)


def flatten_way(work: Work, shop: Shop) -> Way:
    """The first flat face: jointer, planer with a sled, or by hand."""
    jointer, planer = shop.machine(_K.JOINTER), shop.machine(_K.PLANER)
    if jointer and _takes(jointer, work) and work.thickness >= JOINTED_THICK:
        return Way(jointer.name, Hold.BED)
    if planer and planer.sled and _takes(planer, work, planer.sled_thickness):
        return Way(planer.name, Hold.SLED)
    return _by_hand(shop)


def thickness_way(work: Work, wanted: float, shop: Shop) -> Way:
    """The second face parallel to the first, at the thickness wanted."""
    planer = shop.machine(_K.PLANER)
    if planer and _takes(planer, work) and work.width >= PLANED_WIDE:
        thin = wanted < max(PLANED_THICK, planer.least_thickness or 0.0)
        return Way(planer.name, Hold.CARRIER if thin else Hold.BED)
    return _by_hand(shop)


def edge_way(work: Work, shop: Shop) -> Way:
    """A straight edge square to the flat face."""
    for machine, hold in _edge_ways(shop):
        if work.length >= least_length(machine):
            return Way(machine.name, hold)
    return _by_hand(shop)


def _edge_ways(shop: Shop) -> Iterator[tuple[Machine, Hold]]:
    for kind, hold in (
        (_K.JOINTER, Hold.FENCE),
        (_K.CIRCULAR_SAW, Hold.GUIDE),
        (_K.TABLE_SAW, Hold.CARRIER),
        (_K.HAND_PLANE, Hold.BENCH),
    ):
        machine = shop.machine(kind)
        if machine:
            yield machine, hold


def width_way(work: Work, setting: float, shop: Shop) -> Way:
    """The other edge, to width, with the straight edge as its guide."""
    table, guided = shop.machine(_K.TABLE_SAW), shop.machine(_K.CIRCULAR_SAW)
    if table and _runs_on_fence(table, work, setting):
        return Way(table.name, Hold.FENCE)
    if guided and work.length >= least_length(guided):
        return Way(guided.name, Hold.GUIDE)
    return _by_hand(shop)


def _takes(machine: Machine, work: Work, under: float = 0.0) -> bool:
    wide, thick, long = (
        limit or math.inf for limit in (machine.most_width, machine.most_thickness, machine.most_length)
    )
    fits = work.width <= wide and work.thickness + under <= thick and work.length <= long
    return fits and work.length >= least_length(machine)


def _by_hand(shop: Shop) -> Way:
    plane = shop.machine(_K.HAND_PLANE)
    return Way(plane.name if plane else "", Hold.BENCH)
