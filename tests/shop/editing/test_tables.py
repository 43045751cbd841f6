"""Sections as tables: read, changed, copied out and pasted."""

from __future__ import annotations

import pytest

from scantling.errors import Conflict, ReadError
from scantling.shop import read_shop_text
from scantling.shop.editing import (
    add_row,
    as_cells,
    change_row,
    columns_of,
    paste,
    pasted,
    remove_row,
    set_cell,
    table_of,
)
from scantling.shop.editing.lines import KINDS


def shop(text: str):
    return read_shop_text(text, "shop.yaml")


def told(found) -> list[tuple[int, str]]:
    return [(fault.row, fault.column) for fault in found.faults]


def test_a_fitting_is_read_by_its_kind_and_label(shed):
    row = table_of(shed, "hardware").row(("hardware", "dowel", "3/8 x 2"))
    assert (row.cells["fitting"], row.cells["label"]) == ("dowel", "3/8 x 2")
    assert (row.cells["price"], row.cells["on hand"]) == ("6.50 for 50", "30")


def test_prices_and_counts_are_set(shed):
    text = set_cell(shed, ("supplies", "wood glue"), "price", "23 a litre", "21 a litre")
    text = set_cell(text, ("hardware", "dowel", "3/8 x 2"), "on hand", "44", "30")
    text = set_cell(text, ("sheets", "walnut plywood 3/4", "P3"), "for sale", "any", "2")
    text = set_cell(text, ("for sale", "walnut 4/4 rough"), "price", "$14.25", "13.50")
    now = shop(text)
    assert now.supplies[0].price == 23
    assert next(item for item in now.hardware if item.id == "dowel 3/8 x 2").on_hand == 44
    assert next(sheet for sheet in now.sheets if sheet.id == "P3").count == 10
    assert now.for_sale[0].price_per_board_foot == 14.25
    assert "for sale, price 124" in text


def test_a_machine_that_says_only_yes_gains_and_loses_a_limit(shed):
    path = ("machines", "hand plane")
    text = set_cell(shed, path, "widest", "2", "")
    assert "  hand plane: widest 2\n" in text
    assert set_cell(text, path, "widest", "", "2") == shed


def test_an_end_of_line_comment_stays(shed):
    text = set_cell(shed, ("machines", "circular saw"), "kerf", "1/16", "5/64")
    assert "  circular saw: kerf 1/16, longest 106, shortest 12   # on a guide rail\n" in text


def test_rows_are_added_in_every_section(shed):
    rows = {
        "sheets": {"sold as": "birch plywood 1/2", "length": "60", "width": "30", "on hand": "2"},
        "lumber": {"sold as": "pine 2x4", "length": "41", "on hand": "1"},
        "for sale": {"wood": "cherry 4/4 rough", "length": "96", "width": "7", "price": "9"},
        "machines": {"machine": "the big one", "is a": "band saw", "kerf": "1/24"},
        "clamps": {"clamp": "band clamp", "count": "2", "opens": "20"},
        "hardware": {"fitting": "knob", "label": "1 1/4", "price": "4.80"},
        "supplies": {"supply": "wax", "price": "40 a litre"},
    }
    text = shed
    for section, cells in rows.items():
        text, path = add_row(text, section, cells)
        assert table_of(text, section).row(path).cells[next(iter(cells))] == next(iter(cells.values()))
    now = shop(text)
    assert now.machines[-1].kind.value == "band saw"
    assert now.sheets[-1].id == "P4"
    assert now.lumber[0].id == "P5"
    for section in rows:
        text = remove_row(text, table_of(text, section).rows[-1].path)
    assert shop(text).machines == shop(shed).machines


def test_a_name_used_elsewhere_is_refused(shed):
    cells = {"sheet": "W1", "sold as": "birch plywood 1/2", "length": "60", "width": "30"}
    with pytest.raises(ReadError, match="used twice"):
        add_row(shed, "sheets", cells)


def test_sheets_pasted_with_heads_in_any_order():
    text = "shop: a\nunits: inches\n"
    cells = (
        "Qty\tMaterial\tWidth (in)\tLength (in)\tThickness (mm)\tCost\n"
        '2\tbirch plywood 3/4\t48"\t96\t17,6\t$ 88.00\n'
        "1\tbirch plywood 1/4\t30\t60 1/2\t5.2\t34,50 €\n"
    )
    found = pasted(text, "sheets", cells)
    assert not found.faults
    sheets = shop(paste(text, "sheets", found.rows)).sheets
    assert [s.id for s in sheets] == ["P1", "P2"]
    # source: by hand; 48 in = 1219.2 mm, 60 1/2 in = 1536.7 mm; thickness as written in mm
    assert (sheets[0].width, sheets[0].thickness, sheets[0].count, sheets[0].price) == (1219.2, 17.6, 2, 88)
    assert (sheets[1].length, sheets[1].thickness, sheets[1].price) == (1536.7, 5.2, 34.5)


