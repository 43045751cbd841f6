"""Boards added, changed, renamed, moved, taken out."""

from __future__ import annotations

import difflib

import pytest

from scantling.errors import Conflict, ReadError
from scantling.shop import read_shop_text
from scantling.shop.editing import add_row, change_row, next_name, remove_row, set_cell, table_of
from scantling.shop.model import BoardFace

WALNUT = "walnut, 4/4 rough, moisture 7 %"
W2 = ("boards", WALNUT, "W2")


def board(text: str, name: str):
    return next(b for b in read_shop_text(text, "shop.yaml").boards if b.id == name)


def changed_lines(before: str, after: str) -> list[str]:
    found = difflib.ndiff(before.splitlines(keepends=True), after.splitlines(keepends=True))
    return [line for line in found if line[0] in "+-"]


def test_the_next_mark_follows_the_stack(shed):
    assert next_name(shed, "boards", WALNUT) == "W13"
    assert next_name(shed, "boards", "white ash, 8/4 rough") == "A1"
    assert next_name(shed, "boards", "yellow-poplar, 4/4 rough, moisture 8 %") == "Y2"


def test_a_board_is_added_under_its_stack_in_one_line(shed):
    text, path = add_row(
        shed,
        "boards",
        {"stack": "walnut 4/4 rough", "length": "50", "width": "6 1/2", "thickness": "1", "bow": "1/4"},
    )
    assert path == ("boards", WALNUT, "w13")
    assert changed_lines(shed, text) == ["+     W13: 50 x 6 1/2 x 1, bow 1/4\n"]
    # source: by hand; 1/4 in is 6.35 mm
    assert board(text, "W13").warp.bow == pytest.approx(6.35)


def test_a_new_stack_is_begun_for_a_new_wood(shed):
    text, path = add_row(
        shed, "boards", {"stack": "cherry, 8/4 rough", "length": "40", "width": "5", "thickness": "2"}
    )
    assert path == ("boards", "cherry, 8/4 rough", "c1")
    assert changed_lines(shed, text) == ["+   cherry, 8/4 rough:\n", "+     C1: 40 x 5 x 2\n"]


def test_the_section_is_begun_where_there_is_none():
    text, _ = add_row(
        "shop: a\r\nunits: mm\r\n",
        "boards",
        {"stack": "birch, 4/4 rough", "length": "900", "width": "100", "thickness": "25"},
    )
    assert text == (
        "shop: a\r\nunits: mm\r\n\r\nboards:\r\n  birch, 4/4 rough:\r\n    B1: 900 x 100 x 25\r\n"
    )


def test_a_section_begun_leaves_the_notes_of_the_one_before_it_where_they_are():
    text = "shop: a\nunits: mm\nmachines:\n  drill: yes\n#   table saw: kerf 3\n\n# clamps:\n"
    after, _ = add_row(text, "hardware", {"fitting": "knob", "price": "5"})
    before, _, clamps = text.partition("\n\n")
    assert after == f"{before}\n\nhardware:\n  knob: price 5\n\n{clamps}"


def test_one_measure_is_changed_where_it_stands(shed):
    text = set_cell(shed, W2, "bow", "1/2", "5/8")
    assert changed_lines(shed, text) == [
        "-     W2: 74 x 6 1/4 x 1, bow 5/8, crook 1/4, cup 1/16, twist 1/2, knot 30 to 32 1/2 x 2 to 4\n",
        "+     W2: 74 x 6 1/4 x 1, bow 1/2, crook 1/4, cup 1/16, twist 1/2, knot 30 to 32 1/2 x 2 to 4\n",
    ]


def test_stations_are_kept_while_other_things_are_edited_and_edited_themselves(shed):
    said = "24 gap 1/4 cup 1/16; 48 gap -1/8"
    told = set_cell(shed, W2, "stations", said, "")
    assert changed_lines(shed, told)[-1].endswith(f"twist 1/2, stations {said}, knot 30 to 32 1/2 x 2 to 4\n")
    assert table_of(told, "boards").row(W2).cells["stations"] == said
    for column, words, was in (("bow", "1/2", "5/8"), ("defects", "", "knot 30 to 32 1/2 x 2 to 4")):
        other = set_cell(told, W2, column, words, was)
        assert board(other, "W2").stations == board(told, "W2").stations
        assert len(board(other, "W2").stations) == 2
    assert set_cell(told, W2, "stations", "", said) == shed
    with pytest.raises(ReadError, match="beyond the board"):
        set_cell(told, W2, "stations", "84 gap 1/4", said)


def test_a_new_clause_stands_before_the_defects(shed):
    text = change_row(shed, W2, {"figure": "curl", "for sale": "yes"}, {"figure": "", "for sale": ""})
    assert "twist 1/2, figure curl, for sale, knot 30" in text
    assert not board(text, "W2").owned
    back = change_row(text, W2, {"figure": "", "for sale": ""}, {"figure": "curl", "for sale": "yes"})
    assert back == shed


def test_what_the_stack_says_is_shown_and_can_be_said_otherwise(shed):
    row = table_of(shed, "boards").row(W2)
    assert row.cells["moisture"] == "7 %"
    assert "moisture" in row.shared
    text = set_cell(shed, W2, "moisture", "9 %", "7 %")
    assert board(text, "W2").moisture == 9
    assert board(text, "W1").moisture == 7


