"""How a maker writes a piece: files to trees with places, phrases to trees of their own, single edits.

Knows words, punctuation and files; knows no values of names, no shapes and no wood.
Gives documents (`read_piece`), phrases (`parse_*` on scalars; their trees are in `phrases`) and edits.
"""

from scantling.piece.language.document import (
    Document,
    Entry,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    as_mapping,
    as_scalar,
    as_sequence,
    items_of,
)
from scantling.piece.language.edits import add_entry, add_item, changed_elsewhere, replace_scalar
from scantling.piece.language.files import (
    house_kit,
    house_kit_names,
    read_piece,
    read_piece_text,
    reread,
)
from scantling.piece.language.parse import (
    parse_by,
    parse_coats,
    parse_condition,
    parse_counts,
    parse_edge,
    parse_expression,
    parse_face,
    parse_fitting,
    parse_glue,
    parse_limit,
    parse_material,
    parse_move,
    parse_name,
    parse_options,
    parse_size,
    parse_span,
    parse_target,
    parse_turn,
)
from scantling.piece.language.records import read_record, read_record_text
from scantling.piece.language.removals import remove_entry
from scantling.piece.language.tree import read_tree

__all__ = [
    "Document",
    "Entry",
    "MappingNode",
    "Node",
    "Scalar",
    "SequenceNode",
    "add_entry",
    "add_item",
    "as_mapping",
    "as_scalar",
    "as_sequence",
    "changed_elsewhere",
    "house_kit",
    "house_kit_names",
    "items_of",
    "parse_by",
    "parse_coats",
    "parse_condition",
    "parse_counts",
    "parse_edge",
    "parse_expression",
    "parse_face",
    "parse_fitting",
    "parse_glue",
    "parse_limit",
    "parse_material",
    "parse_move",
    "parse_name",
    "parse_options",
    "parse_size",
    "parse_span",
    "parse_target",
    "parse_turn",
    "read_piece",
    "read_piece_text",
    "read_record",
    "read_record_text",
    "read_tree",
    "remove_entry",
    "replace_scalar",
    "reread",
]
