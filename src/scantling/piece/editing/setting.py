"""Change a size, take an option, keep what the tool found; here, or in the file that is followed."""

from __future__ import annotations

from enum import Enum

from scantling.errors import Conflict, ReadError
from scantling.piece.editing.naming import (
    change_words,
    check_readable,
    freed,
    put_words,
    said,
    told,
    words_at,
)
from scantling.piece.editing.quantities import quantity_words
from scantling.piece.editing.rows import option_words, size_path
from scantling.piece.editing.writes import Steps, Write
from scantling.piece.language import Document, Scalar, as_scalar, parse_size
from scantling.piece.language.document import as_name
from scantling.piece.language.edits import child_or_none, node_at
from scantling.piece.language.phrases import Within
from scantling.piece.language.tree import read_tree
from scantling.piece.model import NamedSize


class Where(Enum):
    """Where a change of words that stand in a followed file goes."""

    HERE = "here"  # written over them in the piece's own file
    EVERYWHERE = "everywhere"  # changed in the file they stand in


def set_words(document: Document, path: Steps, was: str, new: str, where: Where = Where.HERE) -> Write:
    """The words under `path` of the whole piece changed from `was` to `new`.

    Words of the piece's own file are changed there, wherever `where` points. Those of a followed file are
    written over in the own file, under sections added as they are needed, or changed for all who follow it.

    Raises
    ------
    Conflict
        Other words stand there by now, or none.
    ReadError
        The new words cannot be read, or what is to be written over is an item of a list.
    """
    words = words_at(document, path)
    if not words.editable:
        raise ReadError("a kit that comes with Scantling is not changed", words.place, "open the kit first")
    if words.file == document.file or where is Where.EVERYWHERE:
        return change_words(document.files[words.file].text, words.file, words.steps, was, new)
    if " ".join(words.text.split()) != " ".join(was.split()):
        raise Conflict(words.text, was, new)
    return _over(document, path, was, new)


def _over(document: Document, path: Steps, was: str, new: str) -> Write:
    """The same names in the piece's own file."""
    if any(name.isdigit() for name in path):
        raise ReadError(f"{told(path)} stands in a list of the followed file", None, "change it everywhere")
    changed = put_words(document.text, document.file, path, new)
    written = node_at(read_tree(changed, document.file), path)
    check_readable(document.text, changed, document.file, written.place)
    return Write(((document.file, changed),), said(path, was, new), freed=freed(path))


def choose(document: Document, path: Steps, was: str, option: str, where: Where = Where.HERE) -> Write:
    """An option of a choice or a material taken: it stands first, the others after it in their order.

    An option that is not offered yet is added as the first. Raises as `set_words` does.
    """
    scalar = as_scalar(node_at(document.root, path), told(path))
    others = [one for one in option_words(path, scalar) if as_name(one) != as_name(option)]
    write = set_words(document, path, was, " or ".join((option.strip(), *others)), where)
    return Write(write.files, f"{told(path)}: {option.strip()} is taken", freed=write.freed)


def keep_size(document: Document, size: NamedSize, where: Where = Where.HERE) -> Write:
    """The size the tool found kept: `least within 1 to 3` becomes `1 5/8 within 1 to 3`.

    `size` is that of the piece as settled. Raises ReadError where the tool was given nothing to find.
    """
    path = size_path(size.name)
    scalar = as_scalar(node_at(document.root, path), told(path))
    tree = parse_size(scalar)
    if not isinstance(tree, Within) or tree.wish is None:
        raise ReadError(f"{size.name} is not left to the tool", scalar.place)
    end = scalar.text.index(" within", tree.offset)
    number = quantity_words(size.value, size.kind, scalar.unit)
    write = set_words(document, path, scalar.text, number + scalar.text[end:], where)
    return Write(write.files, f"{size.name}: {number} is kept", freed=write.freed)


def keep_option(document: Document, name: str, taken: str, where: Where = Where.HERE) -> Write:
    """The option the tool took of a choice or material written `any of …`. Raises ReadError, Conflict."""
    for path in (("choices", name), ("materials", name)):
        scalar = child_or_none(document.root, path)
        if isinstance(scalar, Scalar):
            return choose(document, path, scalar.text, taken, where)
    raise ReadError(f'no choice or material is called "{name}"')
