"""Hold a tree against the tables of keys: unknown keys, wrong shapes and unreadable phrases are errors."""

from __future__ import annotations

from difflib import get_close_matches

from scantling.errors import ReadError
from scantling.piece.language.document import (
    Entry,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    as_mapping,
    as_name,
    as_scalar,
    as_sequence,
    items_of,
)
from scantling.piece.language.expressions import OWN_WORDS, PLACE_WORDS
from scantling.piece.language.habits import key_meant
from scantling.piece.language.keys import PART, TABLES
from scantling.piece.language.kinds_of_value import (
    FORMULA,
    SIZE,
    SPAN,
    Either,
    Entries,
    ListOf,
    Named,
    OneOrMore,
    Phrase,
    Table,
    Value,
    Word,
)
from scantling.piece.language.parse import parse_name
from scantling.piece.language.part_keys import KEYS_OF_A_USE
from scantling.piece.language.placing import WISHES
from scantling.piece.language.slips import CLOSE_UP

_TAKEN = frozenset((*PLACE_WORDS, *OWN_WORDS, *WISHES))


def check_entries(node: Node, table: Table, what: str) -> None:
    """Raise ReadError unless `node` holds only keys of `table`, each with a value it may have."""
    mapping = as_mapping(node, what)
    is_use = table is PART and "kit" in mapping
    for entry in mapping.entries:
        key = table.by_name.get(entry.name)
        if is_use and entry.name not in KEYS_OF_A_USE:
            _check_setting(entry)
        elif key is not None:
            check_value(entry.value, key.value, f"`{key.name}`")
        elif table.rest is not None:
            _check_named(entry, table.rest)
        else:
            raise unknown_key(entry.key, tuple(table.by_name), table.name)
    for needed in table.needs:
        if needed not in mapping:
            raise ReadError(f"{_article(table.name)} needs `{needed}`", mapping.place)


def check_value(node: Node, value: Value, what: str) -> None:
    """Raise ReadError unless `node` is such a value."""
    match value:
        case Phrase():
            _check_phrase(node, value, what)
        case Word():
            _check_word(node, value, what)
        case ListOf():
            for item in _sequence(node, what, value).items:
                check_value(item, value.item, what)
        case OneOrMore():
            for item in items_of(node):
                check_value(item, value.item, what)
        case Entries():
            check_entries(node, TABLES[value.table], what)
        case Named():
            for entry in as_mapping(node, what).entries:
                _check_named(entry, value)
        case Either():
            _check_either(node, value, what)


def unknown_key(key: Scalar, known: tuple[str, ...], where: str) -> ReadError:
    """The error for a key that is not known there: nearest spelling, and the list."""
    name = as_name(key.text)
    meant = key_meant(name, known)
    near = [meant] if meant else get_close_matches(name, known, 1, 0.6)
    told = f'nearest: "{near[0]}"' if near else f"known: {', '.join(sorted(known))}"
    return ReadError(f'"{name}" is no key of {_article(where)}', key.place, told)


def _article(where: str) -> str:
    if where in ("top level", "overall", "work", "air", "finish", "hardware", "copies", "built"):
        return f"`{where}`" if where != "top level" else "the top level"
    return f"an {where}" if where[0] in "aeiou" else f"a {where}"


def _check_named(entry: Entry, named: Named) -> None:
    if named.of != "board":  # the shop calls its boards as it likes
        parse_name(entry.key)
    if named.of == "size" and entry.name in _TAKEN:
        raise ReadError(
            f"a size cannot be called `{entry.name}`: the language uses that word",
            entry.key.place,
            "add a word",
        )
    check_value(entry.value, named.value, f'{named.of} "{entry.name}"')


def _check_setting(entry: Entry) -> None:
    """A kit's setting: any phrase; which ones there are is the kit's own to say."""
    parse_name(entry.key)
    as_scalar(entry.value, f"`{entry.name}`", "a kit's setting is one phrase")


def _check_phrase(node: Node, phrase: Phrase, what: str) -> None:
    scalar = _scalar(node, what, phrase)
    if phrase.parse is not None:
        phrase.parse(scalar)


def _check_word(node: Node, word: Word, what: str) -> None:
    scalar = _scalar(node, what, word)
    said = as_name(scalar.text)
    if said not in word.words:
        begun = [known for known in word.words if said.startswith(known)]
        near = begun or get_close_matches(said, word.words, 1, 0.6)
        guess = f'nearest: "{near[0]}"; ' if near else ""
        raise ReadError(
            f'{what} cannot be "{scalar.text}"', scalar.place, f"{guess}known: {', '.join(word.words)}"
        )


def _check_either(node: Node, either: Either, what: str) -> None:
    kind = (
        either.words
        if isinstance(node, Scalar)
        else either.entries
        if isinstance(node, MappingNode)
        else either.list
    )
    if kind is None:
        kind = either.words or either.entries or either.list
    assert kind is not None
    check_value(node, kind, what)


def _scalar(node: Node, what: str, wanted: Phrase | Word) -> Scalar:
    example = wanted.example if isinstance(wanted, Phrase) else wanted.words[0]
    remedy = f"write it as in `{example}`"
    if isinstance(node, SequenceNode) and wanted in (FORMULA, SPAN, SIZE):
        remedy = f"{remedy}; if a minus was meant, {CLOSE_UP}"
    return as_scalar(node, what, remedy)


def _sequence(node: Node, what: str, value: ListOf) -> SequenceNode:
    lines = isinstance(value.item, Entries)
    return as_sequence(node, what, f"write {'`- {key: phrase}` lines' if lines else '`[one, two]`'}")
