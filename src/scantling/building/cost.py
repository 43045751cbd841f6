"""Money: what is still to be spent, what the rack gives, what the hours are worth."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.building.bench import Bench
from scantling.building.build_plan import Cost, ShoppingLine, Step
from scantling.building.shopping import board_feet
from scantling.cutting.cut_plan import StockLayout
from scantling.shop.model import Board, BoardForSale


def cost_of(bench: Bench, lines: Sequence[ShoppingLine], steps: Sequence[Step]) -> Cost:
    """The money of a build, in the shop's currency. Hours are those of a maker who has built it before."""
    hours = sum(step.active for step in steps) / 60
    return Cost(
        bought=sum(line.cost for line in lines if line.group != "supplies"),
        from_rack=sum(_rack_value(bench, layout) for layout in bench.cuts.layouts if not layout.bought),
        supplies=sum(line.cost for line in lines if line.group == "supplies"),
        hours=hours,
        labour=hours * bench.shop.hour_rate,
        currency=bench.shop.currency,
    )


def _rack_value(bench: Bench, layout: StockLayout) -> float:
    """What the used share of an owned board or sheet would cost; 0 where no price is known."""
    kept = sum(piece.length * piece.width for piece in layout.pieces if piece.use == "offcut")
    area = layout.length * layout.width
    return _value(bench, layout) * (1 - kept / area) if area else 0.0


def _value(bench: Bench, layout: StockLayout) -> float:
    """The price paid, else what a yard asks for the same wood and thickness."""
    stock = bench.stock_of(layout)
    if not isinstance(stock, Board) or stock.price:
        return 0.0 if stock is None or isinstance(stock, BoardForSale) else stock.price
    asked = [
        timber
        for timber in bench.shop.for_sale
        if timber.species == stock.species and timber.nominal == stock.nominal
    ]
    feet = board_feet(layout.length, layout.width, stock.nominal)
    return asked[0].price_per_board_foot * feet if asked else 0.0
