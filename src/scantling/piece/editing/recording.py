"""Edits of a build record: what was measured and done on one piece, in the file beside it."""

from __future__ import annotations

from scantling.errors import ReadError
from scantling.piece.editing.naming import put_words, quoted
from scantling.piece.editing.writes import Steps, Write
from scantling.piece.language import Scalar, read_record_text, remove_entry
from scantling.piece.language.edits import child_or_none
from scantling.piece.language.tree import read_tree
from scantling.piece.model import Axis

FILE = "build.yaml"


def set_record_entry(text: str, piece_name: str, part: str, key: str, words: str, file: str = FILE) -> Write:
    """One key of a part in the record of a piece; the record is begun where `text` is empty.

    The part keeps the name it has in the record, in whatever order its words stand there.
    Raises ReadError for words the record does not know.
    """
    return set_record_words(text, piece_name, (part, key), words, file)


def set_record_words(text: str, piece_name: str, path: Steps, words: str, file: str = FILE) -> Write:
    """Any words of the record by the names that lead to them. Raises ReadError."""
    begun = text if text.strip() else f"build: {quoted(piece_name)}\n"
    path = (_name_in(begun, file, path[0]), *path[1:])
    was = child_or_none(read_tree(begun, file), path)
    changed = put_words(begun, file, path, words)
    read_record_text(changed, file)
    return Write(((file, changed),), _said(path, was.text if isinstance(was, Scalar) else "", words))


def record_size(text: str, piece_name: str, part: str, axis: Axis, words: str, file: str = FILE) -> Write:
    """A measured size, between shoulders: `2 11/16`, `29 mm`. Raises ReadError."""
    return set_record_entry(text, piece_name, part, axis.word, words, file)


def mark_cut(text: str, piece_name: str, part: str, file: str = FILE) -> Write:
    """The part is cut and no longer changes. Raises ReadError."""
    return set_record_entry(text, piece_name, part, "cut", "done", file)


def clear_record_entry(text: str, part: str, key: str, file: str = FILE) -> Write:
    """One key of a part taken out of the record, and the part with its last one. Raises ReadError."""
    name = _name_in(text, file, part)
    node = child_or_none(read_tree(text, file), (name,))
    alone = node is not None and not isinstance(node, Scalar) and len(node) == 1
    changed = remove_entry(text, file, (name,) if alone else (name, key))
    read_record_text(changed, file)
    return Write(((file, changed),), f"{name}: {key} is taken out of the record")


def _name_in(text: str, file: str, part: str) -> str:
    """The name a part goes by in the record: `foot post left` for `left foot post`."""
    words = sorted(part.lower().split())
    root = read_tree(text, file)
    if not words:
        raise ReadError("the record wants the name of a part", root.place)
    return next((e.name for e in root.entries if sorted(e.name.split()) == words), " ".join(part.split()))


def _said(path: Steps, was: str, new: str) -> str:
    name = ", ".join(path)
    now = f'"{was}" is now "{new}"' if was else f'"{new}" is written'
    return f"{name}: {now} in the record"
