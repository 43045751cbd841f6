"""Item numbers: one for each different part, the same everywhere in the packet; L and R for handed pairs.

Numbered in the order in which the maker wrote the parts. Copies that came out different (a tray on one
side only puts holes in one leg) get their own number and say so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.packet.likeness import opposite, same
from scantling.piece.model import Part, PartName


@dataclass(frozen=True)
class Item:
    """Equal parts under one number: `drawn` as on the part sheet, `mirrored` its opposites."""

    number: int
    name: str
    drawn: tuple[MachinedPart, ...]
    mirrored: tuple[MachinedPart, ...] = ()

    @property
    def first(self) -> MachinedPart:
        return self.drawn[0]

    @property
    def quantity(self) -> int:
        return len(self.drawn) + len(self.mirrored)

    @property
    def handed(self) -> bool:
        return bool(self.mirrored)

    @property
    def parts(self) -> tuple[MachinedPart, ...]:
        return self.drawn + self.mirrored


@dataclass(frozen=True)
class Items:
    """All items of a piece, and the mark ("4", "4L") of each part."""

    items: tuple[Item, ...]

    @cached_property
    def by_part(self) -> dict[PartName, Item]:
        return {part.name: item for item in self.items for part in item.parts}

    @cached_property
    def marks(self) -> dict[PartName, str]:
        found: dict[PartName, str] = {}
        for item in self.items:
            for part in item.drawn:
                found[part.name] = f"{item.number}{'L' if item.handed else ''}"
            for part in item.mirrored:
                found[part.name] = f"{item.number}R"
        return found


def items_of(machined: MachinedPiece) -> Items:
    """Number every different part of the piece."""
    groups: list[tuple[list[MachinedPart], list[MachinedPart]]] = []
    by_definition: dict[str, list[int]] = {}
    for part in machined.parts:
        known = by_definition.setdefault(part.part.definition, [])
        if not _joined_a_group(part, [groups[index] for index in known]):
            known.append(len(groups))
            groups.append(([part], []))
    counts = {definition: len(known) for definition, known in by_definition.items()}
    return Items(tuple(_item(n, drawn, other, counts) for n, (drawn, other) in enumerate(groups, start=1)))


def _joined_a_group(
    part: MachinedPart, groups: Sequence[tuple[list[MachinedPart], list[MachinedPart]]]
) -> bool:
    for drawn, mirrored in groups:
        if same(drawn[0], part):
            drawn.append(part)
            return True
        if opposite(drawn[0], part):
            mirrored.append(part)
            return True
    return False


def _item(
    number: int, drawn: list[MachinedPart], mirrored: list[MachinedPart], counts: dict[str, int]
) -> Item:
    first = drawn[0].part
    name = first.definition.replace("/", " ")
    if counts[first.definition] > 1:
        name = _told_apart([machined.part for machined in drawn + mirrored], name)
    return Item(number, name, tuple(drawn), tuple(mirrored))


def _told_apart(parts: list[Part], name: str) -> str:
    """A name for some copies of a definition: the words they share ("front leg", "drawer 1 side")."""
    if len(parts) == 1:
        return parts[0].name
    others = [part.name.split() for part in parts[1:]]
    shared = " ".join(word for word in parts[0].name.split() if all(word in words for words in others))
    return shared if shared and shared != name else f"{parts[0].name} and alike"