def test_what_the_stack_says_cannot_be_emptied_for_one_board(shed):
    with pytest.raises(ReadError, match="heading says 7 %"):
        set_cell(shed, W2, "moisture", "", "7 %")


@pytest.mark.parametrize(
    ("column", "words"), [("defects", "for sale"), ("defects", "bow 3"), ("length", "74 x 6")]
)
def test_words_never_reach_into_another_cell(shed, column, words):
    path = ("boards", WALNUT, "W1")
    was = table_of(shed, "boards").row(path).cells[column]
    with pytest.raises(ReadError):
        set_cell(shed, path, column, words, was)


def test_a_board_gets_another_name(shed):
    text = set_cell(shed, W2, "board", "Long one", "W2")
    assert board(text, "Long one").length == board(shed, "W2").length
    with pytest.raises(ReadError, match="stands there already"):
        set_cell(shed, W2, "board", "W3", "W2")


def test_a_board_moves_to_another_stack_with_its_comment():
    before = (
        "shop: a\nunits: inches\nboards:\n  walnut, 4/4 rough:\n    W1: 40 x 5 x 1  # split it?\n"
        "  cherry, 4/4 rough:\n    C1: 50 x 6 x 1\n"
    )
    text = set_cell(before, ("boards", "walnut, 4/4 rough", "W1"), "stack", "cherry", "walnut, 4/4 rough")
    assert "  cherry:\n    W1: 40 x 5 x 1  # split it?" in text
    text = set_cell(before, ("boards", "walnut, 4/4 rough", "W1"), "stack", "cherry 4/4", "walnut, 4/4 rough")
    assert text == (
        "shop: a\nunits: inches\nboards:\n"
        "  cherry, 4/4 rough:\n    C1: 50 x 6 x 1\n    W1: 40 x 5 x 1  # split it?\n"
    )


def test_the_last_board_takes_its_stack_with_it(shed):
    text = remove_row(shed, ("boards", "yellow-poplar, 4/4 rough, moisture 8 %", "Y1"))
    assert "yellow-poplar" not in text
    assert len(read_shop_text(text, "shop.yaml").boards) == 12


def test_words_changed_meanwhile_are_not_written_over(shed):
    with pytest.raises(Conflict) as caught:
        set_cell(shed, W2, "bow", "1/2", "3/8")
    assert (caught.value.now, caught.value.was, caught.value.wanted) == ("5/8", "3/8", "1/2")
    with pytest.raises(Conflict):
        set_cell(shed, ("boards", WALNUT, "W40"), "bow", "1/2", "3/8")


@pytest.mark.parametrize(
    ("column", "words"),
    [
        ("bow", "much"),
        ("length", "0"),
        ("thickness", "9"),
        ("rings", "wavy"),
        ("bow", "1/2, twist 1"),
        ("length", ""),
    ],
)
def test_words_that_will_not_do_are_refused_with_a_remedy(shed, column, words):
    was = table_of(shed, "boards").row(W2).cells[column]
    with pytest.raises(ReadError) as caught:
        set_cell(shed, W2, column, words, was)
    assert caught.value.message
    assert caught.value.remedy


KEYED = """\
shop: a
units: inches
boards:
  cherry, 4/4 rough:
    C1:
      size: 96 x 8 x 1   # by tape
      bow: 1/4
      defects:
        - knot 20 to 22 x 1 to 3
        - check 92 to end x 4 to 4 1/2
"""
C1 = ("boards", "cherry, 4/4 rough", "C1")


def test_a_board_written_with_keys_is_changed_key_by_key():
    text = change_row(
        KEYED, C1, {"bow": "", "twist": "1/8", "width": "7 1/2"}, {"bow": "1/4", "twist": "", "width": "8"}
    )
    assert (
        text
        == KEYED.replace("96 x 8 x 1", "96 x 7 1/2 x 1").replace("      bow: 1/4\n", "")
        + "      twist: 1/8\n"
    )
    found = board(text, "C1")
    assert found.warp.twist == pytest.approx(3.175)
    assert found.defects[1].face is BoardFace.BOTH


def test_a_board_in_braces_is_changed_too():
    before = "shop: a\nunits: mm\nboards: {birch: {B1: '900 x 100 x 25, bow 3', B2: {size: 800 x 90 x 20}}}\n"
    text = set_cell(before, ("boards", "birch", "B1"), "bow", "2", "3")
    assert "'900 x 100 x 25, bow 2'" in text
    text = set_cell(before, ("boards", "birch", "B2"), "bow", "2", "")
    assert board(text, "B2").warp.bow == 2
    text, _ = add_row(
        before, "boards", {"stack": "birch", "length": "700", "width": "80", "thickness": "20", "bow": "1"}
    )
    assert board(text, "B3").warp.bow == 1
    text, _ = add_row(
        before, "boards", {"stack": "walnut, 4/4 rough", "length": "700", "width": "80", "thickness": "20"}
    )
    assert board(text, "W1").nominal == "4/4"
    assert board(remove_row(before, ("boards", "birch", "B1")), "B2").length == 800
    assert board(remove_row(before, ("boards", "birch", "B2")), "B1").length == 900
