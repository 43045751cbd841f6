"""A JSON Schema of piece files, so that editors can offer and check keys.

Run as `python -m scantling.piece.language.schema` to print it.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from scantling.piece.language.keys import PART, PIECE_TABLES, TOP
from scantling.piece.language.kinds_of_value import (
    Either,
    Entries,
    Key,
    ListOf,
    Named,
    OneOrMore,
    Phrase,
    Table,
    Value,
    Word,
)

Schema = dict[str, Any]
_WORDS: Schema = {"type": ["string", "number"]}


def editor_schema() -> Schema:
    """The schema as plain data: JSON Schema, draft 2020-12."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Scantling piece file",
        "$ref": f"#/$defs/{TOP.name}",
        "$defs": {table.name: _of_table(table) for table in PIECE_TABLES},
    }


def _of_table(table: Table) -> Schema:
    schema: Schema = {
        "description": table.about,
        "type": "object",
        "properties": {key.name: _of_key(key) for key in table.keys},
        "required": list(table.needs),
    }
    if table is PART:
        # a kit's settings are keys of its own
        return {
            **schema,
            "if": {"required": ["kit"]},
            "else": {"propertyNames": {"enum": list(table.by_name)}},
        }
    return {**schema, "additionalProperties": _of(table.rest.value) if table.rest else False}


def _of_key(key: Key) -> Schema:
    return {**_of(key.value), "description": key.help}


def _of(value: Value) -> Schema:
    match value:
        case Phrase():
            return {**_WORDS, "examples": [value.example]}
        case Word():
            return {"enum": list(value.words)}
        case ListOf():
            return {"type": "array", "items": _of(value.item)}
        case OneOrMore():
            return {"anyOf": [_of(value.item), {"type": "array", "items": _of(value.item)}]}
        case Entries():
            return {"$ref": f"#/$defs/{value.table}"}
        case Named():
            return {"type": "object", "additionalProperties": _of(value.value)}
        case Either():
            shapes = (value.words, value.list, value.entries)
            return {"anyOf": [_of(shape) for shape in shapes if shape is not None]}


def main() -> None:
    """Print the schema."""
    sys.stdout.write(json.dumps(editor_schema(), indent=2, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
