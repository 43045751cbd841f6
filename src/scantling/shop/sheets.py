"""Sheets and dressed lumber, as a shop file lists them: sold by label, used as measured."""

from __future__ import annotations

import re
from collections.abc import Iterator

from scantling.errors import ReadError
from scantling.piece.language.document import Node
from scantling.quantity import LengthUnit, Style, dual
from scantling.shop.defects import DEFECTS, defects_of
from scantling.shop.door import LumberDoor, SheetDoor
from scantling.shop.model import Lumber, Sheet
from scantling.shop.nominal import usual_sheet
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, Record, checked, named_entries, record_of
from scantling.shop.rows import panel_name, rows, wanted_sizes, wood_named
from scantling.shop.words import AmissError, some_length
from scantling.wood import dressed_section

OFF_LABEL = 0.25  # of the label: 1/4 in plywood of 5.2 mm is a fifth thin
SHEETS_A_YARD_HAS = 10  # stands for "as many as wanted"

SHEET = Kind(
    "a sheet", SheetDoor, "P1: 96 x 48 x 0.71, on hand 2", "size", gathered="defects", starts=DEFECTS
)
LUMBER = Kind("a stick", LumberDoor, "L1: 96, for sale, price 4.20", "size")


def sheets_of(node: Node, unit: LengthUnit) -> Iterator[Sheet]:
    """Every stack of the `sheets` section; on hand and for sale are two stacks."""
    for key, value in named_entries(node, "sheets"):
        name, label = _name_and_label(Phrase.of(key), unit)
        for row, line in rows(key, value, key.text, SHEET):
            yield from _stacks(row, name, label, record_of(line, SHEET), unit)


def _name_and_label(key: Phrase, unit: LengthUnit) -> tuple[str, float]:
    """`walnut plywood 3/4` -> ("walnut plywood", 19.05)."""
    found = re.fullmatch(r"(\D+?)\s+([\d.½¼¾].*)", key.text)
    if not found:
        raise ReadError(
            "a sheet is named with the thickness it is sold as", key.place(), "such as birch plywood 1/4"
        )
    try:
        return panel_name(key.part(*found.span(1))), some_length(found[2], unit)
    except AmissError as amiss:
        raise ReadError(amiss.message, key.place(found.start(2) + amiss.at)) from None


def _stacks(row: Phrase, name: str, label: float, record: Record, unit: LengthUnit) -> Iterator[Sheet]:
    door = checked(record, SHEET, SheetDoor, unit, row.place())
    long, wide, *thick = wanted_sizes(door.size, 2, 3, record, SHEET)
    _near_its_label(thick, label, record, unit)
    said = record.get("defects", [])
    flaws = defects_of(said if isinstance(said, list) else [said], long, wide, unit)
    for suffix, count, owned in _counts(door.on_hand, door.for_sale):
        yield Sheet(
            id=row.text + suffix,
            name=name,
            label=label,
            thickness=thick[0] if thick else usual_sheet(name, label),
            length=long,
            width=wide,
            place=row.place(),
            count=SHEETS_A_YARD_HAS if count is None else count,
            owned=owned,
            price=door.price,
            defects=flaws,
        )


def _near_its_label(thick: list[float], label: float, record: Record, unit: LengthUnit) -> None:
    """A slip of the point is caught here: no sheet measures a quarter off what it is sold as."""
    said = record["size"]
    if thick and abs(thick[0] - label) > OFF_LABEL * label + 0.5 and isinstance(said, Phrase):
        style = Style(unit)
        raise ReadError(
            f"this sheet measures {dual(thick[0], style)} thick and is sold as {dual(label, style)}",
            said.place(),
            "write length x width x thickness as a caliper shows it, such as 96 x 48 x 0.71",
        )


def _counts(on_hand: int | None, for_sale: int | None) -> tuple[tuple[str, int | None, bool], ...]:
    """(suffix of the id, how many, owned) of each stack; one on hand when nothing is said."""
    here = 1 if on_hand is None and for_sale == 0 else on_hand or 0
    owned = (("", here, True),) if here else ()
    sold = (("" if not owned else " to buy", for_sale, False),) if for_sale != 0 else ()
    return owned + sold


def lumber_of(node: Node, unit: LengthUnit) -> Iterator[Lumber]:
    """Every stack of the `lumber` section."""
    for key, value in named_entries(node, "lumber"):
        heading = Phrase.of(key)
        found = re.fullmatch(r"(.*\D)\s+((?:\d+ )?[\d/]+x\d+)", heading.text.lower())
        if not found:
            raise ReadError(
                "lumber is named by its wood and nominal size", heading.place(), "such as pine 2x4"
            )
        wood = wood_named(heading.part(*found.span(1)))
        for row, line in rows(key, value, key.text, LUMBER):
            yield from _sticks(row, (wood, found[2]), record_of(line, LUMBER), unit)


def _sticks(row: Phrase, sold_as: tuple[str, str], record: Record, unit: LengthUnit) -> Iterator[Lumber]:
    door = checked(record, LUMBER, LumberDoor, unit, row.place())
    wanted = 3 if len(door.size) > 1 else 1
    long, *measured = wanted_sizes(door.size, wanted, wanted, record, LUMBER)
    usual = dressed_section(sold_as[1])
    if not measured and usual is None:
        raise ReadError(
            f'the dressed size of "{sold_as[1]}" is not known',
            row.place(),
            "write length x width x thickness as measured",
        )
    thick, broad = (measured[1], measured[0]) if measured else usual or (0.0, 0.0)
    for suffix, count, owned in _counts(door.on_hand, door.for_sale):
        yield Lumber(
            id=row.text + suffix,
            name=sold_as[0],
            nominal=sold_as[1],
            thickness=thick,
            width=broad,
            length=long,
            place=row.place(),
            count=count,
            owned=owned,
            price=door.price,
        )
