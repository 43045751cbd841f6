"""Words of a maker's files by the names that lead to them; changing them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from scantling.errors import Conflict, Place, ReadError
from scantling.piece.editing.writes import Steps, Write
from scantling.piece.language import (
    Document,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    add_entry,
    as_scalar,
    read_tree,
    replace_scalar,
)
from scantling.piece.language.checking import check_entries
from scantling.piece.language.edits import child_or_none, flattened, node_at
from scantling.piece.language.keys import RECORD, TOP
from scantling.quantity import LengthUnit


class Stands(Enum):
    """The file some words stand in, as seen from a piece."""

    OWN = "own"
    FOLLOWED = "followed"
    KIT = "kit"
    HOUSE = "house"  # a kit that comes with Scantling, which nobody edits


@dataclass(frozen=True, slots=True)
class Words:
    """Words as they stand in a file. `steps` leads to them in that file's own text."""

    file: str
    steps: Steps
    text: str
    place: Place
    unit: LengthUnit
    stands: Stands

    @property
    def editable(self) -> bool:
        return self.stands is not Stands.HOUSE


def words_at(document: Document, path: Steps) -> Words:
    """The words under the names `path` of the whole piece, what it follows included.

    Raises ReadError if no words stand there.
    """
    return words_of(document, as_scalar(node_at(document.root, path), told(path)))


def words_of(document: Document, scalar: Scalar) -> Words:
    """Where a scalar of a piece stands."""
    file = document.files[scalar.place.file]
    return Words(
        file.file,
        steps_to(file, scalar.place),
        scalar.text,
        scalar.place,
        scalar.unit,
        stands(document, file),
    )


def stands(document: Document, file: Document) -> Stands:
    """What a file is to a piece."""
    if file.of_house:
        return Stands.HOUSE
    if file.file == document.file:
        return Stands.OWN
    return Stands.FOLLOWED if any(one.file == file.file for one in document.follows) else Stands.KIT


def steps_to(file: Document, place: Place) -> Steps:
    """The names that lead to the words that begin at a place of a file. Raises ReadError."""
    for found in flattened(file.own):
        if found.scalar.place == place:
            return found.names
    raise ReadError("no words begin here", place)


def steps_to_entries(file: Document, place: Place) -> Steps:
    """The names that lead to the entries (a joint line, a part) that begin at a place. Raises ReadError."""
    found = _entries_at(file.own, place, ())
    if found is None:
        raise ReadError("no entries begin here", place)
    return found


def _entries_at(node: Node, place: Place, steps: Steps) -> Steps | None:
    """The innermost: in a file of lines a part begins where its first key does."""
    if isinstance(node, Scalar):
        return None
    inner = (
        [(str(number), item) for number, item in enumerate(node.items, 1)]
        if isinstance(node, SequenceNode)
        else [(entry.name, entry.value) for entry in node.entries]
    )
    for name, value in inner:
        found = _entries_at(value, place, (*steps, name))
        if found is not None:
            return found
    same = (node.place.line, node.place.character) == (place.line, place.character)
    return steps if same and isinstance(node, MappingNode) else None


def change_words(text: str, file: str, path: Steps, was: str, new: str) -> Write:
    """`text` with the words under `path` changed from `was` to `new`, and nothing else.

    Raises
    ------
    Conflict
        Other words stand there by now, or none.
    ReadError
        The new words cannot be read where they stand; the place is in the new text, at the character.
    """
    node = child_or_none(read_tree(text, file), path)
    now = node.text if isinstance(node, Scalar) else ""
    if not isinstance(node, Scalar) or " ".join(now.split()) != " ".join(was.split()):
        raise Conflict(now, was, new)
    changed = replace_scalar(text, node.place, new)
    check_readable(text, changed, file, replace(node.place, length=len(new)))
    return Write(((file, changed),), said(path, now, new), freed=freed(path))


def check_readable(before: str, after: str, file: str, place: Place) -> None:
    """Raise the ReadError of a changed text, unless it was there before, outside the words at `place`."""
    error = _trouble(after, file)
    if error is None:
        return
    earlier = _trouble(before, file)
    at = error.place
    inside = at is not None and at.line == place.line and 0 <= at.character - place.character <= place.length
    if earlier is None or inside or earlier.message != error.message:
        raise error


def _trouble(text: str, file: str) -> ReadError | None:
    try:
        root = read_tree(text, file)
        table, what = (RECORD, "the record") if "build" in root else (TOP, "the file")
        check_entries(root, table, what)
    except ReadError as error:
        return error
    return None


def put_words(text: str, file: str, path: Steps, value: str) -> str:
    """`text` with `value` under the names `path`. Raises ReadError where it cannot stand.

    A section that is missing is added, in the order of the language.
    """
    root = read_tree(text, file)
    depth = next(d for d in range(len(path), -1, -1) if child_or_none(root, path[:d]) is not None)
    node = node_at(root, path[:depth])
    if isinstance(node, Scalar):
        if depth < len(path):
            raise ReadError(f"{told(path[:depth])} says `{node.text}`, and has no {path[depth]}", node.place)
        return replace_scalar(text, node.place, value)
    if depth == len(path):
        raise ReadError(f"{told(path)} is not a few words", node.place, "change it in the text")
    key, inner = path[depth], path[depth + 1 :]
    after = section_before(root, key) if depth == 0 else None
    return add_entry(text, file, path[:depth], key, in_braces(inner, value), after)


def section_before(root: MappingNode, key: str) -> str | None:
    """The section of a file after which a new one stands, by the order of the language."""
    order = [known.name for known in TOP.keys]
    earlier = order[: order.index(key)] if key in order else []
    return next((entry.name for entry in reversed(root.entries) if entry.name in earlier), None)


def in_braces(names: Steps, value: str) -> str:
    """`value` under those names: `{leg: {wide: 3}}`."""
    if not names:
        return value
    inner = quoted(value) if len(names) == 1 else in_braces(names[1:], value)
    return f"{{{names[0]}: {inner}}}"


def quoted(words: str) -> str:
    """Words as they may stand between braces: in quotes only where they must be."""
    if words[:1] in ("{", "["):
        return words
    plain = not any(sign in words for sign in ',[]{}#"') and ": " not in words
    if plain and words.strip() == words and words[:1] not in "&*!|>%@`'-?:" and words[-1:] != ":":
        return words
    doubled = words.replace("'", "''")
    return f"'{doubled}'"


def told(path: Steps) -> str:
    """A path as a maker is told it: `leg, wide`, `overall wide`, `line 3 of joints`."""
    if path[:1] == ("overall",):
        return " ".join(path)
    if len(path) > 1 and path[1].isdigit():
        return ", ".join((f"line {path[1]} of {path[0]}", *path[2:]))
    inner = path[1:] if len(path) > 1 else path
    return ", ".join(name for name in inner if name != "parts") or "the file"


def said(path: Steps, was: str, new: str) -> str:
    """What a change of words is called; `was` is empty where nothing was written."""
    if not was:
        return f'{told(path)}: "{new}" is written'
    return f'{told(path)}: "{was}" is now "{new}"'


def freed(path: Steps) -> Steps:
    """The size, choice or material whose words a change at `path` replaces."""
    if len(path) == 2 and path[0] == "overall":
        return (" ".join(path),)
    return (path[1],) if len(path) == 2 and path[0] in ("sizes", "choices", "materials") else ()