def test_boards_pasted_without_heads_and_with_semicolons():
    text = "shop: a\nunits: mm\nboards:\n  birch, 4/4 rough:\n    B1: 900 x 100 x 25\n"
    found = pasted(text, "boards", ";birch 4/4 rough;1250,5;140;27;3\n;cherry, 8/4 rough;900;120;52\n")
    assert not found.faults
    boards = shop(paste(text, "boards", found.rows)).boards
    assert [(b.id, b.species, b.length) for b in boards] == [
        ("B1", "birch", 900),
        ("B2", "birch", 1250.5),
        ("C1", "cherry", 900),
    ]


def test_each_fault_is_told_at_its_cell(shed):
    cells = (
        "board,wood,length,width,thickness,bow,price,rings\n"
        'X1,"walnut, 4/4 rough",fifty,6,1,1/8,12,flat\n'
        'X2,"walnit, 4/4 rough",50,6,1,much,12,flat\n'
        'X3,"walnut, 4/4 rough",50,,1,,twelve,wavy\n'
        'X1,"walnut, 4/4 rough",50,6,9,,,\n'
    )
    found = pasted(shed, "boards", cells)
    assert told(found) == [
        (2, "length"),
        (3, "stack"),
        (3, "bow"),
        (4, "width"),
        (4, "rings"),
        (4, "price"),
        (5, "board"),
        (5, "length"),
    ]
    assert "nearest" in found.faults[1].write
    assert all(fault.write for fault in found.faults)


def test_unknown_heads_and_too_many_cells_are_told(shed):
    found = pasted(shed, "clamps", "clamp\thow many\topens\tcolour\nbar\t4\t24\tred\t7\n")
    assert told(found) == [(1, ""), (2, "")]
    assert pasted(shed, "clamps", " \n").faults
    assert told(pasted(shed, "clamps", "clamp,count,count\nbar,1,1\n"))[0] == (1, "count")


def test_only_prices_pasted_change_only_prices(shed):
    found = pasted(shed, "supplies", "item;price\nwood glue;24 a litre\nsandpaper;0,90 / sheet\n")
    assert not found.faults
    text = paste(shed, "supplies", found.rows)
    assert text == shed.replace("21 a litre", "24 a litre").replace("0.80 a sheet", "0.90 a sheet")


def test_money_and_thousands():
    text = "shop: a\nunits: mm\nboards:\n  birch:\n    B1: 900 x 100 x 25\n"
    found = pasted(text, "boards", "board\tlength\tprice\nB1\t1.250,5\t€ 1,240.50\n")
    assert found.rows[0] == {"board": "B1", "length": "1250.5", "price": "1240.50"}


def test_what_is_copied_out_pastes_back_without_change(shop_text):
    for section in KINDS:
        table = table_of(shop_text, section)
        if table.rows:
            found = pasted(shop_text, section, as_cells(table))
            assert found.faults == ()
            assert paste(shop_text, section, found.rows) == shop_text


def test_what_is_copied_out_fills_an_empty_shop_the_same(shop_text):
    was = shop(shop_text)
    text = f"shop: a\nunits: {was.unit.value}\n"
    for section in KINDS:
        table = table_of(shop_text, section)
        if table.rows:
            text = paste(text, section, pasted(text, section, as_cells(table)).rows)
    now = shop(text)
    for field in ("boards", "sheets", "lumber", "for_sale", "machines", "clamps", "hardware", "supplies"):
        assert [_bare(each) for each in getattr(now, field)] == [_bare(each) for each in getattr(was, field)]


def _bare(entry) -> dict[str, object]:
    return {name: getattr(entry, name) for name in entry.__slots__ if name != "place"}


def test_a_shop_file_with_line_ends_of_another_system_keeps_them(shed):
    text = shed.replace("\n", "\r\n")
    changed = change_row(
        text, ("clamps", "bar clamp"), {"count": "9", "force": ""}, {"count": "8", "force": "400 lb"}
    )
    assert changed == text.replace("bar clamp: 8, opens 24, force 400 lb", "bar clamp: 9, opens 24")
    changed, _ = add_row(text, "clamps", {"clamp": "cam clamp", "count": "2", "opens": "12"})
    assert changed == text.replace("force 40 lb\r\n", "force 40 lb\r\n  cam clamp: 2, opens 12\r\n")


def test_every_cell_said_anew_as_it_stands_changes_nothing(shop_text):
    for section in KINDS:
        for row in table_of(shop_text, section).rows:
            assert change_row(shop_text, row.path, row.cells, row.cells) == shop_text


def test_every_row_taken_out_leaves_the_others(shop_text):
    for section in KINDS:
        rows = table_of(shop_text, section).rows
        for row in rows:
            text = remove_row(shop_text, row.path)
            assert table_of(text, section).rows == tuple(each for each in rows if each != row)


def test_a_size_is_one_size():
    text = "shop: a\nunits: inches\nfor sale:\n  cherry 4/4 rough: 96 x 7, price 9\n"
    with pytest.raises(ReadError, match="more than belongs here"):
        set_cell(text, ("for sale", "cherry 4/4 rough"), "width", "7 x 1", "7")


def test_a_conflict_tells_both(shed):
    with pytest.raises(Conflict, match='"8" here by now, not "7"'):
        set_cell(shed, ("clamps", "bar clamp"), "count", "9", "7")


def test_every_column_has_a_head_of_its_own():
    for section in KINDS:
        heads = [column.head for column in columns_of(section)]
        assert len(set(heads)) == len(heads)
