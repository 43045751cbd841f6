"""In the worker: boards and sheets that are to be cut, and what the record says of them once they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context

if TYPE_CHECKING:
    from scantling.cutting.cut_plan import Blank, StockLayout
    from scantling.desk.working import Asked
    from scantling.packet.context import Context
    from scantling.packet.shown import Sizes

NOTED_TO = 32  # of an inch: finer than anybody reads a tape


@dataclass(frozen=True, slots=True)
class BoardLine:
    """A board or sheet that is to be cut, and for what."""

    name: str
    gives: str


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
