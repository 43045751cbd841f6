"""The same question is worked out once; any other document, facts, record or setting is another question."""

from scantling.piece import NO_FACTS, NO_RECORD, read_piece_text, read_record_text, resolve
from scantling.piece.facts import SheetFact, ShopFacts

TEXT = """piece: small
units: mm
overall: {wide: 600, deep: 400, high: 700}
materials: {ply: birch plywood 18}
parts: {side: {wide: thick right from left, deep: front to back, high: bottom to top, grain: high}}
"""
# source: by hand; as marked, and as this shop measures it
MEASURED = ShopFacts(sheets=(SheetFact("birch plywood", 18, 17.6),))


def thick(piece):
    return round(piece.part("side").box.sizes[0], 3)


def test_asked_twice_the_answer_is_the_same_object():
    document = read_piece_text(TEXT, "small.yaml")
    first = resolve(document, settings={"overall wide": "500", "overall high": "600"})
    assert resolve(document, settings={"overall high": "600", "overall wide": "500"}) is first
    again = ShopFacts(sheets=(SheetFact("birch plywood", 18, 17.6),))
    assert resolve(document, again) is resolve(document, MEASURED)


def test_another_question_is_worked_out():
    document = read_piece_text(TEXT, "small.yaml")
    record = read_record_text("build: one\nside: {wide: 17 mm}\n", "one.build.yaml")
    assert thick(resolve(document, NO_FACTS)) == 18
    assert thick(resolve(document, MEASURED)) == 17.6
    assert thick(resolve(document, MEASURED, record)) == 17
    assert thick(resolve(document, MEASURED, NO_RECORD, {"ply": "birch plywood 12"})) == 12
    edited = read_piece_text(TEXT.replace("thick", "2 * thick"), "small.yaml")
    assert thick(resolve(edited, MEASURED)) == 35.2
