"""A step before it has its number, and the order that follows from which parts it touches."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.building.build_plan import Stage
from scantling.piece.model import PartName


@dataclass(frozen=True, slots=True)
class Draft:
    """A step as the stages propose it, in the usual order of work. See `Step` for the fields."""

    stage: Stage
    title: str
    text: str
    parts: tuple[PartName, ...] = ()
    machine: str = ""
    settings: tuple[str, ...] = ()
    active: float = 0.0
    wait: float = 0.0
    wait_for: str = ""
    check: str = ""
    cautions: tuple[str, ...] = ()
    joined: tuple[PartName, ...] = ()
    joints: tuple[str, ...] = ()
    stock: tuple[str, ...] = ()


def precedence(drafts: Iterable[Draft]) -> tuple[tuple[int, ...], ...]:
    """For each draft, the positions of those that must be done just before it.

    A step follows the last earlier step that touched each of its parts; a step without parts follows
    everything before it. Arrows point backward only, so there can be no circle. What another arrow
    already says is left out.
    """
    last: dict[PartName, int] = {}
    before: list[tuple[int, ...]] = []
    all_before: list[frozenset[int]] = []
    for at, draft in enumerate(drafts):
        touched = {last[part] for part in draft.parts if part in last} if draft.parts else set(range(at))
        implied = frozenset[int]().union(*(all_before[position] for position in touched))
        before.append(tuple(sorted(touched - implied)))
        all_before.append(implied | touched)
        last.update(dict.fromkeys(draft.parts, at))
    return tuple(before)
