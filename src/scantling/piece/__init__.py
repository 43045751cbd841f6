"""What is built: the language makers write it in, the model it becomes, and `resolve` between them.

Knows words, boxes and joints by name; knows no shop, no tool and no strength.
Gives `read_piece`, `read_record`, `resolve` and edits of one scalar; the model stands in `piece.model`.
"""

from scantling.piece.facts import NO_FACTS, ShopFacts
from scantling.piece.language import (
    Document,
    house_kit_names,
    read_piece,
    read_piece_text,
    read_record,
    read_record_text,
)
from scantling.piece.language.edits import add_entry, add_item, changed_elsewhere, replace_scalar
from scantling.piece.model import NO_RECORD, BuildRecord, Piece
from scantling.piece.resolve import range_notices, resolve

__all__ = [
    "NO_FACTS",
    "NO_RECORD",
    "BuildRecord",
    "Document",
    "Piece",
    "ShopFacts",
    "add_entry",
    "add_item",
    "changed_elsewhere",
    "house_kit_names",
    "range_notices",
    "read_piece",
    "read_piece_text",
    "read_record",
    "read_record_text",
    "replace_scalar",
    "resolve",
]
