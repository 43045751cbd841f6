"""Build records: what was measured, wished and done on one piece, read from the file kept beside it."""

from __future__ import annotations

from pathlib import Path

from scantling.errors import ReadError
from scantling.piece.language.checking import check_entries
from scantling.piece.language.document import Entry, MappingNode, Node, Scalar, as_name, items_of
from scantling.piece.language.files import text_of
from scantling.piece.language.keys import RECORD
from scantling.piece.language.parse import parse_name
from scantling.piece.language.record_sizes import parse_blank_size, parse_offcut, parse_times
from scantling.piece.language.tree import read_tree, says_units
from scantling.piece.model import (
    Axis,
    BuildRecord,
    CutBlank,
    GrainWish,
    Length,
    Measured,
    Offcut,
    StockRecord,
    StockUse,
)
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
    boards = root.get("boards")
    stock = [_stock(entry, told) for entry in boards] if isinstance(boards, MappingNode) else []
    return BuildRecord(title.text, tuple(measured), tuple(stock))


def _measured(entry: Entry, told: bool) -> Measured:
    node = entry.value
    assert isinstance(node, MappingNode)
    said = {axis: size for axis in Axis if isinstance(size := node.get(axis.word), Scalar)}
    sizes = tuple((axis, _length(scalar)) for axis, scalar in said.items())
    bare = frozenset() if told else frozenset(axis for axis in said if _is_bare(said[axis]))
    spoiled, grain = node.get("spoiled"), node.get("grain")
    return Measured(
        parse_name(entry.key).text,
        sizes,
        "cut" in node,
        entry.key.place,
        bare,
        _stock_named(node.get("from")),
        parse_times(spoiled) if isinstance(spoiled, Scalar) else 0,
        GrainWish(as_name(grain.text)) if isinstance(grain, Scalar) else None,
    )


def _stock_named(node: Node | None) -> tuple[str, ...]:
    items = items_of(node) if node is not None else ()
    return tuple(_spaced(item.text) for item in items if isinstance(item, Scalar))


def _spaced(text: str) -> str:
    return " ".join(text.split())


def _stock(entry: Entry, told: bool) -> StockRecord:
    name, node = _spaced(entry.key.text), entry.value
    if isinstance(node, Scalar):
        return StockRecord(name, StockUse(as_name(node.text)), entry.key.place)
    assert isinstance(node, MappingNode)
    blanks, left = node.get("cut"), node.get("left")
    return StockRecord(
        name,
        StockUse.CUT,
        entry.key.place,
        tuple(_blank(each, told) for each in blanks) if isinstance(blanks, MappingNode) else (),
        tuple(_offcut(each, told) for each in items_of(left) if isinstance(each, Scalar)) if left else (),
    )


def _blank(entry: Entry, told: bool) -> CutBlank:
    assert isinstance(entry.value, Scalar)
    long, wide, thick = (_told(size, told) for size in parse_blank_size(entry.value))
    return CutBlank(parse_name(entry.key).text, long, wide, thick, entry.key.place)


def _offcut(said: Scalar, told: bool) -> Offcut:
    (long, wide), place = parse_offcut(said)
    at = (_told(place[0], told), _told(place[1], told)) if place else None
    return Offcut(_told(long, told), _told(wide, told), at, said.place)


def _told(said: Length, told: bool) -> Length:
    return Length(said.mm, said.bare and not told)


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
