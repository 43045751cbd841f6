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


def add_entry(
    text: str, file: str, where: tuple[str, ...], key: str, value: str, after: str | None = None
) -> str:
    """`text` with the entry `key: value` added under the names `where`, written as its neighbours are.

    It stands last, or after the entry `after`. `where` leads from the top level: ("parts", "leg"). `value` is
    a phrase, or entries in braces or brackets.
    Raises ReadError if there is no such place, or if the entry cannot stand there.
    """
    node = node_at(read_tree(text, file), where)
    if not isinstance(node, MappingNode):
        raise ReadError(f"{_told(where)} takes no entries", node.place)
    _refuse_unwritable(key, node.place)
    written = [f"{k}: {v}" for k in ways_to_write(key, "") for v in _value_ways(value, node.place)]
    names = [entry.name for entry in node.entries]
    at = names.index(after) + 1 if after is not None and after in names else len(node)
    return _first_that_adds(text, where, node, at, written, (key, value))


def add_item(text: str, file: str, where: tuple[str, ...], value: str, first: bool = False) -> str:
    """`text` with one more item at the end of the list under the names `where`, or as its first.

    `value` is a phrase, or entries in braces. Raises ReadError as `add_entry` does.
    """
    node = node_at(read_tree(text, file), where)
    if not isinstance(node, SequenceNode):
        raise ReadError(f"{_told(where)} is no list", node.place)
    at = 0 if first else len(node)
    return _first_that_adds(text, where, node, at, _value_ways(value, node.place), ("", value))


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


def node_at(node: Node, where: tuple[str, ...]) -> Node:
    """What stands under those names; items of a list go by their numbers. Raises ReadError."""
    for depth, name in enumerate(where):
        inner = child_of(node, name)
        if inner is None:
            raise ReadError(f'there is no "{name}" in {_told(where[:depth])}', node.place)
        node = inner
    return node


def child_of(node: Node, name: str) -> Node | None:
    """What stands under a name, or under the number of an item of a list; None if nothing does."""
    if isinstance(node, MappingNode):
        return node.get(name)
    if isinstance(node, SequenceNode) and name.isdigit() and 0 < int(name) <= len(node):
        return node.items[int(name) - 1]
    return None


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
    found = _read(text, file)
    return None if found is None else [(one.steps, one.scalar.text) for one in flattened(found)]


def _read(text: str, file: str) -> MappingNode | None:
    try:
        return read_tree(text, file)
    except ReadError:
        return None


def _first_that_adds(
    text: str,
    where: tuple[str, ...],
    node: MappingNode | SequenceNode,
    at: int,
    ways: list[str],
    wanted: tuple[str, str],
) -> str:
    """The first way of writing that adds just the wanted key and value and changes nothing else."""
    for written in ways:
        changed = _added(text, node, at, written)
        if _adds_one(text, changed, where, node, at, wanted):
            return changed
    raise ReadError(f"`{': '.join(filter(None, wanted))}` cannot stand in {_told(where)}", node.place)


def _adds_one(
    text: str,
    changed: str,
    where: tuple[str, ...],
    node: MappingNode | SequenceNode,
    at: int,
    wanted: tuple[str, str],
) -> bool:
    file = node.place.file
    after = _read(changed, file)
    if after is None:
        return False
    grown = child_or_none(after, where)
    if grown is None or isinstance(grown, Scalar) or len(grown) != len(node) + 1:
        return False
    new = members(grown)[at]
    return says_without(after, new) == says_without(read_tree(text, file), None) and _is_wanted(new, wanted)


def _is_wanted(new: Entry | Node, wanted: tuple[str, str]) -> bool:
    key = new.key.text if isinstance(new, Entry) else ""
    value = new.value if isinstance(new, Entry) else new
    says = value.text == wanted[1] if isinstance(value, Scalar) else _is_collection(wanted[1])
    return key == wanted[0] and says


def child_or_none(node: Node, where: tuple[str, ...]) -> Node | None:
    """As `node_at`, None if there is nothing there."""
    try:
        return node_at(node, where)
    except ReadError:
        return None


def members(node: MappingNode | SequenceNode) -> tuple[Entry | Node, ...]:
    """The entries of a mapping, the items of a list."""
    return node.entries if isinstance(node, MappingNode) else node.items


def says_without(root: Node, left_out: Entry | Node | None) -> list[tuple[int, str]]:
    """Every scalar in order as (how deep it stands, its words), but for those of one entry or item."""
    aside = {id(found.scalar) for found in _scalars_of(left_out)} if left_out is not None else set()
    return [(len(f.steps), f.scalar.text) for f in flattened(root) if id(f.scalar) not in aside]


def _scalars_of(entry: Entry | Node) -> list[Found]:
    """Every scalar of one entry or item, its key too."""
    if not isinstance(entry, Entry):
        return flattened(entry)
    return [Found((), (entry.name,), entry.key), *flattened(entry.value)]


def _added(text: str, node: MappingNode | SequenceNode, at: int, written: str) -> str:
    neighbours = members(node)
    if node.flow:
        return _added_in_braces(text, node, at, written)
    mark = "" if isinstance(node, MappingNode) else "- "
    newline = "\r\n" if "\r\n" in text else "\n"
    line = f"{' ' * (node.place.character - 1)}{mark}{written}"
    if at == 0:
        start = text.rfind("\n", 0, start_of(neighbours[0])) + 1
        return f"{text[:start]}{line}{newline}{text[start:]}"
    end = line_end(text, end_of(neighbours[at - 1]))
    return f"{text[:end]}{newline}{line}{text[end:]}"


def _added_in_braces(text: str, node: MappingNode | SequenceNode, at: int, written: str) -> str:
    if at == 0:
        start, comma = node.raw[0] + 1, ", " if len(node) else ""
        return f"{text[:start]}{written}{comma}{text[start:]}"
    end = end_of(members(node)[at - 1])
    return f"{text[:end]}, {written}{text[end:]}"


def line_end(text: str, at: int) -> int:
    """Where the line that holds `at` ends, before its line break."""
    found = [i for i in (text.find("\r", at), text.find("\n", at)) if i >= 0]
    return min(found, default=len(text))


def start_of(member: Entry | Node) -> int:
    """The first character of an entry or an item."""
    return (member.key if isinstance(member, Entry) else member).raw[0]


def end_of(member: Entry | Node) -> int:
    """The character after the last one of an entry or an item."""
    node = member.value if isinstance(member, Entry) else member
    if isinstance(node, Scalar) or node.flow:
        return node.raw[1]
    return end_of(members(node)[-1])
