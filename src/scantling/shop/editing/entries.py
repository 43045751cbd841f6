"""Entries of a shop file put in, taken out, renamed and moved; every other character stays as it is."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from functools import lru_cache

from scantling.errors import ReadError
from scantling.piece.language.document import Entry, MappingNode, Node, SequenceNode, as_name
from scantling.piece.language.edits import (
    end_of,
    flattened,
    line_end,
    replace_scalar,
    ways_to_write,
)
from scantling.piece.language.tree import read_tree
from scantling.shop.model import Shop
from scantling.shop.read import read_shop_text

FILE = "shop.yaml"
STEP = "  "

Path = tuple[str, ...]
Saying = tuple[Path, str]


@lru_cache(maxsize=8)
def tree_of(text: str) -> MappingNode:
    """The entries of a shop file. Raises ReadError."""
    return read_tree(text, FILE)


@lru_cache(maxsize=8)
def shop_of(text: str) -> Shop:
    """The shop a text describes. Raises ReadError."""
    return read_shop_text(text, FILE)


def sayings(text: str) -> Counter[Saying]:
    """Every key and every phrase, with the names that lead to it."""
    return Counter((found.names, found.scalar.text) for found in flattened(tree_of(text)))


def names_of(path: Iterable[str]) -> Path:
    """The names as they are looked up: lower case, single spaces."""
    return tuple(as_name(name) for name in path)


def entry_at(root: MappingNode, path: Path) -> Entry:
    """The entry the names lead to. Raises ReadError if there is none."""
    return _chain(root, names_of(path))[-1][1]


def say(text: str, path: Path, words: str) -> str:
    """`text` with the phrase at `path` said anew."""
    value = entry_at(tree_of(text), path).value
    return replace_scalar(text, value.place, words)


def rename(text: str, path: Path, name: str) -> str:
    """`text` with the key at `path` written as `name`."""
    chain = _chain(tree_of(text), names_of(path))
    parent, entry = chain[-1]
    if as_name(name) != entry.name and as_name(name) in parent:
        raise ReadError(f'"{name}" stands there already', entry.key.place, "choose another name")
    return replace_scalar(text, entry.key.place, name)


def put(text: str, path: Path, words: str) -> str:
    """`text` with the entry `path` saying `words`, last of its neighbours; groups it wants are begun too.

    The names are written as given. Raises ReadError if the entry is there, or cannot stand there.
    """
    parents, key = path[:-1], path[-1]
    _refuse_second(text, path)
    wanted = sayings(text) + _new_sayings(text, path)
    wanted[names_of(path), words] += 1
    entries = [f"{k}: {w}" for k in ways_to_write(key, "") for w in ways_to_write(words, "")]
    return _first_that_says(text, (_inserted(text, parents, entry) for entry in entries), wanted, words)


def put_after(text: str, neighbour: str, raw: str) -> str:
    """`text` with the line `raw` after the top entry `neighbour`, or in braces where that stands in some."""
    root = tree_of(text)
    value = entry_at(root, (neighbour,)).value
    at = end_of(value) if root.flow else line_end(text, end_of(value))
    newline = "\r\n" if "\r\n" in text else "\n"
    return f"{text[:at]}{', ' if root.flow else newline}{raw}{text[at:]}"


def take_out(text: str, path: Path) -> str:
    """`text` without that entry and its line's comment; without the group, too, if it was the last there."""
    chain = _chain(tree_of(text), names_of(path))
    parent, entry = next(link for link in reversed(chain) if len(link[0]) > 1)
    if parent.flow:
        return _cut_from_flow(text, [(e.key.raw[0], end_of(e.value)) for e in parent], entry.key.raw[0])
    return _without_lines(text, entry.key.raw[0], end_of(entry.value))


def take_out_item(text: str, path: Path, number: int) -> str:
    """`text` without item `number`, from 1, of the list at `path`; without the list if it was the last."""
    items = entry_at(tree_of(text), path).value
    if not isinstance(items, SequenceNode) or len(items) == 1:
        return take_out(text, path)
    spans = [(_start_of(item), end_of(item)) for item in items]
    start, end = spans[number - 1]
    return _cut_from_flow(text, spans, start) if items.flow else _without_lines(text, start, end)


def move(text: str, path: Path, parents: Path) -> str:
    """`text` with the entry at `path` moved last under the names `parents`, its line's comment with it."""
    names = names_of(path)
    _refuse_second(text, (*parents, path[-1]))
    entry = entry_at(tree_of(text), names)
    raw = text[entry.key.raw[0] : _end_with_comment(text, entry.value)]
    moved, new = _inserted(take_out(text, names), parents, raw), names_of((*parents, path[-1]))
    if same_beside(text, moved, (names, new)) and _under(text, names) == _under(moved, new):
        return moved
    raise ReadError(f'"{path[-1]}" cannot be moved there', entry.key.place, "write it there by hand")


def same_beside(before: str, after: str, touched: Iterable[Path]) -> bool:
    """Whether two texts say the same but for what stands at and under those names, and the way there."""
    names = tuple(touched)
    return _beside(before, names) == _beside(after, names)


def _beside(text: str, touched: tuple[Path, ...]) -> Counter[Saying]:
    said = sayings(text)
    return Counter({s: n for s, n in said.items() if not any(_on_the_way(s[0], t) for t in touched)})


