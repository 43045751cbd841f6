"""How the trade measures a board that is not flat: one sentence each, said beside the field."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measure:
    """`word`: as the shop file has it. `sketch`: the name of the small drawing."""

    word: str
    head: str
    how: str


HOW = (
    Measure("bow", "Bow", "Stretch a string from end to end along the face; the widest gap under it."),
    Measure("crook", "Crook", "Stretch the string along the edge; the widest gap between it and the edge."),
    Measure("cup", "Cup", "Lay a straightedge across the face; the widest gap under it."),
    Measure(
        "twist",
        "Twist",
        "Set a winding stick across each end and sight over them; how far one corner stands up.",
    ),
)
