"""The same piece with sheet goods wherever its maker named a sheet among the materials."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.joinery import machine_piece
from scantling.joinery.features import MachinedPiece
from scantling.piece import Document, resolve
from scantling.piece.model import BuildRecord, MaterialKind, Piece
from scantling.shop import facts_of
from scantling.shop.model import Shop


def with_sheets(
    piece: Piece, document: Document, shop: Shop, settled: Mapping[str, str]
) -> MachinedPiece | None:
    """The piece of `document` made of sheets where it may be; None where no more of it may be than is now.

    `piece`: as planned. `settled`: the phrases that were settled for it, by name.
    """
    sheets = _sheet_settings(piece, document, shop)
    if not sheets:
        return None
    return machine_piece(resolve(document, facts_of(shop), piece.record, {**settled, **sheets}), shop)


def _sheet_settings(piece: Piece, document: Document, shop: Shop) -> dict[str, str]:
    """For every material that is no sheet and could be: the first sheet named."""
    found: dict[str, str] = {}
    for material in piece.materials:
        others = material.alternatives if material.kind is not MaterialKind.SHEET else ()
        for words in others:
            if _is_sheet(material.name, words, piece.record, document, shop):
                found[material.name] = words
                break
    return found


def _is_sheet(name: str, words: str, record: BuildRecord, document: Document, shop: Shop) -> bool:
    tried = resolve(document, facts_of(shop), record, {name: words})
    return any(m.name == name and m.kind is MaterialKind.SHEET for m in tried.materials)
