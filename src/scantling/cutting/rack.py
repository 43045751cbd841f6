"""The rack as the build record leaves it: boards left alone and cut up are gone, offcuts stand there instead.

A stack (sheets, sticks, boards of a yard) is numbered: "P3", "P3#2", ...; what is cut keeps its number.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Unheeded
from scantling.cutting.milling import timber_of
from scantling.errors import Place
from scantling.piece.model import BuildRecord, Offcut, StockRecord, StockUse
from scantling.quantity import LengthUnit
from scantling.shop.model import Board, BoardForSale, Defect, Lumber, Sheet, Shop, Warp
from scantling.shop.stations import part_of

Stock = Board | Sheet | Lumber | BoardForSale


@dataclass(frozen=True)
class Rack:
    """`shop`: with the rack as it is left. `gone`: numbers of each stack that are not to be had any more."""

    shop: Shop
    gone: Mapping[str, frozenset[int]]
    unheeded: tuple[Unheeded, ...]


def rack_left(shop: Shop, record: BuildRecord, unit: LengthUnit) -> Rack:
    """The rack after what the record says of boards. `unit`: of the piece, for numbers that say none."""
    rack = Rack(shop, {}, ())
    for used in record.stock:
        rack = _used(rack, used, unit)
    return rack


def number_in_stack(name: str, stock_id: str) -> int | None:
    """Which of a stack a plan's name means: 1 for its own name, n for "name#n"; None for another's."""
    plain, mark, number = name.lower().rpartition("#")
    if name.lower() == stock_id.lower():
        return 1
    return int(number) if mark and plain == stock_id.lower() and number.isdecimal() else None


def stock_called(name: str, shop: Shop) -> tuple[Stock, int] | None:
    """The shop's entry a plan's name means, and its number in the stack."""
    everything: tuple[Stock, ...] = (*shop.boards, *shop.sheets, *shop.lumber, *shop.for_sale)
    numbered = ((stock, number_in_stack(name, stock.id)) for stock in everything)
    return next(((stock, number) for stock, number in numbered if number is not None), None)


def unknown_stock(name: str, shop: Shop, place: Place, part: str = "") -> Unheeded:
    """What to say of a name nothing on the rack bears."""
    everything: tuple[Stock, ...] = (*shop.boards, *shop.sheets, *shop.lumber, *shop.for_sale)
    near = get_close_matches(name, [stock.id for stock in everything], 1, 0.5)
    best = f"did you mean {near[0]}?" if near else ""
    return Unheeded(part, (name,), f"nothing on the rack or for sale is called {name}", best, place)


def _used(rack: Rack, used: StockRecord, unit: LengthUnit) -> Rack:
    found = stock_called(used.stock, rack.shop)
    if found is None:
        return replace(rack, unheeded=(*rack.unheeded, unknown_stock(used.stock, rack.shop, used.place)))
    stock, number = found
    gone = {**rack.gone, stock.id: rack.gone.get(stock.id, frozenset()) | {number}}
    shop = _without_one(rack.shop, stock)
    name = stock.id if number == 1 else f"{stock.id} no {number}"
    for count, left in enumerate(used.left, start=1):
        shop = _with(shop, _offcut(stock, left, f"{name} offcut {count}", unit))
    return Rack(shop, gone, (*rack.unheeded, *_remarks(used, stock)))


def _remarks(used: StockRecord, stock: Stock) -> Iterator[Unheeded]:
    if used.use is StockUse.CUT and not used.blanks:
        reason = f"{used.stock} is cut, but the record does not say what it gave"
        best = "its parts are planned again: note its blanks under `cut` and its offcuts under `left`"
        yield Unheeded("", (used.stock,), reason, best, used.place)
    marked = isinstance(stock, Board | Sheet) and stock.defects
    for left in used.left:
        if marked and left.at is None:
            reason = (
                f"where this offcut of {used.stock} lay is not said, so its knots and checks are not known"
            )
            yield Unheeded("", (used.stock,), reason, "say where, as in `31 x 4 1/2 at 62 x 0`", left.place)


def _without_one(shop: Shop, stock: Stock) -> Shop:
    """The shop with one of these less; a yard has as many as are wanted."""
    match stock:
        case Board():
            return replace(shop, boards=tuple(b for b in shop.boards if b is not stock))
        case Sheet() if stock.owned:
            sheets = tuple(replace(s, count=s.count - 1) if s is stock else s for s in shop.sheets)
            return replace(shop, sheets=tuple(s for s in sheets if s.count > 0))
        case Lumber() if stock.count is not None:
            sticks = tuple(replace(s, count=stock.count - 1) if s is stock else s for s in shop.lumber)
            return replace(shop, lumber=tuple(s for s in sticks if s.count != 0))
        case _:
            return shop


def _with(shop: Shop, offcut: Board | Sheet | Lumber) -> Shop:
    match offcut:
        case Board():
            return replace(shop, boards=(*shop.boards, offcut))
        case Sheet():
            return replace(shop, sheets=(*shop.sheets, offcut))
        case Lumber():
            return replace(shop, lumber=(*shop.lumber, offcut))


def _offcut(stock: Stock, left: Offcut, name: str, unit: LengthUnit) -> Board | Sheet | Lumber:
    """An offcut as stock of its own: warped by its share of the board's warp, with what lay on it."""
    long, wide = left.long.within(unit), left.wide.within(unit)
    corner = (left.at[0].within(unit), left.at[1].within(unit)) if left.at else None
    match stock:
        case Sheet():
            marked = _on(stock.defects, corner, long, wide)
            return replace(
                stock, id=name, length=long, width=wide, count=1, owned=True, price=0.0, defects=marked
            )
        case Lumber():
            return replace(stock, id=name, length=long, width=wide, count=1, owned=True, price=0.0)
        case Board() | BoardForSale():
            return _board_offcut(stock, name, (long, wide), corner)


