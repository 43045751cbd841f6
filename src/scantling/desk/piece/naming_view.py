"""Named sizes, choices and materials as the page offers them, and their words as they stand by now."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from scantling.errors import ReadError
from scantling.quantity.kinds import Kind, LengthUnit

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.packet.shown import Sizes
    from scantling.piece.editing.rows import ChoiceRow, MaterialRow, SizeRow
    from scantling.plan import Plan

INCH_STEP = 25.4 / 16
_STEPS = {Kind.ANGLE: 1.0, Kind.COUNT: 1.0, Kind.RATIO: 0.05}


@dataclass(frozen=True, slots=True)
class SizeShown:
    """A named size. `lead`: the words before its range, `rest` the range as written; `path` as JSON.

    `file`: where it stands, if not in the piece's own file. `steps`: whether it can be stepped by buttons.
    """

    name: str
    path: str
    words: str
    lead: str
    rest: str
    value: str
    file: str = ""
    wish: str = ""
    why: str = ""
    steps: bool = False
    editable: bool = True


@dataclass(frozen=True, slots=True)
class ChoiceShown:
    """A choice or a material with what it offers; `taken` as worked out, `why` where the tool chose."""

    name: str
    path: str
    words: str
    taken: str
    options: tuple[str, ...]
    file: str = ""
    free: bool = False
    why: str = ""
    note: str = ""
    editable: bool = True


@dataclass(frozen=True, slots=True)
class Named:
    sizes: tuple[SizeShown, ...] = ()
    choices: tuple[ChoiceShown, ...] = ()
    materials: tuple[ChoiceShown, ...] = ()


def named_of(plan: Plan, sizes: Sizes) -> Named:
    """All that has a name and can be changed."""
    from scantling.piece.editing.rows import choice_rows, material_rows, size_rows

    settled = {found.name: found.text for found in plan.settled}
    why = {found.name: found.why for found in plan.settled}
    document, piece = plan.document, plan.piece
    return Named(
        tuple(_size(r, document.file, why, sizes) for r in size_rows(document, piece, settled)),
        tuple(_choice(r, document.file, why, "") for r in choice_rows(document, piece, settled)),
        tuple(
            _choice(r, document.file, why, _measured(r, sizes))
            for r in material_rows(document, piece, settled)
        ),
    )


def refreshed(named: Named, asked: Asked) -> Named:
    """The same rows with the words that stand in the file now, for a file that cannot be planned."""
    now = words_now(asked)

    def sized(row: SizeShown) -> SizeShown:
        words = now(row.path, row.words)
        return replace(row, words=words, lead=lead_of(words), rest=range_of(words))

    def chosen(rows: Iterable[ChoiceShown]) -> tuple[ChoiceShown, ...]:
        return tuple(replace(row, words=now(row.path, row.words)) for row in rows)

    return Named(tuple(map(sized, named.sizes)), chosen(named.choices), chosen(named.materials))


def words_now(asked: Asked) -> Callable[[str, str], str]:
    """Finds the words that stand at a path (JSON) of the piece's file now; where none do, those given."""
    from scantling.desk.working.plans import document_of
    from scantling.piece.editing.naming import words_at

    try:
        document = document_of(asked)
    except ReadError:
        return lambda _, words: words

    def now(path: str, words: str) -> str:
        try:
            return words_at(document, tuple(json.loads(path))).text
        except ReadError:
            return words

    return now


def lead_of(words: str) -> str:
    """What stands before a range: `38 within 34 to 42` -> `38`."""
    return words.partition(" within ")[0]


def range_of(words: str) -> str:
    """The range with the word that begins it, or nothing: ` within 34 to 42`."""
    _, begun, rest = words.partition(" within ")
    return f"{begun}{rest}"


def usual_step(kind: Kind, unit: LengthUnit) -> float:
    """By what a size without steps of its own is stepped: 1/16 in or 1 mm, a degree, a piece."""
    return _STEPS.get(kind, INCH_STEP if unit is LengthUnit.INCHES else 1.0)


def _size(row: SizeRow, own: str, why: dict[str, str], sizes: Sizes) -> SizeShown:
    from scantling.packet.front import value_words
    from scantling.packet.shown import bound

    words = row.words.text
    return SizeShown(
        name=row.name,
        path=json.dumps(row.path),
        words=words,
        lead=lead_of(words),
        rest=range_of(words),
        value=bound(value_words(row.value, row.kind, sizes)),
        file="" if row.words.file == own else row.words.file,
        wish=row.wish,
        why=why.get(row.name, ""),
        steps=not row.wish and _is_number(lead_of(words)) and row.words.editable,
        editable=row.words.editable,
    )


def _is_number(words: str) -> bool:
    from scantling.quantity import QuantityError, parse_length

    try:
        parse_length(words, LengthUnit.MM)
    except QuantityError:
        return (
            words.replace("deg", "").replace("pcs", "").replace("%", "").strip().replace(".", "", 1).isdigit()
        )
    return True


def _choice(row: ChoiceRow | MaterialRow, own: str, why: dict[str, str], note: str) -> ChoiceShown:
    return ChoiceShown(
        name=row.name,
        path=json.dumps(row.path),
        words=row.words.text,
        taken=row.taken,
        options=row.options,
        file="" if row.words.file == own else row.words.file,
        free=row.free,
        why=why.get(row.name, ""),
        note=note,
        editable=row.words.editable,
    )


def _measured(row: MaterialRow, sizes: Sizes) -> str:
    if row.thick is None:
        return ""
    how = "measured in your shop" if row.measured else "the usual size, not measured"
    return f"{sizes.both(row.thick)} thick, {how}"
