"""The lines at the top, and a first shop file."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import Conflict, ReadError
from scantling.quantity import LengthUnit
from scantling.shop import read_shop_text
from scantling.shop.editing import add_row, air_of, head_of, new_shop_text, set_air, set_head


def shop(text: str):
    return read_shop_text(text, "shop.yaml")


def test_head_lines_are_said_anew_in_place(shed):
    text = set_head(shed, "hours a week", "6", "8")
    assert text == shed.replace("hours a week: 8", "hours a week: 6")
    assert set_head(shed, "fraction", "1/16", "1/32") == shed.replace("fraction: 1/32", "fraction: 1/16")
    with pytest.raises(ReadError, match="not a fraction"):
        set_head(shed, "fraction", "1/10", "1/32")
    with pytest.raises(Conflict):
        set_head(shed, "hours a week", "6", "7")


def test_a_line_the_file_lacks_follows_the_head():
    before = "shop: a\nunits: mm\n\n# wood\nboards:\n  birch: {B1: 900 x 90 x 20}\n"
    assert set_head(before, "currency", "€", "") == before.replace("mm\n", "mm\ncurrency: €\n")
    assert set_head(before, "note", "a: b # c", "") == before.replace("mm\n", "mm\nnote: 'a: b # c'\n")
    text = set_head(before, "likes", "dowels, tenon", "")
    assert shop(text).likes == ("dowels", "tenon")
    assert set_head(text, "likes", "", "dowels, tenon") == before


def test_likes_are_a_list(shed):
    text = set_head(shed, "likes", "tenon, screws", head_of(shed)["likes"])
    assert shop(text).likes == ("tenon", "screws")
    with pytest.raises(ReadError, match="no way to join"):
        set_head(shed, "likes", "glue and hope", head_of(shed)["likes"])


def test_air_is_said_in_three(shed):
    was = air_of(shed)
    assert was == {"dry": "38 %", "damp": "45 %", "at": "66 F"}
    text = set_air(shed, {**was, "damp": "52 %"}, was)
    assert text == shed.replace("damp: 45 %", "damp: 52 %")
    text = set_air(shed, dict.fromkeys(was, ""), was)
    assert text == shed.replace("air: {dry: 38 %, damp: 45 %, at: 66 F}\n", "")
    assert shop(set_air(text, was, air_of(text))).climate == shop(shed).climate
    with pytest.raises(ReadError, match="damper than the damp"):
        set_air(shed, {**was, "dry": "60 %"}, was)


@pytest.mark.parametrize("unit", list(LengthUnit))
def test_a_first_shop_file_reads_and_can_be_added_to(unit):
    text = new_shop_text("My shed: the small one", unit)
    assert shop(text).name == "My shed: the small one"
    assert [m.kind.value for m in shop(text).machines] == ["drill", "hand saw", "hand plane"]
    cells = {"stack": "walnut, 4/4 rough", "length": "900", "width": "100", "thickness": "25"}
    text, _ = add_row(text, "boards", cells)
    assert len(shop(text).boards) == 1


@pytest.mark.parametrize("unit", list(LengthUnit))
def test_its_examples_can_be_taken_in_by_dropping_the_marks(unit):
    lines = new_shop_text("My shed", unit).splitlines()
    heads = [line for line in lines if line.startswith("# ") and line.rstrip(".") == line]
    told = [line[2:] if line in heads else line for line in lines]
    read = shop("\n".join(told) + "\n")
    assert (len(read.boards), len(read.sheets), len(read.clamps), read.hours_a_week) == (1, 1, 1, 6)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.text(max_size=40))
def test_any_name_is_kept_or_refused(name):
    try:
        text = new_shop_text(name, LengthUnit.MM)
    except ReadError:
        return
    assert shop(text).name == " ".join(name.split())
