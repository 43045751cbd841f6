"""A kit opened: the piece stays the very same, and its file says all that the kit said."""

from __future__ import annotations

import pytest

from scantling.piece import read_piece, resolve
from scantling.piece.editing import Question, Refused, Write, add_part, open_kit, suggest_kit
from scantling.piece.language import house_kit_names, read_piece_text, reread

BAY = """\
spaces: {bay: {wide: 1 in to 23 in, deep: 1 in to 11 in, high: 2 in to 20 in}}
parts:
  base: {wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}
"""
SPACE = "spaces: {bay: {wide: 1 to 23, deep: 1 to 11, high: 2 to 20}}\n"


def same(document, write):
    assert isinstance(write, Write), write
    before, after = resolve(document), resolve(reread(document, dict(write.files)))
    assert [part.name for part in after.parts] == [part.name for part in before.parts]
    for was, now in zip(before.parts, after.parts, strict=True):
        assert now.box.low == pytest.approx(was.box.low, abs=1e-6)
        assert now.box.high == pytest.approx(was.box.high, abs=1e-6)
        assert (now.material.species, now.grain, now.work, now.shape) == (
            was.material.species,
            was.grain,
            was.work,
            was.shape,
        )
    assert {(j.first, j.second, j.method, j.settings) for j in after.joints} == {
        (j.first, j.second, j.method, j.settings) for j in before.joints
    }
    assert [m.name for m in after.movements] == [m.name for m in before.movements]


@pytest.mark.parametrize(
    ("name", "use"),
    [
        ("sewing-desk", "tray"),
        ("chest-of-drawers", "drawer"),
        ("chest-of-drawers", "frame"),
        ("chest-of-drawers", "bottom frame"),
        ("wall-cabinet", "door"),
    ],
)
def test_the_kits_of_the_examples_open(pieces, name, use):
    document = pieces[name]
    write = open_kit(Question(document), ("parts", use))
    same(document, write)
    start = document.text.index(f"  {use}: {{kit")
    assert write.files[0][1].startswith(document.text[:start]), "what stands before is as it was"


@pytest.mark.parametrize("units", ["inches", "mm"])
@pytest.mark.parametrize("kit", house_kit_names())
def test_every_kit_of_the_house_opens_in_a_file_of_either_unit(kit, units):
    thick = "3/4" if units == "inches" else "3/4 in"
    head = (
        f"piece: a\nunits: {units}\noverall: {{wide: 24 in, deep: 12 in, high: 30 in}}\n"
        f"materials: {{wood: cherry {thick}}}\n"
    )
    document = read_piece_text(head + BAY, "a.yaml")
    added = add_part(document, "thing", suggest_kit(Question(document), kit, "bay"))
    document = reread(document, dict(added.files))
    same(document, open_kit(Question(document), ("parts", "thing")))


def test_settings_stand_in_their_places(pieces):
    text = open_kit(Question(pieces["sewing-desk"]), ("parts", "tray")).files[0][1]
    assert (
        "  tray:\n    in: tray place\n    parts:\n"
        "      front: {of: case, wide: left + 13 mm to right - 13 mm, deep: 1/2 back from front, "
        "high: 2 1/2 up from bottom, grain: wide}\n"
    ) in text
    assert "deep: 1/2 forward from front + length of slide" in text
    assert "joints:\n  - {join: tray side, to: [tray front, tray back], with: rabbet}\n" in text
    drawer = open_kit(Question(pieces["chest-of-drawers"]), ("parts", "drawer")).files[0][1]
    assert "wide: thick inward from left + 1/16" in drawer
    assert "with: drawer corners}" in drawer


def test_line_ends_stay_those_of_the_file(pieces):
    document = pieces["wall-cabinet"]
    crlf = read_piece_text(document.text.replace("\n", "\r\n"), "wall-cabinet.yaml")
    write = open_kit(Question(crlf), ("parts", "door"))
    assert write.files[0][1].count("\n") == write.files[0][1].count("\r\n")
    plain = open_kit(Question(document), ("parts", "door")).files[0][1]
    assert write.files[0][1].replace("\r\n", "\n") == plain


def test_a_use_on_lines_of_its_own_and_one_in_braces(small):
    text = "parts:\n  box:\n    kit: box   # a box\n    in: bay\n    board: wood\n  # after\n"
    lines = small(SPACE + text)
    write = open_kit(Question(lines), ("parts", "box"))
    same(lines, write)
    assert "\n  # after\n" in write.files[0][1]
    braces = small(SPACE + "parts: {box: {kit: box, in: bay, board: wood}}\n")
    same(braces, open_kit(Question(braces), ("parts", "box")))


def test_a_kit_in_a_group_opens(small):
    spans = "wide: 1 to 23\n    deep: 1 to 11\n    high: 2 to 20"
    document = small(f"parts:\n  set:\n    {spans}\n    parts:\n      box: {{kit: box, board: wood}}\n")
    same(document, open_kit(Question(document), ("parts", "set", "parts", "box")))


def test_refused_with_a_reason(pieces, small):
    refit = open_kit(Question(pieces["sewing-desk-refit"]), ("parts", "tray"))
    assert refit.why == "tray stands in a followed file"
    assert isinstance(open_kit(Question(pieces["sewing-desk"]), ("parts", "leg")), Refused)
    turned = small(SPACE + "parts:\n  door: {kit: plain door, in: bay, board: wood, facing: left}\n")
    assert "turned" in open_kit(Question(turned), ("parts", "door")).why


def test_a_kit_that_holds_more_than_parts_is_refused(tmp_path):
    (tmp_path / "k.yaml").write_text(
        "piece: k\nunits: inches\nmaterials: {board: given}\nloads: [{rest: 10 lb, on: b}]\n"
        "parts: {b: {wide: left to right, deep: front to back, high: 1 up from bottom, grain: wide}}\n",
        encoding="utf-8",
    )
    (tmp_path / "a.yaml").write_text(
        "piece: a\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4}\n"
        "kits: {mine: k.yaml}\nspaces: {bay: {wide: 1 to 23, deep: 1 to 11, high: 2 to 20}}\n"
        "parts:\n  m: {kit: mine, in: bay, board: wood}\n",
        encoding="utf-8",
    )
    refused = open_kit(Question(read_piece(tmp_path / "a.yaml")), ("parts", "m"))
    assert refused.why == "the kit also holds loads, which stand in no group"
