"""Change one scalar of a maker's file, or add one entry, and leave every other character as it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import zip_longest

from scantling.errors import Place, ReadError
from scantling.piece.language.document import Entry, MappingNode, Node, Scalar, SequenceNode
from scantling.piece.language.tree import read_tree


def replace_scalar(text: str, place: Place, new: str) -> str:
    """`text` with the words that begin at `place` replaced by `new`, in quotes only where they must be.

    Raises ReadError if no words begin there, if `new` cannot stand there, or if the text cannot be read.
    """
    old = scalar_at(text, place)
    _refuse_unwritable(new, place)
    start, end = old.raw
    before = flattened(read_tree(text, place.file))
    wanted = [(f.steps, new if f.scalar.place == old.place else f.scalar.text) for f in before]
    for written in ways_to_write(new, text[start : start + 1]):
        changed = f"{text[:start]}{written}{text[end:]}"
        if _words_of(changed, place.file) == wanted:
            return changed
    raise ReadError(f'"{new}" cannot stand here', place, "choose other words")


def add_entry(text: str, file: str, where: tuple[str, ...], key: str, value: str) -> str:
    """`text` with the entry `key: value` added last under the names `where`, written as its neighbours are.

    `where` leads from the top level: ("parts", "leg"). `value` is a phrase, or entries in braces or brackets.
    Raises ReadError if there is no such place, or if the entry cannot stand there.
    """
    node = _node_at(read_tree(text, file), where)
    if not isinstance(node, MappingNode):
        raise ReadError(f"{_told(where)} takes no entries", node.place)
    _refuse_unwritable(key, node.place)
    written = [f"{k}: {v}" for k in ways_to_write(key, "") for v in _value_ways(value, node.place)]
    return _first_that_adds(text, where, node, written, (key, value))


def add_item(text: str, file: str, where: tuple[str, ...], value: str) -> str:
    """`text` with one more item at the end of the list under the names `where`.

    `value` is a phrase, or entries in braces. Raises ReadError as `add_entry` does.
    """
    node = _node_at(read_tree(text, file), where)
    if not isinstance(node, SequenceNode):
        raise ReadError(f"{_told(where)} is no list", node.place)
    return _first_that_adds(text, where, node, _value_ways(value, node.place), ("", value))


def changed_elsewhere(before: str, after: str, place: Place) -> tuple[str, ...]:
    """The names of all that differs between two texts of a file but for the words at `place` of the first.

    Raises ReadError if either cannot be read.
    """
    old, new = flattened(read_tree(before, place.file)), flattened(read_tree(after, place.file))
    edited = scalar_at(before, place).place
    differing = [
        (was or now)
        for was, now in zip_longest(old, new)
        if was is None or now is None or was.steps != now.steps or was.scalar.text != now.scalar.text
    ]
    return tuple(_told(found.names) for found in differing if found and found.scalar.place != edited)


@dataclass(frozen=True, slots=True)
class Found:
    """A scalar of a tree; `steps` leads to it by numbers, `names` by keys and list numbers."""

    steps: tuple[int, ...]
    names: tuple[str, ...]
    scalar: Scalar


def scalar_at(text: str, place: Place) -> Scalar:
    """The scalar whose words begin at that line and character. Raises ReadError if there is none."""
    for found in flattened(read_tree(text, place.file)):
        if (found.scalar.place.line, found.scalar.place.character) == (place.line, place.character):
            return found.scalar
    raise ReadError("no words begin here", place)


def flattened(root: Node) -> list[Found]:
    """Every scalar of a tree in order, keys too."""
    return list(_walk(root, (), ()))


def _walk(node: Node, steps: tuple[int, ...], names: tuple[str, ...]) -> Iterator[Found]:
    if isinstance(node, Scalar):
        yield Found(steps, names, node)
    elif isinstance(node, SequenceNode):
        for number, item in enumerate(node.items, 1):
            yield from _walk(item, (*steps, number), (*names, str(number)))
    else:
        for number, entry in enumerate(node.entries, 1):
            yield Found((*steps, -number), (*names, entry.name), entry.key)
            yield from _walk(entry.value, (*steps, number), (*names, entry.name))


def _node_at(node: Node, where: tuple[str, ...]) -> Node:
    for depth, name in enumerate(where):
        entry: Entry | None = node.entry(name) if isinstance(node, MappingNode) else None
        if entry is None:
            raise ReadError(f'there is no "{name}" in {_told(where[:depth])}', node.place)
        node = entry.value
    return node


def _told(names: tuple[str, ...]) -> str:
    return ", ".join(names) or "the file"


def _refuse_unwritable(new: str, place: Place) -> None:
    if not new.strip():
        raise ReadError("nothing is no phrase", place, "write a few words, or take out the entry")
    if any(ord(c) < 32 or c in "\x7f\x85\u2028\u2029" for c in new):
        raise ReadError("a phrase stands in one line, without tabs", place)


def ways_to_write(words: str, quote: str) -> Iterator[str]:
    """The words in the quotes they had; plain; in single quotes; in double quotes."""
    single = f"'{words.replace(chr(39), chr(39) * 2)}'"
    escaped = words.replace("\\", "\\\\").replace('"', '\\"')
    double = f'"{escaped}"'
    if quote == "'":
        yield single
    if quote == '"':
        yield double
    yield from (words, single, double)


def _value_ways(value: str, place: Place) -> list[str]:
    _refuse_unwritable(value, place)
    return [value] if _is_collection(value) else list(ways_to_write(value, ""))


def _is_collection(value: str) -> bool:
    return value[:1] in ("{", "[")


def _words_of(text: str, file: str) -> list[tuple[tuple[int, ...], str]] | None:
    """What every scalar of a text says, None if it cannot be read."""
    try:
        return [(found.steps, found.scalar.text) for found in flattened(read_tree(text, file))]
    except ReadError:
        return None


def _first_that_adds(
    text: str,
    where: tuple[str, ...],
    node: MappingNode | SequenceNode,
    ways: list[str],
    wanted: tuple[str, str],
) -> str:
    """The first way of writing that adds just the wanted key and value and changes nothing else."""
    for written in ways:
        changed = _added(text, node, written)
        if _adds_one(text, changed, where, node, wanted):
            return changed
    raise ReadError(f"`{': '.join(filter(None, wanted))}` cannot stand in {_told(where)}", node.place)


def _adds_one(
    text: str,
    changed: str,
    where: tuple[str, ...],
    node: MappingNode | SequenceNode,
    wanted: tuple[str, str],
) -> bool:
    file = node.place.file
    before, after = _words_of(text, file), _words_of(changed, file)
    if before is None or after is None or not set(before) <= set(after):
        return False
    grown = _node_at(read_tree(changed, file), where)
    if isinstance(grown, Scalar) or len(grown) != len(node) + 1:
        return False
    last = grown.entries[-1] if isinstance(grown, MappingNode) else grown.items[-1]
    if len(after) - len(before) != len(_scalars_of(last)):
        return False
    key = last.key.text if isinstance(last, Entry) else ""
    value = last.value if isinstance(last, Entry) else last
    says = value.text == wanted[1] if isinstance(value, Scalar) else _is_collection(wanted[1])
    return key == wanted[0] and says


def _scalars_of(entry: Entry | Node) -> list[Found]:
    """Every scalar of one entry or item, its key too."""
    if not isinstance(entry, Entry):
        return flattened(entry)
    return [Found((), (entry.name,), entry.key), *flattened(entry.value)]


def _added(text: str, node: MappingNode | SequenceNode, written: str) -> str:
    last = node.entries[-1].value if isinstance(node, MappingNode) and node.entries else None
    if isinstance(node, SequenceNode) and node.items:
        last = node.items[-1]
    if node.flow:
        at = end_of(last) if last else node.raw[0] + 1
        return f"{text[:at]}{', ' if last else ''}{written}{text[at:]}"
    assert last is not None
    newline = "\r\n" if "\r\n" in text else "\n"
    at = line_end(text, end_of(last))
    mark = "" if isinstance(node, MappingNode) else "- "
    indent = " " * (node.place.character - 1)
    return f"{text[:at]}{newline}{indent}{mark}{written}{text[at:]}"


def line_end(text: str, at: int) -> int:
    """Where the line that holds `at` ends, before its line break."""
    found = [i for i in (text.find("\r", at), text.find("\n", at)) if i >= 0]
    return min(found, default=len(text))


def end_of(node: Node) -> int:
    """The character after a node's last one."""
    if isinstance(node, Scalar) or node.flow:
        return node.raw[1]
    return end_of(node.entries[-1].value if isinstance(node, MappingNode) else node.items[-1])
