"""In the worker: one board of a step, drawn with its chalk lines, and its cuts in order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from scantling.desk.build.looked_at import context

if TYPE_CHECKING:
    from scantling.building import Step
    from scantling.desk.working import Asked
    from scantling.packet.context import Context


@dataclass(frozen=True, slots=True)
class BoardSheet:
    """A board, sheet or stick. `sheet`: its drawing and cuts, as in the packet; `boards`: all of the step."""

    name: str
    sheet: dict[str, Any]
    boards: tuple[str, ...]

    def near(self, by: int) -> str:
        """The board that many after (or before) this one, "" where there is none."""
        at = self.boards.index(self.name) + by
        return self.boards[at] if 0 <= at < len(self.boards) else ""


def board_sheet(asked: Asked, number: int, wanted: str) -> BoardSheet | None:
    """The board `wanted` at a step, else the first one; None where the step cuts and marks none."""
    from scantling.packet.cut_sheets import cut_sheets_singly

    seen = context(asked)
    step = next((step for step in seen.plan.build_plan.steps if step.number == number), None)
    boards = boards_of(step, seen) if step else ()
    if not boards:
        return None
    name = wanted if wanted in boards else boards[0]
    sheet = next(sheet for sheet in cut_sheets_singly(seen) if sheet["stock"] == name)
    return BoardSheet(name, sheet, boards)


def boards_of(step: Step, seen: Context) -> tuple[str, ...]:
    """The boards, sheets and sticks that are in hand at a step: those it marks, those it saws."""
    from scantling.building import Stage
    from scantling.piece.model import MaterialKind

    layouts = [layout for layout in seen.plan.cut_plan.layouts if layout.placed]
    if step.stage is Stage.CHOOSE:
        return tuple(layout.stock for layout in layouts if layout.kind is MaterialKind.SOLID)
    return tuple(layout.stock for layout in layouts if layout.stock in step.stock)
