"""Take one entry or one item out of a maker's file, and leave every other character as it is."""

from __future__ import annotations

from scantling.errors import ReadError
from scantling.piece.language.document import Entry, MappingNode, Node, Scalar, SequenceNode
from scantling.piece.language.edits import (
    child_or_none,
    end_of,
    line_end,
    members,
    node_at,
    says_without,
    start_of,
)
from scantling.piece.language.tree import read_tree


def remove_entry(text: str, file: str, where: tuple[str, ...]) -> str:
    """`text` without what stands under the names `where`; items of a list go by their numbers.

    A list or a section of the file that would be left empty goes too. Raises ReadError if there is no such
    entry, or if nothing would be left.
    """
    root = read_tree(text, file)
    node_at(root, where)
    where = _whole(root, where)
    node = node_at(root, where[:-1])
    assert not isinstance(node, Scalar)
    member = _member(node, where[-1])
    for start, end in _cuts(text, node, member):
        changed = text[:start] + text[end:]
        if _leaves_the_rest(root, changed, file, where[:-1], member):
            return changed
    raise ReadError(f"`{where[-1]}` cannot be taken out here", node.place, "take it out in the text")


def _whole(root: MappingNode, where: tuple[str, ...]) -> tuple[str, ...]:
    """What must go: the entry, or the list or the section it alone stands in."""
    while len(where) > 1:
        node = node_at(root, where[:-1])
        stays = isinstance(node, MappingNode) and node.flow and len(where) > 2
        if isinstance(node, Scalar) or len(node) > 1 or stays:
            return where
        where = where[:-1]
    return where


def _member(node: MappingNode | SequenceNode, name: str) -> Entry | Node:
    return node.by_name[name] if isinstance(node, MappingNode) else node.items[int(name) - 1]


def _cuts(text: str, node: MappingNode | SequenceNode, member: Entry | Node) -> list[tuple[int, int]]:
    """Ways to cut it out, the tidiest first."""
    around = members(node)
    at = next(i for i, one in enumerate(around) if one is member)
    start, end = start_of(member), end_of(member)
    following = start_of(around[at + 1]) if at + 1 < len(around) else None
    if not node.flow:
        return _line_cuts(text, start, end, following)
    before = end_of(around[at - 1]) if at else None
    cuts = []
    if before is not None and "#" not in text[before:start]:
        cuts.append((before, end))
    if following is not None and "#" not in text[end:following]:
        cuts.append((start, following))
    after = len(text) - len(text[end:].lstrip())
    return [*cuts, (start, after + 1 if text[after : after + 1] == "," else end)]


def _line_cuts(text: str, start: int, end: int, following: int | None) -> list[tuple[int, int]]:
    """Whole lines; or up to the next entry, where another mark stands before it on its line."""
    begins = text.rfind("\n", 0, start) + 1
    ends = line_end(text, end)
    ends += 2 if text[ends : ends + 2] == "\r\n" else 1
    if text[begins:start].strip(" -"):
        return []
    whole = [(begins, ends)] if following is None or following >= ends else []
    if not text[ends:].strip() and begins:  # the last line of the file keeps the break it had, or had not
        kept = text[: begins - 1].removesuffix("\r")
        whole = [(len(kept), line_end(text, end))]
    return [*whole, *([(start, following)] if following is not None else [])]


def _leaves_the_rest(
    root: MappingNode, changed: str, file: str, where: tuple[str, ...], member: Entry | Node
) -> bool:
    try:
        after = read_tree(changed, file)
    except ReadError:
        return False
    node, was = child_or_none(after, where), node_at(root, where)
    if node is None or isinstance(node, Scalar) or isinstance(was, Scalar) or len(node) != len(was) - 1:
        return False
    return says_without(after, None) == says_without(root, member)
