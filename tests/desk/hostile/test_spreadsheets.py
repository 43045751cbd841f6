"""Words that a spreadsheet would work out: made harmless on their way out, and back as they were."""

from __future__ import annotations

import pytest

from scantling.shop.editing import as_cells, paste, pasted, table_of

FORMULAS = ("=1+1", "+cmd", "-cmd", "@sum", "=HYPERLINK(x)")


@pytest.mark.parametrize("words", FORMULAS)
def test_no_cell_that_is_copied_is_a_formula(words: str) -> None:
    shop = f'shop: A shed\nunits: inches\nhardware:\n  "{words}": price 4\n'
    copied = as_cells(table_of(shop, "hardware"))
    assert not [
        cell for line in copied.splitlines() for cell in line.split("\t") if cell[:1] in "=+-@" and cell
    ]
    assert f"'{words}" in copied
    found = pasted(shop, "hardware", copied)
    assert (found.faults, len(found.rows)) == ((), 1)
    assert paste(shop, "hardware", found.rows) == shop
