"""Solid stock: boards on the rack, and timber a yard sells by the board foot."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scantling.errors import ReadError
from scantling.piece.language.document import Node
from scantling.quantity.kinds import LengthUnit
from scantling.shop.defects import DEFECTS, defects_of
from scantling.shop.door import BoardDoor, TimberDoor
from scantling.shop.model import Board, BoardForSale, Warp
from scantling.shop.nominal import board_thickness
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, Record, checked, named_entries, record_of
from scantling.shop.rows import heading, rows, sold_as, wanted_sizes, wood_named
from scantling.shop.stations import refuse_lone_station, stations_of

END_WASTE = 25.0  # mm a rough end loses to checks; common practice, no source

BROADEST = 600.0  # mm: a short offcut may be wider than long, but no board is broader


def _clause(clause: Phrase) -> Mapping[str, Phrase] | None:
    """As it was sold; a station that a comma has cut off is refused."""
    refuse_lone_station(clause)
    return sold_as(clause)


BOARD = Kind(
    "a board",
    BoardDoor,
    "W1: 96 x 7 1/2 x 1, bow 1/4, knot 30 to 32 x 2 to 4",
    "size",
    _clause,
    "defects",
    DEFECTS,
)
TIMBER = Kind("timber for sale", TimberDoor, "walnut 4/4 rough: 96 x 7, price 12.50", "size", sold_as)


def boards_of(node: Node, unit: LengthUnit) -> Iterator[Board]:
    """Every board of the `boards` section."""
    for key, value in named_entries(node, "boards"):
        species, shared = heading(key, BOARD)
        for label, line in rows(key, value, species.text, BOARD):
            yield _board(label, species, shared | record_of(line, BOARD), unit)


def _board(label: Phrase, species: Phrase, record: Record, unit: LengthUnit) -> Board:
    door = checked(record, BOARD, BoardDoor, unit, label.place())
    long, wide, thick = wanted_sizes(door.size, 3, 3, record, BOARD)
    _in_order(long, wide, thick, record)
    said, told = record.get("defects", []), record.get("stations")
    return Board(
        id=label.text,
        species=wood_named(species),
        length=long,
        width=wide,
        thickness=thick,
        surface=door.surface,
        warp=Warp(bow=door.bow, crook=door.crook, cup=door.cup, twist=door.twist),
        place=label.place(),
        nominal=door.nominal,
        moisture=door.moisture,
        defects=defects_of(said if isinstance(said, list) else [said], long, wide, unit),
        owned=not door.for_sale,
        price=door.price,
        figure=door.figure,
        rings=door.rings,
        end_waste=END_WASTE if door.ends is None else door.ends,
        stations=stations_of(told, long, unit) if isinstance(told, Phrase) else (),
    )


def _in_order(long: float, wide: float, thick: float, record: Record) -> None:
    """Length first, thickness last: a board thicker than wide, or broader than any tree, is turned round."""
    said = record["size"]
    if wide > max(long, BROADEST) and isinstance(said, Phrase):
        raise ReadError(
            "this board is wider than it is long", said.place(), "write length x width x thickness"
        )
    if thick > min(long, wide) and isinstance(said, Phrase):
        raise ReadError(
            "this board is thicker than it is wide", said.place(), "write length x width x thickness"
        )


def timber_of(node: Node, unit: LengthUnit) -> Iterator[BoardForSale]:
    """Every entry of the `for sale` section."""
    for key, value in named_entries(node, "for sale"):
        species, shared = heading(key, TIMBER)
        label = Phrase.of(key)
        record = shared | record_of(value, TIMBER)
        door = checked(record, TIMBER, TimberDoor, unit, label.place())
        long, wide, *thick = wanted_sizes(door.size, 2, 3, record, TIMBER)
        usual = board_thickness(door.nominal, door.surface)
        if not thick and usual is None:
            raise ReadError(
                f'how thick "{door.nominal}" is sold is not known',
                label.place(),
                "write length x width x thickness",
            )
        yield BoardForSale(
            id=label.text,
            species=wood_named(species),
            nominal=door.nominal,
            thickness=thick[0] if thick else usual or 0.0,
            width=wide,
            length=long,
            surface=door.surface,
            price_per_board_foot=door.price,
            place=label.place(),
        )