def _on_the_way(names: Path, touched: Path) -> bool:
    return leads_to(touched, names) or leads_to(names, touched)


def _under(text: str, path: Path) -> Counter[Saying]:
    return Counter({(s[0][len(path) :], s[1]): n for s, n in sayings(text).items() if leads_to(path, s[0])})


def leads_to(path: Path, names: Path) -> bool:
    """Whether `names` lie at or under `path`."""
    return names[: len(path)] == path


def _refuse_second(text: str, path: Path) -> None:
    root = tree_of(text)
    depth = _depth(root, names_of(path))
    if depth == len(path):
        place = entry_at(root, path).key.place
        raise ReadError(f'"{path[-1]}" stands there already', place, "choose another name")


def _new_sayings(text: str, path: Path) -> Counter[Saying]:
    """The keys an entry brings: its own, and those of groups that are not there yet."""
    there = _depth(tree_of(text), names_of(path))
    return Counter((names_of(path[: i + 1]), path[i]) for i in range(there, len(path)))


def _depth(root: MappingNode, names: Path) -> int:
    """How many of the names lead somewhere."""
    node: Node = root
    for depth, name in enumerate(names):
        entry = node.entry(name) if isinstance(node, MappingNode) else None
        if entry is None:
            return depth
        node = entry.value
    return len(names)


def _chain(root: MappingNode, names: Path) -> list[tuple[MappingNode, Entry]]:
    """Each entry on the way, with the entries it stands among."""
    chain: list[tuple[MappingNode, Entry]] = []
    node: Node = root
    for name in names:
        entry = node.entry(name) if isinstance(node, MappingNode) else None
        if not isinstance(node, MappingNode) or entry is None:
            raise ReadError(f'"{name}" is not in the shop file any more', root.place, "load the page again")
        chain.append((node, entry))
        node = entry.value
    return chain


def _first_that_says(text: str, ways: Iterable[str], wanted: Counter[Saying], words: str) -> str:
    for changed in ways:
        try:
            if sayings(changed) == wanted:
                return changed
        except ReadError:
            continue
    raise ReadError(f'"{words}" cannot stand in the file', tree_of(text).place, "choose other words")


def _inserted(text: str, parents: Path, raw: str) -> str:
    """`raw`, the characters of an entry, written last under `parents`; those missing stand over it."""
    root = tree_of(text)
    there = _depth(root, names_of(parents))
    node = entry_at(root, parents[:there]).value if there else root
    if not isinstance(node, MappingNode):
        told = f'"{parents[there - 1]}" takes no lines under it'
        raise ReadError(told, node.place, "give it a name of its own in the file first")
    missing = parents[there:]
    return _into_flow(text, node, missing, raw) if node.flow else _into_block(text, node, missing, raw)


def _into_flow(text: str, node: MappingNode, missing: Path, raw: str) -> str:
    at = end_of(node.entries[-1].value) if node.entries else node.raw[0] + 1
    opened = "".join(f"'{name}': {{" for name in missing)
    return f"{text[:at]}{', ' if node.entries else ''}{opened}{raw}{'}' * len(missing)}{text[at:]}"


def _into_block(text: str, node: MappingNode, missing: Path, raw: str) -> str:
    newline = "\r\n" if "\r\n" in text else "\n"
    at = line_end(text, end_of(node.entries[-1].value))
    at = _past_notes(text, at) if missing else at
    indent = " " * (node.place.character - 1)
    heads = [f"{indent}{STEP * i}{name}:" for i, name in enumerate(missing)]
    lines = _indented(raw, indent + STEP * len(missing))
    gap = newline if missing and not indent else ""
    return f"{text[:at]}{newline}{gap}{newline.join([*heads, *lines])}{text[at:]}"


def _past_notes(text: str, at: int) -> int:
    """The end of the notes on the lines right under one: they are of what stands over them."""
    while (found := _NOTE.match(text, at)) is not None:
        at = found.end()
    return at


_NOTE = re.compile(r"(?:\r\n|\n|\r)[ \t]*#[^\r\n]*")


def _indented(raw: str, indent: str) -> list[str]:
    """The lines of an entry, the first at `indent` and the others as far in from it as they were."""
    first, *others = raw.splitlines()
    inner = min((len(line) - len(line.lstrip()) for line in others if line.strip()), default=0)
    return [indent + first, *(indent + STEP + line[inner:] for line in others)]


def _end_with_comment(text: str, value: Node) -> int:
    end = end_of(value)
    rest = text[end : line_end(text, end)]
    return end + len(rest.rstrip()) if rest.strip().startswith("#") else end


def _start_of(node: Node) -> int:
    return node.raw[0]


def _cut_from_flow(text: str, spans: list[tuple[int, int]], start: int) -> str:
    """Without one item in braces or brackets, and without one comma beside it."""
    number = next(i for i, span in enumerate(spans) if span[0] == start)
    if number:
        return text[: spans[number - 1][1]] + text[spans[number][1] :]
    return text[:start] + text[spans[1][0] :]


def _without_lines(text: str, start: int, end: int) -> str:
    first = max(text.rfind("\n", 0, start), text.rfind("\r", 0, start)) + 1
    last = line_end(text, end)
    breaks = "\r\n" if text[last : last + 2] == "\r\n" else text[last : last + 1]
    return text[:first] + text[last + len(breaks) :]
