"""Is the stock there, is it what the plan says it is, and is the money right?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from scantling.cutting.cut_plan import CutPlan, StockLayout
from scantling.piece.model import BuildRecord
from scantling.shop.model import Board, BoardForSale, Lumber, Sheet, Shop

Stock = Board | BoardForSale | Sheet | Lumber
_CENT = 0.011


def in_shop(layout: StockLayout, shop: Shop) -> Stock | None:
    """The shop's entry a layout is cut from."""
    name = layout.stock.partition("#")[0]
    everything: tuple[Stock, ...] = (*shop.boards, *shop.sheets, *shop.lumber, *shop.for_sale)
    return next((s for s in everything if s.id == name), None)


def stock_complaints(plan: CutPlan, shop: Shop, record: BuildRecord) -> Iterator[str]:
    """Everything wrong with what the plan takes from the rack or buys."""
    for name, times in Counter(layout.stock for layout in plan.layouts).items():
        if times > 1:
            yield f"{name} is cut up {times} times"
    taken = Counter(layout.stock.partition("#")[0] for layout in plan.layouts)
    gone = Counter(used.stock.partition("#")[0].lower() for used in record.stock)
    for layout in plan.layouts:
        stock = in_shop(layout, shop)
        if stock is None:
            yield f"the shop has no {layout.stock}"
            continue
        yield from (f"{layout.stock}: {c}" for c in _as_described(layout, stock))
        most = _available(stock)
        if most is not None and taken[stock.id] + gone[stock.id.lower()] > most:
            yield f"{taken[stock.id]} of {stock.id} are cut, and there are {most} less what is gone"
    yield from _money(plan)


def _as_described(layout: StockLayout, stock: Stock) -> Iterator[str]:
    told = (layout.length, layout.width, layout.thickness)
    if told != (stock.length, stock.width, stock.thickness):
        yield "its size is not the shop's"
    owned = not isinstance(stock, BoardForSale) and stock.owned
    if layout.bought == owned:
        yield "owned and bought are confused"
    if not owned and abs(layout.price - _price(stock)) > _CENT:
        yield f"it costs {_price(stock):.2f}, not {layout.price:.2f}"


def _available(stock: Stock) -> int | None:
    match stock:
        case Board():
            return 1
        case Sheet():
            return stock.count if stock.owned else None
        case Lumber():
            return stock.count
        case BoardForSale():
            return None


def _price(stock: Stock) -> float:
    if not isinstance(stock, BoardForSale):
        return stock.price
    whole, _, quarters = stock.nominal.partition("/")
    inches = float(whole) / float(quarters) if quarters else stock.thickness / 25.4
    feet = max(inches, 1.0) * stock.width / 25.4 * stock.length / 304.8 / 12
    return feet * stock.price_per_board_foot


def _money(plan: CutPlan) -> Iterator[str]:
    spent = sum(layout.price for layout in plan.layouts if layout.bought)
    if abs(spent - plan.money) > _CENT:
        yield f"what is bought costs {spent:.2f}, but the plan says {plan.money:.2f}"
    if plan.bound > plan.money + _CENT:
        yield f"the bound {plan.bound:.2f} is above the money {plan.money:.2f}"
    if plan.status == "optimal" and plan.money - plan.bound > _CENT:
        yield "the plan is called optimal, but its bound does not say so"
    if (plan.status == "partly impossible") != bool(plan.unmet):
        yield f"the plan is called {plan.status} with {len(plan.unmet)} blanks unmet"
