"""A kit opened: the piece stays the very same, and its file says all that the kit said."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.piece import read_piece, resolve
from scantling.piece.editing import Question, Refused, Write, add_part, open_kit, suggest_kit
from scantling.piece.editing.alike import alike
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
        assert (now.material.species, now.grain, now.shape) == (was.material.species, was.grain, was.shape)
        assert len(now.work) == len(was.work)
    assert {(j.first, j.second, j.method, j.settings) for j in after.joints} == {
        (j.first, j.second, j.method, j.settings) for j in before.joints
    }
    assert [(m.name, m.moves) for m in after.movements] == [(m.name, m.moves) for m in before.movements]


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
    apart = small(SPACE + "parts:\n  set:\n    parts:\n      box: {kit: box, in: bay, board: wood}\n")
    same(apart, open_kit(Question(apart), ("parts", "set", "parts", "box")))


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


OWN_KIT = """\
piece: rack
note: a rack of the maker's own
units: inches
choices: {back: board or open, corners: dowels or screws}
materials: {board: given, thin: birch plywood 1/4}
sizes: {rim: 3/4, lift: rim + 1/4, count: 2 pcs, soft: 1/8, bare: depth / 4}
parts:
  side:
    wide: thick inward from left
    deep: front to back
    high: bottom to top
    grain: high
    copies: left and right
    work: [{chamfer: top, size: soft}, {hole: 3/8, through: left, at: {deep: bare, high: middle}}]
  shelf:
    wide: between left side and right side
    deep: front + rim to back - lift * 2
    high: thick up from bottom + lift
    copies: {row: up, count: count, every: height / 3}
  back:
    of: thin
    wide: between left side and right side
    deep: thick forward from back
    high: bottom to top - (thick of thin otherwise 1/4) * 2
    grain: high
    when: back is board
  rail:
    wide: between left side and right side
    deep: thick back from front
    high: rim down from top - 1
    when: back is open
  set:
    parts:
      lip:
        wide: between left side and right side
        deep: thick back from front
        high: 1 up from bottom
        grain: wide
  tub:
    kit: box
    wide: left + 2 to right - 2
    deep: front + 3 to back - 3
    high: top + 1 to top + 4
    board: board
    rise: soft
    corners: rabbet
    bottom: thin
joints:
  - {join: shelf, to: every side, with: corners, size: 3/8 x 1 1/2, deep: rim}
  - {join: back, to: [side, shelf], with: screws, when: back is board}
  - {join: lip, to: side, with: screws}
  - {join: side, to: wall, with: screws}
hardware:
  peg: {kind: knob 1, to: side, count: 2}
"""


def racked(folder, settings):
    (folder / "rack.yaml").write_text(OWN_KIT, encoding="utf-8")
    (folder / "a.yaml").write_text(
        "piece: a\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4}\n"
        f"kits: {{rack: rack.yaml}}\n{SPACE}room: {{against: left}}\n"
        f"parts:\n  store: {{kit: rack, in: bay, board: wood{settings}}}\n",
        encoding="utf-8",
    )
    return read_piece(folder / "a.yaml")


@pytest.mark.parametrize(
    ("settings", "parts"),
    [("", {"store back"}), (", back: open, corners: screws, rim: 1 + 1/8, thin: wood", {"store rail"})],
)
def test_a_kit_of_the_makers_own_opens_with_all_it_holds(tmp_path, settings, parts):
    document = racked(tmp_path, settings)
    write = open_kit(Question(document), ("parts", "store"))
    same(document, write)
    again = reread(document, dict(write.files))
    names = {part.name for part in resolve(again).parts}
    assert parts <= names
    assert not ({"store back", "store rail"} - parts) & names
    assert [h.name for h in resolve(again).hardware] == ["store peg", "store peg"]
    assert "kit: rack" not in write.files[0][1]


def test_words_that_would_mean_another_part_inside_are_refused(tmp_path):
    document = racked(tmp_path, ", rim: thickness of side")
    text = (
        document.text
        + "  side: {wide: 2 left from right, deep: front to back, high: bottom to top, grain: high}\n"
    )
    document = reread(document, {"a.yaml": text})
    refused = open_kit(Question(document), ("parts", "store"))
    assert isinstance(refused, Refused)
    assert refused.why.startswith("the piece would not be the same: store shelf")


def test_things_are_alike_but_for_the_last_digits(pieces):
    piece = resolve(pieces["hall-bench"])
    leg, rail = piece.part("left front leg"), piece.part("front rail")
    assert alike(leg.box, replace(leg.box, low=(leg.box.low[0] + 1e-9, *leg.box.low[1:])))
    assert not alike(leg.box, replace(leg.box, low=(leg.box.low[0] + 1e-3, *leg.box.low[1:])))
    assert alike(leg, leg)
    assert not alike(leg, rail)
    assert not alike((1.0,), (1.0, 2.0))
    assert not alike(1.0, None)
