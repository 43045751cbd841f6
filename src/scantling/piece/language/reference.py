"""The reference page of the piece language, written from the tables the reader uses.

Run as `python -m scantling.piece.language.reference` to print it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from scantling.piece.language.expressions import DIRECTIONS, PLACE_WORDS, RESERVED, SIZE_WORDS
from scantling.piece.language.keys import BOARD_CUT, MEASURED, PART, PIECE_TABLES, RECORD
from scantling.piece.language.kinds_of_value import (
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

_RECORD_TABLES = (RECORD, MEASURED, BOARD_CUT)
_OPENING = """\
# Keys of a piece file

Written from the tables the reader itself uses; do not edit by hand.
A phrase is a few words in the language of pieces. A name is plain words with spaces; capitals do not matter.
"""


def reference_page() -> str:
    """The whole page, in Markdown."""
    sections = [
        _OPENING,
        *(_section(table) for table in (*PIECE_TABLES, *_RECORD_TABLES)),
        _words(),
        _phrases(),
    ]
    return "\n".join(sections)


def _section(table: Table) -> str:
    rows = [f"| `{key.name}` | {_shown(key.value)} | {key.help} |" for key in table.keys]
    if table.rest is not None:
        rows.append(f"| *any name* | {_shown(table.rest.value)} | the name of a {table.rest.of} |")
    if table is PART:
        rows.append("| *a setting's name* | phrase | beside `kit`: a setting of that kit |")
    head = f"## {table.name[0].upper()}{table.name[1:]}\n\n{table.about[0].upper()}{table.about[1:]}.\n"
    return "\n".join((head, "| key | holds | meaning |", "|---|---|---|", *rows, ""))


def _shown(value: Value) -> str:
    match value:
        case Phrase():
            return value.name
        case Word():
            return ", ".join(f"`{word}`" for word in value.words)
        case ListOf():
            return f"list of {_shown(value.item)}"
        case OneOrMore():
            return f"{_shown(value.item)}, or a list"
        case Entries():
            return f"[{value.table}](#{value.table.replace(' ', '-')})"
        case Named():
            return f"by name: {_shown(value.value)}"
        case Either():
            shapes = (value.words, value.list, value.entries)
            return " or ".join(_shown(shape) for shape in shapes if shape is not None)


def _words() -> str:
    lists = (
        ("Places", PLACE_WORDS),
        ("Sizes", SIZE_WORDS),
        ("Directions", DIRECTIONS),
        ("May not stand in a name", RESERVED),
    )
    rows = [f"| {title} | {', '.join(f'`{word}`' for word in sorted(words))} |" for title, words in lists]
    return "\n".join(("## Words\n", "| | words |", "|---|---|", *rows, ""))


def _phrases() -> str:
    found = {
        phrase.name: phrase
        for table in (*PIECE_TABLES, *_RECORD_TABLES)
        for key in table.keys
        for phrase in _inside(key.value)
    }
    rows = [f"| {name} | `{found[name].example}` |" for name in sorted(found)]
    return "\n".join(("## Phrases\n", "| phrase | example |", "|---|---|", *rows, ""))


def _inside(value: Value | None) -> Iterator[Phrase]:
    match value:
        case Phrase():
            yield value
        case ListOf() | OneOrMore():
            yield from _inside(value.item)
        case Named():
            yield from _inside(value.value)
        case Either():
            for shape in (value.words, value.list, value.entries):
                yield from _inside(shape)
        case _:
            return


def main() -> None:
    """Print the page."""
    sys.stdout.write(reference_page())


if __name__ == "__main__":
    main()
