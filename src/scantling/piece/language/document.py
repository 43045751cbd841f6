"""A file as read: a tree of nodes that remember their places. No meaning yet.

`Document.root` is the merged tree (the file over what it follows); every scalar keeps the place and the
unit of the file it was written in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from scantling.errors import Place, ReadError
from scantling.piece.language.expressions import Words
from scantling.quantity.kinds import LengthUnit


@dataclass(frozen=True, slots=True)
class Scalar:
    """Words as text. `place` is where the first character of `text` stands and how much room the words
    take there; `unit` is that of bare numbers in its file.

    `breaks`: for words that do not stand in one run (quotes with escapes, several lines), the runs as
    (offset in text, line, character); empty for the usual plain words. `raw`: first and last+1 character
    of the file's text that the scalar takes, quotes included.
    """

    text: str
    place: Place
    unit: LengthUnit = LengthUnit.INCHES
    breaks: tuple[tuple[int, int, int], ...] = ()
    raw: tuple[int, int] = (0, 0)

    def place_at(self, offset: int, length: int = 1) -> Place:
        """Where the character `offset` of the text stands in the file."""
        if not self.breaks:
            return self.place.moved(offset, length)
        start, line, character = [run for run in self.breaks if run[0] <= offset][-1]
        return Place(self.place.file, line, character + offset - start, length)

    def place_of(self, words: Words) -> Place:
        """Where a phrase parsed from this scalar stands in the file."""
        return self.place_at(words.offset, words.length)


@dataclass(frozen=True, slots=True)
class Entry:
    key: Scalar
    value: Node

    @property
    def name(self) -> str:
        """The key as a name: lower case, single spaces."""
        return as_name(self.key.text)


@lru_cache(maxsize=5000)
def as_name(text: str) -> str:
    """Words as a name: lower case, single spaces."""
    return " ".join(text.lower().split())


@dataclass(frozen=True, slots=True)
class MappingNode:
    """Entries in order of writing; `get` and `in` go by name (capitals and spaces do not matter).

    `flow`: written in braces; `raw` as of a Scalar, its end exact only for those.
    """

    entries: tuple[Entry, ...]
    place: Place
    by_name: Mapping[str, Entry] = field(default_factory=dict, compare=False, repr=False)
    raw: tuple[int, int] = (0, 0)
    flow: bool = False

    @staticmethod
    def of(entries: tuple[Entry, ...], place: Place) -> MappingNode:
        return MappingNode(entries, place, {entry.name: entry for entry in entries})

    def get(self, name: str) -> Node | None:
        entry = self.by_name.get(name)
        return entry.value if entry else None

    def entry(self, name: str) -> Entry | None:
        return self.by_name.get(name)

    def __contains__(self, name: object) -> bool:
        return name in self.by_name

    def __iter__(self) -> Iterator[Entry]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)


@dataclass(frozen=True, slots=True)
class SequenceNode:
    """Items in order; `flow`: written in brackets; `raw` as of a MappingNode."""

    items: tuple[Node, ...]
    place: Place
    raw: tuple[int, int] = (0, 0)
    flow: bool = False

    def __iter__(self) -> Iterator[Node]:
        return iter(self.items)

    def __len__(self) -> int:
        return len(self.items)


Node = Scalar | MappingNode | SequenceNode


@dataclass(frozen=True)
class Document:
    """One piece, style or kit file, ready for `resolve`.

    `root`: the merged tree. `own`: this file's tree alone. `file`: its name. `unit`: of its bare numbers.
    `follows`: the files it starts from, nearest first (each itself merged).
    `kits`: every kit that the file or a followed one names, or a `kit:` key of the merged tree, by name.
    `left_out`: names of the followed file that `leave out` dropped; joint lines that name only these drop
    out. `text`: the file's characters; `path` where it lies, None for text and for kits of the house.
    `of_house`: a kit that comes with Scantling, which no maker edits.
    """

    root: MappingNode
    own: MappingNode
    file: str
    unit: LengthUnit
    text: str = ""
    follows: tuple[Document, ...] = ()
    kits: Mapping[str, Document] = field(default_factory=dict)
    left_out: tuple[str, ...] = ()
    path: Path | None = None
    of_house: bool = False

    def get(self, name: str) -> Node | None:
        return self.root.get(name)

    @property
    def files(self) -> dict[str, Document]:
        """The file, all it follows and every kit, by their names in places."""
        found = {self.file: self}
        for other in (*self.follows, *self.kits.values()):
            if other.file not in found:
                found |= {name: one for name, one in other.files.items() if name not in found}
        return found


def as_scalar(node: Node, what: str, remedy: str = "") -> Scalar:
    """The node, if it is plain words; else a ReadError saying that `what` wants words."""
    if isinstance(node, Scalar):
        return node
    raise ReadError(f"{what} wants a few words, not {_shape(node)}", node.place, remedy)


def as_mapping(node: Node, what: str) -> MappingNode:
    """The node, if it has `key: value` entries; else a ReadError saying that `what` wants them."""
    if isinstance(node, MappingNode):
        return node
    message = f"{what} wants `key: phrase` entries, not {_shape(node)}"
    raise ReadError(message, node.place, "write `{key: phrase}`")


def as_sequence(node: Node, what: str, remedy: str = "write `[one, two]`") -> SequenceNode:
    """The node, if it is a list; else a ReadError saying that `what` wants one."""
    if isinstance(node, SequenceNode):
        return node
    raise ReadError(f"{what} wants a list, not {_shape(node)}", node.place, remedy)


def items_of(node: Node) -> tuple[Node, ...]:
    """A list's items; a single value stands for a list of one."""
    return node.items if isinstance(node, SequenceNode) else (node,)


def _shape(node: Node) -> str:
    if isinstance(node, Scalar):
        return f'"{node.text.strip()[:60]}"'
    return "a list" if isinstance(node, SequenceNode) else "entries"
