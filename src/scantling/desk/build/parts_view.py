"""In the worker: the parts of a piece, their sizes as planned and as noted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.joinery.features import MachinedPart
    from scantling.packet.context import Context
    from scantling.packet.shown import Sizes
    from scantling.piece.model import Part


@dataclass(frozen=True, slots=True)
class SizeView:
    """One size that can be measured. `axis`: the record's word; `noun`: "length"; `words`: with its way.

    `planned`: between shoulders; `meant`: what to measure and what not. `noted`: as measured earlier, or "".
    """

    axis: str
    noun: str
    words: str
    planned: str
    meant: str
    noted: str


@dataclass(frozen=True, slots=True)
class PartView:
    """A part to record. `spoiled`: how often it was lost so far; `cut`: nothing may change it any more."""

    name: str
    mark: str
    sizes: tuple[SizeView, ...]
    material: str
    inches: bool
    spoiled: int
    cut: bool


@dataclass(frozen=True, slots=True)
class PartLine:
    """A part in the list of all. `noted`: what the record says of it, in a few words."""

    name: str
    mark: str
    size: str
    noted: str


def parts_view(asked: Asked) -> tuple[PartLine, ...]:
    """All parts in the order of their item numbers. Raises ReadError where the piece cannot be planned."""
    from scantling.packet.part_words import thickness_width_length

    seen = context(asked)
    parts = [each.part for item in seen.items.items for each in item.parts]
    return tuple(
        PartLine(
            name=part.name,
            mark=seen.items.marks[part.name],
            size=f"{seen.sizes.three(thickness_width_length(part, part.box))} {_unit(seen.sizes)}",
            noted=_noted(seen, part),
        )
        for part in parts
    )


def _noted(seen: Context, part: Part) -> str:
    noted = seen.plan.piece.record.of(part.name)
    if noted is None:
        return ""
    words = ["measured" if noted.sizes else "", "cut" if noted.cut else ""]
    times = f"spoiled {noted.spoiled} time{'s' if noted.spoiled > 1 else ''}" if noted.spoiled else ""
    return ", ".join(filter(None, [*words, times]))


def part_view(asked: Asked, name: str) -> PartView | None:
    """One part, None if the piece has none of that name."""
    seen = context(asked)
    machined = seen.plan.machined.by_name.get(name)
    if machined is None:
        return None
    noted = seen.plan.piece.record.of(name)
    return PartView(
        name=name,
        mark=seen.items.marks[name],
        sizes=tuple(_sizes(machined, seen)),
        material=machined.part.material.text,
        inches=seen.sizes.inches,
        spoiled=noted.spoiled if noted else 0,
        cut=bool(noted and noted.cut),
    )


def _sizes(machined: MachinedPart, seen: Context) -> list[SizeView]:
    from scantling.packet.shown import bound

    part = machined.part
    axes = (part.grain, part.width_axis, part.thickness_axis)
    nouns = size_nouns(part)
    noted = dict(named.sizes) if (named := seen.plan.piece.record.of(part.name)) else {}
    return [
        SizeView(
            axis=axis.word,
            noun=nouns[axis.word],
            words=f"{nouns[axis.word]}, {_WAYS[axis.word]}",
            planned=bound(seen.sizes.both(part.size(axis))),
            meant=_meant(
                machined, nouns[axis.word], machined.cut_box.size(axis) - part.size(axis), seen.sizes
            ),
            noted=seen.sizes.both(part.size(axis)) if axis in noted else "",
        )
        for axis in axes
    ]


def size_nouns(part: Part) -> dict[str, str]:
    """What a maker calls the size of a part along each of the record's words."""
    axes = {part.grain: "length", part.width_axis: "width", part.thickness_axis: "thickness"}
    return {axis.word: noun for axis, noun in axes.items()}


_WAYS = {"wide": "left to right in the piece", "deep": "front to back in the piece", "high": "floor to top"}


def _meant(machined: MachinedPart, noun: str, more: float, sizes: Sizes) -> str:
    """Which of the two lengths of a part with tenons or tongues is asked for."""
    from scantling.packet.part_words import SAME
    from scantling.packet.shown import bound

    if noun == "length" and machined.part.true_ratio > 1:
        return "upright, from end to end, not along the slope"
    if abs(more) < SAME:
        return "from end to end" if noun == "length" else "from face to face"
    whole = sizes.both(machined.cut_box.size(machined.part.grain)) if noun == "length" else ""
    over = f"; overall it is {whole}" if whole else ""
    return bound(f"between shoulders: without what goes into the joints{over}")


def _unit(sizes: Sizes) -> str:
    return "in" if sizes.inches else "mm"
