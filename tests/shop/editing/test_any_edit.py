"""What must hold of any edit of any example shop, whatever words are asked for."""

from __future__ import annotations

from importlib.resources import files

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import Conflict, ReadError
from scantling.shop import read_shop_text
from scantling.shop.editing import add_row, change_row, columns_of, paste, pasted, table_of
from scantling.shop.editing.columns import EXAMPLES
from scantling.shop.editing.lines import KINDS

TEXTS = [
    path.read_text(encoding="utf-8").replace("\n", newline)
    for path in sorted((files("scantling") / "examples" / "shops").iterdir(), key=lambda path: path.name)
    for newline in ("\n", "\r\n")
]
ROWS = [(text, section, row) for text in TEXTS for section in KINDS for row in table_of(text, section).rows]
WORDS = st.one_of(
    st.sampled_from(
        ["1/2", "3 1/4", "12", "0", "18 mm", "yes", "no", "any", "7 %", "40 lb", "curl", "", "a: b"]
    ),
    st.sampled_from(
        ["9.50 for 10", "20 a litre", "knot 1 to 2 x 1 to 2", "end", "'", '"', "#8", "{", "- x", "½"]
    ),
    st.text(alphabet="ab1/ .,:#'\"{}[]x-%", max_size=12),
)


@settings(max_examples=120, deadline=None, derandomize=True)
@given(st.sampled_from(ROWS), WORDS, st.data())
def test_one_cell(found, words, data):
    text, section, row = found
    column = data.draw(st.sampled_from(columns_of(section)))
    try:
        after = change_row(text, row.path, {column.key: words}, {column.key: row.cells[column.key]})
    except ReadError:
        return
    read_shop_text(after, "shop.yaml")
    others = [each for each in table_of(text, section).rows if each != row]
    assert [each.cells for each in table_of(after, section).rows if each in others] == [
        e.cells for e in others
    ]
    gone, come = _differing(text, after)
    assert len(gone) <= 2
    assert len(come) <= 2
    for other in KINDS:
        if other != section:
            assert table_of(after, other) == table_of(text, other)


def _differing(before: str, after: str) -> tuple[list[str], list[str]]:
    """Lines, with their ends, that only one of the texts has."""
    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    return [line for line in old if line not in new], [line for line in new if line not in old]


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.sampled_from(TEXTS), st.sampled_from(sorted(KINDS)), st.data())
def test_one_more_line(text, section, data):
    cells = dict(EXAMPLES[section])
    column = data.draw(st.sampled_from(columns_of(section)))
    cells[column.key] = data.draw(WORDS)
    try:
        after, path = add_row(text, section, cells)
    except ReadError:
        return
    assert table_of(after, section).row(path) is not None
    assert _differing(text, after)[0] == []
    assert len(table_of(after, section).rows) == len(table_of(text, section).rows) + 1


@settings(max_examples=120, deadline=None, derandomize=True)
@given(
    st.sampled_from(TEXTS),
    st.sampled_from(sorted(KINDS)),
    st.lists(st.lists(WORDS, min_size=1, max_size=6), max_size=4),
    st.sampled_from(["\t", ";", ","]),
)
def test_anything_pasted_is_answered(text, section, grid, mark):
    found = pasted(text, section, "\n".join(mark.join(line) for line in grid))
    for fault in found.faults:
        assert fault.message
        assert fault.row >= 1
    if not found.faults:
        try:
            read_shop_text(paste(text, section, found.rows), "shop.yaml")
        except ReadError:
            return


def test_a_cell_that_changed_is_never_written(shop_text):
    for section in KINDS:
        for row in table_of(shop_text, section).rows[:2]:
            for column in columns_of(section):
                was = {column.key: row.cells[column.key] + "?"}
                with pytest.raises(Conflict):
                    change_row(shop_text, row.path, {column.key: "1"}, was)
