"""What the layout of one joint or fitting gives: features for each part, words, hardware, notices."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.joinery.features import Feature, HardwareUse, JointLayout
from scantling.joinery.meeting import Meeting
from scantling.piece.model import Notice, PartName


@dataclass(frozen=True, slots=True)
class Made:
    """`first` and `second` are features in each part's own frame.

    `slack`: how far the whole row may still be shifted along the run, either way. [mm]
    `meets`: joints it is cut to meet inside the wood, as mitred tenons are.
    """

    first: tuple[Feature, ...]
    second: tuple[Feature, ...]
    layout: JointLayout
    hardware: tuple[HardwareUse, ...] = ()
    notices: tuple[Notice, ...] = ()
    slack: float = 0.0
    meets: frozenset[str] = frozenset()


def layout(
    m: Meeting, text: str, numbers: Sequence[tuple[str, float]] = (), *, glued: float = 0.0, source: str = ""
) -> JointLayout:
    """The layout's words. `glued` is the area that would be glued if nothing were said. [mm²]"""
    return JointLayout(m.joint.id, m.joint.method, text, tuple(numbers), glued_area(m, glued), source)


def glued_area(m: Meeting, whole: float) -> float:
    """`whole` cut down to what the joint line says is glued. [mm²]"""
    glue = m.settings.glue
    if glue is None or glue.extent == "all":
        return whole
    if glue.extent == "none" or m.length <= 0:
        return 0.0
    return whole * min(1.0, glue.length / m.length)


def notice(
    m: Meeting, code: str, message: str, *, number: float | None = None, remedy: str = "", must: bool = False
) -> Notice:
    """A notice about a joint, at the line that wrote it."""
    parts = both_parts(m)
    return Notice(code, f"{' to '.join(parts)}: {message}", m.joint.place, parts, number, remedy, must)


def both_parts(m: Meeting) -> tuple[PartName, ...]:
    """The names of the parts of a joint; one where it goes to the wall or the floor."""
    return (m.first.name, m.second.name) if m.second else (m.first.name,)


def counted(count: int, name: str) -> str:
    """`1 screw`, `2 screws`, `2 glue blocks`."""
    return f"{count} {name}{'' if count == 1 else 's'}"
