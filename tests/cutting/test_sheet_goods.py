"""The same piece in sheet goods, where its maker named a sheet among the materials."""

from __future__ import annotations

from scantling.cutting import cut_plan, routes, verify, with_sheets
from scantling.joinery import machine_piece
from scantling.piece import read_piece_text, resolve
from scantling.piece.model import MaterialKind
from scantling.shop import facts_of

SHELF = """piece: shelf
units: mm
overall: {wide: 800, deep: 250, high: 20}
materials: {board: cherry 19 or birch plywood 18}
parts: {shelf: {of: board, wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}}
"""


def _job(make, text: str):
    document = read_piece_text(text, "shelf.yaml")
    shop = make.shop(*(make.board(f"W{i}") for i in range(3)), make.sheet())
    return document, shop, machine_piece(resolve(document, facts_of(shop)), shop)


def test_what_may_be_a_sheet_becomes_one(make) -> None:
    document, shop, machined = _job(make, SHELF)
    sheeted = with_sheets(machined.piece, document, shop, {})
    assert sheeted is not None
    assert sheeted.parts[0].part.material.kind is MaterialKind.SHEET
    *_, last = routes(machined, shop, sheeted, seconds=0.1)
    assert last.name == "sheet goods"
    assert [layout.stock for layout in last.plan.layouts] == ["ply"]
    assert verify(last.plan, sheeted, shop) == ()
    assert cut_plan(machined, shop).layouts != last.plan.layouts


def test_nothing_that_may_be_a_sheet(make) -> None:
    document, shop, machined = _job(make, SHELF.replace(" or birch plywood 18", ""))
    assert with_sheets(machined.piece, document, shop, {}) is None
