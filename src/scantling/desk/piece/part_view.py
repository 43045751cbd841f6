"""In the worker: one part as the page shows it, and what can be added to the piece."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from scantling.desk.piece.acts import Steps, question_of
from scantling.desk.piece.naming_view import words_now
from scantling.desk.working.plans import plan_of

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.packet.shown import Sizes
    from scantling.piece.editing.adding import Said
    from scantling.piece.editing.dependents import Dependent
    from scantling.piece.editing.naming import Words
    from scantling.piece.editing.offering import Offers
    from scantling.piece.editing.part_rows import KeyRow, LineRow, SpanRow


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words with the field they can be changed in. `path`: JSON, in `file`; `echo`: what they come to.

    `words` empty: nothing is said there yet; `fixed`: they cannot be changed from here.
    """

    name: str
    file: str
    path: str
    words: str
    echo: str = ""
    fixed: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A joint line or a fitting that names the part; `path` "" where it cannot be taken out from here."""

    what: str
    path: str
    phrases: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True)
class PartView:
    """One part. `copies`: all of its definition; `kit`: path of the kit it is inside of, as JSON, or ""."""

    name: str
    mark: str
    definition: str
    path: str
    removable: bool
    copies: tuple[str, ...]
    material: str
    facts: tuple[tuple[str, str], ...]
    spans: tuple[Phrase, ...]
    keys: tuple[Phrase, ...]
    work: tuple[Phrase, ...]
    joints: tuple[Line, ...]
    hardware: tuple[Line, ...]
    follows: tuple[tuple[str, str], ...]
    kit: str = ""
    kit_name: str = ""


def part_view(asked: Asked, part: str) -> PartView:
    """A part by its full name. Raises ReadError if there is none such."""
    from scantling.packet.context import context_of
    from scantling.packet.part_words import grain_words
    from scantling.piece.editing.part_rows import part_rows

    plan, question = plan_of(asked), question_of(asked)
    rows, context = part_rows(question, part), context_of(plan)
    shown = plan.piece.part(part)
    own = asked.file
    return PartView(
        name=part,
        mark=context.items.marks.get(part, ""),
        definition=shown.definition,
        path=json.dumps(rows.path),
        removable=rows.file == own and not rows.use,
        copies=rows.copies,
        material=rows.material,
        facts=(("Grain", grain_words(shown)), ("Material", rows.material)),
        spans=tuple(_span(row, rows.file, own, context.sizes) for row in rows.spans),
        keys=_phrases(rows.keys, own),
        work=_phrases(rows.work, own),
        joints=_lines(rows.joints, own),
        hardware=_lines(rows.hardware, own),
        follows=_follows(asked, rows.use or rows.path),
        kit=json.dumps(rows.use) if rows.use else "",
        kit_name=rows.use[-1] if rows.use else "",
    )


def reworded(part: PartView, asked: Asked) -> PartView:
    """The same part with the words that stand in the file now, for a piece that cannot be worked out."""
    now = words_now(asked)

    def said(phrases: Iterable[Phrase]) -> tuple[Phrase, ...]:
        return tuple(
            replace(p, words=now(p.path, p.words)) if p.words and p.file == asked.file else p for p in phrases
        )

    return replace(part, spans=said(part.spans), keys=said(part.keys), work=said(part.work))


def offers_of(asked: Asked) -> Offers:
    """What can be added to the piece. Raises ReadError where it cannot be worked out."""
    from scantling.piece.editing.offering import offers

    return offers(question_of(asked))


def suggested(asked: Asked, what: str, kind: str, on: str) -> tuple[tuple[str, str], ...]:
    """First words for something that is added, that work at once. Raises ReadError."""
    from scantling.piece.editing import offering

    question = question_of(asked)
    said: Said
    match what:
        case "part":
            said = offering.suggest_part(question, on)
        case "kit":
            said = offering.suggest_kit(question, kind, on)
        case "joint":
            said = {"with": offering.suggest_method(question)}
        case "work":
            said = offering.suggest_work(question, kind)
        case "hold":
            said = offering.suggest_hold(question, on)
        case "load":
            said = offering.suggest_load(question, kind, on)
        case _:
            said = {}
    return tuple((key, words if isinstance(words, str) else ", ".join(words)) for key, words in said.items())


def _span(row: SpanRow, file: str, own: str, sizes: Sizes) -> Phrase:
    echo = f"{sizes.both(row.size)}: from {sizes.plain(row.low)} to {sizes.plain(row.high)}"
    if row.words is None:
        return Phrase(row.axis, file, json.dumps(row.path), "", echo, fixed=file != own)
    return _phrase(row.axis, row.words, own, echo)


def _phrase(name: str, words: Words, own: str, echo: str = "") -> Phrase:
    fixed = not words.editable
    return Phrase(
        name, words.file, json.dumps(words.steps), words.text, echo or _elsewhere(words, own), fixed
    )


def _elsewhere(words: Words, own: str) -> str:
    return "" if words.file == own else f"in {words.file}"


def _phrases(rows: Iterable[KeyRow], own: str) -> tuple[Phrase, ...]:
    return tuple(_phrase(row.name, row.words, own) for row in rows)


def _lines(rows: Iterable[LineRow], own: str) -> tuple[Line, ...]:
    return tuple(
        Line("; ".join(row.what), json.dumps(row.path) if row.file == own else "", _phrases(row.keys, own))
        for row in rows
    )


def _follows(asked: Asked, path: Steps) -> tuple[tuple[str, str], ...]:
    """What is measured from this, as (what, its words), nearest first."""
    from scantling.piece.editing.dependents import dependents
    from scantling.piece.editing.naming import told

    def line(found: Dependent) -> tuple[str, str]:
        return told(found.path), found.words.text if found.words else ""

    return tuple(line(found) for found in dependents(question_of(asked), path))
