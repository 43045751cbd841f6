"""What the desk writes into a maker's shop file: pure functions from text to text.

Every edit is read back before it is given: the new text is a shop, says the same everywhere else, and all
other characters stay as they were. Raises ReadError for words that will not do, Conflict for words that
are no longer what the page showed.
"""

from scantling.shop.editing.columns import Column, Sort, column_named, columns_of
from scantling.shop.editing.defects import (
    add_defect,
    board_of,
    board_path,
    change_defect,
    defect_lines,
    defect_reaches,
    remove_defect,
)
from scantling.shop.editing.heads import air_of, head_of, set_air, set_head
from scantling.shop.editing.measures import defect_words, length_words
from scantling.shop.editing.naming import headings_of, next_name
from scantling.shop.editing.pasting import Fault, Pasted, as_cells, paste, pasted
from scantling.shop.editing.starting import new_shop_text
from scantling.shop.editing.tables import Row, Table, add_row, change_row, remove_row, set_cell, table_of
from scantling.shop.editing.trying import faults_of

__all__ = [
    "Column",
    "Fault",
    "Pasted",
    "Row",
    "Sort",
    "Table",
    "add_defect",
    "add_row",
    "air_of",
    "as_cells",
    "board_of",
    "board_path",
    "change_defect",
    "change_row",
    "column_named",
    "columns_of",
    "defect_lines",
    "defect_reaches",
    "defect_words",
    "faults_of",
    "head_of",
    "headings_of",
    "length_words",
    "new_shop_text",
    "next_name",
    "paste",
    "pasted",
    "remove_defect",
    "remove_row",
    "set_air",
    "set_cell",
    "set_head",
    "table_of",
]
