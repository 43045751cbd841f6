"""The order of sawing and milling: each operation with its machine, how the piece is held, its setting."""

from __future__ import annotations

from scantling.cutting.cut_plan import CutPlan
from scantling.cutting.sequence.batching import batched, set_ups
from scantling.cutting.sequence.making import Bench
from scantling.cutting.sequence.operations import Doing, Hold, Operation, Sequence, Work
from scantling.shop.model import Board, BoardForSale, Shop

__all__ = ["Doing", "Hold", "Operation", "Sequence", "Work", "sequence_of", "set_ups"]


def sequence_of(plan: CutPlan, shop: Shop) -> Sequence:
    """All that is sawn and milled for a plan; `shop`: the rack the plan was made on."""
    blanks = {blank.id: blank for blank in plan.blanks}
    stock: dict[str, Board | BoardForSale] = {b.id: b for b in shop.for_sale}
    stock |= {b.id: b for b in shop.boards}
    return batched(
        Bench(layout, blanks, stock.get(layout.stock.partition("#")[0]), shop).operations()
        for layout in plan.layouts
    )
