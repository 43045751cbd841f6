"""Named sizes, choices and materials of a piece as rows for a page: plain data, one row a name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from scantling.piece.editing.naming import Words, words_of
from scantling.piece.editing.writes import Steps
from scantling.piece.language import Document, Scalar, parse_material, parse_options
from scantling.piece.language.edits import child_or_none
from scantling.piece.model import Material, NamedChoice, NamedSize, Piece
from scantling.quantity.kinds import Kind


@dataclass(frozen=True, slots=True)
class SizeRow:
    """A named size, overall sizes included. `path` as in the whole piece, `words` as written and where.

    `value`, `low`, `high` and `step` are in the inside unit of `kind` (mm, degrees, ...); the last three are
    None where the size has no range, or no step. `wish`: "least", "most", "free" or "". `settled`: the words
    the tool found for it, or "".
    """

    path: Steps
    name: str
    words: Words
    value: float
    kind: Kind
    low: float | None = None
    high: float | None = None
    step: float | None = None
    wish: str = ""
    settled: str = ""


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """A choice, with all it offers as written and the one taken. `free`: the tool may take the best."""

    path: Steps
    name: str
    words: Words
    taken: str
    options: tuple[str, ...]
    free: bool
    settled: str = ""


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """A material with its alternatives as written; `thick`, `broad` real sizes in mm where it has them."""

    path: Steps
    name: str
    words: Words
    taken: str
    options: tuple[str, ...]
    free: bool
    thick: float | None
    broad: float | None
    measured: bool
    settled: str = ""


def size_rows(document: Document, piece: Piece, settings: Mapping[str, str]) -> tuple[SizeRow, ...]:
    """The overall sizes, then the named ones in the order of writing."""
    return tuple(
        _size_row(document, size, path, scalar, settings.get(size.name, ""))
        for size in piece.sizes
        for path, scalar in _written(document, size_path(size.name))
    )


def choice_rows(document: Document, piece: Piece, settings: Mapping[str, str]) -> tuple[ChoiceRow, ...]:
    """The choices in the order of writing."""
    return tuple(
        _choice_row(document, choice, path, scalar, settings.get(choice.name, ""))
        for choice in piece.choices
        for path, scalar in _written(document, ("choices", choice.name))
    )


def material_rows(document: Document, piece: Piece, settings: Mapping[str, str]) -> tuple[MaterialRow, ...]:
    """The named materials in the order of writing; wood said in a part itself has no row."""
    return tuple(
        _material_row(document, material, path, scalar, settings.get(material.name, ""))
        for material in piece.materials
        for path, scalar in _written(document, ("materials", material.name))
    )


def size_path(name: str) -> Steps:
    """Where a size of the piece stands: `overall wide` under `overall`, all others under `sizes`."""
    first, _, axis = name.partition(" ")
    return ("overall", axis) if first == "overall" and axis in ("wide", "deep", "high") else ("sizes", name)


def option_words(path: Steps, scalar: Scalar) -> tuple[str, ...]:
    """The alternatives of a choice or a material, each as it is written."""
    tree = parse_options(scalar) if path[0] == "choices" else parse_material(scalar)
    return tuple(scalar.text[o.offset : o.offset + o.length].strip() for o in tree.options)


def _written(document: Document, path: Steps) -> Iterator[tuple[Steps, Scalar]]:
    scalar = child_or_none(document.root, path)
    if isinstance(scalar, Scalar):
        yield path, scalar


def _size_row(document: Document, size: NamedSize, path: Steps, scalar: Scalar, settled: str) -> SizeRow:
    span = size.range
    low, high, step = (span.low, span.high, span.step) if span else (None, None, None)
    wish = (span.wish or "") if span else ""
    words = words_of(document, scalar)
    return SizeRow(path, size.name, words, size.value, size.kind, low, high, step, wish, settled)


def _choice_row(
    document: Document, choice: NamedChoice, path: Steps, scalar: Scalar, settled: str
) -> ChoiceRow:
    options = option_words(path, scalar)
    words = words_of(document, scalar)
    return ChoiceRow(path, choice.name, words, choice.taken, options, choice.free, settled)


def _material_row(
    document: Document, material: Material, path: Steps, scalar: Scalar, settled: str
) -> MaterialRow:
    return MaterialRow(
        path,
        material.name,
        words_of(document, scalar),
        material.text,
        option_words(path, scalar),
        material.free,
        material.thick,
        material.broad,
        material.measured,
        settled,
    )
