"""The parts, joints, fittings and movements of a kit, as they are written where it is opened."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scantling.errors import ReadError
from scantling.piece.editing.naming import quoted
from scantling.piece.editing.opening.words import Reading
from scantling.piece.language import (
    Entry,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    parse_condition,
    parse_name,
    parse_size,
)
from scantling.piece.language.document import as_name, items_of
from scantling.piece.language.keys import TABLES
from scantling.piece.language.kinds_of_value import (
    CONDITION,
    FILE,
    NAME,
    OF_MATERIAL,
    TEXT,
    Either,
    Entries,
    ListOf,
    Named,
    OneOrMore,
    Phrase,
    Table,
    Value,
)
from scantling.piece.language.part_keys import KEYS_OF_A_USE, PART
from scantling.piece.language.phrases import Name, Within, Words
from scantling.piece.model import FLOOR, WALL
from scantling.piece.resolve import choices, materials

ALL = "all"
_THINGS = ("join", "to", "tails on", "joins", "under", "moves")  # keys whose names are those of parts


@dataclass(frozen=True)
class Opened:
    """The kit's entries as text: parts by name, joint lines, and fittings and movements by name."""

    parts: tuple[tuple[str, str], ...]
    joints: tuple[str, ...]
    hardware: tuple[tuple[str, str], ...]
    movements: tuple[tuple[str, str], ...]


class Left(Exception):
    """An entry that a condition of the kit leaves out."""


def parts_of(reading: Reading) -> Iterator[tuple[str, str]]:
    """Every part that stands in this use, with its entries in braces."""
    for entry in entries(reading.home.node, "parts"):
        try:
            yield as_name(entry.key.text), _part(reading, entry)
        except Left:
            continue


def joints_of(reading: Reading) -> Iterator[str]:
    """The joint lines that stand in this use; `reading` gives the name of the use as a prefix."""
    node = reading.home.node.get("joints")
    for item in items_of(node) if node is not None else ():
        try:
            yield _table(reading, item, TABLES["joint"])
        except Left:
            continue


def named_of(reading: Reading, section: str, table: str) -> Iterator[tuple[str, str]]:
    """The fittings or the movements that stand in this use."""
    for entry in entries(reading.home.node, section):
        try:
            yield entry.name, _table(reading, entry.value, TABLES[table])
        except Left:
            continue


def entries(node: MappingNode, section: str) -> tuple[Entry, ...]:
    """The entries of a section; none where there is no such section."""
    found = node.get(section)
    return found.entries if isinstance(found, MappingNode) else ()


def _part(reading: Reading, entry: Entry) -> str:
    node = entry.value
    assert isinstance(node, MappingNode)
    listed = materials.names(reading.home)
    of = node.get("of")
    made_of = as_name(of.text) if isinstance(of, Scalar) else (listed[0] if listed else "")
    within = replace(reading, made_of=made_of)
    unsaid = of is None and "parts" not in node and "kit" not in node and bool(listed)
    added = (f"of: {quoted(within.material(made_of))}",) if unsaid else ()
    return _table(within, node, PART, added)


def _table(reading: Reading, node: Node, table: Table, before: tuple[str, ...] = ()) -> str:
    if not isinstance(node, MappingNode):
        raise ReadError("this cannot be opened", node.place)
    is_use = table is PART and "kit" in node
    said = list(before)
    for entry in node:
        key = table.by_name.get(entry.name)
        value: Value | None = key.value if key else table.rest.value if table.rest else None
        if is_use and entry.name not in KEYS_OF_A_USE:
            said.append(f"{entry.name}: {quoted(_setting(reading, entry.value))}")
        elif value is CONDITION:
            _refuse_left_out(reading, entry.value)
        elif value is not None:
            said.append(f"{entry.name}: {_value(reading, entry.value, value, entry.name)}")
    return f"{{{', '.join(said)}}}"


def _refuse_left_out(reading: Reading, node: Node) -> None:
    assert isinstance(node, Scalar)
    if not reading.holds(node, parse_condition(node)):
        raise Left


