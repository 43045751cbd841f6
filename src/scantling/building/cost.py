"""Money: what is still to be spent, what the rack gives, what the hours are worth."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.building.bench import Bench
from scantling.building.build_plan import Cost, ShoppingLine, Step
from scantling.building.shopping import board_feet
from scantling.cutting.cut_plan import StockLayout
from scantling.shop.model import Board, BoardForSale, Lumber, Sheet


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
    """The price paid, else what a yard asks for the like; 0 where nobody asks anything."""
    stock = bench.stock_of(layout)
    if stock is None or isinstance(stock, BoardForSale):
        return 0.0
    if stock.price:
        return stock.price
    return _board_value(bench, stock) if isinstance(stock, Board) else _piece_value(bench, stock)


def _board_value(bench: Bench, board: Board) -> float:
    """By the board foot: of the same nominal thickness if that is for sale, else of any."""
    asked = [timber for timber in bench.shop.for_sale if timber.species == board.species]
    if not asked:
        return 0.0
    like = next((timber for timber in asked if timber.nominal == board.nominal), asked[0])
    return like.price_per_board_foot * board_feet(board.length, board.width, board.nominal)


def _piece_value(bench: Bench, stock: Sheet | Lumber) -> float:
    """By area, from a sheet or stick of the same name and size that is for sale."""
    mark = stock.label if isinstance(stock, Sheet) else stock.nominal
    items: tuple[Sheet | Lumber, ...] = bench.shop.sheets + bench.shop.lumber
    for like in items:
        same = (like.label if isinstance(like, Sheet) else like.nominal) == mark and like.name == stock.name
        if same and like.price:
            return like.price * stock.length * stock.width / (like.length * like.width)
    return 0.0