def _board_offcut(
    stock: Board | BoardForSale, name: str, size: tuple[float, float], corner: tuple[float, float] | None
) -> Board:
    long, wide = size
    whole = stock if isinstance(stock, Board) else _as_board(stock)
    x, y = min(long / whole.length, 1.0), min(wide / whole.width, 1.0)
    warp = whole.warp
    told = part_of(whole, corner, size) if corner else ()
    return replace(
        whole,
        id=name,
        length=long,
        width=wide,
        warp=Warp(warp.bow * x * x, warp.crook * x * x, warp.cup * y * y, warp.twist * x * y),
        defects=_on((*whole.defects, *_ends(whole)), corner, long, wide),
        owned=True,
        price=0.0,
        end_waste=0.0 if corner else whole.end_waste,
        stations=told,
    )


def _as_board(sold: BoardForSale) -> Board:
    return Board(
        sold.id,
        sold.species,
        sold.length,
        sold.width,
        sold.thickness,
        sold.surface,
        timber_of(sold).warp,
        sold.place,
        sold.nominal,
        end_waste=allow.USUAL_END_WASTE,
    )


def _ends(board: Board) -> tuple[Defect, ...]:
    """The rough ends as defects, for offcuts that still carry one."""
    waste = board.end_waste
    spans = ((0.0, waste), (board.length - waste, board.length))
    return tuple(Defect("check", low, high, 0.0, board.width) for low, high in spans) if waste > 0 else ()


def _on(
    defects: tuple[Defect, ...], corner: tuple[float, float] | None, long: float, wide: float
) -> tuple[Defect, ...]:
    """Defects within an offcut, measured from its own corner; none where nobody said where it lay."""
    if corner is None:
        return ()
    x, y = corner
    inside = (d for d in defects if d.from_end < x + long and d.to_end > x)
    return tuple(
        replace(
            d,
            from_end=max(d.from_end - x, 0.0),
            to_end=min(d.to_end - x, long),
            from_edge=max(d.from_edge - y, 0.0),
            to_edge=min(d.to_edge - y, wide),
        )
        for d in inside
        if d.from_edge < y + wide and d.to_edge > y
    )
