"""In the worker: the parts of a piece, their sizes as planned, and what to write of boards that are cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context

if TYPE_CHECKING:
    from scantling.cutting.cut_plan import Blank, StockLayout
    from scantling.desk.working import Asked
    from scantling.joinery.features import MachinedPart
    from scantling.packet.context import Context
    from scantling.packet.shown import Sizes
    from scantling.piece.model import Part

NOTED_TO = 32  # of an inch: finer than anybody reads a tape


@dataclass(frozen=True, slots=True)
class SizeView:
    """One size that can be measured. `axis`: the record's word; `words`: "length, left to right".

    `planned`: between shoulders; `meant`: what to measure and what not. `noted`: as measured earlier, or "".
    """

    axis: str
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


@dataclass(frozen=True, slots=True)
class BoardLine:
    """A board or sheet that is to be cut, and for what."""

    name: str
    gives: str


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
    part = machined.part
    axes = {part.grain: "length", part.width_axis: "width", part.thickness_axis: "thickness"}
    noted = dict(named.sizes) if (named := seen.plan.piece.record.of(part.name)) else {}
    return [
        SizeView(
            axis=axis.word,
            words=f"{noun}, {_WAYS[axis.word]}",
            planned=seen.sizes.both(part.size(axis)),
            meant=_meant(machined, noun, machined.cut_box.size(axis) - part.size(axis), seen.sizes),
            noted=seen.sizes.both(part.size(axis)) if axis in noted else "",
        )
        for axis, noun in axes.items()
    ]


_WAYS = {"wide": "left to right in the piece", "deep": "front to back in the piece", "high": "floor to top"}


def _meant(machined: MachinedPart, noun: str, more: float, sizes: Sizes) -> str:
    """Which of the two lengths of a part with tenons or tongues is asked for."""
    from scantling.packet.part_words import SAME

    if noun == "length" and machined.part.true_ratio > 1:
        return "upright, from end to end, not along the slope"
    if abs(more) < SAME:
        return "from end to end" if noun == "length" else "from face to face"
    whole = sizes.both(machined.cut_box.size(machined.part.grain)) if noun == "length" else ""
    over = f"; overall it is {whole}" if whole else ""
    return f"between shoulders: without what goes into the joints{over}"


def _unit(sizes: Sizes) -> str:
    return "in" if sizes.inches else "mm"


def boards_view(asked: Asked) -> tuple[BoardLine, ...]:
    """Boards, sheets and sticks the plan cuts from. Raises ReadError where there is no plan."""
    from scantling.building.naming import Names

    seen = context(asked)
    names, parts = Names(seen.plan.piece), {blank.id: blank.part for blank in seen.plan.cut_plan.blanks}
    return tuple(
        BoardLine(layout.stock, names.counted(parts[placed.blank] for placed in layout.placed))
        for layout in seen.plan.cut_plan.layouts
        if layout.placed
    )


def cut_words(asked: Asked, boards: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """For each of these boards or sheets what the record says once it is cut: its blanks and its offcuts."""
    seen = context(asked)
    said = _sizes_for_record(asked, seen)
    layouts = {layout.stock: layout for layout in seen.plan.cut_plan.layouts}
    return tuple((name, _cut(layouts[name], seen, said)) for name in boards if name in layouts)


def _cut(layout: StockLayout, seen: Context, said: Sizes) -> str:
    from scantling.piece.editing.naming import quoted

    blanks = {blank.id: blank for blank in seen.plan.cut_plan.blanks}
    found = [blanks[placed.blank] for placed in layout.placed]
    cut = ", ".join(f"{quoted(_blank_name(blank))}: {_blank_size(blank, said)}" for blank in found)
    left = ", ".join(
        f"{said.plain(p.length)} x {said.plain(p.width)} at {said.plain(p.x)} x {said.plain(p.y)}"
        for p in layout.pieces
        if p.use == "offcut"
    )
    return f"{{cut: {{{cut}}}, left: [{left}]}}" if left else f"{{cut: {{{cut}}}}}"


def _blank_name(blank: Blank) -> str:
    from scantling.cutting.cut_plan import Role

    return blank.part if blank.role is Role.WHOLE else f"{blank.part} {blank.role.value} {blank.index}"


def _blank_size(blank: Blank, said: Sizes) -> str:
    return " x ".join(said.plain(mm) for mm in (blank.rough_length, blank.rough_width, blank.thickness))


def _sizes_for_record(asked: Asked, seen: Context) -> Sizes:
    """Bare numbers as the record takes them: in the unit it says, else in that of the piece."""
    from scantling.desk.build.records import unit_of
    from scantling.packet.shown import Sizes
    from scantling.quantity import Style

    return Sizes(Style(unit_of(asked.record, asked.record_file, seen.plan.piece.unit), NOTED_TO))
