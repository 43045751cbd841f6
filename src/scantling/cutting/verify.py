"""Whether a cut plan is sound, found out afresh: nothing of the planner's is used but trade allowances."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import CutPlan, StockLayout
from scantling.cutting.verifying.offcuts import with_offcuts
from scantling.cutting.verifying.parts import parts_complaints, placing_complaints
from scantling.cutting.verifying.record import record_complaints
from scantling.cutting.verifying.replay import Replayed, replay
from scantling.cutting.verifying.stock import in_shop, stock_complaints
from scantling.cutting.verifying.wood import wood_complaints
from scantling.joinery.features import MachinedPiece
from scantling.shop.model import Board, BoardForSale, Lumber, Sheet, Shop

_MM2 = 1.0  # mm² by which areas may differ, a layout
_TOL = 0.06


def verify(plan: CutPlan, machined: MachinedPiece, shop: Shop) -> tuple[str, ...]:
    """What is wrong with a plan, in words; empty when it is sound.

    Every cut is made again with its kerf; every blank is checked for size, flatness (exact for an evenly
    bent board), defects, faces, machines, kind; stock, glue-ups, areas, money and bound must add up, and
    the build record must be followed.
    """
    record = machined.piece.record
    shop = with_offcuts(shop, record, machined.piece.unit)
    replayed = [(layout, replay(layout, shop)) for layout in plan.layouts]
    found: list[str] = [c for _, done in replayed for c in done.complaints]
    found += stock_complaints(plan, shop, record)
    found += record_complaints(plan, machined)
    found += parts_complaints(plan, machined)
    found += placing_complaints(plan, machined, shop)
    blanks = {blank.id: blank for blank in plan.blanks}
    for layout, done in replayed:
        match in_shop(layout, shop):
            case Board() | BoardForSale() as board:
                found += wood_complaints(layout, done, blanks, board, shop)
            case Sheet() as sheet:
                found += _edges(layout, allow.SHEET_TRIM, allow.SHEET_TRIM)
                found += _on_defects(layout, sheet)
            case Lumber():
                found += _edges(layout, allow.STICK_TRIM, 0.0)
            case None:
                pass
    found += _areas(plan, replayed)
    return tuple(found)


def _edges(layout: StockLayout, ends: float, sides: float) -> Iterator[str]:
    for p in layout.placed:
        along = p.x >= ends - _TOL and p.x + p.length <= layout.length - ends + _TOL
        across = p.y >= sides - _TOL and p.y + p.width <= layout.width - sides + _TOL
        if not (along and across):
            yield f"{p.blank} keeps a factory edge of {layout.stock}"


def _on_defects(layout: StockLayout, sheet: Sheet) -> Iterator[str]:
    for p in layout.placed:
        for d in sheet.defects:
            along = p.x < d.to_end - _TOL and p.x + p.length > d.from_end + _TOL
            across = p.y < d.to_edge - _TOL and p.y + p.width > d.from_edge + _TOL
            if along and across:
                yield f"{p.blank} lies on a defect of {layout.stock}"


def _areas(plan: CutPlan, replayed: list[tuple[StockLayout, Replayed]]) -> Iterator[str]:
    """Blanks, kerf, offcuts and waste, measured on the pieces that came off the saw, make the stock."""
    room = _MM2 * (1 + len(replayed))
    sums = {"blank": 0.0, "offcut": 0.0, "waste": 0.0}
    for layout, done in replayed:
        for piece in layout.pieces:
            if piece.use in sums and piece.id in done.leaves:
                sums[piece.use] += done.leaves[piece.id].size
    stock = sum(layout.length * layout.width for layout, _ in replayed)
    kerf = sum(done.kerf for _, done in replayed)
    told = plan.areas
    pairs = (
        ("stock", told.stock, stock),
        ("blanks", told.blanks, sums["blank"]),
        ("kerf", told.kerf, kerf),
        ("offcuts", told.offcuts, sums["offcut"]),
        ("waste", told.waste, sums["waste"]),
        ("sum", told.blanks + told.kerf + told.offcuts + told.waste, stock),
    )
    for name, said, is_ in pairs:
        slivers = 0.06 * 1e4 * len(replayed) if name == "waste" else 0.0
        if abs(said - is_) > room + slivers:
            yield f"areas do not add up: {name} {said:.0f} but {is_:.0f}"
