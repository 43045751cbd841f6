"""Reading a shop file: every word keeps its place, every entry passes its door."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from scantling.errors import ReadError
from scantling.piece.language.document import MappingNode, Node, as_mapping, as_scalar
from scantling.piece.language.tree import read_tree
from scantling.piece.methods import METHODS
from scantling.quantity.kinds import LengthUnit
from scantling.shop.boards import boards_of, timber_of
from scantling.shop.door import AirDoor, HeadDoor
from scantling.shop.fittings import hardware_of, supplies_of
from scantling.shop.floor import clamps_of, machines_of
from scantling.shop.model import Climate, Shop
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, Record, checked, nearest, record_of
from scantling.shop.sheets import lumber_of, sheets_of
from scantling.wood import COLDEST, DAMPEST, WARMEST

HEAD = Kind("a shop", HeadDoor, "shop: A shed with a small planer")
AIR = Kind("air", AirDoor, "air: {dry: 38 %, damp: 45 %, at: 66 F}")

SECTIONS: dict[str, tuple[str, Callable[[Node, LengthUnit], Iterator[Any]]]] = {
    "boards": ("boards", boards_of),
    "sheets": ("sheets", sheets_of),
    "lumber": ("lumber", lumber_of),
    "for sale": ("for_sale", timber_of),
    "machines": ("machines", machines_of),
    "clamps": ("clamps", clamps_of),
    "hardware": ("hardware", hardware_of),
    "supplies": ("supplies", supplies_of),
}
KEYS = ("units", "air", *HEAD.words, *SECTIONS)


def read_shop(path: Path) -> Shop:
    """The shop a file describes.

    Raises
    ------
    ReadError
        The file is not there, or something in it cannot be used: where, and what to write instead.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise ReadError(f'the shop file "{path.name}" cannot be read: {_reason(error)}') from None
    return read_shop_text(text, path.name)


def _reason(error: OSError | UnicodeDecodeError) -> str:
    return (error.strerror or "it is not there") if isinstance(error, OSError) else "it is not plain text"


def read_shop_text(text: str, name: str) -> Shop:
    """The shop that `text` describes; `name` stands for the file in messages. Raises ReadError."""
    root = read_tree(text, name)
    _known_keys(root)
    unit = _unit(root)
    head, record = _head(root, unit)
    lists = {
        field: tuple(read(node, unit))
        for key, (field, read) in SECTIONS.items()
        if (node := root.get(key)) is not None
    }
    shop = Shop(
        name=head.shop,
        unit=unit,
        climate=_climate(root.get("air"), unit),
        hours_a_week=head.hours_a_week,
        currency=head.currency,
        hour_rate=head.hour_rate,
        fraction=_fraction(head.fraction, record),
        note=head.note,
        likes=_likes(record),
        **lists,
    )
    _one_name_each(shop)
    return shop


def _known_keys(root: MappingNode) -> None:
    for entry in root:
        if entry.name not in KEYS:
            raise ReadError(
                f'a shop file knows no "{entry.key.text}"', entry.key.place, nearest(entry.name, KEYS)
            )


def _unit(root: MappingNode) -> LengthUnit:
    node = root.get("units")
    if node is None:
        raise ReadError("the file does not say its units", root.place, "write units: inches, or units: mm")
    units = {unit.value: unit for unit in LengthUnit}
    return units[as_scalar(node, "units").text.strip().lower()]  # `read_tree` refuses any other


def _head(root: MappingNode, unit: LengthUnit) -> tuple[HeadDoor, Record]:
    entries = tuple(entry for entry in root if entry.name in HEAD.words)
    record = record_of(MappingNode.of(entries, root.place), HEAD)
    return checked(record, HEAD, HeadDoor, unit, root.place), record


def _climate(node: Node | None, unit: LengthUnit) -> Climate:
    if node is None:
        return Climate()
    record = record_of(as_mapping(node, "air"), AIR)
    air = checked(record, AIR, AirDoor, unit, node.place)
    if air.dry > air.damp:
        raise ReadError("the dry air is damper than the damp", node.place, AIR.example)
    if air.damp > 100 * DAMPEST or not COLDEST <= air.at <= WARMEST:
        told = f"wood is reckoned in air of 0 to {DAMPEST:.0%} and {COLDEST:g} to {WARMEST:g} °C"
        raise ReadError(told, node.place, AIR.example)
    return Climate((air.dry + air.damp) / 200, air.at, air.dry / 100, air.damp / 100)


def _fraction(text: str, record: Record) -> int:
    found = re.fullmatch(r"1\s*/\s*(1|2|4|8|16|32|64)", text.strip())
    if found:
        return int(found[1])
    said = record["fraction"]
    assert isinstance(said, Phrase)
    raise ReadError(f'"{text}" is not a fraction to show', said.place(), "write 1/16, 1/32 or 1/64")


def _likes(record: Record) -> tuple[str, ...]:
    said = record.get("likes", [])
    phrases = said if isinstance(said, list) else [said]
    for phrase in phrases:
        if phrase.text.lower() not in METHODS:
            raise ReadError(
                f'"{phrase.text}" is no way to join', phrase.place(), nearest(phrase.text, METHODS)
            )
    return tuple(phrase.text.lower() for phrase in phrases)


def _one_name_each(shop: Shop) -> None:
    """Stock goes by its name in the cut plan, so no two may share one; nor may two fittings."""
    for entries in (shop.boards + shop.sheets + shop.lumber + shop.for_sale, shop.hardware):
        seen: dict[str, Any] = {}
        for entry in entries:
            if entry.id in seen:
                raise ReadError(
                    f'"{entry.id}" is used twice; the other stands in line {seen[entry.id].place.line}',
                    entry.place,
                    "give one of them another name",
                )
            seen[entry.id] = entry
