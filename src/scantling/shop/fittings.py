"""Hardware and supplies, as a shop file lists them. A fitting's label may be its size: `3/8 x 2`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scantling.piece.language.document import Node
from scantling.quantity.kinds import LengthUnit
from scantling.shop.door import FittingDoor, SupplyDoor
from scantling.shop.model import HardwareItem, Supply
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, Record, checked, named_entries, record_of
from scantling.shop.rows import rows
from scantling.shop.words import AmissError, lengths
from scantling.wood import gauge_diameter

FITTING = Kind("a fitting", FittingDoor, "14: price 17.50, rating 100 lb, clearance 1/2")
SUPPLY = Kind("a supply", SupplyDoor, "wood glue: 21 a litre, on hand 0.3", "price")

_LABEL_SIZES: Mapping[str, tuple[str, ...]] = {
    "dowel": ("diameter", "length"),
    "screw": ("gauge", "length"),
    "bolt": ("diameter", "length"),
    "nail": ("diameter", "length"),
    "brad": ("diameter", "length"),
    "slide": ("length",),
    "hinge": ("length",),
    "knob": ("diameter",),
    "pin": ("diameter",),
    "eight": ("diameter",),
    "biscuit": (),
}

_SIZES = tuple(
    name for name in FittingDoor.model_fields if name not in ("price", "on_hand", "rating", "screws", "gauge")
)


def hardware_of(node: Node, unit: LengthUnit) -> Iterator[HardwareItem]:
    """Every fitting of the `hardware` section."""
    for key, value in named_entries(node, "hardware"):
        kind = " ".join(key.text.lower().split())
        for row, line in rows(key, value, kind, FITTING):
            yield _fitting(kind, row, record_of(line, FITTING), unit)


def _fitting(kind: str, row: Phrase, record: Record, unit: LengthUnit) -> HardwareItem:
    door = checked(_label_sizes(kind, row, unit) | record, FITTING, FittingDoor, unit, row.place())
    said = {name.replace("_", " "): getattr(door, name) for name in _SIZES}
    if door.gauge is not None:
        said["diameter"] = gauge_diameter(door.gauge)
    price, pack = door.price
    return HardwareItem(
        id=kind if row.text == kind else f"{kind} {row.text}",
        kind=kind,
        name=row.text,
        price=price,
        place=row.place(),
        pack=pack,
        on_hand=door.on_hand,
        sizes=tuple((name, size) for name, size in said.items() if size is not None),
        rating=door.rating,
        screws=door.screws,
    )


def _label_sizes(kind: str, row: Phrase, unit: LengthUnit) -> Record:
    """The sizes a label says: `3/8 x 2` of a dowel is its diameter and its length."""
    names = _LABEL_SIZES.get(kind.split()[-1] if kind else "", ())
    try:
        found = lengths(row.text, unit)
    except AmissError:
        return {}
    if len(found) != len(names):
        return {}
    words = _halves(row) if len(names) == 2 else (row,)
    record: Record = dict(zip(names, words, strict=True))
    if "gauge" in record and (unit is LengthUnit.MM or not words[0].text.isdigit()):
        record["diameter"] = record.pop("gauge")
    return record


def _halves(row: Phrase) -> tuple[Phrase, ...]:
    at = row.text.lower().index(" x ")
    return row.part(0, at), row.after(at + 3)


def supplies_of(node: Node, unit: LengthUnit) -> Iterator[Supply]:
    """Every entry of the `supplies` section."""
    for key, value in named_entries(node, "supplies"):
        door = checked(record_of(value, SUPPLY), SUPPLY, SupplyDoor, unit, key.place)
        price, sold_by = door.price
        name = " ".join(key.text.lower().split())
        yield Supply(name, name, sold_by, price, key.place, door.covers, door.on_hand)
