"""A mend of a finding written into the files it concerns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.errors import Place, ReadError
from scantling.piece.editing.naming import put_words, quoted, said, steps_to, steps_to_entries, told
from scantling.piece.editing.offering import kit_settings
from scantling.piece.editing.rows import size_path
from scantling.piece.editing.writes import Question, Steps, Write
from scantling.piece.language import (
    Document,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    add_item,
    parse_size,
    remove_entry,
    reread,
)
from scantling.piece.language.edits import child_or_none, node_at
from scantling.piece.language.phrases import Within
from scantling.piece.language.tree import read_tree

_KEYS = {"method": "with"}  # what a check calls it, and what a joint line does


@dataclass(frozen=True, slots=True)
class Mending:
    """One change of a mend: a named size; with `place`, the key `name` of the entry that stands there."""

    name: str
    to: str
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class _Aim:
    file: str
    path: Steps
    to: str


def mend(question: Question, changes: Sequence[Mending]) -> Write:
    """All changes of a mend written; sizes of a followed file are written over in the own one.

    Raises ReadError for a size or an entry that is not there, or one inside a kit that nobody edits.
    """
    document = question.document
    aims = [_aim(document, change) for change in changes]
    texts: dict[str, str] = {}
    told_of = []
    for aim in aims:
        text = texts.get(aim.file, document.files[aim.file].text)
        was = child_or_none(read_tree(text, aim.file), aim.path)
        texts[aim.file] = _put(question, text, aim)
        told_of.append(said(aim.path, was.text if isinstance(was, Scalar) else "", aim.to))
    reread(document, texts)
    sizes = tuple(change.name for change in changes if change.place is None)
    return Write(tuple(texts.items()), "; ".join(told_of), freed=sizes)


def _aim(document: Document, change: Mending) -> _Aim:
    if change.place is None:
        path = size_path(change.name)
        scalar = child_or_none(document.root, path)
        if not isinstance(scalar, Scalar):
            raise ReadError(f'no size is called "{change.name}"')
        return _Aim(document.file, path, _within(scalar, change.to))
    file = document.files.get(change.place.file)
    if file is None or file.of_house:
        raise ReadError("a kit that comes with Scantling is not changed", change.place, "open the kit first")
    entries = _entries_path(file, change.place)
    key = _KEYS.get(change.name, change.name)
    _refuse_inside_kit(file, entries, key, change.place)
    return _Aim(file.file, (*entries, key), change.to)


def _refuse_inside_kit(file: Document, entries: Steps, key: str, place: Place) -> None:
    """A joint of a kit is told of at its use, which can say the kit's settings alone."""
    use = child_or_none(file.own, entries)
    kit = use.get("kit") if isinstance(use, MappingNode) else None
    if isinstance(kit, Scalar) and key not in (one.name for one in kit_settings(file, kit.text)):
        raise ReadError(f"`{key}` of this stands inside the kit `{kit.text}`", place, "open the kit first")


def _within(scalar: Scalar, to: str) -> str:
    """The new value with the range the size had."""
    size = parse_size(scalar)
    if not isinstance(size, Within) or " within " in to:
        return to
    return to + scalar.text[scalar.text.index(" within ") :]


def _entries_path(file: Document, place: Place) -> Steps:
    """The entries that begin at a place, or those that the key there names."""
    try:
        path = steps_to(file, place)
    except ReadError:
        return steps_to_entries(file, place)
    return path if isinstance(child_or_none(file.own, path), MappingNode) else path[:-1]


def _put(question: Question, text: str, aim: _Aim) -> str:
    """The words put where they belong; a range they lie outside of is dropped."""
    node = child_or_none(read_tree(text, aim.file), aim.path)
    if aim.path[-1] == "after" and node is not None:
        return _also_after(text, aim, node)
    changed = put_words(text, aim.file, aim.path, aim.to)
    entries = node_at(read_tree(changed, aim.file), aim.path[:-1])
    if aim.path[-1] == "with" and isinstance(entries, MappingNode) and "wants" in entries:
        changed = remove_entry(changed, aim.file, (*aim.path[:-1], "wants"))
    if " within " in aim.to and not _stands(question, aim, changed):
        return put_words(text, aim.file, aim.path, aim.to.partition(" within ")[0])
    return changed


def _also_after(text: str, aim: _Aim, node: Node) -> str:
    """One more movement that comes before."""
    if isinstance(node, SequenceNode):
        return add_item(text, aim.file, aim.path, aim.to)
    assert isinstance(node, Scalar)
    both = f"[{quoted(node.text)}, {quoted(aim.to)}]"
    return f"{text[: node.raw[0]]}{both}{text[node.raw[1] :]}"


def _stands(question: Question, aim: _Aim, text: str) -> bool:
    name = " ".join(aim.path) if aim.path[0] == "overall" else aim.path[-1]
    try:
        question.after(Write(((aim.file, text),), told(aim.path), freed=(name,)))
    except ReadError:
        return False
    return True
