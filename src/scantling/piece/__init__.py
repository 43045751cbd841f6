"""What is built: the language makers write it in, the model it becomes, and `resolve` between them.

Knows words, boxes and joints by name; knows no shop, no tool and no strength.
Gives `read_piece`, `read_record` and `resolve`; the model stands in `scantling.piece.model`.
"""

from scantling.piece.facts import NO_FACTS, ShopFacts
from scantling.piece.language import Document, read_piece, read_piece_text, read_record, read_record_text
from scantling.piece.model import NO_RECORD, BuildRecord, Piece
from scantling.piece.resolve import resolve

__all__ = [
    "NO_FACTS",
    "NO_RECORD",
    "BuildRecord",
    "Document",
    "Piece",
    "ShopFacts",
    "read_piece",
    "read_piece_text",
    "read_record",
    "read_record_text",
    "resolve",
]
