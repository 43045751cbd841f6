"""How deep a part goes into another: known before any layout, for parts that grow on two sides."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from scantling.joinery import rules
from scantling.joinery.meeting import Meeting, is_solid
from scantling.piece.model import Axis, Face, Part, PartName

WHOLE = frozenset({"dado", "groove", "rabbet"})  # a tongue is thinner than its part


class Sizing(Protocol):
    """What depths ask of the bench."""

    def rounded(self, mm: float) -> float: ...

    def travel(self, part: Part, axis: Axis, distance: float) -> float | None: ...


def housing_depth(m: Meeting, bench: Sizing) -> float:
    """`deep`, or the method's own rule, to the maker's step. [mm]"""
    if m.settings.deep is not None:
        return m.settings.deep
    room = m.second_room
    match m.joint.method:
        case "rabbet":
            wish = room * rules.number("rabbet depth over thickness")
        case "dado":
            wish = min(room * rules.number("dado depth over thickness"), rules.number("dado deepest"))
        case "tongue":
            name = "breadboard tongue" if is_breadboard(m) else "tongue length"
            wish = min(rules.number(name), room * rules.number("groove most over thickness"))
        case _:
            name = "groove depth solid panel" if is_solid(m.first.material) else "groove depth"
            wish = min(rules.number(name), room * rules.number("groove most over thickness"))
    return bench.rounded(wish)


def is_breadboard(m: Meeting) -> bool:
    """A tongue on end grain that is glued for a stretch only: the rest is pegged in slots."""
    glue = m.settings.glue
    return m.joint.method == "tongue" and m.first_end_grain and glue is not None and glue.extent == "part"


def housing_gap(m: Meeting, bench: Sizing) -> float:
    """Left at the bottom: what is said; for a solid panel across the grain, what it moves by. [mm]

    Half the seasonal change of the panel and 1 mm to spare, not more than half the groove.
    """
    if m.settings.gap is not None:
        return m.settings.gap
    axis = m.face.axis
    across = m.first.grain != axis and is_solid(m.first.material) and m.joint.method == "groove"
    if not across or m.settings.runs is not None:
        return m.settings.runs or 0.0
    change = bench.travel(m.first, axis, m.first.box.size(axis)) or 0.0
    return min(change / 2 + rules.number("groove panel spare"), housing_depth(m, bench) / 2)


def growth_of(meetings: Mapping[str, Meeting], bench: Sizing) -> dict[tuple[PartName, Face], float]:
    """How far each part's housed faces go in with their whole thickness: the most any joint there asks."""
    found: dict[tuple[PartName, Face], float] = {}
    for m in meetings.values():
        if m.joint.method in WHOLE:
            key, grows = (m.first.name, m.face), housing_depth(m, bench) - housing_gap(m, bench)
            found[key] = max(found.get(key, 0.0), grows)
    return found
