"""One part as rows for a page: the words of the one definition behind it, its joints, fittings and work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scantling.errors import Place, ReadError
from scantling.piece.editing.effects import joint_told
from scantling.piece.editing.finding import kit_around, part_seen, path_of, tree_of
from scantling.piece.editing.naming import Words, steps_to, steps_to_entries, words_of
from scantling.piece.editing.phrased import Phrased, phrases_under
from scantling.piece.editing.writes import Question, Steps
from scantling.piece.language import Document, Node, Scalar, parse_expression
from scantling.piece.language.edits import child_or_none, flattened
from scantling.piece.language.kinds_of_value import FORMULA
from scantling.piece.language.part_keys import PART
from scantling.piece.model import Axis, Hardware, Joint, Part, Piece
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.steps import axis_inside
from scantling.piece.resolve.tree import Seen, Thing
from scantling.piece.resolve.values import Value
from scantling.quantity.kinds import Kind

_COUNTED = ("count", "ring")  # bare numbers here are no lengths


@dataclass(frozen=True, slots=True)
class SpanRow:
    """A span of a part: where it begins and ends in the frame of the piece, and how big it is. [mm]

    `path` is that of the definition in its own file; `words` None where the part fills its space unsaid.
    """

    axis: str
    path: Steps
    words: Words | None
    low: float
    high: float

    @property
    def size(self) -> float:
        return self.high - self.low


@dataclass(frozen=True, slots=True)
class KeyRow:
    """Any other words: `path` leads to them in their own file, `name` tells them (`work 1, size`).

    `value`: what a formula comes to, in the inside unit of `kind` (mm, degrees, ...); None for places, counts
    and all that is no formula.
    """

    path: Steps
    name: str
    words: Words
    value: float | None = None
    kind: Kind | None = None


@dataclass(frozen=True, slots=True)
class LineRow:
    """Entries that name the part: a joint line, a fitting. `path` leads to them in `file`.

    `what` says it in words (`side to top: dovetails`, `hinge: butt hinge 2`), a line for each pair it joins.
    """

    file: str
    path: Steps
    what: tuple[str, ...]
    keys: tuple[KeyRow, ...]


@dataclass(frozen=True, slots=True)
class PartRows:
    """All that is written of one part. `copies`: all parts of its definition, itself first.

    `use`: the key in the piece's file of the kit it is inside of, () where it is in none. `unsaid`: keys of a
    part that it does not say.
    """

    part: str
    path: Steps
    file: str
    use: Steps
    copies: tuple[str, ...]
    material: str
    grain: str
    spans: tuple[SpanRow, ...]
    keys: tuple[KeyRow, ...]
    work: tuple[KeyRow, ...]
    joints: tuple[LineRow, ...]
    hardware: tuple[LineRow, ...]
    unsaid: tuple[str, ...]


def part_rows(question: Question, part: str) -> PartRows:
    """What is written of a part of the piece, by its full name. Raises ReadError if there is none such."""
    worked = tree_of(question)
    seen = part_seen(worked, part)
    piece = question.piece()
    use = kit_around(seen.thing.scope)
    shown = piece.part(part)
    copies = tuple(p.name for p in piece.parts if p.definition == shown.definition and p.name != part)
    rows = list(_key_rows(question.document, seen))
    return PartRows(
        part,
        path_of(seen.thing.family),
        seen.thing.family.key.place.file,
        path_of(use.family) if use else (),
        (part, *copies),
        shown.material.text,
        shown.grain.word,
        tuple(_span_row(question.document, seen, shown, axis) for axis in Axis),
        tuple(row for row in rows if "work" not in row.path[len(path_of(seen.thing.family)) :]),
        tuple(row for row in rows if "work" in row.path[len(path_of(seen.thing.family)) :]),
        _line_rows(question.document, [(j.place, joint_told(j)) for j in piece.joints if _joins(j, part)]),
        _line_rows(question.document, [(h.place, f"{h.name}: {h.kind}") for h in _fittings(piece, part)]),
        tuple(key.name for key in PART.keys if key.name not in seen.thing.family.node),
    )


def _span_row(document: Document, seen: Seen, part: Part, axis: Axis) -> SpanRow:
    """The span along one axis as it is written, with the place of this copy along the axis it then has."""
    node = seen.thing.family.node.get(axis.word)
    words = words_of(document, node) if isinstance(node, Scalar) else None
    outer = _outer_axis(seen, axis)
    path = (*path_of(seen.thing.family), axis.word)
    return SpanRow(axis.word, path, words, part.box.low[outer], part.box.high[outer])


def _outer_axis(seen: Seen, axis: Axis) -> Axis:
    return next(outer for outer in Axis if axis_inside(seen.steps, outer)[0] is axis)


def _key_rows(document: Document, seen: Seen) -> Iterator[KeyRow]:
    """The words of every key but the three spans."""
    thing = seen.thing
    base = path_of(thing.family)
    formulas = {p.path: p for p in phrases_under(thing.family.node, PART, base) if p.kind == FORMULA.name}
    for entry in thing.family.node:
        if entry.name in (axis.word for axis in Axis):
            continue
        for row in _scalar_rows(document, entry.value, (*base, entry.name), (entry.name,)):
            value = _value(thing, formulas.get(row.path))
            yield replace(row, value=value.number, kind=value.kind) if value else row


def _value(thing: Thing, formula: Phrased | None) -> Value | None:
    """What a formula of a part comes to, where that is a size."""
    if formula is None or formula.path[-1] in _COUNTED:
        return None
    asker = Asker(thing.scope, formula.scalar, thing, own="copies" not in formula.path)
    try:
        value = asker.value(parse_expression(formula.scalar)).as_kind(Kind.LENGTH)
    except ReadError:
        return None
    return None if value.is_place or value.power != 1 else value


def _scalar_rows(document: Document, node: Node, path: Steps, name: Steps) -> Iterator[KeyRow]:
    for found in flattened(node):
        if not found.steps or found.steps[-1] > 0:
            steps = (*path, *found.names)
            yield KeyRow(steps, _name((*name, *found.names)), words_of(document, found.scalar))


def _name(names: Steps) -> str:
    """`work 1, size`: numbers stand with the word before them."""
    told = names[0] if names else ""
    for name in names[1:]:
        told += f" {name}" if name.isdigit() else f", {name}"
    return told


def _joins(joint: Joint, part: str) -> bool:
    return part in (joint.first, joint.second)


def _fittings(piece: Piece, part: str) -> Iterator[Hardware]:
    for fitting in piece.hardware:
        if part in (*(fitting.joins or ()), fitting.to, fitting.under):
            yield fitting


def _line_rows(document: Document, said: list[tuple[Place, str]]) -> tuple[LineRow, ...]:
    """One row a line, with all that it says of this part."""
    by_place: dict[Place, list[str]] = {}
    for place, what in said:
        by_place.setdefault(place, []).append(what)
    return tuple(_line_row(document, place, tuple(what)) for place, what in by_place.items())


def _line_row(document: Document, place: Place, what: tuple[str, ...]) -> LineRow:
    file = document.files[place.file]
    path = _line_path(file, place)
    node = child_or_none(file.own, path)
    assert node is not None
    return LineRow(file.file, path, what, tuple(_scalar_rows(document, node, path, ()) if path else ()))


def _line_path(file: Document, place: Place) -> Steps:
    """The entries that begin at a place, or those that the key there names."""
    try:
        return steps_to(file, place)
    except ReadError:
        return steps_to_entries(file, place)