def _value(reading: Reading, node: Node, value: Value, key: str) -> str:
    match value:
        case Phrase() if isinstance(node, Scalar):
            return _phrase(reading, node, value, key)
        case ListOf() | OneOrMore() if isinstance(node, SequenceNode):
            return _list(reading, node, value.item, key)
        case OneOrMore():
            return _one_or_more(reading, node, value.item, key)
        case Entries():
            inner = replace(reading, own_box=reading.own_box or value.table == "work")
            return _table(inner, node, TABLES[value.table])
        case Named() if isinstance(node, MappingNode):
            found = [_named(reading, entry, value) for entry in node]
            return f"{{{', '.join(found)}}}"
        case Either():
            return _either(reading, node, value, key)
        case _:
            assert isinstance(node, Scalar)
            return quoted(node.text)


def _named(reading: Reading, entry: Entry, value: Named) -> str:
    """A part of a group inside the kit."""
    if isinstance(value.value, Entries) and value.value.table == "part":
        return f"{entry.name}: {_part(reading, entry)}"
    return f"{entry.name}: {_value(reading, entry.value, value.value, entry.name)}"


def _list(reading: Reading, node: SequenceNode, item: Value, key: str) -> str:
    said: list[str] = []
    for one in node.items:
        try:
            said.extend(_names_of(reading, one) if key in _THINGS else [_value(reading, one, item, key)])
        except Left:
            continue
    return f"[{', '.join(said)}]"


def _one_or_more(reading: Reading, node: Node, item: Value, key: str) -> str:
    if key not in _THINGS or not isinstance(node, Scalar):
        return _value(reading, node, item, key)
    names = _names_of(reading, node)
    return names[0] if len(names) == 1 else f"[{', '.join(names)}]"


def _either(reading: Reading, node: Node, value: Either, key: str) -> str:
    shaped = value.entries if isinstance(node, MappingNode) else value.list
    kind = value.words if isinstance(node, Scalar) else shaped
    assert kind is not None
    return _value(reading, node, kind, key)


def _phrase(reading: Reading, scalar: Scalar, phrase: Phrase, key: str) -> str:
    if phrase.parse is None or phrase in (TEXT, FILE):
        return quoted(scalar.text)
    if phrase is OF_MATERIAL:
        return quoted(_material(reading, scalar))
    if phrase is NAME:
        return quoted(_name(reading, scalar, key))
    tree = phrase.parse(scalar)
    return quoted(reading.phrase(scalar, tree) if isinstance(tree, Words) else scalar.text)


def _material(reading: Reading, scalar: Scalar) -> str:
    name = as_name(scalar.text)
    return reading.material(name) if materials.is_material(reading.home, name) else scalar.text


def _name(reading: Reading, scalar: Scalar, key: str) -> str:
    name = parse_name(scalar).text
    if key in _THINGS:
        return _names_of(reading, scalar)[0]
    if key == "with" and choices.is_choice(reading.home, name):
        return reading.choice(name)
    if key in ("after", "rides on", "on", "detail"):
        raise ReadError(f"`{key}: {scalar.text}` of the kit cannot be said outside it", scalar.place)
    return scalar.text


def _names_of(reading: Reading, node: Node) -> list[str]:
    """The names of parts of the kit outside it: `every rail` is each of them, `all` the use itself."""
    assert isinstance(node, Scalar)
    name = parse_name(node)
    families = reading.home.families
    if name.text == ALL:
        return [reading.prefix]
    if name.words[0] == "every":
        ending = name.words[1:]
        keys = [key for key in families if tuple(key.split())[-len(ending) :] == ending]
        return [reading.thing(key) for key in keys]
    if name.text in (WALL, FLOOR) and name.text not in families:
        return [name.text]
    return [quoted(reading.thing(name.text))]


def _setting(reading: Reading, node: Node) -> str:
    """A setting of a kit that is used inside the kit."""
    assert isinstance(node, Scalar)
    name = as_name(node.text)
    if materials.is_material(reading.home, name):
        return reading.material(name)
    if choices.is_choice(reading.home, name):
        return reading.choice(name)
    try:
        tree = parse_size(node)
    except ReadError:
        return node.text
    return node.text if isinstance(tree, Within) or _is_unknown(reading, tree) else reading.phrase(node, tree)


def _is_unknown(reading: Reading, tree: Words) -> bool:
    return isinstance(tree, Name) and tree.text not in [e.name for e in entries(reading.home.node, "sizes")]
