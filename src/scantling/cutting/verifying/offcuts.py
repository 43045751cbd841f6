"""The shop with the offcuts a build record tells of, as the verifier sees them."""

from __future__ import annotations

from dataclasses import replace

from scantling.cutting import allowances as allow
from scantling.cutting.verifying.replay import Area
from scantling.cutting.verifying.stock import Stock
from scantling.cutting.verifying.surface import Face
from scantling.piece.model import BuildRecord, Offcut
from scantling.quantity import LengthUnit
from scantling.shop.model import Board, BoardForSale, Defect, Lumber, Sheet, Shop, Station, Warp


def with_offcuts(shop: Shop, record: BuildRecord, unit: LengthUnit) -> Shop:
    """Everything the shop has, and every offcut left by what was cut."""
    listed: tuple[Stock, ...] = (*shop.for_sale, *shop.lumber, *shop.sheets, *shop.boards)
    known = {stock.id.lower(): stock for stock in listed}
    made: list[Stock] = []
    for used in record.stock:
        name, _, number = used.stock.partition("#")
        stock = known.get(name.lower())
        for count, left in enumerate(used.left if stock else (), start=1):
            assert stock is not None
            which = f" no {number}" if number else ""
            offcut = _offcut(stock, left, unit, f"{stock.id}{which} offcut {count}")
            known[offcut.id.lower()] = offcut
            made.append(offcut)
    return replace(
        shop,
        boards=(*shop.boards, *(s for s in made if isinstance(s, Board))),
        sheets=(*shop.sheets, *(s for s in made if isinstance(s, Sheet))),
        lumber=(*shop.lumber, *(s for s in made if isinstance(s, Lumber))),
    )


def _offcut(stock: Stock, left: Offcut, unit: LengthUnit, name: str) -> Board | Sheet | Lumber:
    size = (left.long.within(unit), left.wide.within(unit))
    if isinstance(stock, Lumber):
        return replace(stock, id=name, length=size[0], width=size[1], count=1, owned=True, price=0.0)
    corner = None if left.at is None else (left.at[0].within(unit), left.at[1].within(unit))
    if isinstance(stock, Sheet):
        marks = _moved(stock.defects, corner, size)
        return replace(
            stock, id=name, length=size[0], width=size[1], count=1, owned=True, price=0.0, defects=marks
        )
    return _of_board(stock, name, size, corner)


def _of_board(
    stock: Board | BoardForSale, name: str, size: tuple[float, float], corner: tuple[float, float] | None
) -> Board:
    """An evenly bent board bends by the square of the length left; twist goes with length and width."""
    along, across = min(1.0, size[0] / stock.length), min(1.0, size[1] / stock.width)
    warp = stock.warp if isinstance(stock, Board) else _usual(stock)
    waste = stock.end_waste if isinstance(stock, Board) else allow.USUAL_END_WASTE
    marks = stock.defects if isinstance(stock, Board) else ()
    ends = (
        Defect("split", 0.0, waste, 0.0, stock.width),
        Defect("split", stock.length - waste, stock.length, 0.0, stock.width),
    )
    return Board(
        name,
        stock.species,
        *size,
        stock.thickness,
        stock.surface,
        Warp(warp.bow * along**2, warp.crook * along**2, warp.cup * across**2, warp.twist * along * across),
        stock.place,
        defects=_moved((*marks, *(ends if waste else ())), corner, size),
        end_waste=0.0 if corner else waste,
        stations=_stations(stock, size, corner),
    )


def _stations(
    stock: Board | BoardForSale, size: tuple[float, float], corner: tuple[float, float] | None
) -> tuple[Station, ...]:
    """The face told at the board's stations, as it goes on over the offcut."""
    if not isinstance(stock, Board) or not stock.stations or corner is None:
        return ()
    (x, y), (long, wide) = corner, size
    return Face(stock).stations_in(Area(x, y, min(x + long, stock.length), min(y + wide, stock.width)))


def _usual(stock: BoardForSale) -> Warp:
    long, wide = stock.length / allow.USUAL_LENGTH, stock.width / allow.USUAL_WIDTH
    return Warp(
        allow.USUAL_BOW * long * long,
        allow.USUAL_CROOK * long * long,
        allow.USUAL_CUP * wide * wide,
        allow.USUAL_TWIST * long * wide,
    )


def _moved(
    defects: tuple[Defect, ...], corner: tuple[float, float] | None, size: tuple[float, float]
) -> tuple[Defect, ...]:
    """Defects from the offcut's own corner; those off it stay off it."""
    if corner is None:
        return ()
    x, y = corner
    moved = (
        Defect(d.kind, d.from_end - x, d.to_end - x, d.from_edge - y, d.to_edge - y, d.face) for d in defects
    )
    return tuple(
        d for d in moved if d.to_end > 0 and d.to_edge > 0 and d.from_end < size[0] and d.from_edge < size[1]
    )
