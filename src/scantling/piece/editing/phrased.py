"""Every phrase of a piece file with its tree, by walking the same tables of keys that the reader goes by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields

from scantling.errors import ReadError
from scantling.piece.editing.writes import Steps
from scantling.piece.language import Document, MappingNode, Node, Scalar, SequenceNode, parse_size
from scantling.piece.language.document import items_of
from scantling.piece.language.keys import PART, TABLES, TOP
from scantling.piece.language.kinds_of_value import (
    FILE,
    TEXT,
    Either,
    Entries,
    ListOf,
    Named,
    OneOrMore,
    Phrase,
    Table,
    Value,
)
from scantling.piece.language.parse import parse_of
from scantling.piece.language.part_keys import KEYS_OF_A_USE
from scantling.piece.language.phrases import Words


@dataclass(frozen=True, slots=True)
class Phrased:
    """One phrase: where it stands in the merged piece, its scalar, its tree, and the kind it was read as.

    `kind` is what the language calls such a phrase (`span`, `formula`, `name`), or `setting` of a kit.
    """

    path: Steps
    scalar: Scalar
    tree: Words
    kind: str


def phrases_of(document: Document) -> Iterator[Phrased]:
    """Every phrase of the merged piece, in order; free text and file names are none."""
    yield from phrases_under(document.root, TOP, ())


def words_in(tree: object) -> Iterator[Words]:
    """A tree and all that it is made of."""
    if isinstance(tree, Words):
        yield tree
        for field in fields(tree):
            yield from words_in(getattr(tree, field.name))
    elif isinstance(tree, tuple):
        for item in tree:
            yield from words_in(item)


def phrases_under(node: Node, table: Table, path: Steps) -> Iterator[Phrased]:
    """Every phrase of the entries of one table, `path` being the names that lead to them."""
    if not isinstance(node, MappingNode):
        return
    is_use = table is PART and "kit" in node
    for entry in node:
        key = table.by_name.get(entry.name)
        steps = (*path, entry.name)
        if is_use and entry.name not in KEYS_OF_A_USE:
            yield from _setting(entry.value, steps)
        elif key is not None and not (is_use and entry.name == "kit"):
            yield from _of_value(entry.value, key.value, steps)
        elif table.rest is not None:
            yield from _of_value(entry.value, table.rest.value, steps)


def _of_value(node: Node, value: Value, path: Steps) -> Iterator[Phrased]:
    match value:
        case Phrase():
            if isinstance(node, Scalar):
                yield from _phrase(node, value, path)
        case ListOf() | OneOrMore():
            for number, item in enumerate(items_of(node), 1):
                steps = (*path, str(number)) if isinstance(node, SequenceNode) else path
                yield from _of_value(item, value.item, steps)
        case Entries():
            yield from phrases_under(node, TABLES[value.table], path)
        case Named():
            for entry in node if isinstance(node, MappingNode) else ():
                yield from _of_value(entry.value, value.value, (*path, entry.name))
        case Either():
            kind = (
                value.words
                if isinstance(node, Scalar)
                else value.entries
                if isinstance(node, MappingNode)
                else value.list
            )
            if kind is not None:
                yield from _of_value(node, kind, path)


def _phrase(scalar: Scalar, phrase: Phrase, path: Steps) -> Iterator[Phrased]:
    if phrase.parse is None or phrase in (TEXT, FILE):
        return
    tree = phrase.parse(scalar)
    if isinstance(tree, Words):
        yield Phrased(path, scalar, tree, phrase.name)


def _setting(node: Node, path: Steps) -> Iterator[Phrased]:
    """A kit's setting: a size, a choice or a material, which only the kit knows."""
    if not isinstance(node, Scalar):
        return
    for parse in (parse_size, parse_of):
        try:
            tree = parse(node)
        except ReadError:
            continue
        yield Phrased(path, node, tree, "setting")
        return
