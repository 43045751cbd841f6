"""A file over the one it follows: by name, the nearer wins; lists of entries are added to.

Named things (parts, sizes, holds …) are merged key by key. What says one thing in several words (`copies`,
`built`, `split`, lists of names) is replaced whole.
"""

from __future__ import annotations

from dataclasses import replace
from difflib import get_close_matches

from scantling.errors import ReadError
from scantling.piece.language.document import (
    Entry,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    as_name,
    items_of,
)
from scantling.piece.language.keys import TABLES, TOP
from scantling.piece.language.kinds_of_value import Either, Entries, ListOf, Named, OneOrMore, Table, Value

_MERGED_TABLES = frozenset(
    ("overall", "part", "space", "hardware", "movement", "hold", "room", "air", "finish", "measured")
)
_OWN_ONLY = frozenset(("piece", "style", "units", "follows", "leave out", "note"))
_LEAVABLE = ("finish", *(key.name for key in TOP.keys if isinstance(key.value, Named)))


def merged(own: MappingNode, base: MappingNode) -> MappingNode:
    """The top level of a file over that of the file it follows."""
    kept = tuple(entry for entry in base.entries if entry.name not in _OWN_ONLY)
    return _merged_table(own, MappingNode.of(kept, base.place), TOP)


def _merged_table(own: MappingNode, base: MappingNode, table: Table) -> MappingNode:
    values: dict[str, Value] = {key.name: key.value for key in table.keys}
    return _merged_entries(own, base, values, table.rest.value if table.rest else None)


def _merged_entries(
    own: MappingNode, base: MappingNode, values: dict[str, Value], rest: Value | None
) -> MappingNode:
    entries = dict(base.by_name)
    for entry in own.entries:
        earlier = entries.get(entry.name)
        value = values.get(entry.name, rest)
        if earlier is not None and value is not None:
            entry = replace(entry, value=_merged_value(entry.value, earlier.value, value))
        entries[entry.name] = entry
    return MappingNode(tuple(entries.values()), own.place, entries)


def _merged_value(own: Node, base: Node, value: Value) -> Node:
    """The nearer value over the farther one."""
    if isinstance(value, ListOf | OneOrMore) and isinstance(value.item, Entries):
        return SequenceNode((*items_of(base), *items_of(own)), own.place)
    if not isinstance(own, MappingNode) or not isinstance(base, MappingNode):
        return own
    if isinstance(value, Either):
        return own
    if isinstance(value, Named):
        return _merged_entries(own, base, {}, value.value)
    if isinstance(value, Entries) and value.table in _MERGED_TABLES:
        return _merged_table(own, base, TABLES[value.table])
    return own


def without(base: MappingNode, names: tuple[Scalar, ...]) -> MappingNode:
    """The followed file without the things of those names. Raises ReadError for one it has not."""
    for name in names:
        base = _without_one(base, name)
    return base


def _without_one(base: MappingNode, said: Scalar) -> MappingNode:
    name = as_name(said.text)
    sections = [entry for entry in base.entries if entry.name in _LEAVABLE]
    dropped = [_dropped(entry, name) for entry in sections]
    if not any(dropped):
        raise _nothing_to_leave_out(sections, name, said)
    changed = {entry.name: entry for entry in dropped if entry is not None}
    return MappingNode.of(tuple(changed.get(e.name, e) for e in base.entries), base.place)


def _dropped(section: Entry, name: str) -> Entry | None:
    """The section without the thing of that name, None if it has none; `lid lip` is `lip` in group `lid`."""
    node = section.value
    if not isinstance(node, MappingNode):
        return None
    if name in node and name != "over":
        return replace(section, value=MappingNode.of(tuple(e for e in node if e.name != name), node.place))
    for entry in node.entries:
        group = entry.value.entry("parts") if isinstance(entry.value, MappingNode) else None
        if group is None or not name.startswith(f"{entry.name} "):
            continue
        inner = _dropped(group, name.removeprefix(f"{entry.name} "))
        if inner is not None:
            whole = _with_entry(entry.value, inner)
            return replace(section, value=_with_entry(node, replace(entry, value=whole)))
    return None


def _with_entry(node: Node, changed: Entry) -> MappingNode:
    assert isinstance(node, MappingNode)
    return MappingNode.of(tuple(changed if e.name == changed.name else e for e in node), node.place)


def _nothing_to_leave_out(sections: list[Entry], name: str, said: Scalar) -> ReadError:
    known = sorted({e.name for s in sections if isinstance(s.value, MappingNode) for e in s.value})
    near = get_close_matches(name, known, 1, 0.6)
    return ReadError(
        f'the followed file has nothing called "{name}" to leave out',
        said.place,
        f'nearest: "{near[0]}"' if near else "",
    )
