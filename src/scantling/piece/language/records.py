"""Build records: what was measured on one piece, read from the file kept beside it."""

from __future__ import annotations

from pathlib import Path

from scantling.errors import ReadError
from scantling.piece.language.checking import check_entries
from scantling.piece.language.document import Entry, MappingNode, Scalar
from scantling.piece.language.files import text_of
from scantling.piece.language.keys import RECORD
from scantling.piece.language.parse import parse_name
from scantling.piece.language.tree import read_tree, says_units
from scantling.piece.model import Axis, BuildRecord, Measured
from scantling.quantity import LengthUnit, QuantityError, parse_length


def read_record(path: Path | str, unit: LengthUnit | None = None) -> BuildRecord:
    """A build record from its file. Raises ReadError.

    Bare numbers are in the unit the record says, else in `unit`; where neither is told, `resolve` takes them
    in the unit of the piece.
    """
    path = Path(path)
    return read_record_text(text_of(path, None), path.name, unit)


def read_record_text(text: str, name: str, unit: LengthUnit | None = None) -> BuildRecord:
    """A build record from text; `name` stands for its file in places. Raises ReadError."""
    root = read_tree(text, name, unit or LengthUnit.INCHES)
    check_entries(root, RECORD, "the record")
    title = root.get("build")
    if not isinstance(title, Scalar):
        raise ReadError("the record does not say what was built", root.place, "begin with `build: its name`")
    told = unit is not None or says_units(root)
    measured = [_measured(entry, told) for entry in root.entries if entry.name not in RECORD.by_name]
    return BuildRecord(title.text, tuple(measured))


def _measured(entry: Entry, told: bool) -> Measured:
    assert isinstance(entry.value, MappingNode)
    said = {axis: node for axis in Axis if isinstance(node := entry.value.get(axis.word), Scalar)}
    sizes = tuple((axis, _length(scalar)) for axis, scalar in said.items())
    bare = frozenset() if told else frozenset(axis for axis in said if _is_bare(said[axis]))
    return Measured(parse_name(entry.key).text, sizes, "cut" in entry.value, entry.key.place, bare)


def _is_bare(said: Scalar) -> bool:
    """Whether the number says no unit of its own."""
    return parse_length(said.text, LengthUnit.MM) != parse_length(said.text, LengthUnit.INCHES)


def _length(said: Scalar) -> float:
    try:
        length = parse_length(said.text, said.unit)
    except QuantityError as error:
        raise ReadError(error.message, said.place_at(error.at), error.remedy) from None
    if length <= 0:
        raise ReadError("a measured size is more than nothing", said.place)
    return length
