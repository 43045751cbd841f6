"""In the worker: sheets of labels, and their print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context

if TYPE_CHECKING:
    from scantling.desk.working import Asked


@dataclass(frozen=True, slots=True)
class SheetView:
    """A sheet of labels to choose: on which paper, how many across and down, how large."""

    name: str
    paper: str
    words: str
    count: int
    pages: int


def label_sheets(asked: Asked) -> tuple[SheetView, ...]:
    """The usual sheets, those on the likelier paper first. Raises ReadError."""
    from scantling.packet.label_grids import GRIDS, LETTER

    seen = context(asked)
    parts = len(seen.plan.piece.parts)
    sheets = [
        SheetView(
            name,
            "Letter" if grid.sheet == LETTER else "A4",
            f"{grid.across} across, {grid.down} down, each {grid.size}",
            grid.count,
            -(-parts // grid.count),
        )
        for name, grid in GRIDS.items()
    ]
    likelier = "Letter" if seen.sizes.inches else "A4"
    return tuple(sorted(sheets, key=lambda sheet: sheet.paper != likelier))


def labels_print(asked: Asked, sheet: str, start: int) -> bytes:
    """The labels as a PDF, from label number `start` on. Raises ReadError for a sheet nobody has."""
    from scantling.errors import ReadError
    from scantling.packet.label_grids import GRIDS
    from scantling.packet.labels import labels_data
    from scantling.packet.pdf import labels_pdf

    if sheet not in GRIDS:
        raise ReadError("there is no such sheet of labels", remedy="choose one of the list")
    grid = GRIDS[sheet]
    return labels_pdf(labels_data(context(asked).plan, grid, start=min(max(start, 1), grid.count)))
