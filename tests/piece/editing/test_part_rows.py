"""The rows of one part: spans with what they come to, keys, work, joints and fittings."""

from __future__ import annotations

import pickle

import pytest

from scantling.errors import ReadError
from scantling.piece import resolve
from scantling.piece.editing import Question, Stands, part_rows
from scantling.quantity.kinds import Kind


def test_a_copy_shows_the_one_definition_behind_it(pieces):
    rows = part_rows(Question(pieces["sewing-desk"]), "right back leg")
    assert (rows.path, rows.file, rows.use) == (("parts", "leg"), "sewing-desk.yaml", ())
    assert rows.copies == ("right back leg", "left front leg", "right front leg", "left back leg")
    wide, deep, _high = rows.spans
    assert (wide.axis, wide.words.text) == ("wide", "leg size inward from left + overhang")
    # source: by hand, 38 wide less 1/2 overhang less 1 5/8
    assert (wide.low, wide.high, wide.size) == pytest.approx((35.875 * 25.4, 37.5 * 25.4, 1.625 * 25.4))
    assert deep.path == ("parts", "leg", "deep")
    assert [(row.name, row.words.text) for row in rows.keys] == [
        ("copies", "four corners"),
        ("built, layers", "2"),
        ("built, stacked", "wide"),
    ]
    assert [(row.path[2:], row.name, row.words.text) for row in rows.work] == [
        (("work", "1", "chamfer"), "work 1, chamfer", "bottom"),
        (("work", "1", "size"), "work 1, size", "1/8"),
    ]
    assert "taper" in rows.unsaid
    assert "copies" not in rows.unsaid
    assert pickle.loads(pickle.dumps(rows)) == rows


def test_its_joints_and_fittings_are_lines_of_the_file(pieces):
    rows = part_rows(Question(pieces["sewing-desk"]), "left side panel")
    assert [(line.path, line.file) for line in rows.joints] == [
        (("joints", str(number)), "sewing-desk.yaml") for number in (1, 4, 5, 7, 8)
    ]
    first = rows.joints[0]
    assert first.what == (
        "left side panel to left front leg: dowels",
        "left side panel to left back leg: dowels",
    )
    assert [(key.path, key.name, key.words.text) for key in first.keys][:2] == [
        (("joints", "1", "join"), "join", "side panel"),
        (("joints", "1", "to"), "to", "leg"),
    ]
    stay = part_rows(Question(pieces["sewing-desk"]), "right side panel").hardware
    assert [(line.path, line.what) for line in stay] == [(("hardware", "stay"), ("stay: lid stay",))]


def test_formulas_tell_what_they_come_to(pieces):
    bench = part_rows(Question(pieces["hall-bench"]), "left front leg")
    values = {row.name: (row.value, row.kind) for row in bench.keys}
    assert values["taper, to"] == (pytest.approx(25.4), Kind.LENGTH)
    assert values["taper, start"] == (None, None), "a place is no size"
    assert values["copies"] == (None, None)
    stool = {r.name: r for r in part_rows(Question(pieces["four-legged-stool"]), "left front leg").keys}
    assert (stool["foot, left"].value, stool["foot, left"].kind) == (pytest.approx(9), Kind.ANGLE)
    slat = {row.name: row for row in part_rows(Question(pieces["bookcase"]), "bay 1 shelf 1").keys}
    assert (slat["copies, every"].value, slat["copies, count"].value) == (pytest.approx(280), None)


def test_a_line_of_a_refit_goes_by_its_own_file(pieces):
    rows = part_rows(Question(pieces["sewing-desk-refit"]), "left front leg")
    assert [(line.file, line.path) for line in rows.joints] == [
        ("sewing-desk.yaml", ("joints", "8")),
        ("sewing-desk-refit.yaml", ("joints", "1")),
    ]
    assert rows.spans[0].words.stands is Stands.FOLLOWED


def test_a_part_of_a_kit_shows_the_kit_and_its_use(pieces):
    rows = part_rows(Question(pieces["chest-of-drawers"]), "drawer 3 left side")
    assert (rows.path, rows.file) == (("parts", "side"), "kits/drawer.yaml")
    assert rows.use == ("parts", "drawer")
    assert rows.spans[0].words.stands is Stands.HOUSE
    assert rows.joints[0].path == ("parts", "drawer")


def test_a_part_that_fills_its_space_has_spans_without_words(pieces):
    rows = part_rows(Question(pieces["bookcase"]), "middle shelf")
    assert [span.words for span in rows.spans] == [None, None, None]
    assert rows.spans[0].size == pytest.approx(764)


def test_every_part_of_every_example_has_rows(pieces):
    for document in pieces.values():
        piece = resolve(document)
        one_of_each = {part.definition: part for part in piece.parts}
        for part in one_of_each.values():
            rows = part_rows(Question(document), part.name)
            assert sorted(span.size for span in rows.spans) == pytest.approx(sorted(part.box.sizes))
            alike = [other.name for other in piece.parts if other.definition == part.definition]
            assert sorted(rows.copies) == sorted(alike)
    with pytest.raises(ReadError, match='no part called "x"'):
        part_rows(Question(document), "x")
