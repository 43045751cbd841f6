"""Build records: what was measured on one piece, read from the file kept beside it."""

from __future__ import annotations

from pathlib import Path

from scantling.errors import ReadError
from scantling.piece.language.checking import check_entries
from scantling.piece.language.document import Entry, MappingNode, Scalar
from scantling.piece.language.files import text_of
from scantling.piece.language.keys import RECORD
from scantling.piece.language.parse import parse_name
from scantling.piece.language.tree import read_tree
from scantling.piece.model import Axis, BuildRecord, Measured
from scantling.quantity import LengthUnit, QuantityError, parse_length


def read_record(path: Path | str, unit: LengthUnit = LengthUnit.INCHES) -> BuildRecord:
    """A build record from its file; bare numbers are in `unit` (the piece's) unless the record says `units`.

    Raises ReadError.
    """
    path = Path(path)
    return read_record_text(text_of(path, None), path.name, unit)


def read_record_text(text: str, name: str, unit: LengthUnit = LengthUnit.INCHES) -> BuildRecord:
    """A build record from text; `name` stands for its file in places. Raises ReadError."""
    root = read_tree(text, name, unit)
    check_entries(root, RECORD, "the record")
    title = root.get("build")
    if not isinstance(title, Scalar):
        raise ReadError("the record does not say what was built", root.place, "begin with `build: its name`")
    measured = [_measured(entry) for entry in root.entries if entry.name not in RECORD.by_name]
    return BuildRecord(title.text, tuple(measured))


def _measured(entry: Entry) -> Measured:
    assert isinstance(entry.value, MappingNode)
    sizes = [(axis, _length(said)) for axis in Axis if isinstance(said := entry.value.get(axis.word), Scalar)]
    return Measured(parse_name(entry.key).text, tuple(sizes), "cut" in entry.value, entry.key.place)


def _length(said: Scalar) -> float:
    try:
        length = parse_length(said.text, said.unit)
    except QuantityError as error:
        raise ReadError(error.message, said.place_at(error.at), error.remedy) from None
    if length <= 0:
        raise ReadError("a measured size is more than nothing", said.place)
    return length
