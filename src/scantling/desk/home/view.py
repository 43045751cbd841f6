"""In the worker: what the card of a piece shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.working.plans import plan_of

if TYPE_CHECKING:
    from scantling.desk.working import Asked


@dataclass(frozen=True, slots=True)
class Card:
    """A piece in a few words; `svg` its picture. `must_fix`: how many findings stop the build."""

    name: str
    size: str
    must_fix: int
    parts: int
    spend: str
    svg: str


def card_of(asked: Asked) -> Card:
    """The card of a piece. Raises ReadError where it cannot be planned."""
    from scantling.packet.context import context_of
    from scantling.packet.shown import money

    plan = plan_of(asked)
    context = context_of(plan)
    wide, deep, high = plan.piece.overall.sizes
    cost = plan.build_plan.cost
    return Card(
        name=plan.piece.name,
        size=f"{context.sizes.three((wide, deep, high))} {context.sizes.unit_word}",
        must_fix=len(plan.must_fix),
        parts=len(plan.piece.parts),
        spend=money(cost.total, cost.currency),
        svg=context.gallery.at_rest().svg(),
    )
