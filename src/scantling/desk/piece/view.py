"""In the worker: what the page of a piece says, as plain words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from scantling.desk.working.plans import plan_of

if TYPE_CHECKING:
    from scantling.desk.working import Asked


@dataclass(frozen=True, slots=True)
class PieceView:
    """Everything beside the picture. Rows are those of the packet: words only."""

    name: str
    size: str
    summary: tuple[dict[str, Any], ...]
    sizes: tuple[dict[str, Any], ...]
    choices: tuple[dict[str, Any], ...]
    findings: tuple[dict[str, Any], ...]
    parts: tuple[dict[str, Any], ...]


def piece_view(asked: Asked) -> PieceView:
    """The page's words. Raises ReadError where the piece cannot be worked out."""
    from scantling.packet.context import context_of
    from scantling.packet.front import choices, findings, named_sizes, summary
    from scantling.packet.lists import parts_rows

    plan = plan_of(asked)
    context = context_of(plan)
    return PieceView(
        name=plan.piece.name,
        size=f"{context.sizes.three(plan.piece.overall.sizes)} {context.sizes.unit_word}",
        summary=tuple(summary(context)),
        sizes=tuple(named_sizes(context)),
        choices=tuple(choices(context)),
        findings=tuple(findings(context)),
        parts=tuple(parts_rows(context)),
    )
