"""Machines and clamps, as a shop file lists them."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.errors import ReadError
from scantling.piece.language.document import Node, Scalar
from scantling.quantity.kinds import LengthUnit
from scantling.shop.door import ClampDoor, MachineDoor
from scantling.shop.model import Clamp, Machine, MachineKind
from scantling.shop.records import Kind, checked, named_entries, nearest, record_of

MACHINE = Kind("a machine", MachineDoor, "planer: widest 12 1/2, shortest 12, sled 1 1/2")
CLAMP = Kind("a clamp", ClampDoor, "bar clamp: 6, opens 36, force 400 lb", "count")

_KINDS = {kind.value: kind for kind in MachineKind}


def machines_of(node: Node, unit: LengthUnit) -> Iterator[Machine]:
    """Every entry of the `machines` section; the name is the kind unless `is a` says it."""
    for key, value in named_entries(node, "machines"):
        door = checked(record_of(value, MACHINE), MACHINE, MachineDoor, unit, key.place)
        yield Machine(
            name=key.text.strip(),
            kind=door.kind or _kind(key),
            place=key.place,
            kerf=door.kerf,
            most_width=door.widest,
            most_thickness=door.thickest,
            least_thickness=door.thinnest,
            least_length=door.shortest,
            most_length=door.longest,
            snipe=door.snipe,
            sled=door.sled is not None,
            sled_thickness=door.sled or 0.0,
            accuracy=door.good_to,
        )


def _kind(key: Scalar) -> MachineKind:
    name = " ".join(key.text.lower().split())
    if name not in _KINDS:
        raise ReadError(
            f'"{key.text}" is no kind of machine',
            key.place,
            f"{nearest(name, _KINDS)}; for a name of your own add a clause such as: is a table saw",
        )
    return _KINDS[name]


def clamps_of(node: Node, unit: LengthUnit) -> Iterator[Clamp]:
    """Every entry of the `clamps` section."""
    for key, value in named_entries(node, "clamps"):
        door = checked(record_of(value, CLAMP), CLAMP, ClampDoor, unit, key.place)
        yield Clamp(key.text.strip(), door.count, door.opens, key.place, door.force)
