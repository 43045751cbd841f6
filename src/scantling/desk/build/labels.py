"""In the worker: sheets of labels, and their print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.packet.label_grids import Grid


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


@dataclass(frozen=True, slots=True)
class OwnSheet:
    """A sheet as its owner measured it. Sizes of one label, of the edges left and top, and between. [mm]"""

    letter: bool
    across: int
    down: int
    wide: float
    high: float
    left: float
    top: float
    between: float
    beneath: float


def labels_print(asked: Asked, sheet: str | OwnSheet, start: int) -> bytes:
    """The labels as a PDF, from label number `start` on.

    Raises ReadError for a sheet nobody has, or whose numbers do not fit its paper.
    """
    from scantling.errors import ReadError
    from scantling.packet.labels import labels_data
    from scantling.packet.pdf import labels_pdf

    grid = _grid(sheet)
    if trouble := grid.trouble():
        raise ReadError(trouble, remedy="measure a label, the edges of the sheet and what lies between")
    return labels_pdf(labels_data(context(asked).plan, grid, start=min(max(start, 1), grid.count)))


def _grid(sheet: str | OwnSheet) -> Grid:
    from scantling.errors import ReadError
    from scantling.packet.label_grids import A4, GRIDS, LETTER, Grid

    if isinstance(sheet, OwnSheet):
        own = sheet
        paper, label = LETTER if own.letter else A4, (own.wide, own.high)
        return Grid(paper, own.across, own.down, label, (own.left, own.top), (own.between, own.beneath))
    if sheet not in GRIDS:
        raise ReadError("there is no such sheet of labels", remedy="choose one of the list")
    return GRIDS[sheet]
