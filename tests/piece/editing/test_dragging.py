"""What a pull at a face writes: every sentence of the language page, then any face of any part."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.piece import NO_FACTS, NO_RECORD, read_piece, resolve
from scantling.piece.editing import Ask, Refused, Write, drag, step_of
from scantling.piece.facts import SheetFact, ShopFacts
from scantling.piece.language import read_record_text, reread
from scantling.piece.model import Axis, Face
from scantling.quantity import LengthUnit

SIXTEENTH = 25.4 / 16
LEGS = """\
sizes: {leg size: 2, over: 1/2}
parts:
  leg: {wide: leg size inward from left, deep: 2 inward from front, high: floor to top - 1,
    copies: four corners}
  rail: {wide: between left leg and right leg, deep: thick centred on middle of left front leg,
    high: 4 down from top of leg}
  low rail: {wide: same as rail, deep: same as rail, high: 3 up from bottom + 5}
  top: {wide: left - over to right + 0, deep: front to back, high: thick down from top, grain: wide}
"""


def pulled(document, part, face, sixteenths, record=NO_RECORD, settings=None):
    return drag(document, NO_FACTS, record, settings or {}, part, face, sixteenths * SIXTEENTH)


def words(document, write, *path):
    node = reread(document, dict(write.files)).root
    for name in path:
        node = node.get(name)
    return node.text


@pytest.mark.parametrize(
    ("part", "face", "by", "axis", "after"),
    [
        # source: piece language 2.10; numbers by hand
        ("low rail", Face.TOP, 16, "high", "4 up from bottom + 5"),  # the last bare term of that end
        ("low rail", Face.TOP, -15, "high", "2 1/16 up from bottom + 5"),
        ("low rail", Face.BOTTOM, -8, "high", "3 up from bottom + 5 1/2"),  # measured from: all of it moves
        ("low rail", Face.BOTTOM, 80, "high", "3 up from bottom"),  # a term of zero is taken out
        ("low rail", Face.BOTTOM, 96, "high", "3 up from bottom - 1"),
        ("rail", Face.RIGHT, -2, "wide", "right of left leg to left of right leg - 1/8"),  # one is added
        ("rail", Face.LEFT, 2, "wide", "right of left leg - 1/8 to left of right leg"),
        ("left front leg", Face.TOP, -16, "high", "floor to top - 2"),
        ("left front leg", Face.TOP, 16, "high", "floor to top"),
        ("left front leg", Face.BOTTOM, -4, "high", "floor + 1/4 to top - 1"),
        ("top", Face.RIGHT, 16, "wide", "left - over to right + 1"),
        ("top", Face.RIGHT, -1, "wide", "left - over to right - 1/16"),
        ("top", Face.FRONT, 3, "deep", "front - 3/16 to back"),
    ],
)
def test_the_end_that_was_grabbed_is_changed(small, part, face, by, axis, after):
    document = small(LEGS)
    write = pulled(document, part, face, by)
    assert isinstance(write, Write), write
    assert words(document, write, "parts", part.replace("left front ", ""), axis) == after


@pytest.mark.parametrize(
    ("part", "face"),
    [("left front leg", Face.BACK), ("right front leg", Face.BACK), ("left back leg", Face.FRONT)],
)
def test_a_pull_at_any_copy_writes_the_one_definition(small, part, face):
    document = small(LEGS)
    write = pulled(document, part, face, 8)
    assert words(document, write, "parts", "leg", "deep") == "2 1/2 inward from front"
    after = resolve(reread(document, dict(write.files)))
    assert all(leg.size(Axis.DEEP) == pytest.approx(63.5) for leg in after.parts if leg.definition == "leg")


def test_a_named_size_asks_everywhere_or_only_here(small):
    document = small(LEGS)
    asked = pulled(document, "right back leg", Face.LEFT, 4)
    assert isinstance(asked, Ask)
    assert asked.question == "This end is the size leg size: change it everywhere, or only here?"
    everywhere, here = asked.ways
    assert (everywhere.name, here.name) == ("everywhere", "only here")
    assert words(document, everywhere.write, "sizes", "leg size") == "2 1/4"
    assert words(document, here.write, "parts", "leg", "wide") == "leg size + 1/4 inward from left"
    assert pickle.loads(pickle.dumps(asked)) == asked


def test_thick_asks_and_solid_wood_may_be_thicker_everywhere(small):
    document = small(LEGS)
    asked = pulled(document, "top", Face.BOTTOM, 4)
    assert [way.name for way in asked.ways] == ["everywhere", "only here"]
    assert words(document, asked.ways[0].write, "materials", "wood") == "cherry 1"
    assert words(document, asked.ways[1].write, "parts", "top", "high") == "thick + 1/4 down from top"
    sheet = small(
        LEGS,
        head="piece: a\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\n"
        "materials: {ply: birch plywood 3/4}\n",
    )
    asked = pulled(sheet, "top", Face.BOTTOM, 4)
    assert [way.name for way in asked.ways] == ["only here"]
    assert asked.closed == "birch plywood 3/4 is bought at that size"


def test_same_as_asks_and_parts_from_the_other(small):
    document = small(LEGS)
    asked = pulled(document, "low rail", Face.RIGHT, -2)
    assert isinstance(asked, Ask)
    everywhere, here = asked.ways
    assert words(document, everywhere.write, "parts", "rail", "wide").endswith("left of right leg - 1/8")
    assert words(document, here.write, "parts", "low rail", "wide") == "left of rail to right of rail - 1/8"


def test_a_size_measured_from_both_sides_grows_by_twice(small):
    document = small("parts: {a: {wide: 3 centred on middle, deep: front to back, high: 1 up from bottom}}\n")
    write = pulled(document, "a", Face.LEFT, 2)
    assert words(document, write, "parts", "a", "wide") == "3 1/4 centred on middle"


@pytest.mark.parametrize(
    ("high", "says"),
    [
        # source: piece language 2.10, "shown, not dragged"
        ("5 when width > 36 otherwise 4 up from bottom", "settled by `when`"),
        ("leg size at most 3 up from bottom", "`at most`"),
        ("leg size * 2 up from bottom", "worked out from others"),
        ("leg size + over up from bottom", "worked out from others"),
        ("leg size rounded up to 1/2 up from bottom", "rounded to steps"),
        ("sqrt(leg size * leg size) up from bottom", "worked out"),
    ],
)
def test_formulas_of_names_are_shown_not_dragged(small, high, says):
    document = small(
        "sizes: {leg size: 2, over: 1/2}\n"
        f"parts: {{a: {{wide: left to right, deep: front to back, high: {high}}}}}\n"
    )
    refused = pulled(document, "a", Face.TOP, 1)
    assert isinstance(refused, Refused)
    assert says in refused.why


def test_a_kit_is_given_its_setting_or_must_be_opened(pieces):
    chest = pieces["chest-of-drawers"]
    write = pulled(chest, "frame 2 left runner", Face.RIGHT, -4)
    assert "panel: ply, runner width: 1 3/4}" in write.files[0][1]
    refused = pulled(chest, "frame 2 left runner", Face.LEFT, 1)
    assert (refused.why, refused.remedy) == (
        'this is written inside the kit of "frame 2"',
        "open the kit first, or change its space",
    )
    desk = pieces["sewing-desk"]
    assert "walls: 9/16," in pulled(desk, "tray right side", Face.LEFT, 1).files[0][1]


def test_a_part_that_fills_its_space_says_its_span(pieces):
    book = pieces["bookcase"]
    write = drag(book, NO_FACTS, NO_RECORD, {}, "middle shelf", Face.FRONT, -10.0)
    assert words(book, write, "parts", "middle shelf", "deep") == "front + 10 to back"


def test_a_followed_definition_is_written_over_here(pieces):
    refit = pieces["sewing-desk-refit"]
    write = pulled(refit, "fixed top", Face.BACK, -2)
    assert [file for file, _ in write.files] == ["sewing-desk-refit.yaml"]
    assert "parts: {fixed top: {deep: fold depth forward from back - 1/8}}" in write.files[0][1]
    walls = pulled(refit, "tray front", Face.BACK, 1)
    assert "parts: {tray: {kit: tray, walls: 9/16}}" in walls.files[0][1]


def test_a_named_size_of_a_piece_is_changed_where_it_stands(pieces):
    desk = pieces["sewing-desk"]
    whole = pulled(desk, "lid lip", Face.BOTTOM, 1, settings={"tray drop": "1 5/8"})
    assert words(desk, whole.ways[0].write, "sizes", "lip drop") == "3 1/16"


def test_a_free_size_is_replaced_by_its_number(small):
    document = small(
        "sizes: {drop: least within 1 to 3 by 1/8}\n"
        "parts: {a: {wide: left to right, deep: front to back, high: drop up from bottom}}\n"
    )
    asked = pulled(document, "a", Face.TOP, 3, settings={"drop": "1 5/8"})
    assert words(document, asked.ways[0].write, "sizes", "drop") == "1 13/16 within 1 to 3 by 1/8"
    assert asked.ways[0].write.freed == ("drop",)
    beyond = pulled(document, "a", Face.TOP, 40, settings={"drop": "1 5/8"})
    assert [way.name for way in beyond.ways] == ["only here"]
    assert "above its own range" in beyond.closed


def test_joints_that_are_lost_are_listed(small):
    document = small(LEGS + "joints: [{join: rail, to: leg, with: tenon}]\n")
    write = pulled(document, "rail", Face.RIGHT, -2)
    assert write.lost == ("rail to right front leg: tenon",)


def test_what_is_cut_stays(pieces):
    bed = pieces["bed-with-slats"]
    record = read_record_text("build: one\nleft side rail: {deep: 80 3/8, cut: done}\n", "r.yaml")
    refused = pulled(bed, "left side rail", Face.TOP, 1, record=record)
    assert refused.why == "left side rail is cut or measured already"


def test_small_moves_and_unknown_parts_are_refused(small):
    document = small(LEGS)
    assert "1/16" in drag(document, NO_FACTS, NO_RECORD, {}, "rail", Face.TOP, 0.5).why
    assert 'no part called "x"' in pulled(document, "x", Face.TOP, 1).why
    assert (
        "leaves nothing" in pulled(document, "low rail", Face.TOP, -48).why
        or "nothing would" in pulled(document, "low rail", Face.TOP, -48).why
    )


def test_a_measured_sheet_stays_what_it_is(pieces):
    facts = ShopFacts(sheets=(SheetFact("birch plywood", 18.0, 17.6),))
    asked = drag(pieces["bookcase"], facts, NO_RECORD, {}, "top", Face.BOTTOM, 3.0)
    assert [way.name for way in asked.ways] == ["only here"]


def test_steps_are_those_of_the_file():
    assert step_of(LengthUnit.INCHES) == pytest.approx(1.5875)
    assert step_of(LengthUnit.MM) == 1.0


NAMES = (
    *("bed-with-slats", "bookcase", "chest-of-drawers", "four-legged-stool", "hall-bench", "round-table"),
    *("sewing-desk", "sewing-desk-refit", "sliding-lid-box", "wall-cabinet", "wall-shelf"),
)


@given(st.sampled_from(NAMES), st.integers(0, 10_000), st.sampled_from(list(Face)), st.integers(-5, 5))
@settings(max_examples=60, deadline=None)
def test_any_face_of_any_part_moves_just_as_asked_or_says_why(pieces, name, number, face, steps):
    document = pieces[name]
    before = resolve(document)
    part = before.parts[number % len(before.parts)]
    by = steps * step_of(document.unit)
    answer = drag(document, NO_FACTS, NO_RECORD, {}, part.name, face, by)
    if isinstance(answer, Refused):
        assert answer.why
        return
    writes = [answer] if isinstance(answer, Write) else [way.write for way in answer.ways]
    assert writes
    for write in writes:
        assert list(dict(write.files)) == [document.file]
        now = resolve(reread(document, dict(write.files))).part(part.name)
        moved = (now.box.face(face) - part.box.face(face)) * face.sign
        far = (now.box.face(face.opposite) - part.box.face(face.opposite)) * face.sign
        assert moved == pytest.approx(by, abs=1e-4)
        assert any(far == pytest.approx(held, abs=1e-4) for held in (0.0, by, -by)), (
            "held, carried, or centred"
        )


@given(st.sampled_from(NAMES), st.integers(0, 10_000), st.sampled_from(list(Face)))
@settings(max_examples=25, deadline=None)
def test_a_pull_changes_the_words_of_one_entry_and_no_other_byte(pieces, name, number, face):
    plain = pieces[name]
    document = reread(
        plain, {one: file.text.replace("\n", "\r\n") for one, file in plain.files.items() if file.path}
    )
    parts = resolve(document).parts
    part = parts[number % len(parts)]
    answer = drag(document, NO_FACTS, NO_RECORD, {}, part.name, face, 2 * step_of(document.unit))
    writes = [answer] if isinstance(answer, Write) else [way.write for way in getattr(answer, "ways", ())]
    for write in writes:
        ((_, text),) = write.files
        was, now = document.text.split("\r\n"), text.split("\r\n")
        assert len(now) - len(was) in (0, 1)
        assert "\n" not in "".join(now), "no line ends otherwise"
        assert sum(line not in now for line in was) <= 1
        assert sum(line not in was for line in now) == 1


def test_a_kit_inside_a_kit_must_be_opened_first(tmp_path):
    (tmp_path / "k.yaml").write_text(
        "piece: k\nunits: inches\nmaterials: {board: given}\nsizes: {out: 1/2}\n"
        "parts:\n  inner: {kit: box, wide: left + out to right, deep: front to back, high: bottom to top,\n"
        "    board: board}\n",
        encoding="utf-8",
    )
    (tmp_path / "a.yaml").write_text(
        "piece: a\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4}\n"
        "kits: {k: k.yaml}\nparts:\n  m: {kit: k, board: wood}\n",
        encoding="utf-8",
    )
    document = read_piece(tmp_path / "a.yaml")
    refused = pulled(document, "m inner front", Face.BACK, 2)
    assert refused.why == '"m inner" stands inside another kit'


def test_a_setting_given_by_a_formula_is_changed_where_it_is_given(small):
    document = small(
        "sizes: {wall: 5/8}\nspaces: {bay: {wide: 1 to 23, deep: 1 to 11, high: 2 to 20}}\n"
        "parts:\n  box: {kit: box, in: bay, board: wood, thickness: wall}\n"
    )
    write = pulled(document, "box front", Face.BACK, 2)
    assert "thickness: wall + 1/8}" in write.files[0][1]
    again = reread(document, dict(write.files))
    further = pulled(again, "box front", Face.BACK, -1)
    assert "thickness: wall + 1/16}" in further.files[0][1]
